import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Technique } from '../../source/techniques/technique.ts';
import { hasPublished, publishedFolder, publishedNote, readPublishedSet } from '../published.ts';
import {
  boardOf,
  close,
  failedLiterals,
  isSolved,
  nakedSingles,
  singles,
  singlesAndLocked,
  subsets,
  subsetsAndLocked,
} from './closure.ts';

/**
 * How many grids of a set some techniques solve together: the table of published/README.md (own computation,
 * two independent counters). It does not depend on the order of steps. Of the hard set 187 of 375 are here.
 */
const solved: readonly { set: string; by: string; techniques: readonly Technique[]; grids: number }[] = [
  { set: 'euler96-50.txt', by: 'naked singles', techniques: nakedSingles, grids: 12 },
  { set: 'euler96-50.txt', by: 'all singles', techniques: singles, grids: 40 },
  { set: 'euler96-50.txt', by: '+ locked candidates', techniques: singlesAndLocked, grids: 44 },
  { set: 'euler96-50.txt', by: 'all subsets, no locked candidates', techniques: subsets, grids: 46 },
  { set: 'euler96-50.txt', by: 'subsets + locked', techniques: subsetsAndLocked, grids: 49 },
  { set: 'euler96-50.txt', by: 'failed literals over singles', techniques: failedLiterals, grids: 50 },
  { set: 'top-95.txt', by: 'naked singles', techniques: nakedSingles, grids: 0 },
  { set: 'top-95.txt', by: 'all singles', techniques: singles, grids: 0 },
  { set: 'top-95.txt', by: '+ locked candidates', techniques: singlesAndLocked, grids: 10 },
  { set: 'top-95.txt', by: 'all subsets, no locked candidates', techniques: subsets, grids: 15 },
  { set: 'top-95.txt', by: 'subsets + locked', techniques: subsetsAndLocked, grids: 29 },
  { set: 'top-95.txt', by: 'failed literals over singles', techniques: failedLiterals, grids: 95 },
  { set: 'hard-187.txt', by: 'naked singles', techniques: nakedSingles, grids: 0 },
  { set: 'hard-187.txt', by: 'all singles', techniques: singles, grids: 0 },
  { set: 'hard-187.txt', by: '+ locked candidates', techniques: singlesAndLocked, grids: 0 },
  { set: 'hard-187.txt', by: 'all subsets, no locked candidates', techniques: subsets, grids: 0 },
  { set: 'hard-187.txt', by: 'subsets + locked', techniques: subsetsAndLocked, grids: 0 },
];

describe.skipIf(!hasPublished)(`published closures${publishedNote}`, () => {
  for (const { set, by, techniques, grids } of solved) {
    it(`${by}: ${grids} of ${set}`, () => {
      const count = readPublishedSet(set).filter((line) => isSolved(close(boardOf(line), techniques))).length;
      expect(count).toBe(grids);
    });
  }

  // norvig-grid2-state.json: the second grid of P. Norvig, Solving Every Sudoku Puzzle (2006), and what its
  // notebook prints of it after all naked and hidden singles.
  it("the candidates of Norvig's second grid after all singles", () => {
    const printed: string[] = JSON.parse(readFileSync(`${publishedFolder}/norvig-grid2-state.json`, 'utf8'));
    const grid = '4.....8.5.3..........7......2.....6.....8.4......1.......6.3.7.5..2.....1.4......';
    const { live, placed } = close(boardOf(grid), singles);
    const left = printed.map((_, cell) =>
      placed[cell] !== 0
        ? `${placed[cell]}`
        : '123456789'.replace(/./g, (digit) => (live[cell * 9 + Number(digit) - 1] === 1 ? digit : '')),
    );
    expect(left).toEqual(printed);
  });
});
