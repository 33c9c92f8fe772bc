import { describe, expect, test } from 'vitest';
import type { ScreenCell } from '../pty/screen.ts';
import { Random } from '../random.ts';
import { grid1333, openBench, sheetOf } from '../terminal/bench.ts';
import { randomKey } from '../terminal/random-keys.ts';
import { type Wired, wire } from '../terminal/wired.tsx';

/*
 * Whatever keys are pressed, the screen that is drawn by changes is the one that would be drawn all anew: by
 * stock Ink, and by printing the lines. An emulator shows both and is the judge, cell by cell.
 */

const steps = Math.round(500 * Number(process.env.INKLING_DEEP ?? 1));
/** Ink takes long for a screen; lines are printed in no time. */
const stockEvery = 10;

const rowsOf = (cells: ScreenCell[][]) =>
  cells.map((row) =>
    row
      .map((cell) => cell.text)
      .join('')
      .trimEnd(),
  );

/** What differs, in words; undefined for nothing. One row may be left out. */
function difference(shown: ScreenCell[][], wanted: ScreenCell[][], without?: number): string | undefined {
  for (const [y, row] of wanted.entries()) {
    if (y === without) continue;
    for (const [x, cell] of row.entries()) {
      const other = shown[y]![x]!;
      if (JSON.stringify(other) === JSON.stringify(cell)) continue;
      return `x ${x} y ${y}: ${JSON.stringify(other)} instead of ${JSON.stringify(cell)}\n${rowsOf(shown).join('\n')}`;
    }
  }
  return undefined;
}

/** Compares again until it fits or the time is up: Ink may hold its last frame back for a moment. */
async function untilSame(
  wired: Wired,
  wanted: () => Promise<ScreenCell[][]>,
  without?: number,
): Promise<string | undefined> {
  const end = performance.now() + 3000;
  for (;;) {
    const problem = difference(await wired.settled(), await wanted(), without);
    if (problem === undefined || performance.now() > end) return problem;
  }
}

describe.each([
  [80, 24],
  [120, 45],
])('%i x %i', (columns, rows) => {
  test.each(['mono', '16', '256', 'true'] as const)(`${steps} random keys in %s`, async (depth) => {
    const seed = 5100 + columns;
    console.log(`seed ${seed}`);
    const random = new Random(seed);
    const bench = openBench(sheetOf(grid1333), columns, rows);
    const wired = await wire(bench, { columns, rows, theme: { depth, background: 'dark' } });
    try {
      for (let step = 0; step < steps; step++) {
        const key = randomKey(random);
        const where = `seed ${seed}, step ${step}, after ${JSON.stringify(key)}`;
        wired.keys.feed(key);
        // An Escape is known when nothing has followed it for a while.
        if (key === '\u001b') wired.keys.feed('\u001b');
        await wired.settled();
        // The row in which a line is typed is Ink's anyway, and scrolls with a cursor that is Ink's own.
        const typed = wired.drawn().typedLine?.y;
        expect(await untilSame(wired, wired.printed, typed), where).toBeUndefined();
        if (step % stockEvery === 0) {
          expect(await untilSame(wired, wired.stock, typed), where).toBeUndefined();
        }
      }
      expect(wired.screen.scrollback()).toEqual([]);
      for (const update of wired.updates)
        expect(update.startsWith('\u001b[?2026h') || !update.includes(' ')).toBe(true);
    } finally {
      wired.close();
    }
  });
});
