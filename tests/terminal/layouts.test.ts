import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { factName } from '../../source/argument/fact.ts';
import { digitsIn } from '../../source/grid/candidates.ts';
import { type Layout, plain } from '../../source/grid/layout.ts';
import { readLayout } from '../../source/grid/layout-reader.ts';
import { cellName, digitName, parseCell } from '../../source/grid/names.ts';
import { readGrid } from '../../source/grid/read.ts';
import { liveNote, placedAt } from '../../source/sheet/marks.ts';
import { newSheet } from '../../source/sheet/sheet.ts';
import type { Sheet } from '../../source/sheet/state.ts';
import { type DrawOptions, draw } from '../../source/terminal/draw.ts';
import { markPlace } from '../../source/terminal/draw-grid.ts';
import { leastSize, planScreen } from '../../source/terminal/layout-sizes.ts';
import { regionShades } from '../../source/terminal/region-shades.ts';
import { plainRows } from '../../source/terminal/screen.ts';
import { type Bench, openBench } from './bench.ts';

const root = new URL('../../puzzles/', import.meta.url);

function layoutNamed(
  name: string,
  text = readFileSync(new URL(`layouts/${name}.txt`, root), 'utf8'),
): Layout {
  const layout = readLayout(text, name);
  if (!layout.ok) throw new Error(layout.error.message);
  return layout.value;
}

/** The sheet of a grid that comes with the program, on the layout that the file names. */
function shippedSheet(file: string): Sheet {
  const text = readFileSync(new URL(file, root), 'utf8');
  const [, name] = /^# layout: (.+)$/m.exec(text) ?? [];
  const layout = name === undefined ? plain : layoutNamed(name);
  const read = readGrid(text, { layout });
  if (!read.ok) throw new Error(read.error.message);
  return newSheet(layout, read.value.grid.givens, read.value.name ?? '');
}

const files = readdirSync(root).filter((name) => /^1[3-8].*\.txt$/.test(name));
const sizes = [
  [40, 15],
  [56, 23],
  [80, 24],
  [100, 33],
  [120, 45],
  [190, 50],
  [210, 90],
] as const;

const options: DrawOptions = { ascii: false, tints: true, digits: 'plain' };
const lines = '│─┼├┤┬┴┌┐└┘';

/** What is on the screen before and after all candidates are noted, a digit looked for and a hint asked. */
const scenes: readonly (readonly [name: string, set: (bench: Bench) => void])[] = [
  ['work', () => {}],
  ['full', (bench) => bench.press('a')],
  ['find', (bench) => bench.press('a f 3')],
  ['hint', (bench) => bench.press('w w w w w')],
  ['help', (bench) => bench.press('?')],
];

describe.each(files)('%s', (file) => {
  const sheet = shippedSheet(file);
  const { layout } = sheet.state;
  const { size, boxOf } = layout;

  test.each(sizes)('at %i x %i nothing is drawn outside the screen', (columns, rows) => {
    for (const [name, set] of scenes) {
      const bench = openBench(sheet, columns, rows);
      set(bench);
      const asked: number[] = [];
      for (const ascii of [false, true]) {
        const screen = draw(bench.app(), { ...options, ascii, tints: !ascii });
        expect(screen.width, name).toBeLessThanOrEqual(columns);
        expect(screen.height, name).toBeLessThanOrEqual(rows - 1);
        const chars = screen.rows.flat().map(({ char }) => char);
        expect(chars.filter((char) => [...char].length !== 1 || (ascii && char > '~'))).toEqual([]);
        // `?` would stand for a character that has no ASCII form.
        asked.push(chars.filter((char) => char === '?').length);
      }
      expect(asked[1]).toBe(asked[0]);
    }
  });

  test.each(sizes)('at %i x %i every digit, mark and line is where it belongs', (columns, rows) => {
    const plan = planScreen({ columns, rows }, layout);
    if (plan === null) {
      const least = leastSize(layout);
      expect(least.columns > columns || least.rows > rows).toBe(true);
      const [said] = openBench(sheet, columns, rows).rows();
      expect(said).toContain(`${least.columns} x ${least.rows}`);
      return;
    }
    const bench = openBench(sheet, columns, rows);
    bench.press('a');
    const { state } = bench.app().sheet;
    const screen = draw(bench.app(), options).rows;
    for (let cell = 0; cell < layout.cellCount; cell += 1) {
      const [row, column] = [Math.floor(cell / size), cell % size];
      const [x, y] = [plan.cellX(column), plan.cellY(row)];
      const digit = placedAt(state, cell);
      if (digit !== 0) {
        expect(screen[y + plan.digitLine][x + plan.digitColumn].char).toBe(digitName(digit));
      } else if (plan.name !== 'tiny') {
        for (const noted of digitsIn(liveNote(state, cell))) {
          const place = markPlace(plan, noted);
          expect(place.x < plan.cellWidth && place.y < plan.cellHeight).toBe(true);
          expect(screen[y + place.y][x + place.x].char).toBe(digitName(noted));
        }
      }
      if (cell === bench.app().cursor || cell - 1 === bench.app().cursor) continue;
      const right = column < size - 1 ? plan.gapX(column) : null;
      if (right !== null && cell + 1 !== bench.app().cursor) {
        const isLine = lines.includes(screen[y][right].char);
        expect([cell, isLine]).toEqual([cell, boxOf[cell] !== boxOf[cell + 1]]);
      }
      if (row === size - 1) continue;
      const parted = boxOf[cell] !== boxOf[cell + size];
      const below = plan.gapY(row);
      // Where rows touch, the line is at the foot, behind what stands there.
      const foot = screen[y + plan.cellHeight - 1].slice(x, x + plan.cellWidth).map(({ char }) => char);
      if (below !== null) expect(screen[below][x].char === '─').toBe(parted);
      else expect(foot.includes('▁')).toBe(parted && foot.some((char) => !/[\dA-P·:]/.test(char)));
    }
  });
});

test('cells of one row, and of one column, never overlap, whatever the layout and the terminal', () => {
  const odd = [
    'size 2\nboxes 1x2',
    'size 5\nregions\nAAABB\nAABBB\nCCCCC\nDDEEE\nDDDEE',
    'size 10\nboxes 2x5\ndiagonals',
    'size 12\nboxes 3x4',
    'size 25\nboxes 5x5',
  ].map((text) => layoutNamed('odd', text));
  for (const layout of [plain, ...odd]) {
    const least = leastSize(layout);
    expect(planScreen({ ...least, columns: least.columns - 1 }, layout)).toBeNull();
    expect(planScreen({ ...least, rows: least.rows - 1 }, layout)).toBeNull();
    for (let columns = least.columns; columns < 400; columns += 7) {
      for (let rows = least.rows; rows < 200; rows += 5) {
        const plan = planScreen({ columns, rows }, layout);
        if (plan === null) throw new Error(`no plan for ${columns} x ${rows}`);
        expect(plan.height).toBeLessThan(rows);
        expect(plan.right).toBeLessThan(columns);
        expect(plan.bottom).toBeLessThan(plan.messageY);
        for (let i = 1; i < layout.size; i += 1) {
          expect(plan.cellX(i)).toBe(
            plan.cellX(i - 1) + plan.cellWidth + (plan.gapX(i - 1) === null ? 0 : 1),
          );
          expect(plan.cellY(i)).toBe(
            plan.cellY(i - 1) + plan.cellHeight + (plan.gapY(i - 1) === null ? 0 : 1),
          );
        }
        if (plan.panel) expect(plan.panel.x).toBeGreaterThan(plan.right);
        const places = Array.from({ length: layout.size }, (_, i) => markPlace(plan, i + 1));
        if (plan.name === 'tiny') continue;
        expect(new Set(places.map(({ x, y }) => `${x} ${y}`)).size).toBe(layout.size);
        // The place of the cursor, and of signs, has no mark.
        const free = plan.isRoomy ? `0 ${plan.digitLine}` : `${plan.digitColumn} 0`;
        expect(places.map(({ x, y }) => `${x} ${y}`)).not.toContain(free);
      }
    }
  }
});

test('regions that touch stand on different grounds; rectangles need none', () => {
  const layout = layoutNamed('regions');
  const shades = regionShades(layout) ?? [];
  expect(new Set(shades).size).toBeGreaterThan(1);
  layout.boxOf.forEach((box, cell) => {
    for (const other of [cell % 9 < 8 ? cell + 1 : cell, cell < 72 ? cell + 9 : cell]) {
      if (layout.boxOf[other] !== box) expect(shades[layout.boxOf[other]]).not.toBe(shades[box]);
    }
  });
  expect(regionShades(plain)).toBeNull();
  expect(regionShades(layoutNamed('6x6'))).toBeNull();
});

test('diagonals and extra boxes are told without colours by signs, with colours by their ground', () => {
  for (const [file, signs, count] of [
    ['15-crop-marks.txt', '/\\x', 17],
    ['16-inset.txt', '+', 36],
  ] as const) {
    for (const [columns, rows] of sizes.slice(2, 5)) {
      const bench = openBench(shippedSheet(file), columns, rows);
      bench.press('g 2 1');
      const { layout } = bench.app().sheet.state;
      const inExtra = new Set(
        layout.houses
          .filter(({ kind }) => kind === 'diagonal' || kind === 'extra')
          .flatMap(({ cells }) => cells),
      );
      expect(inExtra.size).toBe(count);
      const plan = planScreen({ columns, rows }, layout);
      if (plan === null) throw new Error('too small');
      const told = draw(bench.app(), { ...options, tints: false }).rows;
      const tinted = draw(bench.app(), options).rows;
      for (let cell = 0; cell < layout.cellCount; cell += 1) {
        if (cell === bench.app().cursor) continue;
        const [x, y] = [plan.cellX(cell % 9), plan.cellY(Math.floor(cell / 9))];
        const own = told.slice(y, y + plan.cellHeight).flatMap((row) => row.slice(x, x + plan.cellWidth));
        const hasSign = own.some(({ char, role }) => role === 'houseSign' && signs.includes(char));
        expect([cell, hasSign]).toEqual([cell, inExtra.has(cell)]);
        expect([cell, tinted[y][x].ground === 'extra']).toEqual([cell, inExtra.has(cell)]);
      }
    }
  }
});

test.each([
  ['17-offcuts.txt', 80, 24, 'a', {}],
  ['17-offcuts.txt', 120, 45, '', { digits: 'large' }],
  ['15-crop-marks.txt', 80, 24, 'a', { ascii: true, tints: false }],
  ['16-inset.txt', 80, 24, 'w w w w w', { tints: false }],
  ['14-postcard.txt', 80, 24, 'a', { digits: 'large' }],
  ['13-thumbnail.txt', 80, 24, '', { digits: 'large' }],
  ['18-broadsheet.txt', 80, 24, 'a', {}],
  ['18-broadsheet.txt', 190, 45, 'a', {}],
] as const)('%s at %i x %i after %j looks as it did', async (file, columns, rows, keys, drawn) => {
  const bench = openBench(shippedSheet(file), columns, rows);
  if (keys !== '') bench.press(keys);
  const name = `${columns}x${rows}-${file.slice(3, -4)}`;
  const shown = plainRows(draw(bench.app(), { ...options, ...drawn }));
  await expect(`${shown.join('\n')}\n`).toMatchFileSnapshot(`screens/${name}.txt`);
});

describe('digits beyond nine are written with ; and one more key', () => {
  const bench = () => openBench(shippedSheet('18-broadsheet.txt'));
  const at = (opened: Bench, name: string) => {
    const { state } = opened.app().sheet;
    return placedAt(state, parseCell(state.layout, name) ?? -1);
  };

  test.each([
    ['g 1 2 ; 3', 'D'],
    ['g 1 2 ; d', 'D'],
    ['g 1 2 ; 0', 'A'],
    ['g 1 2 7', '7'],
  ])('%s', (keys, digit) => {
    const opened = bench();
    opened.press(keys);
    expect(digitName(at(opened, 'r1c2'))).toBe(digit);
    expect(opened.app().mode.kind).toBe('work');
  });

  test('in notes, tags, on the way to a cell, in what is shown and held, and while a grid is entered', () => {
    const opened = bench();
    opened.press('g ; 2 ; 0');
    expect(cellName(opened.app().sheet.state.layout, opened.app().cursor)).toBe('r12c10');
    opened.press('g 9 1 n ; 5 ; 3 2');
    const { layout, notes } = opened.app().sheet.state;
    expect(digitsIn(notes[opened.app().cursor]).map(digitName)).toEqual(['2', 'D', 'F']);
    opened.press('t ; d');
    expect([...opened.app().sheet.state.tags.keys()]).toEqual([opened.app().cursor * 16 + 12]);
    expect(opened.app().mode.kind).toBe('tag');
    opened.press('escape f ; 4');
    expect(opened.app().found).toBe(14);
    opened.press('d ; 5');
    expect(opened.app().held).toBe(15);
    opened.press('e ; 6 ; escape 1');
    expect([at(opened, 'r1c1'), at(opened, 'r1c2')]).toEqual([16, 1]);
    expect(layout.size).toBe(16);
  });

  test('typed: r1c2=D, find 13, hold 16', () => {
    const opened = bench();
    opened.type('r1c2=D');
    expect(at(opened, 'r1c2')).toBe(13);
    opened.type('find 13');
    expect(opened.app().found).toBe(13);
    opened.type('find 17');
    expect([opened.app().found, opened.app().message]).toEqual([13, ['17 is no digit.']]);
  });

  test('any other key does what it does, and a digit that there is not is said', () => {
    const opened = bench();
    opened.press('g 1 2 ; right');
    expect([opened.app().mode.kind, opened.app().cursor]).toEqual(['work', 2]);
    opened.press('; 9');
    expect(opened.app().message).toEqual(['Digits go from 1 to G here.']);
    const small = openBench(shippedSheet('13-thumbnail.txt'));
    for (const keys of ['7', 'f 5', 'g 6', 'd 9', 't 8']) {
      small.press('escape');
      const before = small.app().sheet;
      small.press(keys);
      expect([keys, ...small.app().message]).toEqual([keys, 'Digits go from 1 to 4 here.']);
      expect(small.app().sheet).toBe(before);
    }
    small.press('escape ;');
    expect(small.app().message).toEqual(['Digits go from 1 to 4 here.']);
    expect(small.rows().join(' ')).toContain('1-4 write');
    for (const [other, isTold] of [
      [small, false],
      [opened, true],
    ] as const) {
      other.press('escape ?');
      expect(other.rows().some((row) => row.includes('a digit from ten on'))).toBe(isTold);
    }
  });
});

test('spots can be made for diagonals and extra boxes, where there are any', () => {
  const crossed = openBench(shippedSheet('15-crop-marks.txt'));
  crossed.press('v v v');
  expect(crossed.app().spotHouse).toBe('diagonal');
  crossed.press('g 1 9 4');
  const { layout, spots } = crossed.app().sheet.state;
  expect([...spots.keys()].map((fact) => factName(layout, fact))).toEqual(['4@d2']);
  crossed.press('g 1 8 4');
  expect(crossed.app().message).toEqual(['r1c8 does not lie on a diagonal.']);
  crossed.press('v');
  expect(crossed.app().spotHouse).toBe('box');
  const inset = openBench(shippedSheet('16-inset.txt'));
  inset.press('v v v g 2 4 8');
  const state = inset.app().sheet.state;
  expect([...state.spots.keys()].map((fact) => factName(state.layout, fact))).toEqual(['8@x1']);
  expect(inset.rows().join(' ')).toContain('spot in extra box');
});
