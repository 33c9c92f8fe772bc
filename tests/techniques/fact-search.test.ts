import { describe, expect, it } from 'vitest';
import type { Layout } from '../../source/grid/layout.ts';
import { plain } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';
import { Board } from '../../source/techniques/board.ts';
import {
  closeUnder,
  lightestStrike,
  lightestStrikes,
  SearchBudget,
  strikesByFacts,
  strikesUpTo,
  weightUpTo,
} from '../../source/techniques/fact-search.ts';
import { diagonal, jagged, positionOf, six, sixteen, small } from '../exact/grids.ts';
import { hasPublished, publishedNote, readPublishedSet } from '../published.ts';
import { Random } from '../random.ts';
import { boardOf, close, isSolved, singlesAndLocked } from './closure.ts';
import { expectSameAsSlow, noTotals, type Totals } from './fact-search-laws.ts';
import { positionAround, randomSolution, solutionOf, stuckPosition } from './random-positions.ts';
import { slowFactSearch } from './slow-fact-search.ts';
import { movePosition, randomSymmetry } from './symmetry.ts';
import { unmetFactSearch } from './unmet-fact-search.ts';

const seed = 20_260_101;
console.log(`fact-search.test.ts: seed ${seed}`);

/** The first grids of top-95 and of the hard set (Norvig's essay repository). */
const topGrid = '4.....8.5.3..........7......2.....6.....8.4......1.......6.3.7.5..2.....1.4......';
const hardGrid = '........2..8.1.9..5....3.4....1.93...6..3..8...37......4......53.1.7.8..2........';

describe('the same strikes as all sets of facts, tried one by one', () => {
  const compare = (layout: Layout, k: number, count: number, open: number): Totals => {
    const random = new Random(seed + k);
    const totals = noTotals();
    for (let i = 0; i < count; i += 1) {
      const position = positionAround(layout, randomSolution(layout, random), random, {
        open: Math.ceil(open * (0.6 + 0.4 * random.unit())),
        struck: 0.7 * random.unit(),
        wrong: random.below(4) === 0 ? 0.08 : 0,
      });
      expectSameAsSlow(position, k, totals);
    }
    return totals;
  };

  it.each([
    ['4x4, 4 facts', small, 4, 16, 16],
    ['6x6, 3 facts', six, 3, 12, 28],
    ['plain, 2 facts', plain, 2, 20, 60],
    ['plain, 3 facts', plain, 3, 16, 42],
    ['jagged, 2 facts', jagged, 2, 12, 60],
    ['diagonal, 3 facts', diagonal, 3, 24, 46],
  ] as const)('%s', (_, layout, k, count, open) => {
    const { strikes, broken } = compare(layout, k, count, open);
    expect(strikes[2]).toBeGreaterThan(0);
    expect(broken).toBeGreaterThan(0);
  });

  it('plain, positions closed under k - 1 facts', () => {
    const random = new Random(seed);
    const totals = noTotals();
    for (const [k, open, wanted] of [
      [2, 60, 8],
      [3, 44, 3],
    ] as const) {
      for (let met = 0, tries = 0; met < wanted; tries += 1) {
        expect(tries).toBeLessThan(1000);
        const position = stuckPosition(positionOf(hardGrid), random, { k: k - 1, open, extra: 9 });
        if (position === null) continue;
        met += 1;
        expectSameAsSlow(position, k, totals);
      }
    }
    expect(totals.strikes[1]).toBe(0);
    for (const k of [2, 3]) expect(totals.strikes[k]).toBeGreaterThan(0);
  });
});

describe('the slow judges', () => {
  it('all sets of facts, and the facts that choices leave unmet: the same numbers', () => {
    const random = new Random(seed + 9);
    const seen = [0, 0, 0, 0];
    for (const [layout, k, open] of [
      [plain, 2, 60],
      [plain, 3, 34],
      [six, 4, 16],
      [diagonal, 3, 36],
    ] as const) {
      for (let i = 0; i < 6; i += 1) {
        const position = positionAround(layout, randomSolution(layout, random), random, {
          open: Math.ceil(open * (0.6 + 0.4 * random.unit())),
          struck: 0.6 * random.unit(),
          wrong: i === 5 ? 0.08 : 0,
        });
        const slow = slowFactSearch(position, k);
        expect(unmetFactSearch(position, k, i)).toEqual({
          broken: slow.broken,
          fewest: new Map([...slow.fewest].sort(([a], [b]) => a - b)),
        });
        for (const size of slow.fewest.values()) seen[size] += 1;
      }
    }
    const stuck = { k: 2, open: 44, extra: 9 };
    let hard = stuckPosition(positionOf(hardGrid), random, stuck);
    while (!hard) hard = stuckPosition(positionOf(hardGrid), random, stuck);
    const { fewest } = slowFactSearch(hard, 3);
    expect(new Map(unmetFactSearch(hard, 3).fewest)).toEqual(new Map(fewest));
    for (const size of fewest.values()) seen[size] += 1;
    for (const size of [1, 2, 3]) expect(seen[size]).toBeGreaterThan(0);
  });
});

describe('a search as it stands', () => {
  it('gives strikes of k facts, and the lightest there are', () => {
    const board = boardOf(topGrid);
    closeUnder(board, 1);
    const all = strikesUpTo(board, 3);
    const three = strikesByFacts(board, 3);
    const lightest = lightestStrikes(board, 4);
    if (all.kind === 'broken' || three.kind === 'broken' || lightest.kind === 'broken')
      throw new Error('broken');
    expect(three.strikes).toEqual(all.strikes.filter(({ facts }) => facts.length === 3));
    const least = Math.min(...all.strikes.map(({ facts }) => facts.length));
    expect(least).toBeGreaterThan(1);
    expect(lightest.strikes).toEqual(all.strikes.filter(({ facts }) => facts.length === least));
    const first = lightestStrike(board, 4);
    expect(first).toEqual({ kind: 'strikes', strikes: lightest.strikes.slice(0, 1), complete: true });
  });

  it('says that a position is broken, by one fact or by several', () => {
    // r1c1 and r1c2 have only 1 and 2 left, and so has r1c3.
    const triple = Position.from(plain, new Uint8Array(81)).strike(
      [0, 1, 2].flatMap((cell) => [3, 4, 5, 6, 7, 8, 9].map((digit) => cell * 9 + digit - 1)),
    );
    expect(strikesUpTo(Board.from(triple), 2)).toMatchObject({ kind: 'strikes' });
    expect(strikesUpTo(Board.from(triple), 3)).toEqual({ kind: 'broken', facts: [0, 1, 2] });
    const empty = triple.strike([0, 1]);
    expect(strikesUpTo(Board.from(empty), 1)).toEqual({ kind: 'broken', facts: [0] });
    expect(closeUnder(Board.from(empty), 3).end).toBe('broken');
    expect(weightUpTo(empty, 3)).toBeNull();
  });

  it('says that its budget did not last, the same each time', () => {
    const search = () => strikesUpTo(boardOf(topGrid), 4, new SearchBudget(2000));
    expect(search()).toMatchObject({ kind: 'strikes', complete: false });
    expect(search()).toEqual(search());
    expect(strikesUpTo(boardOf(topGrid), 2, new SearchBudget(2000))).toMatchObject({ complete: true });
  });

  it('goes up to 16 digits', () => {
    const random = new Random(seed);
    const solution = randomSolution(sixteen, random);
    const position = positionAround(sixteen, solution, random, { open: 60, struck: 0.2 });
    expectSameAsSlow(position, 2, noTotals());
    const board = Board.from(position);
    expect(closeUnder(board, 3).end).not.toBe('broken');
    expect(board.live.filter((_, c) => solution[c >> 4] === (c & 15) + 1)).not.toContain(0);
  });
});

describe('a closure', () => {
  it('leaves the board where its steps lead, and each step holds where it is made', () => {
    const board = boardOf(topGrid);
    const before = board.toPosition();
    const { steps, end, heaviest, reached } = closeUnder(board, 4);
    const replayed = Board.from(before);
    for (const { kind, candidate, facts } of steps) {
      const search = strikesUpTo(replayed, 1);
      if (search.kind === 'broken') throw new Error('broken on the way');
      if (kind === 'placement') {
        expect(facts).toHaveLength(1);
        expect(replayed.placesOf(facts[0])).toEqual([candidate]);
        replayed.place(candidate);
      } else {
        expect(replayed.strike(candidate)).toBe(true);
      }
    }
    expect(replayed.live).toEqual(board.live);
    expect(replayed.placed).toEqual(board.placed);
    expect(end === 'solved').toBe(isSolved(board));
    expect(heaviest).toBe(Math.max(...steps.map(({ facts }) => facts.length)));
    expect(reached).toBeGreaterThanOrEqual(heaviest);
  });

  it('strikes and places nothing that the solution contradicts', () => {
    const position = positionOf(topGrid);
    const solution = solutionOf(position);
    const board = Board.from(position);
    closeUnder(board, 4);
    for (let cell = 0; cell < 81; cell += 1) expect(board.live[cell * 9 + solution[cell] - 1]).toBe(1);
  });
});

describe.skipIf(!hasPublished)(`weights${publishedNote}`, () => {
  const read = (name: string, every: number): string[] =>
    hasPublished ? readPublishedSet(name).filter((_, i) => i % every === 0) : [];
  const some = [...read('seventeen-clue-49151.txt', 400), ...read('random-minimal-2000.txt', 60)];

  it('weight 1 is singles and locked candidates', () => {
    for (const line of some) {
      const weight = weightUpTo(positionOf(line), 1);
      expect(weight?.atMost === 1, line).toBe(isSolved(close(boardOf(line), singlesAndLocked)));
    }
  });

  it('is the same under the symmetries of the grid, and never raised by a true given', () => {
    const random = new Random(seed);
    for (const line of random.shuffle(some).slice(0, 60)) {
      const position = positionOf(line);
      const weight = weightUpTo(position, 4);
      expect(weightUpTo(movePosition(randomSymmetry(random), position), 4), line).toEqual(weight);
      const cell = random.pick([...position.placed.keys()].filter((c) => position.placed[c] === 0));
      const more = weightUpTo(position.place(cell, solutionOf(position)[cell]), 4);
      expect(more?.atMost ?? 5, `${line} with ${cell}`).toBeLessThanOrEqual(weight?.atMost ?? 5);
    }
  });

  it('does not depend on the order of the strikes', () => {
    const random = new Random(seed);
    for (const line of random.shuffle(some).slice(0, 5)) {
      const expected = boardOf(line);
      const { end } = closeUnder(expected, 3);
      const board = boardOf(line);
      for (;;) {
        const search = strikesUpTo(board, 3);
        if (search.kind === 'broken') throw new Error(`${line} is broken`);
        if (search.strikes.length === 0) break;
        for (const { candidate } of random.shuffle(search.strikes).slice(0, 12)) board.strike(candidate);
      }
      expect(board.live, line).toEqual(expected.live);
      if (end === 'solved') expect(board.live.reduce((sum, live) => sum + live, 0)).toBe(81);
    }
  });

  it('with a budget gives bounds that hold', () => {
    for (const line of some.slice(0, 60)) {
      const exact = weightUpTo(positionOf(line), 4);
      for (const worlds of [0, 100, 3000]) {
        const bounds = weightUpTo(positionOf(line), 4, new SearchBudget(worlds));
        expect(bounds?.atLeast).toBeLessThanOrEqual(exact?.atLeast ?? 0);
        if (bounds?.atMost !== null) expect(bounds).toEqual(exact);
      }
    }
  });

  it('is more than 4 for the hard set (published/README.md: every grid of it; here every tenth)', () => {
    for (const line of read('hard-187.txt', 10)) {
      expect(weightUpTo(positionOf(line), 4), line).toEqual({ atLeast: 5, atMost: null });
    }
  });
});
