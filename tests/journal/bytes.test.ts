import { describe, expect, test } from 'vitest';
import { anyAction, seed, sheetOf, small } from '../sheet/fixture.ts';
import { breakOff, flipBits, journalOfRecords } from './fixture.ts';

console.log(`bytes.test.ts: seed ${seed}`);

// Every byte of them, and of a 9x9 sheet, in tests/deep/journal.test.ts.
describe('200 records, broken off or with a bit changed at every third byte', () => {
  const journal = journalOfRecords(sheetOf('1...........2..3', small), anyAction(small), 200, seed);
  const third = Math.floor(journal.text.length / 3);
  const bytes = Array.from({ length: third }, (_, index) => 3 * index + (seed % 3));

  test('broken off: all before is there, and only an unfinished record goes', () => {
    const { recovered, refused, failures } = breakOff(journal, [...bytes, journal.text.length]);
    console.log(`broken off at ${bytes.length + 1} bytes: ${recovered} read, ${refused} refused`);
    expect(failures.slice(0, 5)).toEqual([]);
    expect(recovered).toBeGreaterThan(bytes.length * 0.9);
  });

  test('a bit changed: read up to there, and the line told', () => {
    const { recovered, refused, failures } = flipBits(journal, bytes, (byte) => (byte * 5 + seed) % 8);
    console.log(`a bit changed in ${bytes.length} bytes: ${recovered} read, ${refused} refused`);
    expect(failures.slice(0, 5)).toEqual([]);
    expect(recovered + refused).toBe(bytes.length);
  });
});
