import { describe, expect, it } from 'vitest';
import { type Layout, makeLayout, plain, rectangularBoxes } from '../../source/grid/layout.ts';
import { readGrid, readGrids } from '../../source/grid/read.ts';
import { rowsOf, sample, shown } from './fixtures.ts';

const rows = rowsOf(sample);
const large = makeLayout({ name: '16x16', size: 16, boxOf: rectangularBoxes(4, 4) });
const repeat = (line: string, times = 9): string => Array.from({ length: times }, () => line).join('\n');
const ruled = [
  ...rows.slice(0, 3),
  '---------',
  rows[3],
  '.........',
  rows[5],
  '---------',
  ...rows.slice(6),
];

/** What can be read in two ways: name, text, layout, line, and what each reading must be named by. */
const ambiguousTexts: readonly (readonly [string, string, Layout, number, readonly string[]])[] = [
  [
    'three lines of nine dashes where one row is missing',
    ruled.with(5, '---------').join('\n'),
    plain,
    4,
    [
      'row of blanks on line 4, drawn lines on lines 6 and 8',
      'row of blanks on line 8, drawn lines on lines 4 and 6',
    ],
  ],
  [
    'the same between bars',
    ruled
      .with(5, '---------')
      .map((line) => line.replace(/(...)(...)(...)/, '|$1|$2|$3|'))
      .join('\n'),
    plain,
    4,
    ['row of blanks on line 4', 'row of blanks on line 8'],
  ],
  [
    'nine lists of all digits on nine lines: a table, or nine grids',
    repeat(Array.from({ length: 9 }, () => '123456789').join(' ')),
    plain,
    1,
    ['one table of candidates', '9 grids, one a line'],
  ],
  [
    'tabs with an empty field and a field with a space: fields, or nine cells parted by spaces',
    repeat('5\t\t1 3\t4\t6\t7\t8\t9\t2'),
    plain,
    1,
    ['cells parted by spaces', 'cells parted by tabs'],
  ],
  [
    'bars with an empty cell and two digits in another: cells, or nine signs',
    repeat('| 5 |   | 1 3 | 4 | 6 | 7 | 8 | 9 | 2 |'),
    plain,
    1,
    ['one sign for each cell', 'cells parted by bars'],
  ],
  [
    'spaces for blanks where both every column and every second one fit',
    repeat('        1       2'),
    plain,
    1,
    ['a cell in every column', 'a cell in every second column'],
  ],
  [
    'two digits in 16x16: candidates, or a number',
    repeat(`12 ${'. '.repeat(15)}`, 16),
    large,
    1,
    ['several digits being candidates', 'numbers from 1 to 16'],
  ],
  [
    '0 in 16x16 beside other blanks: a blank, or a digit',
    `0123456789ABCDEF${'.'.repeat(240)}`,
    large,
    1,
    ['one sign for each cell', 'digits from 0 to F'],
  ],
];

describe('a text with two readings is refused with both named', () => {
  for (const [name, written, layout, line, named] of ambiguousTexts) {
    it(name, () => {
      const result = readGrid(written, { layout });
      expect(result.ok ? shown(result.value.grid) : result.error.code).toBe('ambiguous');
      if (result.ok) return;
      expect(result.error.line).toBe(line);
      expect(result.error.readings).toHaveLength(2);
      named.forEach((words, index) => {
        expect(result.error.readings?.[index]).toContain(words);
        expect(result.error.message).toContain(words);
      });
      expect(readGrids(written, { layout })).toEqual([result]);
    });
  }
});

/** What looks as if it had two readings but has one: name, text, layout, the grid. */
const settled: readonly (readonly [string, string, Layout, string])[] = [
  [
    'dashes where all nine rows are there are rules',
    ruled.join('\n'),
    plain,
    rows.with(4, '.........').join(''),
  ],
  [
    'two lines of dashes side by side: whichever is the row, the grid is the same',
    [...rows.slice(0, 3), '---------', '---------', ...rows.slice(4)].join('\n'),
    plain,
    rows.with(3, '.........').join(''),
  ],
  ['81 lone digits in a table are placed', repeat('1 2 3 | 4 5 6 | 7 8 9'), plain, '123456789'.repeat(9)],
  [
    'nine groups of nine digits on one line are rows',
    repeat('123456789').replaceAll('\n', ' '),
    plain,
    '123456789'.repeat(9),
  ],
  [
    'candidates in parentheses settle a table of full lists',
    repeat(Array.from({ length: 9 }, () => '(123456789)').join(' ')),
    plain,
    `${'.'.repeat(81)} [${Array.from({ length: 81 }, () => 511).join(' ')}]`,
  ],
  [
    '0 for every blank in 16x16 is twice in a row, so it is no digit',
    `1${'0'.repeat(255)}`,
    large,
    `1${'.'.repeat(255)}`,
  ],
];

describe('what looks ambiguous and is not', () => {
  for (const [name, written, layout, expected] of settled) {
    it(name, () => {
      const result = readGrid(written, { layout });
      expect(result.ok ? shown(result.value.grid) : result.error.message).toBe(expected);
    });
  }
});
