import { describe, expect, it } from 'vitest';
import { closeUnder, strikesUpTo, weightUpTo } from '../../source/techniques/fact-search.ts';
import { diagonal, jagged, positionOf, six, small } from '../exact/grids.ts';
import { hasPublished, publishedNote, readPublishedSet } from '../published.ts';
import { Random } from '../random.ts';
import { boardOf, close, isSolved, singlesAndLocked } from '../techniques/closure.ts';
import { expectSameAsSlow, noTotals } from '../techniques/fact-search-laws.ts';
import { positionAround, randomSolution, solutionOf, stuckPosition } from '../techniques/random-positions.ts';
import { slowFactSearch } from '../techniques/slow-fact-search.ts';
import { movePosition, randomSymmetry } from '../techniques/symmetry.ts';
import { unmetFactSearch } from '../techniques/unmet-fact-search.ts';

const deep = Number(process.env.INKLING_DEEP ?? 1);
const seed = Number(process.env.INKLING_SEED ?? 20_260_102);
console.log(`deep/weights.test.ts: seed ${seed}, INKLING_DEEP ${deep}`);

/** So many hundred positions, fewer where INKLING_DEEP is below 1. */
const hundreds = (count: number): number => Math.ceil(count * 100 * Math.min(1, deep));

/** How many grids have each weight up to 4; 5 stands for more. */
function distribution(lines: readonly string[]): number[] {
  const counts = [0, 0, 0, 0, 0, 0];
  for (const line of lines) counts[weightUpTo(positionOf(line), 4)?.atLeast ?? 0] += 1;
  return counts;
}

describe.skipIf(!hasPublished)(`weights of the published sets${publishedNote}`, () => {
  const read = (name: string): string[] => (hasPublished ? readPublishedSet(name) : []);

  it('all 49,151 seventeen-clue grids: the table of published/README.md', () => {
    expect(distribution(read('seventeen-clue-49151.txt'))).toEqual([0, 37_373, 7_720, 3_221, 751, 86]);
  });

  it('weight 1 is singles and locked candidates, grid by grid', () => {
    const differ = read('seventeen-clue-49151.txt').filter(
      (line) =>
        (weightUpTo(positionOf(line), 1)?.atMost === 1) !== isSolved(close(boardOf(line), singlesAndLocked)),
    );
    expect(differ).toEqual([]);
  });

  it('every grid of the hard set weighs more than 4 (published/README.md)', () => {
    expect(distribution(read('hard-187.txt'))).toEqual([0, 0, 0, 0, 0, 187]);
  });

  // Own computation, no source; 10 of weight 1 are the closure of published/README.md.
  it('top-95 and the random minimal grids', () => {
    expect(distribution(read('top-95.txt'))).toEqual([0, 10, 23, 24, 11, 27]);
    expect(distribution(read('random-minimal-2000.txt'))).toEqual([0, 1057, 270, 323, 276, 74]);
  });

  const mixed = (count: number, random: Random): string[] =>
    random
      .shuffle([
        ...random.shuffle(read('random-minimal-2000.txt')).slice(0, count / 2),
        ...random.shuffle(read('seventeen-clue-49151.txt')).slice(0, count / 4),
        ...read('top-95.txt'),
      ])
      .slice(0, Math.round(count * deep));

  it('5 random symmetries of 200 grids and 100 of 10 leave the weight as it is', () => {
    const random = new Random(seed);
    mixed(200, random).forEach((line, i) => {
      const position = positionOf(line);
      const weight = weightUpTo(position, 4);
      for (let turn = 0; turn < (i < 10 ? 100 : 5); turn += 1) {
        expect(weightUpTo(movePosition(randomSymmetry(random), position), 4), line).toEqual(weight);
      }
    });
  });

  it('a true given never raises the weight', () => {
    const random = new Random(seed + 1);
    for (const line of mixed(300, random)) {
      const position = positionOf(line);
      const solution = solutionOf(position);
      let last = weightUpTo(position, 4)?.atLeast ?? 0;
      let more = position;
      for (let step = 0; step < 3; step += 1) {
        const cell = random.pick([...more.placed.keys()].filter((c) => more.placed[c] === 0));
        more = more.place(cell, solution[cell]);
        const weight = weightUpTo(more, 4)?.atLeast ?? Number.POSITIVE_INFINITY;
        expect(weight, line).toBeLessThanOrEqual(last);
        last = weight;
      }
    }
  });

  it('four random orders of strikes reach the same', () => {
    const random = new Random(seed + 2);
    for (const line of mixed(20, random)) {
      const expected = boardOf(line);
      closeUnder(expected, 3);
      for (let order = 0; order < 4; order += 1) {
        const board = boardOf(line);
        for (;;) {
          const search = strikesUpTo(board, 3);
          if (search.kind === 'broken') throw new Error(`${line} is broken`);
          if (search.strikes.length === 0) break;
          for (const { candidate } of random.shuffle(search.strikes).slice(0, 8)) board.strike(candidate);
        }
        expect(board.live, line).toEqual(expected.live);
      }
    }
  });

  // All sets of facts up to two; beyond, the quicker judge, which tests/techniques/fact-search.test.ts and the
  // random positions below hold against all sets.
  it.each([
    [1, 81, slowFactSearch],
    [2, 81, slowFactSearch],
    [3, 42, unmetFactSearch],
    [4, 40, unmetFactSearch],
  ] as const)(
    `300 positions of hard grids closed under one fact less (times INKLING_DEEP up to 1: ${hundreds(3)}), %i facts: every strike as the slow judge has it`,
    (k, open, slowly) => {
      const random = new Random(seed + 2 + k);
      const grids = [...read('hard-187.txt'), ...read('top-95.txt')];
      const totals = noTotals();
      for (let met = 0, tries = 0; met < hundreds(3); tries += 1) {
        expect(tries).toBeLessThan(300_000);
        const position = stuckPosition(positionOf(random.pick(grids)), random, { k: k - 1, open, extra: 14 });
        if (position === null) continue;
        met += 1;
        expectSameAsSlow(position, k, totals, slowly);
      }
      console.log(
        `closed under ${k - 1}, ${hundreds(3)} positions, seed ${seed + 2 + k}: strikes by facts ${totals.strikes}, slow ${totals.slow}`,
      );
      expect(totals.strikes).toEqual(totals.slow);
      expect(totals.strikes[k]).toBeGreaterThan(hundreds(3) / 2);
    },
  );
});

describe(`random positions, ${hundreds(3)} for each k and layout: the same strikes as all sets of facts`, () => {
  it.each([
    ['plain', 1, slowFactSearch],
    ['plain', 2, slowFactSearch],
    ['plain', 3, slowFactSearch],
    ['plain', 4, unmetFactSearch],
    ['4x4', 4, unmetFactSearch],
    ['6x6', 4, slowFactSearch],
    ['jagged', 3, unmetFactSearch],
    ['diagonal', 3, unmetFactSearch],
  ] as const)('%s, %i facts', (name, k, slowly) => {
    const layout = { plain: positionOf('.'.repeat(81)).layout, '4x4': small, '6x6': six, jagged, diagonal }[
      name
    ];
    const random = new Random(seed + k);
    const totals = noTotals();
    const most = { 1: 81, 2: 70, 3: 40, 4: layout.size === 6 ? 20 : 34 }[k];
    for (let i = 0; i < hundreds(3); i += 1) {
      const position = positionAround(layout, randomSolution(layout, random), random, {
        open: Math.ceil(Math.min(most, layout.cellCount) * (0.5 + 0.5 * random.unit())),
        struck: 0.7 * random.unit(),
        wrong: random.below(5) === 0 ? 0.05 : 0,
      });
      expectSameAsSlow(position, k, totals, slowly);
    }
    console.log(
      `${name}, ${k} facts, ${hundreds(3)} positions, seed ${seed + k}: strikes by facts ${totals.strikes}, slow ${totals.slow}, broken ${totals.broken}`,
    );
    expect(totals.strikes).toEqual(totals.slow);
    expect(totals.broken).toBeGreaterThan(0);
    expect(totals.strikes[Math.min(k, 2)]).toBeGreaterThan(0);
  });
});
