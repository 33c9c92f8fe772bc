import { crc32 } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { checksum, fingerprint } from '../../source/journal/checksum.ts';
import {
  bodyOf,
  firstLine,
  makeRecord,
  makeRecords,
  readRecord,
  start,
  versionOf,
} from '../../source/journal/record.ts';

/** The CRC-32 of a text as the format writes it, by zlib. */
const sum = (text: string) => crc32(Buffer.from(text, 'latin1')).toString(16).padStart(8, '0');

test('the checksum has the check value of its catalogue, and eight digits always', () => {
  // The check value of CRC-32 (ISO-HDLC) for the nine characters 123456789, in G. Cook's catalogue of CRCs.
  expect(checksum('123456789')).toBe('cbf43926');
  expect(checksum('')).toBe('00000000');
  const short = Array.from({ length: 300 }, (_, n) => `${n}`).filter((text) => /^0/.test(sum(text)));
  expect(short.length).toBeGreaterThan(5);
  for (const text of short) expect(checksum(text)).toBe(sum(text));
});

describe('the name of its own that a text has', () => {
  /** The last mixing of MurmurHash3 with 32 bits (A. Appleby; public domain), in whole numbers of any size. */
  const mixed = (hash: bigint): string => {
    const low = (value: bigint) => value & 0xffffffffn;
    let rest = low((hash ^ (hash >> 16n)) * 0x85ebca6bn);
    rest = low((rest ^ (rest >> 13n)) * 0xc2b2ae35n);
    return (rest ^ (rest >> 16n)).toString(16).padStart(8, '0');
  };
  /** FNV-1a with 32 bits from any beginning, likewise. */
  const fnv = (text: string, from: bigint): bigint =>
    [...Buffer.from(text, 'latin1')].reduce(
      (hash, byte) => ((hash ^ BigInt(byte)) * 0x01000193n) & 0xffffffffn,
      from,
    );

  test('is FNV-1a, mixed: the vectors of its authors', () => {
    // Test vectors of FNV-1a with 32 bits, L. C. Noll, in the IETF draft on FNV; MurmurHash3 of nothing with seed 1.
    expect(mixed(1n)).toBe('514e28b7');
    for (const [text, hash] of [
      ['', 0x811c9dc5n],
      ['a', 0xe40c292cn],
      ['foobar', 0xbf9cf968n],
    ] as const) {
      expect(fnv(text, 0x811c9dc5n)).toBe(hash);
      expect(fingerprint(text).slice(0, 8)).toBe(mixed(hash));
    }
  });

  test('has twelve digits always, so that a folder made today is found tomorrow', () => {
    for (let n = 0; n < 200; n += 1) {
      const text = `${n} `.repeat(1 + (n % 7));
      const name = mixed(fnv(text, 0x811c9dc5n)) + mixed(fnv(text, 0x9e3779b9n)).slice(0, 4);
      expect(name).toMatch(/^[0-9a-f]{12}$/);
      expect(fingerprint(text)).toBe(name);
    }
  });
});

describe('the first line', () => {
  test('is what the description of the format says', () => {
    expect(firstLine).toBe(`inkling-sheet 1 ${sum('inkling-sheet 1')}\n`);
    expect(versionOf(firstLine.trimEnd())).toBe(1);
  });

  const line = (said: string) => `${said} ${sum(said)}`;
  test.each([
    [line('inkling-sheet 2'), 2],
    [line('inkling-sheet 10'), 10],
    [line('inkling-sheet 999999999'), 999999999],
    [line('inkling-sheet 1000000000'), null],
    [line('inkling-sheet 0'), null],
    [line('inkling-sheet 01'), null],
    [line('inkling-sheet x'), null],
    [line('inkling-sheet 1.5'), null],
    [line('inkling-sheets 1'), null],
    [line('another 1'), null],
    [`x${line('inkling-sheet 1')}`, null],
    [`${line('inkling-sheet 1')}0`, null],
    [`${line('inkling-sheet 1')}\n`, null],
    ['inkling-sheet 1 00000000', null],
    [`inkling-sheet 1 ${sum('inkling-sheet 2')}`, null],
    [line('inkling-sheet 2').toUpperCase(), null],
    ['inkling-sheet 1 ', null],
    ['inkling-sheet 1', null],
    ['', null],
  ])('%j is of version %s', (text, version) => {
    expect(versionOf(text)).toBe(version);
  });
});

describe('a record', () => {
  test('rests on the one before it, and has a number one higher', () => {
    const one = makeRecord(start, '{}');
    const two = makeRecord(one.tail, '[]');
    const first = sum('inkling-sheet 1');
    expect(start).toEqual({ number: 0, sum: first });
    expect(one.text).toBe(`1 ${sum(`${first} 1 {}`)} {}\n`);
    expect(two.text).toBe(`2 ${sum(`${one.tail.sum} 2 []`)} []\n`);
    expect(makeRecords(start, ['{}', '[]'])).toEqual({ text: one.text + two.text, tail: two.tail });
    expect(makeRecords(one.tail, [])).toEqual({ text: '', tail: one.tail });
  });

  test('reads back with its end, also where its number has many digits', () => {
    for (const number of [0, 8, 9, 98, 99, 99999, 999_999_999_999_998]) {
      const tail = { number, sum: '0123abcd' };
      const made = makeRecord(tail, '{"a": 1}');
      expect(readRecord(tail, made.text.slice(0, -1))).toEqual({ body: '{"a": 1}', tail: made.tail });
    }
  });

  test('with an empty body is one too', () => {
    const made = makeRecord(start, '');
    expect(readRecord(start, made.text.slice(0, -1))).toEqual({ body: '', tail: made.tail });
  });

  const good = makeRecord(start, '{}').text.slice(0, -1);
  const [, goodSum] = good.split(' ');
  test.each([
    ['', 'what is no record'],
    ['{}', 'what is no record'],
    [` ${good}`, 'what is no record'],
    [`x${good}`, 'what is no record'],
    [`0${good}`, 'what is no record'],
    [`0 ${goodSum} {}`, 'what is no record'],
    [`1 ${goodSum}`, 'what is no record'],
    [`1 ${goodSum.slice(1)} {}`, 'what is no record'],
    [`1 ${goodSum}0 {}`, 'what is no record'],
    [`1 ${goodSum.slice(1)}G {}`, 'what is no record'],
    [`1  ${goodSum} {}`, 'what is no record'],
    [`1234567890123456 ${goodSum} {}`, 'what is no record'],
    [`123456789012345 ${goodSum} {}`, 'record 123456789012345'],
    [`2 ${goodSum} {}`, 'record 2'],
    [`1 ${goodSum} {} `, 'a record that does not match its checksum'],
    [`1 ${goodSum}  {}`, 'a record that does not match its checksum'],
    [`1 ${sum(`${sum('inkling-sheet 1')} 2 {}`)} {}`, 'a record that does not match its checksum'],
    [`1 ${sum(`00000000 1 {}`)} {}`, 'a record that does not match its checksum'],
  ])('%j is none: %s', (line, wrong) => {
    expect(readRecord(start, line)).toEqual({ wrong });
  });

  test('has a body of printable ASCII, whatever is in it, and the same value read back', () => {
    const value = { name: 'a~\u007f\u0080ÿ\u0100\u2028\ud83d\ude42\ud800\uffff\n\t\u001b"\\' };
    const body = bodyOf(value);
    expect(body).toMatch(/^[ -~]*$/);
    expect(body).toContain('a~\\u007f\\u0080\\u00ff\\u0100\\u2028\\ud83d\\ude42');
    expect(JSON.parse(body)).toEqual(value);
  });
});
