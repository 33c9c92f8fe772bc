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
  /** Why nothing can be written on this sheet here, in a sentence; null where it can. */
  readonly readOnly: string | null;
}

/** Where nobody keeps the sheet. */
export const keptNowhere: Saving = { taken: 0, saved: 0, problem: '', readOnly: null };

/** What keeps the sheet. */
export interface SheetKeeper {
  /** As things stand now. */
  readonly saving: () => Saving;
  /**
   * Takes what the sheet has become; answers with the number of this change. It answers at once, and saves
   * behind that.
   */
  readonly take: (before: Sheet, after: Sheet) => number;
  /** Calls back whenever saving has come further, or something has come in its way. */
  readonly watch: (tell: (progress: Pick<Saving, 'saved' | 'problem'>) => void) => void;
}

/** Whether something on the sheet would be lost by quitting. What is on its way is not. */
export const isAtRisk = ({ taken, saved, problem }: Saving): boolean => taken > saved && problem !== null;

/** Whether changes are on their way to the disk, with nothing known to be in the way. */
export const isOnItsWay = ({ taken, saved, problem, readOnly }: Saving): boolean =>
  readOnly === null && problem === null && saved < taken;

/** What the status says of it. */
export function saySaving(saving: Saving): string {
  const { taken, saved, problem, readOnly } = saving;
  if (readOnly !== null) return 'read-only';
  if (isAtRisk(saving)) return problem === '' ? 'not saved' : `not saved: ${problem}`;
  if (isOnItsWay(saving)) return 'saving';
  return problem === null && saved === taken ? 'saved' : '';
}

/** The same in seven columns. */
export function saySavingBriefly(saving: Saving): string {
  if (saving.readOnly !== null) return 'no edit';
  return isAtRisk(saving) ? 'unsaved' : saySaving(saving);
}
