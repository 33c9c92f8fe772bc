import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { quoteSafe, safeText } from '../../source/text/safe.ts';

const seed = Number(process.env.INKLING_SEED ?? Date.now() % 2 ** 31);
console.log(`safe.test.ts: seed ${seed}`);

/** Every code point that must never come through: controls, and what turns the direction of writing. */
const forbidden: readonly (readonly [string, number, number])[] = [
  ['C0', 0x00, 0x1f],
  ['DEL and C1', 0x7f, 0x9f],
  ['the Arabic letter mark', 0x61c, 0x61c],
  ['marks of direction', 0x200e, 0x200f],
  ['line and paragraph separators', 0x2028, 0x2029],
  ['embeddings and overrides', 0x202a, 0x202e],
  ['isolates', 0x2066, 0x2069],
  ['the byte order mark', 0xfeff, 0xfeff],
  ['lone surrogates', 0xd800, 0xdfff],
  ['tags', 0xe0000, 0xe007f],
];
const isForbidden = (code: number): boolean => forbidden.some(([, from, to]) => code >= from && code <= to);

/** Any string of UTF-16 units, surrogates without a partner among them. */
const anyUnits = fc
  .array(fc.oneof(fc.integer({ min: 0, max: 0xffff }), fc.integer({ min: 0, max: 0xa0 })), { maxLength: 300 })
  .map((units) => String.fromCharCode(...units));

describe('text from outside is made safe', () => {
  const table: readonly (readonly [string, string])[] = [
    ['plain', 'plain'],
    ['\u001b]0;title\u0007', '\\x1b]0;title\\x07'],
    ['\u001b[31mred', '\\x1b[31mred'],
    ['a\tb\nc\rd', 'a\\x09b\\x0ac\\x0dd'],
    ['\u009b2J', '\\x9b2J'],
    ['\u007f', '\\x7f'],
    ['abc\u202edef', 'abc\\u202edef'],
    ['\u2066x\u2069\u200e\u200f\u061c', '\\u2066x\\u2069\\u200e\\u200f\\u061c'],
    ['\ud83d alone', '\\ud83d alone'],
    ['alone \ude00', 'alone \\ude00'],
    ['😀 paired', '😀 paired'],
    ['\u{e0041}', '\\u{e0041}'],
    ['Grüße, 日本, नमस्ते, 👨‍👩‍👧', 'Grüße, 日本, नमस्ते, 👨‍👩‍👧'],
    ['a back\\slash', 'a back\\slash'],
    ['', ''],
  ];
  it('with visible escapes', () => {
    for (const [text, safe] of table) expect(safeText(text)).toBe(safe);
  });

  for (const [what, from, to] of forbidden) {
    it(`every one of ${what}`, () => {
      for (let code = from; code <= to; code += 1) {
        const sign = code > 0xffff ? String.fromCodePoint(code) : String.fromCharCode(code);
        expect(safeText(`a${sign}b`)).toMatch(/^a\\(x[0-9a-f]{2}|u[0-9a-f]{4}|u\{[0-9a-f]+\})b$/);
      }
    });
  }

  it('newlines stay where they are asked for, and nothing else does', () => {
    expect(safeText('one\r\ntwo\u001b\nthree', { keepNewlines: true })).toBe('one\\x0d\ntwo\\x1b\nthree');
  });

  it('long lines are shortened, each for itself, escapes counted', () => {
    expect(safeText('x'.repeat(2001))).toBe(`${'x'.repeat(1999)}…`);
    expect(safeText('x'.repeat(2000))).toBe('x'.repeat(2000));
    expect(safeText('abcdef', { lineLimit: 4 })).toBe('abc…');
    expect(safeText('abcdef', { lineLimit: 4, ellipsis: '~' })).toBe('abc~');
    expect(safeText('😀😀😀😀😀', { lineLimit: 4 })).toBe('😀😀😀…');
    expect(safeText('abcdef\nab\nghijkl', { lineLimit: 4, keepNewlines: true })).toBe('abc…\nab\nghi…');
    expect(safeText('\u0000\u0000\u0000', { lineLimit: 6 })).toBe('\\x00\\…');
    expect(quoteSafe(`\u001b${'y'.repeat(60)}`)).toBe(`"\\x1b${'y'.repeat(35)}…"`);
  });

  it('whatever comes in, nothing forbidden comes out; safe text is left alone', () => {
    fc.assert(
      fc.property(
        anyUnits,
        fc.boolean(),
        fc.integer({ min: 1, max: 400 }),
        (text, keepNewlines, lineLimit) => {
          const safe = safeText(text, { keepNewlines, lineLimit });
          for (const line of keepNewlines ? safe.split('\n') : [safe]) {
            expect([...line].length).toBeLessThanOrEqual(lineLimit);
            for (const sign of line) expect(isForbidden(sign.codePointAt(0)!)).toBe(false);
          }
          expect(safeText(safe, { keepNewlines, lineLimit })).toBe(safe);
          if (keepNewlines) expect(safe.split('\n')).toHaveLength(text.split('\n').length);
        },
      ),
      { seed, numRuns: 2000 },
    );
  });
});
