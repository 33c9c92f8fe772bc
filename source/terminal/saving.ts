import type { Sheet } from '../sheet/state.ts';

/** How far the sheet is saved. */
export interface Saving {
  /** How many changes have been made to the sheet that have to be saved. */
  readonly taken: number;
  /** How many of them, counted from the first, are on the disk. */
  readonly saved: number;
  /**
   * Why the others are not, in few words, such as `disk full`; null while nothing is in the way. Empty: there
   * is nobody who saves.
   */
  readonly problem: string | null;
  /** How many sheets that lay here before have changes that are not saved; absent: none. */
  readonly aside?: number;
  /** Why nothing can be written on this sheet here, in a sentence; null where it can. */
  readonly readOnly: string | null;
}

/** Where nobody keeps the sheet. */
export const keptNowhere: Saving = { taken: 0, saved: 0, problem: '', readOnly: null };

/** What there is to tell of saving while it goes on. */
export type SavingProgress = Pick<Saving, 'saved' | 'problem' | 'aside'>;

/** What keeps the sheet. */
export interface SheetKeeper {
  /** As things stand now. */
  readonly saving: () => Saving;
  /**
   * Takes what the sheet has become; answers with the number of this change. It answers at once, and saves
   * behind that.
   */
  readonly take: (before: Sheet, after: Sheet) => number;
  /** Saves, at once, what is not saved yet; false, with the problem told, where that can't be. Absent: nothing to do. */
  readonly settle?: () => boolean;
  /** Calls back whenever saving has come further, or something has come in its way. */
  readonly watch: (tell: (progress: SavingProgress) => void) => void;
}

/** Whether something on the sheet itself would be lost by quitting. What is on its way is not. */
export const isSheetAtRisk = ({ taken, saved, problem }: Saving): boolean =>
  taken > saved && problem !== null;

/** Whether something would be lost by quitting, on this sheet or on one that lay here before. */
export const isAtRisk = (saving: Saving): boolean => isSheetAtRisk(saving) || (saving.aside ?? 0) > 0;

/** Whether changes are on their way to the disk, with nothing known to be in the way. */
export const isOnItsWay = ({ taken, saved, problem, readOnly }: Saving): boolean =>
  readOnly === null && problem === null && saved < taken;

/** What the status says of it. */
export function saySaving(saving: Saving): string {
  const { taken, saved, problem, aside = 0, readOnly } = saving;
  if (aside > 0 && !isSheetAtRisk(saving)) return 'not saved: the sheet before';
  if (readOnly !== null) return 'read-only';
  if (isSheetAtRisk(saving)) return problem === '' ? 'not saved' : `not saved: ${problem}`;
  if (isOnItsWay(saving)) return 'saving';
  return problem === null && saved === taken ? 'saved' : '';
}

/** The same in seven columns. */
export function saySavingBriefly(saving: Saving): string {
  if (isAtRisk(saving)) return 'unsaved';
  return saving.readOnly !== null ? 'no edit' : saySaving(saving);
}
