import { describe, expect, test } from 'vitest';
import { plain } from '../../source/grid/layout.ts';
import { parseCell, parseHouse } from '../../source/grid/names.ts';
import type { Drawing, DrawnCandidate } from '../../source/hint/rung.ts';
import { reduce } from '../../source/sheet/sheet.ts';
import { drawGrid } from '../../source/terminal/draw-grid.ts';
import { lookAt } from '../../source/terminal/grid-look.ts';
import { planScreen } from '../../source/terminal/layout-sizes.ts';
import { Canvas, plainRows, toAscii } from '../../source/terminal/screen.ts';
import { type Bench, grid1333, openBench, sheetOf } from './bench.ts';

// The screens of the design study, character by character: drawn by hand there, by the program here.

const cell = (name: string): number => parseCell(plain, name) ?? -1;
const at = (name: string, digit: number): number => cell(name) * 9 + digit - 1;
const house = (name: string): number => parseHouse(plain, name)?.index ?? -1;

/** The grid alone of a bench, with a drawing over it. */
function gridRows(bench: Bench, drawing: Drawing | null, ascii = false): string[] {
  const app = bench.app();
  const plan = planScreen(app.size);
  if (!plan) throw new Error('too small');
  const canvas = new Canvas(plan.right + 2, plan.height);
  const { state } = app.sheet;
  const scene = {
    state,
    cursor: app.cursor,
    slips: app.slips,
    drawing,
    found: null,
    bivalue: new Set<number>(),
  };
  drawGrid(canvas, plan, lookAt(scene), { ascii, tints: !ascii, digits: 'large' });
  return plainRows(canvas.finish(null, ascii ? toAscii : undefined));
}

const inks = 'r1c5=2 r5c4=2 r8c7=2 r9c2=2 r9c6=6';

describe('the screens of the design study', () => {
  test('compact, rung why, an X-wing', () => {
    const bench = openBench(sheetOf(grid1333));
    bench.type(inks);
    bench.press('a');
    bench.type('r3c8<>1 r4c7<>4 r4c8<>4 r5c7<>4 r5c8<>14 r5c5');
    const fact = (letter: string, ...names: string[]): DrawnCandidate[] =>
      names.map((name) => ({ candidate: at(name, 1), role: 'fact', letter }));
    const role = (name: DrawnCandidate['role'], ...names: string[]): DrawnCandidate[] =>
      names.map((each) => ({ candidate: at(each, 1), role: name }));
    const drawing: Drawing = {
      house: null,
      houses: [
        { house: house('c1'), letter: 'A' },
        { house: house('c9'), letter: 'B' },
      ],
      cells: [],
      candidates: [
        ...fact('A', 'r2c1', 'r5c1'),
        ...fact('B', 'r2c9', 'r5c9'),
        ...role('strike', 'r2c3', 'r2c7', 'r5c3', 'r5c7'),
        ...role('out-already', 'r5c8'),
      ],
    };
    expect(gridRows(bench, drawing).slice(0, 21)).toEqual([
      '    c1    c2    c3    c4    c5    c6    c7    c8    c9',
      'r1    3    4     6  │  1     2        │   3    5',
      '      89            │              789│  78           89',
      'r2 1A 3     3  1× 3 │   3     3    4  │1× 3    2   1B',
      '   5  89 5 7 9 5  89│ 67 9  6789      │  78           89',
      'r3   2      3  1  3 │   3     3    5  │1  34 ·  34   6',
      '           7 9    89│  7 9   789      │  78    78',
      '   ─────────────────┼─────────────────┼─────────────────',
      'r4   7      3    2  │   34    34   1  │   3·    3·     4',
      '         56  9      │56  9 56 89      │56 8   6 8     8',
      'r5 1A 3    8   1× 3 │  2  ▐   34▌     │1× 3· 1/ 3· 1B  4',
      '   56  9       5   9│     ▐567 9▌  7 9│567    67',
      'r6   4      3  1  3 │   3     3       │1  3    9     2',
      '         56    5    │567   5678    78 │5678',
      '   ─────────────────┼─────────────────┼─────────────────',
      'r7         1       4│    4     4   2  │    4     4   3',
      '   56 89       5  89│5 7 9 5 7 9      │ 6 8   6 8',
      'r8               7  │    4 1   4   3  │  2   1   4   5',
      '    6 89  6  9      │    9     9      │       6 8',
      'r9    3    2      34│  8   1   4   6  │  9   1   4   7',
      '   5           5    │      5          │',
    ]);
  });

  test('compact in ASCII, pens at work', () => {
    const bench = openBench(sheetOf(grid1333));
    bench.type(inks);
    bench.type('r1c1:89 3@r1:c1,c7 r1c6:89 r1c7:78 7@r1:c6,c7 r1c9:89 r2c9:89 1@c1:r2,r5 1@c9:r2,r5');
    bench.type('r3c2:379 r3c4:379 r4c8:368 r4c8<>4 r4c9:48 r5c8:367 r5c8<>14 r5c9:14 r5c6:79');
    bench.type('r6c2:356 r6c3:135 r6c6:78 r7c7:468 r7c8:468 r8c1:89 r8c2:69 r8c4:49 r8c5:149');
    bench.type('6@b7:r7c1,r8c1,r8c2 4@b8:r7c4,r7c5,r8c4,r8c5,r9c5');
    bench.type('r9c1:35 r9c3:345 r9c5:15 r9c8:14 8@b5:r6c6 r4c8');
    expect(gridRows(bench, null, true).slice(0, 21)).toEqual([
      '    c1    c2    c3    c4    c5    c6    c7    c8    c9',
      'r1    3    4     6  |  1    _2_       |   3    5',
      '      89            |              789|  78           89',
      'r2 1                |              4  |        2   1',
      '                    |                 |               89',
      'r3   2      3       |   3          5  |              6',
      '           7 9      |  7 9            |',
      '   -----------------+-----------------+-----------------',
      'r4   7           2  |              1  |     [   3.]    4',
      '                    |                 |     [ 6 8 ]   8',
      'r5 1       8        | _2_             |      .  3. 1   4',
      '                    |              7 9|       67',
      'r6   4      3  1  3 |                 |        9     2',
      '         56    5    |              78?|',
      '   -----------------+-----------------+-----------------',
      'r7         1        |    4     4   2  |    4     4   3',
      '    6               |                 | 6 8   6 8',
      'r8               7  |    4 1   4   3  | _2_          5',
      '    6 89  6  9      |    9     9      |',
      'r9    3   _2_     34|  8   1   4  _6_ |  9   1   4   7',
      '   5           5    |      5          |',
    ]);
  });

  test('a slip, compact: the clash and a cell with nothing left', () => {
    const bench = openBench(sheetOf(grid1333));
    bench.type(`${inks} r7c8=4 r8c8=1`);
    bench.type('6@b7:r7c1,r8c1,r8c2 r7c7:68 r8c1:89 r8c2:9 r8c4:9 r8c5:9 r9c1:35 r9c3:345 r9c5:15');
    bench.type('r7c4=4 r7c4');
    const rows = gridRows(bench, null).slice(15, 17);
    expect(rows).toEqual([
      'r7         1        ▐  4! ▌        2  │        4!    3',
      '    6               ▐     ▌           │ 6 8',
    ]);
    expect(bench.app().slips.map((slip) => slip.text)).toContain('Row 7 has 4 twice: r7c4 and r7c8.');
  });

  test('roomy: large digits, marks three by three, a cell fact of two places', () => {
    const bench = openBench(sheetOf(grid1333), 110, 40);
    bench.press('a');
    const drawing: Drawing = {
      house: null,
      houses: [],
      cells: [cell('r1c5')],
      candidates: [
        { candidate: at('r1c5', 2), role: 'fact', letter: 'A' },
        { candidate: at('r1c5', 3), role: 'strike' },
      ],
    };
    expect(gridRows(bench, drawing).slice(0, 5)).toEqual([
      '     c1      c2      c3      c4      c5      c6      c7      c8      c9',
      '        3    ╻ ╻     ┏━╸  │  ╺┓       2A3×        │     3    ┏━╸',
      'r1           ┗━┫     ┣━┓  │   ┃                   │          ┗━┓',
      '      8 9      ╹     ┗━┛  │  ╺┻╸    7 8 9   7 8 9 │ 7 8      ╺━┛      8 9',
      '                          │                       │',
    ]);
  });
});

test('neighbouring marks of one fact share one sign, and signs go left or over a mark where they must', () => {
  const sheet = reduce(sheetOf('.'.repeat(81)), {
    kind: 'set-note',
    cell: cell('r1c1'),
    digits: 0b111101100,
  });
  const bench = openBench(sheet);
  const drawn = (...digits: number[]): Drawing => ({
    house: null,
    houses: [],
    cells: [],
    candidates: digits.map((digit) => ({ candidate: at('r1c1', digit), role: 'fact', letter: 'A' })),
  });
  const first = (...digits: number[]) => gridRows(bench, drawn(...digits)).slice(1, 3);
  // The note is 3 4 6 7 8 9.
  expect(first(3, 4)).toEqual([
    `${'r1   A34'.padEnd(20)}│                 │`,
    `${'    6789'.padEnd(20)}│                 │`,
  ]);
  expect(first(3)[0].slice(0, 9)).toBe('r1   A34 ');
  expect(first(7)[1].slice(0, 9)).toBe('    67A9 ');
  expect(first(6, 7, 8, 9)[1].slice(0, 9)).toBe('   A6789 ');
});
