import { describe, expect, it } from 'vitest';
import type { Technique } from '../../source/techniques/technique.ts';
import { hasPublished, publishedNote, readPublishedSet } from '../published.ts';
import {
  boardOf,
  close,
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
  { set: 'top-95.txt', by: 'naked singles', techniques: nakedSingles, grids: 0 },
  { set: 'top-95.txt', by: 'all singles', techniques: singles, grids: 0 },
  { set: 'top-95.txt', by: '+ locked candidates', techniques: singlesAndLocked, grids: 10 },
  { set: 'top-95.txt', by: 'all subsets, no locked candidates', techniques: subsets, grids: 15 },
  { set: 'top-95.txt', by: 'subsets + locked', techniques: subsetsAndLocked, grids: 29 },
  { set: 'hard-187.txt', by: 'all singles', techniques: singles, grids: 0 },
  { set: 'hard-187.txt', by: '+ locked candidates', techniques: singlesAndLocked, grids: 0 },
  { set: 'hard-187.txt', by: 'subsets + locked', techniques: subsetsAndLocked, grids: 0 },
];

describe.skipIf(!hasPublished)(`published closures${publishedNote}`, () => {
  for (const { set, by, techniques, grids } of solved) {
    it(`${by}: ${grids} of ${set}`, () => {
      const count = readPublishedSet(set).filter((line) => isSolved(close(boardOf(line), techniques))).length;
      expect(count).toBe(grids);
    });
  }
});
