import { describe, expect, it } from 'vitest';
import { hasPublished, publishedNote, readPublishedSet } from '../published.ts';
import {
  boardOf,
  close,
  isSolved,
  singles,
  singlesAndLocked,
  subsets,
  subsetsAndLocked,
} from '../techniques/closure.ts';

/** See tests/techniques/closures.test.ts: the table of published/README.md. */
describe.skipIf(!hasPublished)(`closures of the 49,151 seventeen-clue grids${publishedNote}`, () => {
  const lines = hasPublished ? readPublishedSet('seventeen-clue-49151.txt') : [];
  const count = (techniques: typeof singles): number =>
    lines.filter((line) => isSolved(close(boardOf(line), techniques))).length;

  it('the whole set is there', () => expect(lines).toHaveLength(49_151));
  it('all singles: 21,905', () => expect(count(singles)).toBe(21_905));
  it('+ locked candidates: 37,373', () => expect(count(singlesAndLocked)).toBe(37_373));
  it('all subsets, no locked candidates: 34,464', () => expect(count(subsets)).toBe(34_464));
  it('subsets + locked: 41,646', () => expect(count(subsetsAndLocked)).toBe(41_646));
});
