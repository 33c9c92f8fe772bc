import { expect, test } from 'vitest';
import { openApp } from '../../source/terminal/app-state.ts';
import { draw } from '../../source/terminal/draw.ts';
import type { SheetKeeper } from '../../source/terminal/saving.ts';
import { plainRows } from '../../source/terminal/screen.ts';
import { Store } from '../../source/terminal/store.ts';
import { FakeTimer } from '../platform/fake-timer.ts';
import { grid1333, sheetOf } from './bench.ts';

/* What the screen shows of saving: never `saved` beside a change that is not, and calm where saving is quick. */

/** A workbench with a disk that is done when it is told to be, and a clock. */
function openSlowDisk() {
  const timer = new FakeTimer();
  let taken = 0;
  let saved = 0;
  let tell: Parameters<SheetKeeper['watch']>[0] = () => undefined;
  const keeper: SheetKeeper = {
    saving: () => ({ taken, saved, problem: null, readOnly: null }),
    take: () => {
      taken += 1;
      return taken;
    },
    watch: (told) => {
      tell = told;
    },
  };
  const nothing = () => undefined;
  const store = new Store(
    openApp(sheetOf(grid1333), { columns: 80, rows: 24 }),
    { think: nothing, stop: nothing, copy: () => null, keeper, later: timer.after },
    { quit: nothing, suspend: nothing, redraw: nothing },
  );
  /** For each time that the screen was drawn anew: how many are placed, and the status of saving. */
  const shown: string[] = [];
  store.subscribe(() => {
    const rows = plainRows(draw(store.app(), { ascii: false, tints: true, digits: 'large' }));
    const inRows = Array.from({ length: 9 }, (_, row) =>
      rows[1 + 2 * row + Math.floor(row / 3)].slice(0, 57),
    );
    const placed = inRows.map((row) => row.replace(/^r\d/, '').replace(/[^1-9]/g, '')).join('').length;
    const status = /(?:not )?sav\w+.*$/.exec(rows[1])?.[0].trim();
    shown.push(`${placed} placed, ${status}`);
  });
  return {
    shown,
    timer,
    press: (keys: string) => {
      for (const chord of keys.split(' ')) store.send({ kind: 'key', chord });
    },
    type: (line: string) => {
      store.send({ kind: 'key', chord: ':' });
      store.send({ kind: 'submit', text: line });
    },
    reach: (number: number) => {
      saved = number;
      tell({ saved, problem: null });
    },
    fail: () => tell({ saved, problem: 'disk full' }),
  };
}

test('a change that is saved at once is shown once, as saved', () => {
  const { press, reach, shown, timer } = openSlowDisk();
  press('2');
  expect(shown).toEqual([]);
  timer.advance(5);
  reach(1);
  expect(shown).toEqual(['26 placed, saved']);
  timer.advance(100);
  expect(shown).toHaveLength(1);
});

test('a change that takes longer is shown in time, not as saved', () => {
  const { press, reach, shown, timer } = openSlowDisk();
  press('2');
  timer.advance(8);
  press('u');
  timer.advance(8);
  expect(shown).toEqual(['25 placed, saving']);
  reach(1);
  expect(shown.at(-1)).toBe('25 placed, saving');
  reach(2);
  expect(shown.at(-1)).toBe('25 placed, saved');
});

test('of several changes the first being saved shows nothing as saved', () => {
  const { press, reach, shown, timer } = openSlowDisk();
  press('2 u');
  reach(1);
  expect(shown).toEqual([]);
  timer.advance(12);
  expect(shown).toEqual(['25 placed, saving']);
});

test('a key that changes something else is shown at once, and what waits with it', () => {
  const { press, reach, shown } = openSlowDisk();
  press('2 right');
  expect(shown).toEqual(['26 placed, saving']);
  reach(1);
  expect(shown.at(-1)).toBe('26 placed, saved');
});

test('a typed move is shown at once: the typed line must be gone before the next key', () => {
  const { shown, type } = openSlowDisk();
  type('r5c5=2');
  expect(shown.at(-1)).toBe('26 placed, saving');
});

test('a disk that fails is told at once', () => {
  const { fail, press, shown } = openSlowDisk();
  press('2');
  fail();
  expect(shown).toEqual(['26 placed, not saved: disk full']);
});
