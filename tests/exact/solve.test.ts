import { describe, expect, test } from 'vitest';
import { countSolutions, decide } from '../../source/exact/solve.ts';
import { plain } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';
import { coverSolutions } from '../judges/exact-cover.ts';
import { satSolutions } from '../judges/sat.ts';
import { hasPublished, publishedNote, readPublishedSet } from '../published.ts';
import { digitsOf, isCompletion, lineOf, positionOf } from './grids.ts';

/** P. Norvig, Solving Any Sudoku Puzzle (repository norvig/pytudes), grid 1: 30 givens, one solution. */
const norvigOne = '53..7....6..195....98....6.8...6...34..8.3..17...2...6.6....28....419..5....8..79';
const norvigOneSolved = '534678912672195348198342567859761423426853791713924856961537284287419635345286179';
/** P. Norvig, Solving Every Sudoku Puzzle (2006), the slow puzzle; 148,357,268 solutions by two counters. */
const norvigSlow = '.....6....59.....82....8....45........3........6..3.54...325..6..................';

describe('published grids', () => {
  test('one solution, and it is the published one (Norvig, grid 1)', () => {
    expect(decide(positionOf(norvigOne))).toEqual({
      verdict: 'one',
      solution: Uint8Array.from(digitsOf(norvigOneSolved)),
    });
  });

  test.each([
    // P. Norvig, Solving Every Sudoku Puzzle (2006): the contradictory puzzle.
    [0, '.....5.8....6.1.43..........1.5........1.6...3.......553.....61........4.........'],
    // Norvig's grid 1 solved, less an unavoidable rectangle (r1c4, r1c5, r4c4, r4c5): 77 givens.
    [2, '534..8912672195348198342567859..1423426853791713924856961537284287419635345286179'],
    // SageMath reference, sage/games/sudoku.py, method dlx: len(list(h.dlx)) is 5.
    [5, '8..6..9.5.............2.31...7318.6.24.....73...........279.1..5...8..36..3......'],
    // J. F. Crook, Notices of the AMS 56(4), 2009, footnote 2, as printed: 30 by two counters (not 2 as said).
    [30, '.5..2..3.2....17.84.76..........5...52.....47...7..........35.43.65....1.9..7..6.'],
  ])('%i solutions', (count, text) => {
    const position = positionOf(text);
    expect(countSolutions(position)).toBe(count);
    expect(coverSolutions(position, 100)).toHaveLength(count);
    expect(satSolutions(position, 100)).toHaveLength(count);
    expect(decide(position).verdict).toBe(count === 0 ? 'none' : 'several');
  });

  test('several on a grid with 148,357,268 solutions (Norvig), and the count stops at its limit', () => {
    const position = positionOf(norvigSlow);
    const decision = decide(position);
    if (decision.verdict !== 'several') throw new Error(decision.verdict);
    const [a, b] = decision.witnesses;
    expect(lineOf(a)).not.toBe(lineOf(b));
    expect(isCompletion(position, a) && isCompletion(position, b)).toBe(true);
    expect(countSolutions(position, 12_345)).toBe(12_345);
    expect(countSolutions(position, 1)).toBe(1);
    expect(countSolutions(position, 0)).toBe(0);
  });
});

describe(`published sets${publishedNote}`, () => {
  test.skipIf(!hasPublished).each([
    ['random-minimal-2000.txt', 2000, Infinity],
    ['top-95.txt', 95, Infinity],
    ['hard-187.txt', 187, Infinity],
    ['euler96-50.txt', 50, Infinity],
    ['cp-examples-33.txt', 33, Infinity],
    ['seventeen-clue-49151.txt', 49_151, 3000],
  ])('%s: one solution on each line, and it extends the givens', (name, size, taken) => {
    const lines = readPublishedSet(name);
    expect(lines).toHaveLength(size);
    const step = Math.max(1, Math.floor(size / taken));
    for (let i = 0; i < size; i += step) {
      const position = positionOf(lines[i]);
      const decision = decide(position);
      if (decision.verdict !== 'one') throw new Error(`${name} line ${i + 1}: ${decision.verdict}`);
      expect(isCompletion(position, decision.solution)).toBe(true);
    }
  });

  // The set is described as grids without a solution. Lines 1 and 2 have one each, say
  // two judges and we. Exact cover takes ten seconds over the others; see tests/deep/exact.test.ts.
  test.skipIf(!hasPublished)('contradictory-hard.txt: what a SAT solver says of each line', () => {
    const verdicts = readPublishedSet('contradictory-hard.txt').map((line) => {
      const position = positionOf(line);
      const { verdict } = decide(position);
      const counts = { none: 0, one: 1, several: 2 };
      expect(satSolutions(position, 2)).toHaveLength(counts[verdict]);
      return verdict;
    });
    expect(verdicts.filter((verdict) => verdict === 'none').length).toBeGreaterThanOrEqual(8);
    expect(verdicts).not.toContain('several');
  });
});

describe('positions', () => {
  test('a grid whose givens clash has no solution', () => {
    expect(decide(positionOf(`55${'.'.repeat(79)}`))).toEqual({ verdict: 'none' });
  });

  test('an empty grid has several, and a full one has itself', () => {
    expect(decide(positionOf('.'.repeat(81))).verdict).toBe('several');
    expect(decide(positionOf(norvigOneSolved)).verdict).toBe('one');
    expect(countSolutions(positionOf(norvigOneSolved))).toBe(1);
  });

  test('a full grid with one wrong digit has none', () => {
    const digits = digitsOf(norvigOneSolved);
    digits[40] = (digits[40] % 9) + 1;
    expect(decide(Position.from(plain, digits)).verdict).toBe('none');
  });

  test('strikes count: of a solution candidate, of a rectangle, of a given', () => {
    const one = positionOf(norvigOne);
    // r5c5 is 5 in the one solution.
    expect(decide(one.strike([40 * 9 + 4])).verdict).toBe('none');
    expect(decide(one.strike([40 * 9 + 6])).verdict).toBe('one');
    expect(decide(one.strike([0 * 9 + 4])).verdict).toBe('none');
    const two = positionOf(
      '534..8912672195348198342567859..1423426853791713924856961537284287419635345286179',
    );
    const either = [5, 6].map((digit) => decide(two.strike([3 * 9 + digit])));
    expect(either.map(({ verdict }) => verdict)).toEqual(['one', 'one']);
    expect(decide(two.strike([3 * 9 + 5, 3 * 9 + 6])).verdict).toBe('none');
  });

  test('ink counts like givens', () => {
    const one = positionOf(norvigOne);
    expect(decide(one.place(40, 5)).verdict).toBe('one');
    expect(decide(one.place(40, 7)).verdict).toBe('none');
  });

  test('a budget that runs out says so, and only then', () => {
    // Norvig's slow puzzle needs branching; grid 1 needs none.
    expect(decide(positionOf(norvigSlow), { nodes: 0 })).toEqual({ verdict: 'undecided' });
    expect(decide(positionOf(norvigOne), { nodes: 0 }).verdict).toBe('one');
    expect(decide(positionOf(norvigSlow), { nodes: 10_000 }).verdict).toBe('several');
  });

  test('the position is left as it was', () => {
    const position = positionOf(norvigSlow);
    const before = position.candidates.toMasks();
    decide(position);
    expect(position.candidates.toMasks()).toEqual(before);
  });
});
