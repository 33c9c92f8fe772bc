import { describe, expect, test } from 'vitest';
import { generate } from '../../source/exact/generate.ts';
import { randomBelow, seededRandom, shuffled } from '../../source/exact/random.ts';
import { countSolutions, decide, decideText } from '../../source/exact/solve.ts';
import { plain } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';
import { isCompletion, lineOf, positionOf, six } from '../exact/grids.ts';
import { coverCount, coverSolutions } from '../judges/exact-cover.ts';
import { satSolutions } from '../judges/sat.ts';
import { hasPublished, publishedNote, readPublishedSet } from '../published.ts';

const scale = Number(process.env.INKLING_DEEP ?? 1);

describe(`published sets${publishedNote}`, () => {
  test.skipIf(!hasPublished)('all 49,151 seventeen-clue grids have one solution', () => {
    const lines = readPublishedSet('seventeen-clue-49151.txt');
    expect(lines).toHaveLength(49_151);
    for (const [index, line] of lines.entries()) {
      const decision = decideText(line);
      if (decision.verdict !== 'one') throw new Error(`line ${index + 1}: ${decision.verdict}`);
      if (!isCompletion(positionOf(line), decision.solution)) throw new Error(`line ${index + 1}: wrong`);
    }
  });

  test.skipIf(!hasPublished)('contradictory-hard.txt: verdicts by exact cover and by a SAT solver', () => {
    const counts = { none: 0, one: 1, several: 2 };
    for (const line of readPublishedSet('contradictory-hard.txt')) {
      const position = positionOf(line);
      const count = counts[decide(position).verdict];
      expect(coverSolutions(position, 2), line).toHaveLength(count);
      expect(satSolutions(position, 2), line).toHaveLength(count);
    }
  });
});

describe('counts without a limit', () => {
  // P. Norvig, Solving Every Sudoku Puzzle (2006), the slow puzzle; counted by a bit-mask search and exact cover.
  test('148,357,268 solutions of one grid', () => {
    const text = '.....6....59.....82....8....45........3........6..3.54...325..6..................';
    expect(countSolutions(positionOf(text))).toBe(148_357_268);
  });

  // Wikipedia, Mathematics of Sudoku: 28,200,960 grids of 6x6 with 2x3 boxes.
  test('28,200,960 grids of 6x6', () => {
    expect(countSolutions(positionOf('.'.repeat(36), six))).toBe(28_200_960);
  });

  // The smallest unavoidable set has four cells, so three blanks are always filled in one way.
  test('any three blanks of a full grid are filled in one way', () => {
    const { solution } = generate(plain, seededRandom(78));
    const masks = solution.slice();
    for (let a = 0; a < 81; a += 1) {
      for (let b = a + 1; b < 81; b += 1) {
        for (let c = b + 1; c < 81; c += 1) {
          masks[a] = masks[b] = masks[c] = 0;
          if (decideText(lineOf(masks)).verdict !== 'one') throw new Error(`blanks ${a}, ${b}, ${c}`);
          masks[a] = solution[a];
          masks[b] = solution[b];
          masks[c] = solution[c];
        }
      }
    }
  });
});

test('random grids, thinned, broken and sparse, with strikes: verdicts as exact cover has them', () => {
  const seed = 88_172;
  const rounds = Math.round(4000 * scale);
  console.log(`exact: differential, seed ${seed}, ${rounds} positions`);
  const random = seededRandom(seed);
  const seen = { none: 0, one: 0, several: 0 };
  for (let round = 0; round < rounds; round += 1) {
    const { givens, solution } = generate(plain, random);
    const digits = givens.slice();
    const kind = round % 4;
    // 0: some givens more; 1: one wrong digit; 2: a few givens fewer; 3: strikes as well.
    if (kind !== 2) {
      for (let i = 0; i < 6; i += 1) {
        const cell = randomBelow(random, 81);
        digits[cell] = solution[cell];
      }
    }
    if (kind === 1) digits[randomBelow(random, 81)] = 1 + randomBelow(random, 9);
    if (kind === 2) {
      const given = shuffled(
        [...digits.keys()].filter((cell) => digits[cell] !== 0),
        random,
      );
      for (const cell of given.slice(0, 1 + randomBelow(random, 5))) digits[cell] = 0;
    }
    const start = Position.from(plain, digits);
    const strikes = kind === 3 ? Array.from({ length: 30 }, () => randomBelow(random, 729)) : [];
    const position = start.strike(strikes);
    const decision = decide(position);
    const told = `seed ${seed}, round ${round}`;
    const counts = { none: 0, one: 1, several: 2 };
    expect(coverSolutions(position, 2).length, told).toBe(counts[decision.verdict]);
    if (decision.verdict === 'one') expect(isCompletion(position, decision.solution), told).toBe(true);
    if (decision.verdict === 'several') {
      const [a, b] = decision.witnesses;
      expect(isCompletion(position, a) && isCompletion(position, b), told).toBe(true);
      expect(lineOf(a), told).not.toBe(lineOf(b));
    }
    seen[decision.verdict] += 1;
  }
  expect(Math.min(seen.none, seen.one, seen.several)).toBeGreaterThan(rounds / 50);
});

// D. Berthier, online supplements to Unbiased Statistics of a CSP, classification results: generated top-down,
// 24.38 givens on average, standard deviation 1.12.
test('1,000 generated puzzles: unique, minimal, with the published number of givens', () => {
  const seed = 24_380;
  console.log(`exact: generator, seed ${seed}`);
  const random = seededRandom(seed);
  const counts: number[] = [];
  for (let round = 0; round < 1000; round += 1) {
    const { givens } = generate(plain, random);
    const told = `seed ${seed}, puzzle ${round}`;
    expect(coverCount(lineOf(givens)), told).toBe(1);
    for (const [cell, digit] of givens.entries()) {
      if (digit === 0) continue;
      givens[cell] = 0;
      expect(coverCount(lineOf(givens)), `${told}, given ${cell}`).toBe(2);
      givens[cell] = digit;
    }
    counts.push(givens.filter((digit) => digit !== 0).length);
  }
  const mean = counts.reduce((sum, count) => sum + count, 0) / counts.length;
  const variance = counts.reduce((sum, count) => sum + (count - mean) ** 2, 0) / counts.length;
  console.log(`mean ${mean.toFixed(3)}, standard deviation ${Math.sqrt(variance).toFixed(3)}`);
  expect(Math.abs(mean - 24.38)).toBeLessThan(0.15);
  expect(Math.abs(Math.sqrt(variance) - 1.12)).toBeLessThan(0.12);
});
