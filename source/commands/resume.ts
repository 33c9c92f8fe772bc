import { userInfo } from 'node:os';
import { join } from 'node:path';
import { writeLayout } from '../grid/layout-text.ts';
import type { Grid } from '../grid/position.ts';
import { fingerprint } from '../journal/checksum.ts';
import { type JournalError, type Kept, readJournal } from '../journal/journal.ts';
import { Timeline } from '../journal/timeline.ts';
import { type Held, type Processes, SheetLock } from '../platform/sheet-lock.ts';
import { freeId, journalLimit, keepAside, listSheets, type ShelvedSheet } from '../platform/sheet-shelf.ts';
import {
  codeOf,
  type Files,
  makePrivateFolder,
  makeSheetsFolder,
  readPrivate,
  reasonOf,
  StorageError,
  sheetsFolder,
} from '../platform/storage.ts';
import { newSheet } from '../sheet/sheet.ts';
import type { Sheet } from '../sheet/state.ts';
import type { SheetKeeper } from '../terminal/saving.ts';
import { safeText } from '../text/safe.ts';
import type { Surroundings } from './command.ts';
import { KeptSheet, systemLater, unkept } from './kept-sheet.ts';
import type { Mistake } from './mistake.ts';

/** What opening sheets needs of the machine. */
export interface Shelf {
  readonly files: Files;
  /** Where sheets are kept; null where there is no place. */
  readonly folder: string | null;
  readonly processes: Processes;
}

/** A sheet on the table. */
export interface OpenedSheet {
  readonly sheet: Sheet;
  readonly keeper: SheetKeeper;
  /** Where it is kept; null where it is not. */
  readonly folder: string | null;
  /** What to say at the beginning, safe to show. */
  readonly greeting: readonly string[];
  /** What of it is to be said each time that the sheet is opened. */
  readonly trouble: readonly string[];
  /** Saves what is not saved yet, now; false, and goes on trying, where it can't be saved. */
  readonly settle: () => boolean;
  /** Saves what is not saved yet, and lets go; false, and goes on trying, where it can't be saved. */
  readonly leave: () => boolean;
  /** Saves what is not saved yet, and lets go. Throws where it can't be saved. */
  readonly close: () => void;
}

/** A grid to open, and how it is called. */
export interface NewSheet {
  readonly grid: Grid;
  readonly title: string;
}

/** The folder of sheets, by the environment. */
export function findFolder({ environment }: Pick<Surroundings, 'environment'>): string | null {
  return sheetsFolder(environment, () => {
    try {
      return userInfo().homedir;
    } catch {
      return null;
    }
  });
}

/** What all sheets of one grid have at the beginning of their ids: the same for the same layout, givens and marks. */
export function keyOf({ layout, givens, marks = [] }: Grid): string {
  const text = JSON.stringify([writeLayout(layout).text, givens, marks]);
  return fingerprint(text);
}

const timelineOf = ({ grid, title }: NewSheet): Timeline =>
  new Timeline(newSheet(grid.layout, grid.givens, title, grid.marks).state);

/** Whether a grid is the one that a sheet holds now: on older sheets another one can have been opened, as a move. */
export const isOn = ({ layout, givens }: Grid, { state }: Sheet): boolean =>
  writeLayout(layout).text === writeLayout(state.layout).text &&
  givens.every((digit, cell) => digit === state.givens[cell]);

/** A sheet that is not kept, with what is said of it. */
function notKept(
  sheet: Sheet,
  why: Parameters<typeof unkept>[0],
  said: readonly string[],
  folder: string | null = null,
): OpenedSheet {
  // What is only looked at can be left at any time; what is nowhere else is held on to.
  const leave = () => why.readOnly !== null;
  const settle = () => true;
  return {
    sheet,
    keeper: unkept(why),
    folder,
    greeting: said,
    trouble: said,
    settle,
    leave,
    close: () => {},
  };
}

/** A new sheet that is not kept, with the reason, and what it is about. */
const openUnkept = (opening: NewSheet, reason: string, path?: string): OpenedSheet =>
  notKept(timelineOf(opening).sheet, { problem: reason, readOnly: null }, [
    `This sheet is not saved: ${reason}${path === undefined ? '' : `, ${safeText(path)}`}.`,
  ]);

function sayHolder({ holder }: Held, processes: Processes): string {
  const isHere = holder?.space === processes.self().space;
  const where = holder === null ? '' : isHere ? ` (process ${holder.pid})` : ' (on another machine)';
  return `This sheet is open elsewhere${where}: until it is closed there, it can only be looked at here.`;
}

const sayDamage = (error: JournalError, path: string): string =>
  `The sheet's file was damaged. ${error.message} It is kept as ${safeText(path)}.`;

/** A journal as it was found: read, or with what is wrong. */
type Found = { readonly kept: Kept; readonly size: number } | { readonly error: JournalError };

/** Reads the journal in a folder; null where there is none. Throws where it can't be read. */
export function readSheet(files: Files, folder: string): Found | null {
  let text: string;
  try {
    text = readPrivate(files, join(folder, 'journal'), journalLimit);
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return null;
    throw error;
  }
  const read = readJournal(text);
  return read.ok ? { kept: read.value, size: text.length } : { error: read.error };
}

/** A newer version of the program has written a file: it stays as it is. */
export const tooNew = (path: string, { found }: JournalError): Mistake => ({
  place: path,
  message: `a newer inkling has written this sheet (${found})`,
  next: 'use that one, or start another sheet: inkling --new GRID',
});

const isMistake = (value: object): value is Mistake => 'message' in value;

/** Opens the sheet in a folder, or makes it there. `opening`: null where it must be there already. */
function openIn(
  shelf: Shelf,
  folder: string,
  opening: NewSheet | null,
): OpenedSheet | Mistake | 'unreadable' {
  const { files, processes } = shelf;
  const lockFolder = (): SheetLock => {
    if (shelf.folder !== null) makeSheetsFolder(files, shelf.folder);
    makePrivateFolder(files, folder);
    const lock = SheetLock.take(files, folder, processes);
    if ('held' in lock) throw new StorageError('open elsewhere', folder);
    return lock;
  };
  let lock: SheetLock | Held | null = null;
  let lockProblem: string | null = null;
  try {
    if (shelf.folder !== null) makeSheetsFolder(files, shelf.folder);
    makePrivateFolder(files, folder);
    lock = SheetLock.take(files, folder, processes);
  } catch (error) {
    lockProblem = reasonOf(error);
  }
  const held = lock !== null && 'held' in lock ? lock : null;
  const own = lock !== null && !('held' in lock) ? lock : null;
  const path = join(folder, 'journal');
  let found: Found | null = null;
  try {
    found = readSheet(files, folder);
  } catch (error) {
    own?.release();
    if (!opening) {
      const next = "'inkling GRID' opens another sheet, 'inkling --new' begins one";
      return { place: path, message: `the sheet can't be read: ${reasonOf(error)}`, next };
    }
    // Whatever it is that can't be read there, a new sheet can't take its place. Where it is the folder that
    // can't be used, it may be later on.
    if (lockProblem === null) return openUnkept(opening, reasonOf(error), path);
  }
  if (found && 'error' in found && found.error.code === 'newer') {
    own?.release();
    return tooNew(path, found.error);
  }
  const kept = found && 'kept' in found ? found.kept : null;
  const damage = found && 'error' in found ? found.error : (kept?.damage ?? null);
  if (!kept && !opening) {
    if (own && damage) {
      keepAside(files, folder);
      files.unlinkSync(path);
    }
    own?.release();
    return 'unreadable';
  }
  const timeline = kept?.timeline ?? timelineOf(opening!);
  const sheet = timeline.sheet;
  if (held) {
    const why = sayHolder(held, processes);
    return notKept(sheet, { problem: null, readOnly: why }, damage ? [why, damage.message] : [why], folder);
  }
  const trouble: string[] = [];
  if (damage && own) {
    try {
      trouble.push(sayDamage(damage, keepAside(files, folder)));
      if (!kept) trouble.push('A new one was begun.');
    } catch (error) {
      // What can't be kept aside is not written over either.
      own.release();
      const reason = `the damaged file can't be kept aside (${reasonOf(error)})`;
      return notKept(sheet, { problem: reason, readOnly: null }, [damage.message]);
    }
  }
  const keeper = new KeptSheet({
    files,
    folder,
    lockFolder,
    lock: own,
    found:
      found && 'kept' in found && !damage
        ? { tail: found.kept.tail, length: found.kept.length, size: found.size }
        : null,
    later: systemLater,
    timeline,
    name: kept?.name ?? opening!.title,
    sinceState: damage ? 0 : (kept?.sinceState ?? 0),
  });
  const moves = sheet.past.length;
  const greeting = [...trouble];
  if (moves > 0) greeting.push(`Resumed after ${moves} move${moves === 1 ? '' : 's'}.`);
  if (opening && !isOn(opening.grid, sheet)) {
    greeting.push('Another grid was opened on this sheet since: undo leads back.');
  }
  return {
    sheet,
    keeper,
    folder,
    greeting,
    trouble,
    settle: () => keeper.settle(),
    leave: () => keeper.leave(),
    close: () => keeper.close(),
  };
}

const sayUnreadable = (folder: string): string =>
  `A sheet could not be read, and is kept in ${safeText(folder)}.`;

/** The sheets of a grid, the one that was used last first. */
const sheetsOf = (sheets: readonly ShelvedSheet[], key: string): ShelvedSheet[] =>
  sheets.filter(({ id }) => id === key || id.startsWith(`${key}-`));

/** The folder of a grid's sheet, which there is or is to be made; with `isNew` of another one. Null: no place. */
export function folderOf({ files, folder }: Shelf, grid: Grid, isNew: boolean): string | null {
  if (folder === null) return null;
  const key = keyOf(grid);
  try {
    const id = isNew ? freeId(files, folder, key) : sheetsOf(listSheets(files, folder), key)[0]?.id;
    return join(folder, id ?? key);
  } catch {
    // The sheet itself says what is in the way, and tries again.
    return join(folder, key);
  }
}

/** Opens the sheet in a folder that `folderOf` has named, or begins one there. */
export function openGridIn(shelf: Shelf, folder: string | null, opening: NewSheet): OpenedSheet | Mistake {
  if (folder === null) return openUnkept(opening, 'no home folder');
  const opened = openIn(shelf, folder, opening);
  return opened === 'unreadable' ? openUnkept(opening, 'disk error') : opened;
}

/**
 * Opens the sheet of a grid, or begins one; with `isNew` begins another one. Without a place for sheets, or
 * where it can't be used, the sheet is there all the same, and says that it is not saved.
 */
export const openGridSheet = (shelf: Shelf, opening: NewSheet, isNew: boolean): OpenedSheet | Mistake =>
  openGridIn(shelf, folderOf(shelf, opening.grid, isNew), opening);

/** Opens the sheet in a folder; where there is none, or it can't be read, the mistake says so. */
export function openSheetIn(shelf: Shelf, folder: string): OpenedSheet | Mistake {
  const gone = { place: folder, message: 'the sheet is not there any more' };
  try {
    shelf.files.lstatSync(join(folder, 'journal'));
  } catch (error) {
    return codeOf(error) === 'ENOENT' ? gone : { place: folder, message: reasonOf(error) };
  }
  const opened = openIn(shelf, folder, null);
  return opened === 'unreadable' ? gone : opened;
}

/** Opens the sheet that was used last; null where there is none. */
export function openLastSheet(shelf: Shelf): OpenedSheet | Mistake | null {
  const { files, folder } = shelf;
  if (folder === null) return null;
  let sheets: ShelvedSheet[];
  try {
    sheets = listSheets(files, folder);
  } catch {
    // Opening the sample says what is in the way.
    return null;
  }
  const unread: string[] = [];
  for (const sheet of sheets) {
    const opened = openIn(shelf, sheet.folder, null);
    if (opened === 'unreadable') unread.push(sayUnreadable(sheet.folder));
    else if (isMistake(opened)) return opened;
    else return { ...opened, greeting: [...unread, ...opened.greeting] };
  }
  return null;
}
