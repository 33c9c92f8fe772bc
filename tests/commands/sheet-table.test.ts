import { readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { Shelf } from '../../source/commands/resume.ts';
import { SheetTable } from '../../source/commands/sheet-table.ts';
import { plain } from '../../source/grid/layout.ts';
import { writeLayout } from '../../source/grid/layout-text.ts';
import type { Grid } from '../../source/grid/position.ts';
import { SheetLock } from '../../source/platform/sheet-lock.ts';
import { systemFiles } from '../../source/platform/storage.ts';
import { reduce } from '../../source/sheet/sheet.ts';
import type { Sheet, SheetEvent } from '../../source/sheet/state.ts';
import type { SheetKeeper } from '../../source/terminal/saving.ts';
import type { Turn } from '../../source/terminal/table.ts';
import { tellSheet } from '../journal/fixture.ts';
import { makeFaultyFiles } from '../platform/faulty-files.ts';
import { gridToOpen, newState, openOn, shelfIn } from './shelf.ts';

/** Lines 1333 and 257 of the published set random-minimal-2000. */
const first = '.461...5......4.2.2....5..67.2..1....8.......4......92.1...2..3..7..3..5...8..9.7';
const second = '...7.5......2.......3..8.4........7.56....9.3..7..32...45...1..82..9...59...1..82';

const note: SheetEvent = { kind: 'note', cell: 0, digits: 0b111111111 };
const blankGrid: Grid = { layout: plain, givens: Array.from({ length: 81 }, () => 0) };
const blank = { grid: blankGrid, title: 'entered' };

/** Waits for a keeper until all that was taken is saved, or something is in the way; answers what. */
function settled(keeper: SheetKeeper): Promise<string | null> {
  return new Promise((resolve) => {
    const look = () => {
      const { taken, saved, problem } = keeper.saving();
      if (problem !== null || taken === saved) resolve(problem);
    };
    keeper.watch(look);
    look();
  });
}

/** A table, and the sheet that lies on it: what a workbench holds. */
class Run {
  readonly table: SheetTable;
  sheet: Sheet;
  constructor(shelf: Shelf, line: string) {
    const opened = openOn(shelf, line, 'one');
    this.table = new SheetTable(shelf, opened);
    this.sheet = opened.sheet;
  }
  do(event: SheetEvent): Sheet {
    const after = reduce(this.sheet, event);
    this.table.take(this.sheet, after);
    this.sheet = after;
    return after;
  }
  turned(turn: Turn): Extract<Turn, { kind: 'turned' }> {
    if (turn.kind !== 'turned') throw new Error(`not turned: ${JSON.stringify(turn)}`);
    this.sheet = turn.sheet;
    return turn;
  }
  open = (line: string, title = 'two') => this.table.open(gridToOpen(line, title), this.sheet);
}

const foldersIn = (shelf: Shelf): string[] =>
  readdirSync(shelf.folder!).map((name) => join(shelf.folder!, name));
const heldIn = (shelf: Shelf): number =>
  foldersIn(shelf).filter((folder) => SheetLock.isHeld(systemFiles, folder)).length;

describe('a sheet a grid', () => {
  test('another grid has its own; the one before is saved as it was, let go, and gone back to', () => {
    const shelf = shelfIn(newState());
    const run = new Run(shelf, first);
    const left = run.do(note);
    const turn = run.turned(run.open(second));
    expect(turn).toMatchObject({ place: 1, greeting: [] });
    expect(run.sheet.past).toHaveLength(0);
    expect(run.sheet.state.name).toBe('two');
    expect([foldersIn(shelf).length, heldIn(shelf)]).toEqual([2, 1]);
    // Another program can have the first one now.
    const elsewhere = openOn(shelf, first);
    expect(elsewhere.keeper.saving().readOnly).toBeNull();
    expect(tellSheet(elsewhere.sheet)).toBe(tellSheet(left));
    elsewhere.close();

    run.do(note);
    const back = run.turned(run.table.lay(0, run.sheet));
    expect([back.place, back.greeting]).toEqual([0, []]);
    expect(tellSheet(run.sheet)).toBe(tellSheet(left));
    run.table.close();
    expect(heldIn(shelf)).toBe(0);
    const again = openOn(shelf, second);
    expect(again.greeting).toEqual(['Resumed after 1 move.']);
    again.close();
  });

  test('the sheet that a grid has already is resumed, and says so', () => {
    const shelf = shelfIn(newState());
    const before = new Run(shelf, second);
    before.do(note);
    before.table.close();
    const run = new Run(shelf, first);
    expect(run.turned(run.open(second)).greeting).toEqual(['Resumed after 1 move.']);
    expect(run.sheet.past).toHaveLength(1);
    run.table.close();
    expect(foldersIn(shelf)).toHaveLength(2);
  });

  test('the grid that lies there already stays, whatever is written on it; with marks it is another', () => {
    const shelf = shelfIn(newState());
    const run = new Run(shelf, first);
    run.do(note);
    expect(run.open(first)).toEqual({ kind: 'same' });
    const grid = { ...gridToOpen(first, 'x').grid, marks: run.sheet.state.notes };
    run.turned(run.table.open({ grid, title: 'marked' }, run.sheet));
    expect(run.sheet.state.notes[0]).not.toBe(0);
    expect(run.table.open({ grid, title: 'marked' }, run.sheet)).toEqual({ kind: 'same' });
    run.table.close();
    expect(foldersIn(shelf)).toHaveLength(2);
  });

  test('one that is open elsewhere can be looked at; the one before is let go all the same', () => {
    const shelf = shelfIn(newState());
    const elsewhere = new Run(shelf, second);
    const run = new Run(shelf, first);
    const turn = run.turned(run.open(second));
    expect(turn.saving?.readOnly).toContain('open elsewhere');
    expect(turn.greeting[0]).toContain('open elsewhere');
    expect(heldIn(shelf)).toBe(1);
    expect(run.table.again(run.sheet)).toEqual({ kind: 'same' });
    elsewhere.do(note);
    elsewhere.table.close();
    // Once it is free it can be written on here, with what was written on it meanwhile.
    expect(run.turned(run.table.again(run.sheet)).saving?.readOnly).toBeNull();
    expect(run.sheet.past).toHaveLength(1);
    expect(run.table.again(run.sheet)).toEqual({ kind: 'same' });
    // Gone back and forth it is too.
    run.turned(run.table.lay(0, run.sheet));
    expect(run.turned(run.table.lay(1, run.sheet)).saving?.readOnly).toBeNull();
    run.table.close();
  });

  test('an older sheet on which another grid was opened is left to that one', () => {
    const shelf = shelfIn(newState());
    const run = new Run(shelf, first);
    const { givens } = gridToOpen(second, '').grid;
    run.do({ kind: 'open', layout: writeLayout(plain), name: 'two', givens, notes: [] });
    expect(run.open(second)).toEqual({ kind: 'same' });
    run.turned(run.open(first));
    expect(run.sheet.past).toHaveLength(0);
    expect(foldersIn(shelf)).toHaveLength(2);
    run.table.close();
  });

  test('one that was removed meanwhile is told, and nothing changes', () => {
    const shelf = shelfIn(newState());
    const run = new Run(shelf, first);
    const [folder] = foldersIn(shelf);
    run.turned(run.open(second));
    rmSync(folder, { recursive: true });
    expect(run.table.lay(0, run.sheet)).toMatchObject({
      kind: 'refused',
      why: expect.stringContaining('not there any more'),
    });
    run.do(note);
    run.table.close();
    expect(openOn(shelf, second).sheet.past).toHaveLength(1);
  });
});

describe('a sheet to enter a grid on', () => {
  test('is one and the same each time, empty, with what was on it an undo away', () => {
    const shelf = shelfIn(newState());
    const run = new Run(shelf, first);
    run.turned(run.table.blank(blank, run.sheet));
    run.do({ kind: 'ink', cell: 0, digit: 5 });
    run.turned(run.open(second));
    expect(run.turned(run.table.blank(blank, run.sheet)).greeting).toEqual([]);
    expect(run.sheet.state.ink[0]).toBe(0);
    expect(run.sheet.past.at(-1)?.before.ink[0]).toBe(5);
    run.table.close();
    expect(foldersIn(shelf)).toHaveLength(3);
    expect(openOn(shelf, '.'.repeat(81)).sheet.state.ink[0]).toBe(0);
  });

  test('is another one where somebody enters a grid there', () => {
    const shelf = shelfIn(newState());
    const elsewhere = new Run(shelf, '.'.repeat(81));
    const run = new Run(shelf, first);
    expect(run.turned(run.table.blank(blank, run.sheet)).saving?.readOnly).toBeNull();
    expect(foldersIn(shelf)).toHaveLength(3);
    run.table.close();
    elsewhere.table.close();
  });
});

describe('a disk that is full when another grid is opened', () => {
  test('the sheet before is held on to, and that it is not saved is told as long as it is so', async () => {
    const disk = makeFaultyFiles();
    const shelf = shelfIn(newState(), disk.files);
    const run = new Run(shelf, first);
    expect(await settled(run.table)).toBeNull();
    disk.setRoom(0);
    run.do(note);
    expect(await settled(run.table)).toBe('disk full');
    const turn = run.turned(run.open(second));
    expect(turn.saving?.aside).toBe(1);
    expect(run.table.saving().aside).toBe(1);
    expect(() => run.table.close()).toThrow('not saved: disk full');
  });

  test('what is held on to is gone back to with its changes, and saved by itself once there is room', async () => {
    const disk = makeFaultyFiles();
    const shelf = shelfIn(newState(), disk.files);
    const run = new Run(shelf, first);
    expect(await settled(run.table)).toBeNull();
    disk.setRoom(0);
    const left = run.do(note);
    run.turned(run.open(second));
    run.turned(run.table.lay(0, run.sheet));
    expect(run.sheet === left).toBe(true);
    run.turned(run.open(second));
    disk.setRoom(Number.POSITIVE_INFINITY);
    await new Promise<void>((resolve) => {
      run.table.watch(({ aside, saved }) => {
        if (aside === 0 && saved === run.table.saving().taken) resolve();
      });
    });
    // Saved, and let go.
    expect(heldIn(shelf)).toBe(1);
    const elsewhere = openOn(shelf, first);
    expect(tellSheet(elsewhere.sheet)).toBe(tellSheet(left));
    elsewhere.close();
    run.table.close();
  });

  test('where there is no place for sheets at all they are there for as long as the run is', () => {
    const run = new Run({ ...shelfIn(newState()), folder: null }, first);
    const left = run.do(note);
    expect(run.turned(run.open(second)).greeting).toEqual(['This sheet is not saved: no home folder.']);
    run.turned(run.table.lay(0, run.sheet));
    expect(run.sheet === left).toBe(true);
    expect(run.table.saving()).toMatchObject({ taken: 1, saved: 0, problem: 'no home folder', aside: 0 });
  });
});

test('a hundred sheets one after the other leave no file open', () => {
  const open = () => readdirSync('/proc/self/fd').length;
  const shelf = shelfIn(newState());
  const run = new Run(shelf, first);
  run.do(note);
  const before = open();
  for (let round = 0; round < 50; round += 1) {
    run.turned(run.open(second));
    run.do(note);
    run.turned(run.open(first));
    run.do(note);
  }
  expect(open()).toBeLessThan(before + 10);
  run.table.close();
  expect(readFileSync(join(foldersIn(shelf)[0], 'journal'), 'latin1')).toMatch(/\n$/);
});
