import { describe, expect, it } from 'vitest';
import { hasPublished, publishedNote, readPublishedSet } from '../published.ts';
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
} from '../techniques/closure.ts';

const scale = Number(process.env.INKLING_DEEP ?? 1);

/** See tests/techniques/closures.test.ts: the table of published/README.md. */
describe.skipIf(!hasPublished)(`closures of the 49,151 seventeen-clue grids${publishedNote}`, () => {
  const lines = hasPublished ? readPublishedSet('seventeen-clue-49151.txt') : [];
  const count = (techniques: typeof singles, among = lines): number =>
    among.filter((line) => isSolved(close(boardOf(line), techniques))).length;

  it('the whole set is there', () => expect(lines).toHaveLength(49_151));
  it('naked singles: none', () => expect(count(nakedSingles)).toBe(0));
  it('all singles: 21,905', () => expect(count(singles)).toBe(21_905));
  it('+ locked candidates: 37,373', () => expect(count(singlesAndLocked)).toBe(37_373));
  it('all subsets, no locked candidates: 34,464', () => expect(count(subsets)).toBe(34_464));
  it('subsets + locked: 41,646', () => expect(count(subsetsAndLocked)).toBe(41_646));

  const share = Math.max(1, Math.round(20 / scale));
  const some = lines.filter((_, i) => i % share === 0);
  it(`failed literals over singles: all, of ${some.length} that are asked (INKLING_DEEP=20: of 49,151)`, () => {
    expect(some.length).toBeGreaterThan(0);
    expect(count(failedLiterals, some)).toBe(some.length);
  });

  it('failed literals over singles: none of the hard set', () => {
    expect(count(failedLiterals, readPublishedSet('hard-187.txt'))).toBe(0);
  });
});
