import { basename } from 'node:path';
import { reduce } from '../sheet/sheet.ts';
import type { Sheet } from '../sheet/state.ts';
import type { Saving, SavingProgress, SheetKeeper } from '../terminal/saving.ts';
import type { Opening, Table, Turn } from '../terminal/table.ts';
import { safeText } from '../text/safe.ts';
import type { Mistake } from './mistake.ts';
import { folderOf, isOn, keyOf, type OpenedSheet, openGridIn, openSheetIn, type Shelf } from './resume.ts';

/** A sheet that is held on to beside the one on the table, since it could not be saved. */
interface Held {
  readonly opened: OpenedSheet;
  readonly sheet: Sheet;
}

/**
 * The sheets of one run of the workbench: one on the table, with its lock, the others on the shelf. Whichever lies
 * on the table is kept; one that can't be saved when another comes in its place is held on to until it can.
 */
export class SheetTable implements SheetKeeper, Table {
  readonly #shelf: Shelf;
  #opened: OpenedSheet;
  #place = 0;
  /** Where the sheets lie that lay on the table before. */
  readonly #folders = new Map<number, string>();
  readonly #held = new Map<number, Held>();
  #count = 1;
  #tell: (progress: SavingProgress) => void = () => {};

  constructor(shelf: Shelf, opened: OpenedSheet) {
    this.#shelf = shelf;
    this.#opened = opened;
    this.#follow(opened);
  }

  saving(): Saving {
    return { ...this.#opened.keeper.saving(), aside: this.#aside() };
  }

  take(before: Sheet, after: Sheet): number {
    return this.#opened.keeper.take(before, after);
  }

  watch(tell: (progress: SavingProgress) => void): void {
    this.#tell = tell;
  }

  settle(): boolean {
    const all = [this.#opened, ...[...this.#held.values()].map(({ opened }) => opened)];
    return all.map(({ settle }) => settle()).every((isSaved) => isSaved);
  }

  open(opening: Opening, now: Sheet): Turn {
    const { grid } = opening;
    const { folder: current } = this.#opened;
    const isSame = current !== null && this.#isOf(current, keyOf(grid));
    const isHere = isOn(grid, now);
    // On an older sheet another grid may have been opened: then this one begins a sheet of its own.
    if (isHere && (isSame || !grid.marks)) return { kind: 'same' };
    const isNew = isSame && !isHere;
    return this.#open(opening, isNew, now);
  }

  blank(opening: Opening, now: Sheet): Turn {
    const { grid } = opening;
    const folder = folderOf(this.#shelf, grid, false);
    const found = openGridIn(this.#shelf, folder, opening);
    if ('message' in found) return refuse(found);
    if (found.keeper.saving().readOnly === null && isOn(grid, found.sheet)) {
      return this.#put(withoutMarks(found), this.#newPlace(), now);
    }
    // Somebody else enters a grid there, or it is an older sheet with another grid on it.
    found.leave();
    return this.#open(opening, true, now);
  }

  again(now: Sheet): Turn {
    const { folder, keeper } = this.#opened;
    if (folder === null || keeper.saving().readOnly === null) return { kind: 'same' };
    const opened = openSheetIn(this.#shelf, folder);
    if ('message' in opened || opened.keeper.saving().readOnly !== null) return { kind: 'same' };
    return this.#put({ ...opened, greeting: opened.trouble }, this.#place, now);
  }

  lay(place: number, now: Sheet): Turn {
    const held = this.#held.get(place);
    if (held) return this.#put({ ...held.opened, sheet: held.sheet }, place, now);
    const folder = this.#folders.get(place);
    if (folder === undefined || folder === this.#opened.folder) return { kind: 'same' };
    const opened = this.#heldIn(folder) ?? openSheetIn(this.#shelf, folder);
    if ('message' in opened) return refuse(opened);
    return this.#put({ ...opened, greeting: opened.trouble }, place, now);
  }

  /** Saves what is not saved yet and lets go of every sheet. Throws where one can't be saved. */
  close(): void {
    const errors: unknown[] = [];
    for (const { close } of [...[...this.#held.values()].map(({ opened }) => opened), this.#opened]) {
      try {
        close();
      } catch (error) {
        errors.push(error);
      }
    }
    if (errors.length > 0) throw errors[0];
  }

  #open(opening: Opening, isNew: boolean, now: Sheet): Turn {
    const folder = folderOf(this.#shelf, opening.grid, isNew);
    const opened = (folder !== null && this.#heldIn(folder)) || openGridIn(this.#shelf, folder, opening);
    return 'message' in opened ? refuse(opened) : this.#put(opened, this.#newPlace(), now);
  }

  #newPlace(): number {
    this.#count += 1;
    return this.#count - 1;
  }

  /** A sheet that is held on to, by its folder: its lock is ours. */
  #heldIn(folder: string): OpenedSheet | null {
    for (const { opened, sheet } of this.#held.values()) {
      if (opened.folder === folder) return { ...opened, sheet };
    }
    return null;
  }

  /** Puts an opened sheet in the place of the one on the table, which is saved and left, or else held on to. */
  #put(opened: OpenedSheet, place: number, now: Sheet): Turn {
    const before = this.#opened;
    if (before.folder !== null) this.#folders.set(this.#place, before.folder);
    if (!before.leave()) this.#held.set(this.#place, { opened: before, sheet: now });
    for (const [at, held] of this.#held) if (held.opened.keeper === opened.keeper) this.#held.delete(at);
    this.#opened = opened;
    this.#place = place;
    this.#follow(opened);
    const { sheet, greeting } = opened;
    return { kind: 'turned', place, sheet, saving: this.saving(), greeting };
  }

  /** Passes on what a sheet's keeper tells; one that is held on to and saved at last is let go. */
  #follow({ keeper }: OpenedSheet): void {
    keeper.watch(() => {
      for (const [at, held] of this.#held) {
        if (held.opened.keeper === keeper && isSaved(keeper) && held.opened.leave()) this.#held.delete(at);
      }
      const { saved, problem } = this.#opened.keeper.saving();
      this.#tell({ saved, problem, aside: this.#aside() });
    });
  }

  /** How many sheets are held on to that have something to lose. */
  #aside(): number {
    return [...this.#held.values()].filter(({ opened }) => !isSaved(opened.keeper)).length;
  }

  #isOf(folder: string, key: string): boolean {
    const id = basename(folder);
    return id === key || id.startsWith(`${key}-`);
  }
}

const isSaved = (keeper: SheetKeeper): boolean => {
  const { taken, saved } = keeper.saving();
  return saved === taken;
};

const refuse = ({ place, message, next }: Mistake): Turn => ({
  kind: 'refused',
  why: [
    place === undefined ? '' : `${safeText(place)}:`,
    `${message}${next === undefined ? '' : `; ${next}`}.`,
  ]
    .filter((part) => part !== '')
    .join(' '),
});

/** A sheet back at its givens, with what was on it one undo away; not said to be resumed. */
function withoutMarks(opened: OpenedSheet): OpenedSheet {
  const sheet = reduce(opened.sheet, { kind: 'restart' });
  if (sheet !== opened.sheet) opened.keeper.take(opened.sheet, sheet);
  return { ...opened, sheet, greeting: opened.trouble };
}
