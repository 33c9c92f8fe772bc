import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { displayWidth, fitWidth, padWidth } from '../../source/text/width.ts';

const seed = Number(process.env.INKLING_SEED ?? Date.now() % 2 ** 31);
console.log(`width.test.ts: seed ${seed}`);

describe('display width', () => {
  // Wide and narrow as Unicode Standard Annex 11 (East Asian Width) has them.
  const table: readonly (readonly [string, number])[] = [
    ['', 0],
    ['r4c7', 4],
    ['Grüße', 5],
    ['u\u0308', 1],
    ['a\u0301\u0301\u0301b', 2],
    ['日本', 4],
    ['한글', 4],
    ['ｱ', 1],
    ['ａ', 2],
    ['。', 2],
    ['א', 1],
    ['Ж', 1],
    ['│─┼', 3],
    ['●○', 2],
    ['…', 1],
    ['≠', 1],
    ['😀', 2],
    ['👍🏽', 2],
    ['👨‍👩‍👧', 2],
    ['🇫🇷🇩🇪', 4],
    ['1️⃣', 2],
    ['❤', 1],
    ['❤️', 2],
    ['\u200d', 0],
    ['a\u00adb', 2],
    ['𠀀', 2],
    ['𝔸', 1],
  ];
  for (const [text, width] of table) {
    it(`${JSON.stringify(text)} takes ${width}`, () => expect(displayWidth(text)).toBe(width));
  }

  it('fits within the columns asked for, and cuts no grapheme', () => {
    expect(fitWidth('a name', 6)).toBe('a name');
    expect(fitWidth('a name!', 6)).toBe('a nam…');
    expect(fitWidth('日本語', 5)).toBe('日本…');
    expect(fitWidth('日本語', 4)).toBe('日…');
    expect(fitWidth('u\u0308u\u0308u\u0308', 2)).toBe('u\u0308…');
    expect(fitWidth('abc', 0)).toBe('');
    expect(fitWidth('abcdef', 4, '...')).toBe('a...');
    expect(fitWidth('abcdef', 2, '...')).toBe('');
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), fc.integer({ min: 0, max: 30 }), (text, columns) => {
        const fitted = fitWidth(text, columns);
        expect(displayWidth(fitted)).toBeLessThanOrEqual(columns);
        if (displayWidth(text) <= columns) expect(fitted).toBe(text);
        expect(text.startsWith(fitted.replace(/…$/, ''))).toBe(true);
      }),
      { seed, numRuns: 500 },
    );
  });

  it('pads to the columns asked for', () => {
    expect(padWidth('日', 4)).toBe('日  ');
    expect(padWidth('long', 2)).toBe('long');
  });
});
