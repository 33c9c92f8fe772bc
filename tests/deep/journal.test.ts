import { expect, test } from 'vitest';
import { plain } from '../../source/grid/layout.ts';
import { breakOff, flipBits, journalOfRecords } from '../journal/fixture.ts';
import { anyAction, crook, seed, sheetOf } from '../sheet/fixture.ts';

console.log(`deep/journal.test.ts: seed ${seed}`);

const sheets = [['9x9', plain, sheetOf(crook)]] as const;

test.each(sheets)('200 records of a %s sheet, broken off at every byte', (name, layout, sheet) => {
  const journal = journalOfRecords(sheet, anyAction(layout), 200, seed);
  const bytes = Array.from({ length: journal.text.length + 1 }, (_, byte) => byte);
  const { recovered, refused, failures } = breakOff(journal, bytes);
  console.log(`${name}, broken off at ${bytes.length} bytes: ${recovered} read, ${refused} refused`);
  expect(failures.slice(0, 5)).toEqual([]);
  expect(recovered + refused).toBe(bytes.length);
});

test.each(sheets)('200 records of a %s sheet, one bit changed in every byte', (name, layout, sheet) => {
  const journal = journalOfRecords(sheet, anyAction(layout), 200, seed);
  const bytes = Array.from({ length: journal.text.length }, (_, byte) => byte);
  const { recovered, refused, failures } = flipBits(journal, bytes, (byte) => (byte * 5 + seed) % 8);
  console.log(`${name}, a bit changed in ${bytes.length} bytes: ${recovered} read, ${refused} refused`);
  expect(failures.slice(0, 5)).toEqual([]);
  expect(recovered + refused).toBe(bytes.length);
});
