import { describe, expect, test } from 'vitest';
import type { HintRung, ToldLadder } from '../../source/hint/rung.ts';
import { type DrawOptions, draw } from '../../source/terminal/draw.ts';
import { markPlace } from '../../source/terminal/draw-grid.ts';
import { planScreen } from '../../source/terminal/layout-sizes.ts';
import { runsOf, type Screen } from '../../source/terminal/screen.ts';
import { type Bench, grid1333, openBench, sheetOf } from './bench.ts';

const sizes = [
  ['roomy', 110, 40],
  ['roomy with a narrow panel', 100, 40],
  ['tight', 100, 33],
  ['compact', 80, 24],
  ['compact without panel', 57, 24],
  ['tiny', 40, 15],
  ['too small', 32, 12],
] as const;

/** What a person may have on the screen, by what they have pressed on the way. */
const scenes: readonly (readonly [name: string, set: (bench: Bench) => void])[] = [
  ['work', (bench) => bench.type('r1c5=2 r4c8:36 r4c8<>4 7@r1:c6,c7 8@r6:c6 r4c8')],
  ['full', (bench) => bench.press('a')],
  ['slip', (bench) => bench.type('r7c8=4 r7c4=4 r7c4')],
  ['nothing left', (bench) => bench.type('r5c5<>2345679 r5c5')],
  ['find', (bench) => bench.press('a f 3')],
  ['bivalue', (bench) => bench.press('a b')],
  ['hint where', (bench) => bench.press('a w')],
  ['hint digits', (bench) => bench.press('a w w')],
  ['hint pattern', (bench) => bench.press('a w w w')],
  ['hint cells', (bench) => bench.press('a w w w w')],
  ['hint why', (bench) => bench.press('a w w w w w')],
  ['tag', (bench) => bench.press('t 2 t 9')],
  ['enter', (bench) => bench.press('e 1 2 1')],
  ['paste', (bench) => bench.paste(`${grid1333}\n${'.'.repeat(81)}`)],
  ['unreadable paste', (bench) => bench.paste('12\n34')],
  ['typed', (bench) => bench.type('r5c5=')],
  ['help', (bench) => bench.press('?')],
  ['goto', (bench) => bench.press('g')],
  ['instances', (bench) => bench.type('find two-string-kite')],
  ['trace', (bench) => bench.press('g 7 3 . . . . . .')],
  ['quit asked', (bench) => bench.press('2 q')],
];

const options: DrawOptions = { ascii: false, tints: true, digits: 'large' };

describe.each(sizes)('%s, %i x %i', (_, columns, rows) => {
  const screens = scenes.map(([name, set]) => {
    const bench = openBench(sheetOf(grid1333, 'a grid'), columns, rows);
    set(bench);
    return [name, draw(bench.app(), options), bench] as const;
  });

  test.each(screens)('%s fits the screen, one column a character', (_name, screen) => {
    expect(screen.width).toBeLessThanOrEqual(columns);
    expect(screen.height).toBeLessThanOrEqual(rows < 15 ? rows : rows - 1);
    for (const row of screen.rows) expect(row).toHaveLength(screen.width);
    const odd = screen.rows.flat().filter(({ char }) => [...char].length !== 1);
    expect(odd).toEqual([]);
  });

  test.each(screens)('%s in ASCII is ASCII, and everything stands where it stood', (_name, screen, bench) => {
    const ascii = draw(bench.app(), { ...options, ascii: true, digits: 'plain' });
    const plainDigits = draw(bench.app(), { ...options, digits: 'plain' });
    const chars = ascii.rows.flat().map(({ char }) => char);
    expect(chars.filter((char) => char < ' ' || char > '~')).toEqual([]);
    const words = (all: readonly string[]) =>
      all.map((char) => (/[a-z0-9!?]/i.test(char) ? char : ' ')).join('');
    // A struck sign is an x there, and a contour's higher blocks are figures.
    const inAscii = (char: string) => ({ '×': 'x', '▂': '2', '▃': '3' })[char] ?? char;
    const others = plainDigits.rows.flat().map(({ char }) => inAscii(char));
    expect(words(chars)).toBe(words(others));
    expect(ascii.rows).toHaveLength(screen.rows.length);
  });
});

test('a name that is blank, or has blanks around it, makes a plain title', () => {
  expect(openBench(sheetOf(grid1333, '   ')).rows()[0]).toMatch(/ {4}a grid$/);
  expect(openBench(sheetOf(grid1333, '  after ESC was left out ')).rows()[0]).toMatch(
    / {4}after ESC was left out$/,
  );
});

test.each([
  ['57 x 24', 57, 24],
  ['40 x 15', 40, 15],
] as const)('%s without a panel: a slip with the move and the way out, page by page', (_, columns, rows) => {
  const bench = openBench(sheetOf(grid1333), columns, rows);
  const pages = () => {
    const said: string[] = [];
    for (let page = 0; page < 6; page += 1) {
      const lines = bench.rows();
      const line = lines[lines.length - 2].trim();
      if (said.includes(line)) break;
      said.push(line);
      if (page === 0) expect(lines[lines.length - 1]).toContain('space next');
      bench.press('space');
    }
    return said.map((line) => line.replace(/\s+\d\/\d.*$/, '')).join(' ');
  };
  bench.type('r7c4=2');
  expect(pages()).toBe('! Row 7 has 2 twice: r7c4 and r7c6. u takes back r7c4=2.');
  bench.type('r5c6:67');
  expect(pages()).toContain('z goes back to before r7c4=2, 2 moves ago.');
});

test('where it is too small it says what it needs, in one line', () => {
  const bench = openBench(sheetOf(grid1333), 60, 12);
  expect(bench.rows()).toEqual(['inkling needs 40 x 15; this is 60 x 12.']);
  bench.store.send({ kind: 'resize', size: { columns: 30, rows: 8 } });
  expect(bench.rows()).toEqual(['needs 40 x 15; is 30 x 8']);
  for (let columns = 1; columns <= 300; columns += 13) {
    for (let rows = 1; rows <= 100; rows += 3) {
      bench.store.send({ kind: 'resize', size: { columns, rows } });
      expect(bench.rows()[0].length).toBeLessThanOrEqual(columns);
    }
  }
});

test('a long name, and why nothing is saved, stand whole in the narrow panel', () => {
  const bench = openBench(sheetOf(grid1333, 'Makeready (first of several)'), 80, 24);
  bench.store.send({ kind: 'saving', saved: -1, problem: 'no folder there' });
  const panel = bench.rows().map((row) => row.slice(58).trimEnd());
  expect(panel.slice(0, 5)).toEqual(['Makeready (first of', 'several)', 'not saved: no folder', 'there', '']);
});

describe('as text', () => {
  const golden = async (name: string, bench: Bench, drawn: Partial<DrawOptions> = {}) => {
    await expect(`${bench.rows(drawn).join('\n')}\n`).toMatchFileSnapshot(
      `screens/${name.replaceAll(' ', '-')}.txt`,
    );
  };
  test.each(scenes.filter(([name]) => !name.startsWith('unreadable')))('80 x 24: %s', async (name, set) => {
    const bench = openBench(sheetOf(grid1333, 'line 1333'), 80, 24);
    set(bench);
    await golden(`80x24 ${name}`, bench);
  });
  test.each([
    ['100x40', 100, 40],
    ['57x24', 57, 24],
    ['40x15', 40, 15],
  ] as const)('%s: work, slip, hint why', async (size, columns, rows) => {
    for (const name of ['work', 'slip', 'hint where', 'hint why']) {
      const bench = openBench(sheetOf(grid1333, 'line 1333'), columns, rows);
      scenes.find(([each]) => each === name)?.[1](bench);
      await golden(`${size} ${name}`, bench);
    }
  });
  test('80 x 24 in ASCII without tints', async () => {
    const bench = openBench(sheetOf(grid1333, 'line 1333'), 80, 24);
    bench.press('a w');
    await golden('80x24 ascii', bench, { ascii: true, tints: false });
  });
});

describe('nothing moves', () => {
  /** Where every mark and placed digit of the grid stands. */
  function digitsOf(screen: Screen, bench: Bench): string[] {
    const plan = planScreen(bench.app().size);
    if (!plan || plan.name === 'tiny') return [];
    const { state } = bench.app().sheet;
    return state.givens.flatMap((_, index) => {
      const x = plan.cellX(index % 9);
      const y = plan.cellY(Math.floor(index / 9));
      return Array.from({ length: 9 }, (__, i) => {
        const place = markPlace(plan, i + 1);
        const glyph = screen.rows[y + place.y][x + place.x];
        return glyph.char === String(i + 1) ? `${index}:${i + 1}` : '';
      }).filter((text) => text !== '');
    });
  }

  test.each(sizes.slice(0, 5))('%s: a hint leaves every mark in its place', (_, columns, rows) => {
    const bench = openBench(sheetOf(grid1333), columns, rows);
    bench.press('a');
    const before = digitsOf(draw(bench.app(), options), bench);
    expect(before.length).toBeGreaterThan(150);
    for (let rung = 0; rung < 5; rung += 1) {
      bench.press('w');
      const after = new Set(digitsOf(draw(bench.app(), options), bench));
      // A sign may stand over a plain mark where a cell is full; no mark may stand elsewhere.
      const gone = before.filter((each) => !after.has(each));
      expect(gone.length).toBeLessThanOrEqual(2);
      expect(after.size + gone.length).toBe(before.length);
    }
  });
});

describe('a hint shows what its rung allows', () => {
  const drawing = { house: null, houses: [], cells: [], candidates: [] } as const;
  /** A ladder whose words and drawings are plain to see, and whose step is a trap. */
  const secret = ['SECRET-digits', 'SECRET-pattern', 'SECRET-cells', 'SECRET-why'];
  function trapLadder(): ToldLadder {
    const bench = openBench(sheetOf(grid1333));
    bench.press('a w');
    const real = bench.app().hint?.ladder;
    if (!real) throw new Error('no hint');
    const rungs = real.rungs.map((rung, index): HintRung => {
      const text = index === 0 ? 'Look at row 1.' : secret[index - 1];
      const house = index === 0 ? 0 : null;
      const candidates = index < 3 ? [] : [{ candidate: 4 * 9 + 1, role: 'strike' as const }];
      return { ...rung, lines: [{ sign: '', text }], drawing: { ...drawing, house, candidates }, json: {} };
    });
    return { ...real, rungs };
  }

  test.each(sizes.slice(0, 6))('%s: nothing of a later rung is on the screen', (_, columns, rows) => {
    const ladder = trapLadder();
    const bench = openBench(sheetOf(grid1333), columns, rows, { findHint: () => ladder });
    const before = draw(bench.app(), options);
    bench.press('w');
    for (let at = 0; at < 5; at += 1) {
      const text = bench.rows().join('\n');
      for (const [index, word] of secret.entries()) if (index + 1 > at) expect(text).not.toContain(word);
      const roles = new Set(
        draw(bench.app(), options)
          .rows.flat()
          .map(({ role }) => role),
      );
      if (at < 3) expect(roles.has('strike')).toBe(false);
      bench.press('w');
    }
    bench.press('escape');
    expect(draw(bench.app(), options)).toEqual(before);
  });

  test('with the same first rung two different steps look the same', () => {
    const one = openBench(sheetOf(grid1333));
    one.press('a w');
    const first = one.app().hint?.ladder;
    if (!first) throw new Error('no hint');
    const other: ToldLadder = {
      ...first,
      rungs: [first.rungs[0], ...trapLadder().rungs.slice(1)],
      written: null,
    };
    const two = openBench(sheetOf(grid1333), 80, 24, { findHint: () => other });
    two.press('a w');
    expect(two.rows()).toEqual(one.rows());
  });
});

test('the terminal’s own cursor sits in the selected cell, over no mark', () => {
  for (const [, columns, rows] of sizes.slice(0, 6)) {
    const bench = openBench(sheetOf(grid1333), columns, rows);
    bench.press('a');
    const plan = planScreen({ columns, rows });
    for (let moves = 0; moves < 9; moves += 1) {
      bench.press('right');
      const screen = draw(bench.app(), options);
      const { x, y } = screen.cursor ?? { x: -1, y: -1 };
      const left = plan?.cellX(bench.app().cursor % 9) ?? 0;
      expect(x >= left && x < left + (plan?.cellWidth ?? 0)).toBe(true);
      expect(screen.rows[y][x].ground).toBe('cursor');
      if (plan?.name !== 'tiny' && bench.app().sheet.state.givens[bench.app().cursor] === 0) {
        expect(screen.rows[y][x].char).toBe(' ');
      }
    }
  }
});

test('runs put together again are the row', () => {
  const bench = openBench(sheetOf(grid1333));
  bench.press('a w w w w w');
  for (const row of draw(bench.app(), options).rows) {
    const text = runsOf(row)
      .map((run) => run.text)
      .join('');
    expect(
      row
        .map(({ char }) => char)
        .join('')
        .trimEnd(),
    ).toBe(text.trimEnd());
  }
});
