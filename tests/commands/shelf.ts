import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll } from 'vitest';
import { type NewSheet, type OpenedSheet, openGridSheet, type Shelf } from '../../source/commands/resume.ts';
import { readGrid } from '../../source/grid/read.ts';
import { systemProcesses } from '../../source/platform/sheet-lock.ts';
import { type Files, systemFiles } from '../../source/platform/storage.ts';
import { reduce } from '../../source/sheet/sheet.ts';
import type { Sheet, SheetEvent } from '../../source/sheet/state.ts';

const made: string[] = [];
afterAll(() => {
  for (const folder of made) rmSync(folder, { recursive: true, force: true });
});

/** A new place for state, as XDG_STATE_HOME has it; it goes after the tests of the file. */
export function newState(): string {
  const folder = mkdtempSync(join(tmpdir(), 'inkling-state-'));
  made.push(folder);
  return folder;
}

/** The shelf in a place for state. */
export const shelfIn = (state: string, files: Files = systemFiles): Shelf => ({
  files,
  folder: join(state, 'inkling', 'sheets'),
  processes: systemProcesses,
});

/** A grid as it is opened. */
export function gridToOpen(text: string, title: string): NewSheet {
  const read = readGrid(text);
  if (!read.ok) throw new Error(read.error.message);
  return { grid: read.value.grid, title };
}

/** Opens a sheet, or fails. */
export function openOn(shelf: Shelf, text: string, title = 'a puzzle', isNew = false): OpenedSheet {
  const opened = openGridSheet(shelf, gridToOpen(text, title), isNew);
  if ('message' in opened) throw new Error(opened.message);
  return opened;
}

/** Does events on an opened sheet, one by one, as a workbench would. */
export function write(opened: OpenedSheet, from: Sheet, events: readonly SheetEvent[]): Sheet {
  let sheet = from;
  for (const event of events) {
    const after = reduce(sheet, event);
    if (after !== sheet) opened.keeper.take(sheet, after);
    sheet = after;
  }
  return sheet;
}

/** Settles once the keeper says that what was taken is saved, or that something is in the way. */
export function settled(opened: OpenedSheet): Promise<string | null> {
  return new Promise((resolve) => {
    const look = () => {
      const { taken, saved, problem } = opened.keeper.saving();
      if (problem !== null || taken === saved) resolve(problem);
    };
    opened.keeper.watch(look);
    look();
  });
}
