import { describe, expect, test } from 'vitest';
import { plain } from '../../source/grid/layout.ts';
import { parseCell } from '../../source/grid/names.ts';
import type { DrawnCandidate } from '../../source/hint/rung.ts';
import { draw } from '../../source/terminal/draw.ts';
import { planScreen } from '../../source/terminal/layout-sizes.ts';
import { makeTheme } from '../../source/terminal/themes.ts';
import { success } from '../../source/text/result.ts';
import { grid1333, openBench, sheetOf } from './bench.ts';

/** One open cell for each role, far from each other and from the cursor; in each 3 is a candidate. */
const cells = {
  fact: 'r1c1',
  strike: 'r1c7',
  placement: 'r4c4',
  overlooked: 'r6c7',
  'fact-not-chosen': 'r9c1',
  'out-already': 'r3c5',
} as const;
type DrawnAs = keyof typeof cells;
const roles = Object.keys(cells) as DrawnAs[];

const candidates = roles.map((role): DrawnCandidate => {
  const cell = parseCell(plain, cells[role]) ?? 0;
  const letter = role === 'fact' || role === 'fact-not-chosen' ? { letter: 'A' } : {};
  return { candidate: cell * 9 + 2, role, ...letter };
});

/**
 * What each role looks like without colours: signs and attributes of its cell, the notes beside it left out.
 * `at`: which of them are looked at.
 */
function looks(columns: number, rows: number, ascii: boolean, at: 'signs' | 'all'): Record<DrawnAs, string> {
  const bench = openBench(sheetOf(grid1333), columns, rows, {
    argue: () =>
      success({
        holds: false,
        headline: 'Does not hold.',
        lines: [],
        drawing: { house: null, houses: [], cells: [], candidates },
      }),
  });
  bench.press('g 8 8');
  bench.type('r1c1<>9 by r1c1');
  expect(bench.app().argued).not.toBeNull();
  const theme = makeTheme({ depth: 'mono', background: 'dark' });
  const screen = draw(bench.app(), { ascii, tints: theme.tints, digits: 'large' });
  const plan = planScreen({ columns, rows }, plain);
  if (!plan) throw new Error('the screen is too small');
  const look = (name: string): string => {
    const cell = parseCell(plain, name) ?? 0;
    const [x, y] = [plan.cellX(cell % 9), plan.cellY(Math.floor(cell / 9))];
    const glyphs = screen.rows
      .slice(y, y + plan.cellHeight)
      .flatMap((row) => row.slice(x, x + plan.cellWidth));
    return glyphs
      .filter(({ char }) => char !== ' ')
      .map(({ char, role, ground }) => (at === 'signs' ? char : `${char}[${theme.sgr(role, ground)}]`))
      .join(' ');
  };
  return Object.fromEntries(roles.map((role) => [role, look(cells[role])])) as Record<DrawnAs, string>;
}

describe.each([
  ['roomy', 120, 45],
  ['tight', 100, 33],
  ['compact', 80, 24],
] as const)('an argument without colours, %s', (_, columns, rows) => {
  test.each([false, true])('each role has a sign of its own, with ASCII alone: %s', (ascii) => {
    const shown = Object.values(looks(columns, rows, ascii, 'signs'));
    expect(new Set(shown).size, shown.join(' | ')).toBe(shown.length);
    for (const text of shown) expect(text).toContain('3');
    if (ascii) for (const text of shown) expect(text).toMatch(/^[ -~]*$/);
  });

  test('fact, strike, placement and overlooked differ by attributes as well, but for fact and placement', () => {
    const shown = looks(columns, rows, false, 'all');
    const digits = (['fact', 'strike', 'overlooked'] as const).map(
      (role) => /3\[[^\]]*\]/.exec(shown[role])?.[0],
    );
    expect(digits).toEqual(['3[7]', '3[1;9]', '3[1;7]']);
  });
});

test('tiny: one sign a cell tells what it is', () => {
  const shown = looks(40, 15, true, 'signs');
  const signs = (['fact', 'strike', 'placement', 'overlooked'] as const).map((role) => shown[role].at(-1));
  expect(signs).toEqual(['A', 'x', '=', '*']);
});
