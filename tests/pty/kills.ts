import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { seededRandom } from '../../source/exact/random.ts';
import { readJournal } from '../../source/journal/journal.ts';
import { reduce, undo } from '../../source/sheet/sheet.ts';
import type { Sheet } from '../../source/sheet/state.ts';
import { openApp } from '../../source/terminal/app-state.ts';
import { draw } from '../../source/terminal/draw.ts';
import type { SheetKeeper } from '../../source/terminal/saving.ts';
import { plainRows } from '../../source/terminal/screen.ts';
import { Store } from '../../source/terminal/store.ts';
import { openOn, shelfIn } from '../commands/shelf.ts';
import { tellSheet } from '../journal/fixture.ts';
import { type App, openInkling } from './harness.ts';

const grids = [
  '.461...5......4.2.2....5..67.2..1....8.......4......92.1...2..3..7..3..5...8..9.7',
  '...7.5......2.......3..8.4........7.56....9.3..7..32...45...1..82..9...59...1..82',
];

/** Keys as a hasty person might press them: most of them write, some go back, a few do a lot at once. */
const keys = [...'123456789', ...'123456789', ...'hjklhjkl', ...'insov', ...'uuurr0xa', 'tab', 'ctrl+r'];

/** Keeps nothing and says that all is saved: what the screen shows then is what the program's should. */
const savedAtOnce = (): SheetKeeper => {
  let taken = 0;
  let tell: (progress: { saved: number; problem: string | null }) => void = () => {};
  return {
    saving: () => ({ taken, saved: taken, problem: null, readOnly: null }),
    take: () => {
      taken += 1;
      const saved = taken;
      queueMicrotask(() => tell({ saved, problem: null }));
      return taken;
    },
    watch: (told) => {
      tell = told;
    },
  };
};

/** The same workbench without a disk, which does the same keys: what each of them leads to is known. */
export class Shadow {
  readonly #store: Store;
  readonly sheets: Sheet[];
  readonly keys: string[] = [];

  constructor(sheet: Sheet, greeting: readonly string[]) {
    const opened = { ...openApp(sheet, { columns: 80, rows: 24 }), message: greeting };
    const nothing = () => undefined;
    const services = { think: nothing, stop: nothing, copy: () => null, keeper: savedAtOnce() };
    this.#store = new Store(opened, services, { quit: nothing, suspend: nothing, redraw: nothing });
    this.sheets = [sheet];
  }

  press(key: string): void {
    this.keys.push(key);
    this.#store.send({ kind: 'key', chord: key });
    this.sheets.push(this.#store.app().sheet);
  }

  /** The screen after all keys, everything saved. */
  async screen(): Promise<string> {
    await Promise.resolve();
    return plainRows(draw(this.#store.app(), { ascii: false, tints: true, digits: 'large' }))
      .map((line) => line.trimEnd())
      .join('\n')
      .trimEnd();
  }
}

export interface KillTally {
  kills: number;
  keys: number;
  /** Changes that had been shown as saved when the program was killed. */
  shownSaved: number;
  /** Changes on the disk beyond those. */
  savedUnseen: number;
  /** Kills that left half a record. */
  torn: number;
  /** Kills while the journal was being written anew, or made. */
  amid: number;
  /** The most that could be undone after a restart. */
  longest: number;
  readonly failures: string[];
}

export const shown = (app: App): string =>
  app
    .screen()
    .map((line) => line.trimEnd())
    .join('\n')
    .trimEnd();

const folderOf = (home: string): string | null => {
  const shelf = join(home, 'state/inkling/sheets');
  const [id] = existsSync(shelf) ? readdirSync(shelf) : [];
  return id === undefined ? null : join(shelf, id);
};

/** A journal that has grown so far that the next change has it written anew. */
function grow(home: string, grid: string): void {
  const opened = openOn(shelfIn(join(home, 'state')), grid, '');
  let { sheet } = opened;
  const open = sheet.state.givens.flatMap((digit, cell) => (digit === 0 ? [cell] : []));
  for (let round = 0; round < 700; round += 1) {
    const cell = open[round % open.length];
    for (const after of [
      (before: Sheet) => reduce(before, { kind: 'set-note', cell, digits: 1 + (round % 500) }),
      (before: Sheet) => (round % 50 === 0 ? before : undo(before)),
    ]) {
      const next = after(sheet);
      if (next !== sheet) opened.keeper.take(sheet, next);
      sheet = next;
    }
  }
  opened.close();
}

/** What the journal of a home holds now. */
export function recover(home: string): { sheet: Sheet; torn: boolean; amid: boolean } | null {
  const folder = folderOf(home);
  if (folder === null || !existsSync(join(folder, 'journal'))) return null;
  const text = readFileSync(join(folder, 'journal'), 'latin1');
  const read = readJournal(text);
  if (!read.ok) throw new Error(read.error.message);
  if (read.value.damage) throw new Error(read.value.damage.message);
  const amid = readdirSync(folder).some((name) => name.startsWith('.new-'));
  return { sheet: read.value.timeline.sheet, torn: !text.endsWith('\n'), amid };
}

/**
 * Kills the program with SIGKILL at random moments while keys arrive, again and again on the same sheets, and
 * looks at what is left. Fails where a change is gone that had been shown as saved, its undo history included,
 * or where there is anything but a sheet that the keys led to.
 */
export async function killMany(count: number, seed: number): Promise<KillTally> {
  const random = seededRandom(seed);
  const below = (limit: number) => Math.floor(random() * limit);
  const tally: KillTally = {
    kills: 0,
    keys: 0,
    shownSaved: 0,
    savedUnseen: 0,
    torn: 0,
    amid: 0,
    longest: 0,
    failures: [],
  };
  while (tally.kills < count) {
    const home = mkdtempSync(join(tmpdir(), 'inkling-kill-'));
    const grid = grids[below(grids.length)];
    if (below(4) === 0) grow(home, grid);
    for (let lives = 1 + below(15); lives > 0 && tally.kills < count; lives -= 1) {
      tally.kills += 1;
      try {
        await killOnce(home, grid, below, tally);
      } catch (error) {
        tally.failures.push(`kill ${tally.kills}: ${String(error)}`);
        break;
      }
    }
    rmSync(home, { recursive: true, force: true });
  }
  return tally;
}

async function killOnce(
  home: string,
  grid: string,
  below: (limit: number) => number,
  tally: KillTally,
): Promise<void> {
  const before = recover(home);
  const app = openInkling([grid], { home, env: { COLORTERM: 'truecolor', COLORFGBG: '15;0' } });
  try {
    if (before === null && below(10) === 0) {
      // Before there is anything to see.
      app.signal('SIGKILL');
      await app.exit;
      recover(home);
      return;
    }
    await app.waitFor(/\bsaved\b/);
    const sheet = before?.sheet ?? openedSheet(grid);
    const moves = sheet.past.length;
    const greeting = moves === 0 ? [] : [`Resumed after ${moves} move${moves === 1 ? '' : 's'}.`];
    const shadow = new Shadow(sheet, greeting);
    const press = (most: number) => {
      const pressed = Array.from({ length: below(most + 1) }, () => keys[below(keys.length)]);
      for (const key of pressed) {
        app.press(key);
        shadow.press(key);
      }
      tally.keys += pressed.length;
    };
    // Now and then at once, while the first change is on its way and the journal may be written anew.
    const isHasty = below(3) === 0;
    if (!isHasty) press(25);
    const wanted = await shadow.screen();
    await app.waitFor((at) => shown(at) === wanted);
    const least = shadow.sheets.length - 1;
    press(isHasty ? 8 : 40);
    const moment = below(isHasty ? 12 : 60);
    await new Promise((resolve) => setTimeout(resolve, moment));
    const last = shown(app);
    app.signal('SIGKILL');
    await app.exit;
    const left = recover(home);
    if (left === null) throw new Error('the sheet is gone');
    const told = tellSheet(left.sheet);
    const at = shadow.sheets.findLastIndex((each) => tellSheet(each) === told);
    if (at < 0) throw new Error('a sheet that the keys did not lead to');
    if (at < least && tellSheet(shadow.sheets[least]) !== told) {
      throw new Error(`key ${at} of ${shadow.sheets.length - 1} is there, ${least} had been shown as saved`);
    }
    // What stood on the screen as saved at the last moment.
    const seen = await seenSaved(sheet, greeting, shadow, last, least);
    if (at < seen && tellSheet(shadow.sheets[seen]) !== told) {
      throw new Error(`key ${at} is there, ${seen} stood on the screen as saved`);
    }
    const different = (from: number, to: number) =>
      shadow.sheets.slice(from, to).filter((each, i) => each !== shadow.sheets[from + i + 1]).length;
    tally.shownSaved += different(0, seen);
    tally.savedUnseen += different(seen, at);
    if (left.torn) tally.torn += 1;
    if (left.amid) tally.amid += 1;
    tally.longest = Math.max(tally.longest, left.sheet.past.length);
  } finally {
    app.close();
  }
}

export const openedSheet = (grid: string): Sheet => openOn({ ...shelfIn('/'), folder: null }, grid, '').sheet;

/** The first number of keys from `least` on after which the screen looks so; `least` where it says nothing of saving. */
async function seenSaved(
  sheet: Sheet,
  greeting: readonly string[],
  shadow: Shadow,
  screen: string,
  least: number,
): Promise<number> {
  if (!/\bsaved\b/.test(screen)) return least;
  const again = new Shadow(sheet, greeting);
  for (let at = 0; ; at += 1) {
    if (at >= least && (await again.screen()) === screen) return at;
    if (at === shadow.sheets.length - 1) return least;
    again.press(shadow.keys[at]);
  }
}
