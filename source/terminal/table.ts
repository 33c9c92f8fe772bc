import type { Grid } from '../grid/position.ts';
import { newSheet } from '../sheet/sheet.ts';
import type { Sheet } from '../sheet/state.ts';
import type { Saving } from './saving.ts';

/** A sheet on the table in place of another; or that it lies there already, or why it does not, in a sentence. */
export type Turn =
  | {
      readonly kind: 'turned';
      /** A number of its own among the sheets of this run, by which it is found again. */
      readonly place: number;
      readonly sheet: Sheet;
      /** Absent: as it is with the sheet before. */
      readonly saving?: Saving;
      /** What there is to say of it, safe to show: that it was resumed, that it cannot be written on. */
      readonly greeting: readonly string[];
    }
  | { readonly kind: 'same' }
  | { readonly kind: 'refused'; readonly why: string };

/** A grid to be put on the table, and what its sheet is called where there is none yet. Safe to show. */
export interface Opening {
  readonly grid: Grid;
  readonly title: string;
}

/**
 * Where one sheet lies at a time, at first in place 0. Each grid has a sheet of its own: putting another one there
 * leaves the one before as it was. `now`: the sheet that lies there, as it stands.
 */
export interface Table {
  /** Puts down the sheet of a grid: the one that there is, or a new one. */
  readonly open: (opening: Opening, now: Sheet) => Turn;
  /** Puts down a sheet of a grid without givens, with nothing on it: for a grid that is entered by hand. */
  readonly blank: (opening: Opening, now: Sheet) => Turn;
  /** Puts down anew the sheet that lies there and could only be looked at; `same` where that is still so. */
  readonly again: (now: Sheet) => Turn;
  /** Puts down a sheet that lay there before, by its place. */
  readonly lay: (place: number, now: Sheet) => Turn;
}

/** What is asked of the table, and what for. */
export type Turning =
  | { readonly kind: 'turn'; readonly to: 'pasted' | 'locked' | 'blank'; readonly opening: Opening }
  | { readonly kind: 'turn'; readonly to: 'before' | 'after'; readonly place: number }
  | { readonly kind: 'turn'; readonly to: 'again' };

/** Whether a grid is the one that a sheet holds, and brings no marks. */
export const isOn = ({ layout, givens, marks }: Grid, { state }: Sheet): boolean =>
  marks === undefined &&
  layout === state.layout &&
  givens.every((digit, cell) => digit === state.givens[cell]);

/** The answer of a table. */
export function turnTo(table: Table, turning: Turning, now: Sheet): Turn {
  switch (turning.to) {
    case 'pasted':
    case 'locked':
      return table.open(turning.opening, now);
    case 'blank':
      return table.blank(turning.opening, now);
    case 'before':
    case 'after':
      return table.lay(turning.place, now);
    case 'again':
      return table.again(now);
  }
}

/** A table for where nothing is kept: its sheets are there for as long as it is. */
export function looseTable(): Table {
  const sheets: Sheet[] = [];
  let place = 0;
  const put = (at: number, sheet: Sheet, now: Sheet): Turn => {
    sheets[place] = now;
    place = at;
    sheets[place] = sheet;
    return { kind: 'turned', place, sheet, greeting: [] };
  };
  const open = ({ grid, title }: Opening, now: Sheet): Turn => {
    const { layout, givens, marks = [] } = grid;
    if (isOn(grid, now)) return { kind: 'same' };
    return put(Math.max(1, sheets.length), newSheet(layout, givens, title, marks), now);
  };
  return {
    open,
    blank: open,
    again: () => ({ kind: 'same' }),
    lay: (at, now) => put(at, sheets[at], now),
  };
}
