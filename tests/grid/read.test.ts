import { describe, expect, it } from 'vitest';
import { makeLayout, plain, rectangularBoxes } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';
import { isGridPerLine, readGrid, readGridLine, readGrids } from '../../source/grid/read.ts';
import { gridForms, gridOf } from '../../source/grid/write.ts';
import { hasPublished, publishedNote, readPublishedSet } from '../published.ts';
import { mustRead, rowsOf, sample, shown } from './fixtures.ts';

const rows = rowsOf(sample);
const spaced = (text: string, between = ' '): string => [...text].join(between);
const thirds = (row: string): string[] => [row.slice(0, 3), row.slice(3, 6), row.slice(6)];
const blanksAs = (sign: string, text = sample): string => text.replaceAll('.', sign);
const banded = (lines: readonly string[], rule: string): string[] =>
  lines.flatMap((line, row) => (row === 3 || row === 6 ? [rule, line] : [line]));
const text = (lines: readonly string[]): string => `${lines.join('\n')}\n`;
const digitsFromFullWidth = (line: string): string =>
  line.replaceAll(/\d/g, (digit) => String.fromCodePoint(0xff10 + Number(digit)));

/** One grid as people write it: which forms are usual is common practice, no source. */
const wild: Readonly<Record<string, string>> = {
  '81 signs': sample,
  '81 signs, 0 for blanks': blanksAs('0'),
  '81 signs, * for blanks': blanksAs('*'),
  '81 signs, _ for blanks': blanksAs('_'),
  '81 signs, - for blanks': blanksAs('-'),
  '81 signs, ? for blanks': blanksAs('?'),
  '81 signs, middle dots for blanks': blanksAs('·'),
  'blanks of several kinds': blanksAs('0').replace('0', '.').replace('0', '*').replace('0', '_'),
  '81 signs, indented, with trailing spaces': `   ${sample}   `,
  '81 signs in quotation marks': `"${sample}"`,
  '81 signs with a remark behind': `${sample} # from the assignment`,
  '81 signs with a remark at once behind': `${sample}#from the assignment`,
  '81 signs in groups of nine': rows.join(' '),
  '81 signs with commas': spaced(blanksAs('0'), ','),
  '81 signs with commas and spaces': spaced(blanksAs('0'), ', '),
  '81 fields, empty ones for blanks': spaced(sample, ',').replaceAll('.', ''),
  '81 signs wrapped at 40': `${sample.slice(0, 40)}\n${sample.slice(40, 80)}\n${sample.slice(80)}`,
  'three lines of 27': [sample.slice(0, 27), sample.slice(27, 54), sample.slice(54)].join('\n'),
  'one sign a line': spaced(sample, '\n'),
  'full-width digits': digitsFromFullWidth(sample),
  'full-width digits and dots': digitsFromFullWidth(blanksAs('．')),
  'full-width everything, ideographic spaces': digitsFromFullWidth(spaced(blanksAs('＊'), '\u3000')),
  'zero-width spaces strewn in': spaced(sample, '\u200b'),
  'nine lines': text(rows),
  'nine lines, no last newline': rows.join('\n'),
  'nine lines, CRLF': rows.join('\r\n'),
  'nine lines, lone CR': rows.join('\r'),
  'nine lines, blank lines between all': rows.join('\n\n'),
  'nine lines, blank lines between bands': text(banded(rows, '')),
  'nine lines, all dashes for blanks, whole rows of them too': blanksAs('-', text(rows)),
  'nine lines with a byte order mark': `\ufeff${text(rows)}`,
  'nine lines with remarks between': `# a name\n${text(banded(rows, '# next band'))}# the end`,
  'nine lines with a remark behind each': text(rows.map((row, i) => `${row}  # row ${i + 1}`)),
  'nine lines in gaps of three': text(rows.map((row) => thirds(row).join(' '))),
  'nine lines, spaces between all': text(rows.map((row) => spaced(row))),
  'nine lines, no-break spaces between all': text(rows.map((row) => spaced(row, '\u00a0'))),
  'nine lines, tabs between all': text(rows.map((row) => spaced(row, '\t'))),
  'nine lines, indented with a tab': text(rows.map((row) => `\t${row}`)),
  'nine lines, tabs between boxes': text(rows.map((row) => thirds(row).join('\t'))),
  'nine lines, tabs between cells and two between boxes': text(
    rows.map((row) =>
      thirds(row)
        .map((t) => spaced(t, '\t'))
        .join('\t\t'),
    ),
  ),
  'nine lines, wider gaps between boxes': text(
    rows.map((row) =>
      thirds(row)
        .map((t) => spaced(t))
        .join('   '),
    ),
  ),
  'nine lines, bars between boxes': text(rows.map((row) => thirds(row).join('|'))),
  'bars and rules of dashes': text(
    banded(
      rows.map((row) => thirds(row).join('|')),
      '-----------',
    ),
  ),
  'bars and rules with plus signs': text(
    banded(
      rows.map((row) => thirds(row).join('|')),
      '---+---+---',
    ),
  ),
  'spaced bars, dashes for blanks, rules': text(
    banded(
      rows.map((row) =>
        blanksAs(
          '-',
          thirds(row)
            .map((t) => spaced(t))
            .join(' | '),
        ),
      ),
      '------+-------+------',
    ),
  ),
  'dashes for blanks, rules of nine dashes': text(
    banded(
      rows.map((row) => blanksAs('-', row)),
      '---------',
    ),
  ),
  'rules of equals signs': text(
    banded(
      rows.map((row) => thirds(row).join('|')),
      '===========',
    ),
  ),
  'rules of underscores': text(
    banded(
      rows.map((row) => thirds(row).join('|')),
      '___________',
    ),
  ),
  'a full frame': `+---+---+---+\n${text(
    banded(
      rows.map((row) => `|${thirds(row).join('|')}|`),
      '+---+---+---+',
    ),
  )}+---+---+---+`,
  'a frame with bars in its rules': text(
    banded(
      rows.map((row) => `|${thirds(row).join('|')}|`),
      '|---+---+---|',
    ),
  ),
  'light Unicode lines': `┌───┬───┬───┐\n${text(
    banded(
      rows.map((row) => `│${thirds(row).join('│')}│`),
      '├───┼───┼───┤',
    ),
  )}└───┴───┴───┘`,
  'double Unicode lines': `╔═══╦═══╦═══╗\n${text(
    banded(
      rows.map((row) => `║${thirds(row).join('║')}║`),
      '╠═══╬═══╣',
    ),
  )}╚═══╩═══╩═══╝`,
  'heavy lines, every cell in a box': `${rows.map((row) => `┏━┳━┓\n┃${spaced(row, '┃')}┃`).join('\n')}\n┗━┻━┛`,
  'every cell in a box, spaces for blanks': rows
    .map((row) => `+---+---+---+---+---+---+---+---+---+\n| ${spaced(blanksAs(' ', row), ' | ')} |\n`)
    .join(''),
  'a Markdown table': `${text(rows.slice(0, 1).map((row) => `| ${spaced(blanksAs(' ', row), ' | ')} |`))}${'|---'.repeat(9)}|\n${text(rows.slice(1).map((row) => `| ${spaced(blanksAs(' ', row), ' | ')} |`))}`,
  'a Markdown table with an empty header': `|${'   |'.repeat(9)}\n${'|:-:'.repeat(9)}|\n${text(rows.map((row) => `| ${spaced(blanksAs(' ', row), ' | ')} |`))}`,
  'spaces for blanks': text(rows.map((row) => blanksAs(' ', row))),
  'spaces for blanks, trailing ones cut': text(rows.map((row) => blanksAs(' ', row).trimEnd())),
  'spaces for blanks, indented as code': text(rows.map((row) => `    ${blanksAs(' ', row)}`)),
  'spaces for blanks, a space between all': text(rows.map((row) => spaced(blanksAs(' ', row)))),
  'spaces for blanks between bars': text(rows.map((row) => `|${thirds(blanksAs(' ', row)).join('|')}|`)),
  'spaces for blanks between bars, padded': text(
    banded(
      rows.map(
        (row) =>
          `| ${thirds(blanksAs(' ', row))
            .map((t) => spaced(t))
            .join(' | ')} |`,
      ),
      '+-------+-------+-------+',
    ),
  ),
  CSV: text(rows.map((row) => blanksAs('', spaced(row, ',')))),
  'CSV with 0 for blanks': text(rows.map((row) => blanksAs('0', spaced(row, ',')))),
  'CSV with a comma at every end': text(rows.map((row) => `${blanksAs('', spaced(row, ','))},`)),
  'CSV, all quoted': text(rows.map((row) => [...row].map((sign) => `"${blanksAs('', sign)}"`).join(','))),
  'CSV with spaces': text(rows.map((row) => blanksAs('', spaced(row, ', ')))),
  'CSV with semicolons': text(rows.map((row) => blanksAs('', spaced(row, ';')))),
  TSV: text(rows.map((row) => blanksAs('', spaced(row, '\t')))),
  'a nested list in program text': JSON.stringify(
    rows.map((row) => [...row].map((sign) => Number(blanksAs('0', sign)))),
  ),
  'the same, indented': JSON.stringify(
    rows.map((row) => [...row].map((sign) => Number(blanksAs('0', sign)))),
    null,
    2,
  ),
  'a list of strings in program text': JSON.stringify(rows, null, 2),
  'in a code fence': `\`\`\`\n${text(rows)}\`\`\``,
  'in a code fence with a language': `~~~text\n${text(rows)}~~~`,
  'quoted in a mail': text(rows.map((row) => `> ${row}`)),
  'quoted twice, in a fence, CRLF': ['```', ...rows, '', '```'].map((line) => `> > ${line}`).join('\r\n'),
};

describe('one grid in the forms that people paste', () => {
  for (const [name, written] of Object.entries(wild)) {
    it(name, () => expect(mustRead(written)).toBe(sample));
  }

  it('a grid without a digit, in dashes only', () => {
    expect(mustRead('-'.repeat(81))).toBe('.'.repeat(81));
    expect(mustRead(text(Array.from({ length: 9 }, () => '-'.repeat(9))))).toBe('.'.repeat(81));
  });

  it('a row of dashes among rows of dots, where eight other rows are there', () => {
    const empty = rows.with(4, '.........');
    expect(mustRead(text(rows.with(4, '---------')))).toBe(empty.join(''));
    const wide = banded(rows.with(4, '---------'), '-----------');
    expect(mustRead(text(wide)), 'wider rules are rules').toBe(empty.join(''));
  });
});

describe('candidates', () => {
  const body = [
    '5 3 124 | 26 7 2468 | 1489 1249 248',
    '6 247 247 | 1 9 5 | 3478 234 2478',
    '12 9 8 | 23 34 24 | 13457 6 247',
    '8 125 1259 | 579 6 147 | 4579 2459 3',
    '4 25 2569 | 8 (5) 3 | 579 259 1',
    '7 15 1359 | 59 2 14 | 4589 459 6',
    '139 6 134579 | 357 35 (7) | 2 8 (4)',
    '23 278 237 | 4 1 9 | 36 (3) 5',
    '123 1245 12345 | 2356 8 26 | 1346 7 9',
  ];
  const expected = mustRead(text(body));
  const cellsOf = (line: string): string[] => line.replaceAll('|', ' ').trim().split(/\s+/);
  const variants: Readonly<Record<string, string>> = {
    'with rules': text(banded(body, '------+------+------')),
    'with rules of 27 dashes': text(banded(body, '-'.repeat(27))),
    'with rules of nine dashes': text(banded(body, '---------')),
    'without bars': text(body.map((line) => line.replaceAll(' | ', ' '))),
    'a bar after each cell': text(body.map((line) => `| ${cellsOf(line).join(' | ')} |`)),
    'as CSV': text(body.map((line) => cellsOf(line).join(','))),
    'as CSV with spaces in the fields': text(
      body.map((line) =>
        cellsOf(line)
          .map((cell) => spaced(cell))
          .join(','),
      ),
    ),
    'as CSV with commas in quoted fields': text(
      body.map((line) =>
        cellsOf(line)
          .map(
            (cell) =>
              `"${spaced(
                cell.replace(/[()]/g, (p) => p),
                ',',
              )}"`,
          )
          .join(','),
      ),
    )
      .replaceAll('(,', '(')
      .replaceAll(',)', ')'),
    'as TSV': text(body.map((line) => cellsOf(line).join('\t'))),
    'all on one line': body.map((line) => cellsOf(line).join(' ')).join(' '),
    'digits of a list in any order': text(body).replace('124', '421').replace('2468', '8642'),
    'quoted, in Unicode lines': text(body.map((line) => `> │ ${line.replaceAll('|', '│')} │`)),
  };
  it('a lone digit is placed, one in parentheses is open', () => {
    const result = readGrid(text(body));
    if (!result.ok) throw new Error(result.error.message);
    const { givens, marks } = result.value.grid;
    expect(givens.slice(0, 9)).toEqual([5, 3, 0, 0, 7, 0, 0, 0, 0]);
    expect(marks?.slice(0, 4)).toEqual([0, 0, 0b1011, 0b100010]);
    expect(givens[4 * 9 + 4]).toBe(0);
    expect(marks?.[4 * 9 + 4]).toBe(0b10000);
  });
  for (const [name, written] of Object.entries(variants)) {
    it(name, () => expect(mustRead(written)).toBe(expected));
  }
  it('blanks among them say nothing', () => {
    const read = mustRead(text(body.with(0, '5 3 . | 26 7 0 | - * _')));
    expect(read.startsWith('53..7....')).toBe(true);
  });
});

describe('other layouts', () => {
  const small = makeLayout({ name: '4x4', size: 4, boxOf: rectangularBoxes(2, 2) });
  const large = makeLayout({ name: '16x16', size: 16, boxOf: rectangularBoxes(4, 4) });
  it('4x4', () => {
    for (const form of ['1..4..2..3..4..1', '1..4\n..2.\n.3..\n4..1', '1.|.4\n..|2.\n--+--\n.3|..\n4.|.1'])
      expect(mustRead(form, small)).toBe('1..4..2..3..4..1');
    expect(mustRead('1 23 (4) .\n. . 2 .\n. 3 . .\n4 . . 1', small)).toBe(
      '1.....2..3..4..1 [0 6 8 0 0 0 0 0 0 0 0 0 0 0 0 0]',
    );
  });
  it('16x16 in signs, in either case, and in numbers', () => {
    const line = `123456789ABCDEFG${'.'.repeat(240)}`;
    const read = mustRead(line, large);
    expect(mustRead(line.toLowerCase(), large)).toBe(read);
    const numbers = [
      Array.from({ length: 16 }, (_, i) => i + 1).join(' '),
      ...Array(15).fill(spaced('.'.repeat(16))),
    ];
    expect(mustRead(text(numbers), large)).toBe(read);
    expect(mustRead(text(numbers.map((row) => row.replaceAll(' ', ','))), large)).toBe(read);
  });
});

describe('names and remarks', () => {
  it('the remark behind the grid is its name, otherwise the first one', () => {
    const named = (written: string) => {
      const result = readGrid(written);
      if (!result.ok) throw new Error(result.error.message);
      return [result.value.name, result.value.remarks, result.value.line];
    };
    expect(named(`${sample} # here`)).toEqual(['here', ['here'], 1]);
    expect(named(`# file\n# by me\n\n${sample}   # here  `)).toEqual(['here', ['file', 'by me', 'here'], 4]);
    expect(named(`\n## file\n${sample}\n# after`)).toEqual(['file', ['file', 'after'], 3]);
    expect(named(`${sample} #`)).toEqual([undefined, [], 1]);
    expect(named(`> # quoted\n> ${sample}`)).toEqual(['quoted', ['quoted'], 2]);
  });
});

describe('many grids', () => {
  const other = sample.split('').reverse().join('');
  it('one a line, with remarks, blank lines, a bad line that stops nothing', () => {
    const results = readGrids(
      `\ufeff# two and a bad one\r\n${sample} # first\r\n\r\n${sample.slice(1)}\r\n${other}`,
    );
    expect(results.map((result) => (result.ok ? shown(result.value.grid) : result.error.code))).toEqual([
      sample,
      'too-few-cells',
      other,
    ]);
    expect(results.map((result) => (result.ok ? result.value.line : result.error.line))).toEqual([2, 4, 5]);
    expect(results[0].ok && results[0].value.name).toBe('first');
  });
  it('in blocks with headings as remarks', () => {
    const results = readGrids(
      `# one\n${text(rows)}\n# two\n${text(rowsOf(other))}\n${text(banded(rows, '---+---+---'))}`,
    );
    expect(
      results.map((result) => (result.ok ? [result.value.name, shown(result.value.grid)] : result.error)),
    ).toEqual([
      ['one', sample],
      ['two', other],
      [undefined, sample],
    ]);
  });
  it('one grid over nine lines is one', () => {
    expect(readGrids(text(rows))).toHaveLength(1);
    expect(readGrids(text(banded(rows, '')))).toHaveLength(1);
  });
  it('a text without a grid gives one error', () => {
    for (const none of ['', '\n', '# nothing here', 'x\n\ny\n\nz']) {
      const results = readGrids(none);
      expect(results.map((result) => result.ok)).toEqual([false]);
    }
  });
  it('a line by itself', () => {
    expect(readGridLine('', 7)).toEqual({ ok: true, value: null });
    expect(readGridLine('# remark', 7)).toEqual({ ok: true, value: null });
    expect(readGridLine('```', 7)).toEqual({ ok: true, value: null });
    const good = readGridLine(`> ${sample} # x`, 7);
    expect(good.ok && good.value && [shown(good.value.grid), good.value.name, good.value.line]).toEqual([
      sample,
      'x',
      7,
    ]);
    const bad = readGridLine(`${sample.slice(0, 80)}x`, 7);
    expect(bad.ok ? null : [bad.error.line, bad.error.column]).toEqual([7, 81]);
  });
  it('is told from the first line whether there is one a line', () => {
    expect(isGridPerLine(`# x\n\n${sample} # a\n${sample}`)).toBe(true);
    expect(isGridPerLine(text(rows))).toBe(false);
    expect(isGridPerLine('')).toBe(false);
    expect(isGridPerLine(sample)).toBe(true);
    expect(isGridPerLine(`${sample.slice(1)}\n${sample.slice(2)}\n${sample}`)).toBe(true);
    expect(isGridPerLine(`${sample}\n`.repeat(2000))).toBe(true);
    expect(isGridPerLine(`${rows.join(' ')}\n`.repeat(2000))).toBe(true);
    expect(isGridPerLine(`${text(rows)}\n`.repeat(2000))).toBe(false);
    expect(
      isGridPerLine('1..4..2..3..4..1', makeLayout({ name: '4', size: 4, boxOf: rectangularBoxes(2, 2) })),
    ).toBe(true);
  });
  it('wide tables of candidates are no grids one a line', () => {
    // Rows and rules of such a table have more than 81 signs, and some rows 81 digits.
    for (const first of [0, 1, 9]) {
      const givens = Array.from({ length: 81 }, (_, cell) => (cell === 40 ? first : 0));
      const grid = gridOf(Position.from(plain, givens));
      for (const form of gridForms.filter((each) => each.carriesMarks)) {
        const written = form.make(grid);
        expect(isGridPerLine(written)).toBe(false);
        expect(
          readGrids(written).map((result) => (result.ok ? shown(result.value.grid) : result.error)),
        ).toEqual([shown(grid)]);
        expect(isGridPerLine(`${written}\n`.repeat(40)), form.name).toBe(false);
        expect(readGrids(`${written}\n`.repeat(40))).toHaveLength(40);
      }
    }
  });
  it.skipIf(!hasPublished)(`reads every line of the published sets${publishedNote}`, () => {
    // Counts as in the published folder's own description of its sets.
    const counts = {
      'top-95.txt': 95,
      'hard-187.txt': 187,
      'euler96-50.txt': 50,
      'random-minimal-2000.txt': 2000,
    };
    for (const [name, count] of Object.entries(counts)) {
      const lines = readPublishedSet(name);
      const results = readGrids(lines.join('\n'), { layout: plain });
      expect(results.map((result) => (result.ok ? shown(result.value.grid) : result.error.message))).toEqual(
        lines,
      );
      expect(results).toHaveLength(count);
    }
  });
});
