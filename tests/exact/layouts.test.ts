import { describe, expect, test } from 'vitest';
import { randomBelow, seededRandom } from '../../source/exact/random.ts';
import { countSolutions, decide } from '../../source/exact/solve.ts';
import type { Layout } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';
import { coverSolutions } from '../judges/exact-cover.ts';
import { satSolutions } from '../judges/sat.ts';
import { diagonal, isCompletion, jagged, lineOf, positionOf, six, sixteen, small } from './grids.ts';

test('all 288 grids of 4x4 (OEIS A107739)', () => {
  expect(countSolutions(positionOf('.'.repeat(16), small))).toBe(288);
});

test('6x6: 39,168 grids with the first row given, 28,200,960 in all by 6! (Wikipedia, Mathematics of Sudoku)', () => {
  expect(countSolutions(positionOf(`123456${'.'.repeat(30)}`, six))).toBe(39_168);
});

describe.each<[string, Layout, number]>([
  ['4x4', small, 60],
  ['6x6', six, 60],
  ['both diagonals', diagonal, 30],
  ['irregular regions', jagged, 30],
])('%s', (_, layout, rounds) => {
  test('verdicts, counts and witnesses as two judges have them, strikes included', () => {
    const seed = 20_260_719;
    const random = seededRandom(seed);
    const below = (limit: number) => randomBelow(random, limit);
    const full = decide(positionOf('.'.repeat(layout.cellCount), layout));
    if (full.verdict !== 'several') throw new Error('no grid at all');
    for (let round = 0; round < rounds; round += 1) {
      const solution = full.witnesses[round % 2];
      const share = 1 + below(4);
      const givens = Array.from(solution, (digit) => (below(10) < 2 + share ? digit : 0));
      if (round % 5 === 0) givens[below(layout.cellCount)] = 1 + below(layout.size);
      const strikes = Array.from({ length: 12 }, () => below(layout.cellCount * layout.size));
      const position = Position.from(layout, givens).strike(round % 2 === 0 ? strikes : []);
      const expected = coverSolutions(position, 50);
      const told = `seed ${seed}, round ${round}`;
      expect(countSolutions(position, 50), told).toBe(expected.length);
      expect(satSolutions(position, 2).length, told).toBe(Math.min(2, expected.length));
      const decision = decide(position);
      switch (decision.verdict) {
        case 'none':
          expect(expected, told).toHaveLength(0);
          break;
        case 'one':
          expect(expected.map(lineOf), told).toEqual([lineOf(decision.solution)]);
          break;
        case 'several':
          expect(expected.length, told).toBeGreaterThan(1);
          expect(lineOf(decision.witnesses[0])).not.toBe(lineOf(decision.witnesses[1]));
          for (const witness of decision.witnesses) expect(isCompletion(position, witness), told).toBe(true);
          break;
      }
    }
  });
});

test('16x16: an empty grid has several completions, and three quarters of one are judged alike', () => {
  const empty = decide(positionOf('.'.repeat(256), sixteen));
  if (empty.verdict !== 'several') throw new Error(empty.verdict);
  const [solution] = empty.witnesses;
  expect(isCompletion(positionOf('.'.repeat(256), sixteen), solution)).toBe(true);
  const random = seededRandom(16);
  const givens = Array.from(solution, (digit) => (random() < 0.75 ? digit : 0));
  const position = Position.from(sixteen, givens);
  expect(countSolutions(position, 20)).toBe(coverSolutions(position, 20).length);
});
