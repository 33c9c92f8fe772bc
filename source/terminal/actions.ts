import type { ActionEntry } from './action.ts';
import { lineActions } from './line-actions.ts';
import { sheetActions } from './sheet-actions.ts';
import { writingActions } from './writing-actions.ts';

/** Everything that a person can do, in the order in which footers name it. */
export const actions = [...writingActions, ...lineActions, ...sheetActions] as const;

export type ActionName = (typeof actions)[number]['name'];
export interface Action extends ActionEntry {
  readonly name: ActionName;
}
