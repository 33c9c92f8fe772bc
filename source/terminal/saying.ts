import { digitName } from '../grid/names.ts';
import { lookOver, type Standing } from '../sheet/look-over.ts';
import { isSolved } from '../sheet/marks.ts';
import { reduce } from '../sheet/sheet.ts';
import { slipsOf } from '../sheet/slips.ts';
import type { Sheet, SheetEvent, SheetState } from '../sheet/state.ts';
import type { App } from './app-state.ts';

/** The workbench with something said on it. */
export const say = (app: App, ...message: readonly string[]): App => ({ ...app, message, page: 0 });

/** Which digits there are. */
export const sayDigits = (app: App): string =>
  `Digits go from 1 to ${digitName(app.sheet.state.layout.size)} here.`;

const isEvent = (change: Sheet | SheetEvent): change is SheetEvent => 'kind' in change;

/**
 * The workbench on a changed sheet: an event, or another point of its history. Slips are looked for at once,
 * and a hint on the sheet as it was goes. The very same workbench where nothing changes.
 */
export function withSheet(app: App, change: Sheet | SheetEvent): App {
  const sheet = isEvent(change) ? reduce(app.sheet, change) : change;
  if (sheet === app.sheet) return app;
  const changed: App = {
    ...app,
    sheet,
    slips: slipsOf(sheet),
    hint: null,
    series: null,
    thinking: null,
    page: 0,
  };
  const solvedNow = isSolved(sheet.state) && !isSolved(app.sheet.state);
  return solvedNow ? { ...say(changed, 'Solved.'), held: null, found: null } : changed;
}

/** The answer to "am I right so far?"; it shows nothing of where not. */
export function sayStanding(standing: Standing): string {
  switch (standing) {
    case 'right':
      return 'Right so far.';
    case 'wrong':
      return 'Something on the sheet is not right.';
    case 'can-be-completed':
      return 'It can be completed. The givens have several solutions.';
    case 'no-solution':
      return 'The givens have no solution.';
    case 'undecided':
      return 'It could not be decided in the time there is.';
  }
}

/** What is said where no step and no broken argument can be shown: first of all, if the sheet cannot be right. */
export function sayNoStep(standing: Standing): string {
  switch (standing) {
    case 'wrong':
      return 'Something on the sheet cannot be right. No short argument shows where.';
    case 'no-solution':
      return 'The givens have no solution. No short argument shows why.';
    case 'right':
    case 'can-be-completed':
    case 'undecided':
      return 'No step found.';
  }
}

/** The marks looked over, a sentence a remark. */
export function sayRemarks(state: SheetState): readonly string[] {
  const remarks = lookOver(state);
  if (remarks.length === 0) return ['The marks leave out nothing that is still open.'];
  return remarks.map(({ text }) => text);
}
