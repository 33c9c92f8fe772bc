import { describe, expect, test } from 'vitest';
import { GeneralSearch } from '../../source/exact/general.ts';
import { LearningSearch } from '../../source/exact/learn.ts';
import { makePlainSearch } from '../../source/exact/plain.ts';
import { randomBelow, seededRandom } from '../../source/exact/random.ts';
import type { Search } from '../../source/exact/search.ts';
import { decideText } from '../../source/exact/solve.ts';
import { plain } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';
import { coverSolutions } from '../judges/exact-cover.ts';
import { digitsOf, isCompletion, lineOf } from './grids.ts';

const everything = { solutions: Infinity, nodes: Infinity };

/** A full grid: P. Norvig, Solving Any Sudoku Puzzle (repository norvig/pytudes), grid 1, solved. */
const full = digitsOf('534678912672195348198342567859761423426853791713924856961537284287419635345286179');

/** Positions of all kinds: thinned full grids, some with a wrong digit, some with strikes, some without digits. */
function randomPosition(random: () => number): Position {
  const share = 0.25 + 0.4 * random();
  const givens: number[] = full.map((digit) => (random() < share ? digit : 0));
  if (random() < 0.3) givens[randomBelow(random, 81)] = 1 + randomBelow(random, 9);
  const strikes = randomBelow(random, 3) * 40;
  return Position.from(plain, givens).strike(Array.from({ length: strikes }, () => randomBelow(random, 729)));
}

describe.each<[string, () => Search]>([
  ['the plain search', makePlainSearch],
  ['the plain search, thoroughly', () => makePlainSearch().thorough],
  ['the general search', () => new GeneralSearch(plain)],
  ['the learning search', () => new LearningSearch(plain)],
])('%s by itself', (_, build) => {
  test('finds as many solutions as exact cover, each of them true, on positions with strikes', () => {
    const search = build();
    const seed = 417;
    const random = seededRandom(seed);
    const counts = [0, 0, 0];
    for (let round = 0; round < 250; round += 1) {
      const position = randomPosition(random);
      const masks = position.candidates.toMasks();
      const expected = coverSolutions(position, 40).length;
      const told = `seed ${seed}, round ${round}`;
      expect(search.run(masks, { solutions: 40, nodes: Infinity }).found, told).toBe(expected);
      for (const which of expected === 0 ? [] : expected === 1 ? ([0] as const) : ([0, 1] as const)) {
        expect(isCompletion(position, search.witness(which)), told).toBe(true);
      }
      if (expected > 1) expect(lineOf(search.witness(0)), told).not.toBe(lineOf(search.witness(1)));
      counts[Math.min(2, expected)] += 1;
    }
    // All three verdicts must have come up, or the test says little.
    expect(Math.min(...counts)).toBeGreaterThan(10);
  });

  test('stops at its limits and says whether it was through', () => {
    const search = build();
    const empty = Position.from(plain, new Uint8Array(81)).candidates.toMasks();
    expect(search.run(empty, { solutions: 7, nodes: Infinity })).toMatchObject({ found: 7, finished: true });
    expect(search.run(empty, { solutions: 0, nodes: Infinity })).toMatchObject({ found: 0, finished: true });
    const solved = Position.from(plain, full).candidates.toMasks();
    expect(search.run(solved, everything)).toMatchObject({ found: 1, finished: true });
    // J. F. Crook, Notices of the AMS 56(4), 2009, footnote 2: 30 solutions as printed, by two counters.
    const thirty = digitsOf(
      '.5..2..3.2....17.84.76..........5...52.....47...7..........35.43.65....1.9..7..6.',
    );
    const masks = Position.from(plain, thirty).candidates.toMasks();
    expect(search.run(masks, everything)).toMatchObject({ found: 30, finished: true });
    const cut = search.run(masks, { solutions: Infinity, nodes: 1 });
    expect(cut.finished).toBe(false);
    expect(cut.found).toBeLessThan(30);
    // And what was left of that run does not leak into the next.
    expect(search.run(masks, everything)).toMatchObject({ found: 30, finished: true });
  });

  test('a cell with no digit left, and one digit twice in a house', () => {
    const search = build();
    const masks = Position.from(plain, new Uint8Array(81)).candidates.toMasks();
    masks[80] = 0;
    expect(search.run(masks, everything).found).toBe(0);
    for (const peer of [1, 9, 10]) {
      const twice = Position.from(plain, new Uint8Array(81)).candidates.toMasks();
      twice[0] = 1;
      twice[peer] = 1;
      expect(search.run(twice, everything).found).toBe(0);
    }
  });
});

test('the text entry reads where it is told, and takes any sign but digits as open', () => {
  const text = '53..7....6..195....98....6.8...6...34..8.3..17...2...6.6....28....419..5....8..79';
  expect(decideText(text)).toEqual({ verdict: 'one', solution: Uint8Array.from(full) });
  expect(decideText(`#9\n${text.replaceAll('.', '0')}\n`, 3).verdict).toBe('one');
  expect(decideText(text.replace('53', '55'))).toEqual({ verdict: 'none' });
  // The same digit twice in a column, then twice in a box.
  expect(decideText(`5........5${'.'.repeat(71)}`)).toEqual({ verdict: 'none' });
  expect(decideText(`5.........5${'.'.repeat(70)}`)).toEqual({ verdict: 'none' });
});
