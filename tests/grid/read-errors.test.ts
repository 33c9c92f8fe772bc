import { describe, expect, it } from 'vitest';
import { makeLayout, rectangularBoxes } from '../../source/grid/layout.ts';
import { readGrid, readGridLine, readGrids } from '../../source/grid/read.ts';
import { rowsOf, sample } from './fixtures.ts';

const rows = rowsOf(sample);
const text = (lines: readonly string[]): string => `${lines.join('\n')}\n`;
const csv = rows.map((row) => [...row].map((sign) => (sign === '.' ? '' : sign)).join(','));
const table = Array.from({ length: 9 }, () => '12 3 45 | 6 7 89 | (1) 2 3');
const digitOrBlank = 'a digit from 1 to 9 or a blank (. 0 * _ -)';
const severalToo = 'a digit from 1 to 9, several as candidates, or a blank';

/** name, text, code, line, column, found, expected */
const errors: readonly (readonly [string, string, string, number, number, string, string])[] = [
  ['no text', '', 'empty', 1, 1, 'nothing', 'a grid of 81 cells'],
  ['blank lines', '\n \n', 'empty', 1, 1, 'nothing', 'a grid of 81 cells'],
  ['only a remark', '# a grid to come', 'empty', 1, 1, 'nothing', 'a grid of 81 cells'],
  ['only a code fence', '```\n```', 'empty', 1, 1, 'nothing', 'a grid of 81 cells'],
  ['only a rule', '\n---+---+---\n', 'empty', 2, 1, 'no cells', 'a grid of 81 cells'],
  ['prose', '\nGood morning', 'unexpected-sign', 2, 1, '"G"', digitOrBlank],
  ['80 signs', sample.slice(1), 'too-few-cells', 1, 81, '80 cells', '81 in all'],
  ['82 signs', `${sample}.`, 'too-many-cells', 1, 82, '82 cells', '81 in all'],
  ['a letter', sample.replace('9', 'x'), 'unexpected-sign', 1, 4, '"x"', digitOrBlank],
  ['an escape', `${sample.slice(0, 40)}\u001b[2J`, 'unexpected-sign', 1, 41, '"\\x1b"', digitOrBlank],
  ['an override of direction', `\u202e${sample}`, 'unexpected-sign', 1, 1, '"\\u202e"', digitOrBlank],
  [
    'half a surrogate pair',
    `${sample.slice(0, 80)}\ud83d`,
    'unexpected-sign',
    1,
    81,
    '"\\ud83d"',
    digitOrBlank,
  ],
  ['columns count code points', `${'.'.repeat(3)}😀${sample}`, 'unexpected-sign', 1, 4, '"😀"', digitOrBlank],
  [
    'a name without #',
    `${sample} by hand`,
    'unexpected-sign',
    1,
    83,
    '"b"',
    'the end of the row, or # before a remark',
  ],
  ['a remark does not count', `${sample.slice(2)} # short`, 'too-few-cells', 1, 81, '79 cells', '81 in all'],
  ['a short row', text(rows.with(3, rows[3].slice(1))), 'too-few-cells', 4, 9, '8 cells', '9 in each row'],
  ['a long row', text(rows.with(3, `${rows[3]}5`)), 'too-many-cells', 4, 10, '10 cells', '9 in each row'],
  [
    'a long and a short row, 81 in all',
    text(rows.with(1, `${rows[1]}5`).with(2, rows[2].slice(1))),
    'too-many-cells',
    2,
    10,
    '10 cells',
    '9 in each row',
  ],
  ['eight rows', text(rows.slice(1)), 'too-few-rows', 8, 10, '8 rows', '9'],
  ['ten rows', text([...rows, rows[0]]), 'too-many-rows', 10, 1, '10 rows', '9'],
  ['a digit too high', text(rows).replace('9', '٩'), 'unexpected-sign', 1, 4, '"٩"', digitOrBlank],
  [
    'a quoted line',
    text(rows.with(2, '12x456789').map((row) => `> ${row}`)),
    'unexpected-sign',
    3,
    5,
    '"x"',
    digitOrBlank,
  ],
  [
    'a line after a fence',
    text(['```', ...rows.with(2, '12x456789'), '```']),
    'unexpected-sign',
    4,
    3,
    '"x"',
    digitOrBlank,
  ],
  [
    'a short CSV row',
    text(csv.with(4, ',,,5,,4,,')),
    'too-few-cells',
    5,
    10,
    '8 cells',
    '9 in each row, parted by commas',
  ],
  [
    'a long CSV row',
    text(csv.with(4, ',,,5,,4,,,,1')),
    'too-many-cells',
    5,
    12,
    '10 cells',
    '9 in each row, parted by commas',
  ],
  [
    'a bad CSV field',
    text(csv.with(4, ',,,5,,44,,,')),
    'bad-cell',
    5,
    7,
    '"44"',
    'each candidate once (4 is there twice)',
  ],
  [
    'a blank among candidates',
    text(table.with(1, '12 3.4 5 | 6 7 8 | 9 1 2')),
    'bad-cell',
    2,
    4,
    '"3.4"',
    severalToo,
  ],
  [
    'zero among candidates',
    text(table.with(1, '12 304 5 | 6 7 8 | 9 1 2')),
    'bad-cell',
    2,
    4,
    '"304"',
    severalToo,
  ],
  [
    'a candidate twice',
    text(table.with(1, '12 344 5 | 6 7 8 | 9 1 2')),
    'bad-cell',
    2,
    4,
    '"344"',
    'each candidate once (4 is there twice)',
  ],
  ['empty parentheses', text(table.with(1, '12 () 5 | 6 7 8 | 9 1 2')), 'bad-cell', 2, 4, '"()"', severalToo],
  [
    'an open parenthesis',
    text(table.with(1, '12 (3 5 | 6 7 8 | 9 1 2')),
    'bad-cell',
    2,
    4,
    '"(3"',
    severalToo,
  ],
  [
    'a cell missing in a table',
    text(table.with(1, '12 4 5 | 6 7 8 | 9 1')),
    'too-few-cells',
    2,
    21,
    '8 cells',
    '9 in each row',
  ],
  ['a row missing in a table', text(table.slice(1)), 'too-few-rows', 8, 27, '8 rows', '9'],
  ['two grids', `${sample}\n\n# b\n${sample}`, 'many-grids', 4, 1, '2 grids', 'one'],
  ['two grids in blocks', `${text(rows)}\n${text(rows)}`, 'many-grids', 11, 1, '2 grids', 'one'],
  ['grid and solution', `${sample},${sample}`, 'too-many-cells', 1, 83, '162 cells', '81 in all'],
  [
    'too long',
    `# ${'x'.repeat(20_000)}`,
    'too-long',
    1,
    20_001,
    '20,002 characters',
    'at most 20,000 for one grid',
  ],
];

describe('what is wrong and where', () => {
  for (const [name, written, code, line, column, found, expected] of errors) {
    it(name, () => {
      const result = readGrid(written);
      expect(result.ok ? 'a grid' : result.error).toMatchObject({ code, line, column, found });
      if (result.ok) return;
      expect(result.error.expected).toBe(expected);
      expect(result.error.message).toMatch(new RegExp(`^Line ${line}, column ${column}: .+\\.$`));
    });
  }

  it('a byte order mark is in no column', () => {
    const result = readGrid(`\ufeff${sample.replace('9', 'x')}`);
    expect(result.ok ? null : result.error.column).toBe(4);
  });

  it('names the digits of the layout', () => {
    const of = (rowsInBox: number, columns: number) =>
      makeLayout({ name: 'any', size: rowsInBox * columns, boxOf: rectangularBoxes(rowsInBox, columns) });
    const expectedOn = (layout: ReturnType<typeof of>) => {
      const result = readGrid('z', { layout });
      return result.ok ? '' : result.error.expected;
    };
    expect(expectedOn(of(2, 2))).toContain('a digit from 1 to 4 ');
    expect(expectedOn(of(2, 5))).toContain('a digit from 1 to 9 and A ');
    expect(expectedOn(of(4, 4))).toContain('a digit from 1 to 9 and A to G ');
  });

  it('limits are arguments', () => {
    expect(readGrid(`${sample} # long`, { limit: 81 })).toMatchObject({
      error: { code: 'too-long', line: 1, column: 82, found: '88 characters' },
    });
    expect(readGridLine(`${sample} # long`, 5, { limit: 81 })).toMatchObject({
      error: { code: 'too-long', line: 5 },
    });
    const two = `${sample}\n${sample}\n`;
    expect(readGrids(two, { limit: 90 }).map((result) => result.ok)).toEqual([true, true]);
    expect(readGrids(two, { textLimit: 90 })).toMatchObject([
      { error: { code: 'too-long', line: 2, column: 9 } },
    ]);
    expect(readGrids(`${sample}\n${'.'.repeat(200)}`, { limit: 150 })).toMatchObject([
      { ok: true },
      { error: { code: 'too-long', line: 2, column: 151 } },
    ]);
  });

  it('says nothing that a terminal would act on', () => {
    for (let code = 0; code < 0xa0; code += 1) {
      if (code >= 0x20 && code < 0x7f) continue;
      const result = readGrid(`${sample.slice(0, 50)}${String.fromCharCode(code)}x`);
      const said = result.ok ? '' : JSON.stringify(Object.values(result.error));
      expect([...said].every((sign) => sign >= ' ' && !(sign >= '\u007f' && sign < '\u00a0'))).toBe(true);
    }
  });
});
