import { describe, expect, test } from 'vitest';
import { generate } from '../../source/exact/generate.ts';
import { randomBelow, seededRandom } from '../../source/exact/random.ts';
import { isMinimal, redundantGivens } from '../../source/exact/redundant.ts';
import { settle } from '../../source/exact/settle.ts';
import { candidateOf, type Layout, plain } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';
import { gridSymmetries, mirrorCell, symmetriesOfGivens } from '../../source/grid/symmetry.ts';
import { fiveSolutions, manySolutions, twoSolutions } from '../commands/grids.ts';
import { coverSolutions } from '../judges/exact-cover.ts';
import { diagonal, digitsOf, jagged, positionOf, six, small } from './grids.ts';

const limits = { sets: 1000, pairs: 100_000 };

/** The same from the whole list of completions, which exact cover makes. */
function byListing(position: Position): { differ: number[]; atLeast: number; sets: number[][] } {
  const { layout } = position;
  const all = coverSolutions(position, 3000);
  expect(all.length).toBeLessThan(3000);
  const differ = [...all[0].keys()].filter((cell) => all.some((digits) => digits[cell] !== all[0][cell]));
  const open = differ.flatMap((cell) =>
    Array.from({ length: layout.size }, (_, i) => ({ cell, digit: i + 1 })).filter(({ digit }) =>
      all.some((digits) => digits[cell] === digit),
    ),
  );
  const name = ({ cell, digit }: { cell: number; digit: number }) => candidateOf(layout, cell, digit);
  const left = (...set: { cell: number; digit: number }[]) =>
    all.filter((digits) => set.every(({ cell, digit }) => digits[cell] === digit)).length;
  const singles = open.filter((a) => left(a) === 1).map((a) => [name(a)]);
  if (singles.length > 0) return { differ, atLeast: 1, sets: singles };
  const pairs = open.flatMap((a, i) =>
    open
      .slice(i + 1)
      .filter((b) => left(a, b) === 1)
      .map((b) => [name(a), name(b)]),
  );
  return { differ, atLeast: pairs.length > 0 ? 2 : 3, sets: pairs };
}

describe('what settles a grid with several solutions', () => {
  test.each<[string, Layout, number, number]>([
    ['plain', plain, 25, 3],
    ['4x4', small, 40, 3],
    ['6x6', six, 30, 4],
    ['both diagonals', diagonal, 8, 2],
    ['irregular regions', jagged, 8, 2],
  ])('%s: as the list of all completions has it', (_, layout, rounds, most) => {
    const seed = 515;
    const random = seededRandom(seed);
    const kinds = new Set<number>();
    for (let round = 0; round < rounds; round += 1) {
      const givens = generate(layout, random).givens.slice();
      const filled = [...givens.keys()].filter((cell) => givens[cell] !== 0);
      const dropped = 1 + (round % most);
      for (let drop = 0; drop < dropped; drop += 1) givens[filled[randomBelow(random, filled.length)]] = 0;
      const position = Position.from(layout, givens);
      if (coverSolutions(position, 3000).length === 3000) continue;
      const expected = byListing(position);
      kinds.add(expected.atLeast);
      expect(settle(position, limits), `seed ${seed}, round ${round}`).toEqual(expected);
    }
    expect([...kinds]).toContain(1);
    if (layout === plain) expect([...kinds]).toContain(2);
  });

  test('grids of the literature: two solutions differ in four cells, five are settled by one given', () => {
    const two = settle(positionOf(twoSolutions), limits);
    expect([two.differ, two.atLeast, two.sets.length]).toEqual([[3, 4, 30, 31], 1, 8]);
    expect(settle(positionOf(fiveSolutions), limits)).toEqual(byListing(positionOf(fiveSolutions)));
  });

  test('148,357,268 solutions take more than two givens, and the search for pairs keeps to its limit', () => {
    expect(settle(positionOf(manySolutions), { sets: 1, pairs: 200 })).toMatchObject({
      atLeast: 2,
      sets: [],
    });
  });

  test('digits that are exchanged at will: four of them take more than two givens, without a search', () => {
    // Norvig's grid 1 with 1 to 5 alone: whatever two givens say, two of the other four are still alike.
    const few = '53..........1.5....................34....3..1....2..........2.....41...5.........';
    for (const text of ['.'.repeat(81), few]) {
      const { atLeast, sets, differ } = settle(positionOf(text), { sets: 1, pairs: 0 });
      expect([atLeast, sets]).toEqual([3, []]);
      expect(differ.length).toBeGreaterThan(40);
    }
    expect(settle(positionOf('.'.repeat(16), small), limits)).toEqual(
      byListing(positionOf('.'.repeat(16), small)),
    );
  });

  test('struck candidates count', () => {
    const position = positionOf(twoSolutions).strike([candidateOf(plain, 3, 5)]);
    expect(settle(position, limits).atLeast).toBe(1);
  });
});

test('redundant givens are those without which exact cover still finds one solution', () => {
  const random = seededRandom(8);
  for (let round = 0; round < 10; round += 1) {
    const { givens, solution } = generate(plain, random);
    expect(isMinimal(plain, givens)).toBe(true);
    for (let more = 0; more < round % 4; more += 1) {
      const cell = randomBelow(random, 81);
      givens[cell] = solution[cell];
    }
    const expected = [...givens.keys()].filter((cell) => {
      const without = givens.slice();
      without[cell] = 0;
      return givens[cell] !== 0 && coverSolutions(Position.from(plain, without), 2).length === 1;
    });
    expect([...redundantGivens(plain, givens)]).toEqual(expected);
    expect(isMinimal(plain, givens)).toBe(expected.length === 0);
  }
});

describe('symmetries of the givens', () => {
  test('made with one, they have it', () => {
    const random = seededRandom(12);
    for (const symmetry of ['half-turn', 'quarter-turn', 'left-right', 'top-bottom', 'diagonal'] as const) {
      expect(symmetriesOfGivens(plain, generate(plain, random, symmetry).givens)).toContain(symmetry);
    }
    expect(symmetriesOfGivens(plain, generate(plain, random).givens)).toEqual([]);
  });

  test('by hand, on 4x4', () => {
    const cases: [string, string[]][] = [
      ['1...............', ['diagonal']],
      ['...1............', ['anti-diagonal']],
      ['1..............2', ['half-turn', 'diagonal', 'anti-diagonal']],
      ['1..2............', ['left-right']],
      ['1...........2...', ['top-bottom']],
      ['.1.....22.....1.', ['half-turn', 'quarter-turn']],
      ['................', [...gridSymmetries]],
    ];
    for (const [text, expected] of cases)
      expect(symmetriesOfGivens(small, digitsOf(text, small))).toEqual(expected);
  });

  test('each is a permutation of the cells that comes back to where it began', () => {
    for (const symmetry of gridSymmetries) {
      for (let cell = 0; cell < 81; cell += 1) {
        let at = cell;
        for (let turn = 0; turn < 4; turn += 1) at = mirrorCell(plain, symmetry, at);
        expect(at).toBe(cell);
      }
    }
  });
});
