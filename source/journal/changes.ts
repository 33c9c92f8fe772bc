import type { Sheet, SheetEvent, SheetState } from '../sheet/state.ts';

/** A step through the history of a sheet. */
export interface HistoryStep {
  readonly kind: 'undo' | 'redo';
  readonly steps: number;
}

/** What a journal can hold behind its opening. */
export type Change =
  | SheetEvent
  | HistoryStep
  /** The sheet gets a name; no step of its history. */
  | { readonly kind: 'name'; readonly name: string }
  /** What is on the sheet at this point, its name aside: says nothing new, and saves working it out. */
  | { readonly kind: 'state'; readonly state: SheetState };

/**
 * What leads from one sheet to another that came out of it, in the order in which to do it; none where they
 * are the same. Looks at the histories alone, so whoever changes a sheet need not say how. Doing it gives an
 * equal sheet, undo history included.
 */
export function changesBetween(before: Sheet, after: Sheet): (SheetEvent | HistoryStep)[] {
  const shorter = Math.min(before.past.length, after.past.length);
  let shared = shorter;
  // The histories share all but the last few steps; only where a step in the middle is another one does it take longer.
  while (shared > 0 && before.past[shared - 1].event !== after.past[shared - 1].event) shared -= 1;
  const undone = before.past.length - shared;
  const added = after.past.slice(shared).map(({ event }) => event);
  const changes: (SheetEvent | HistoryStep)[] = [];
  if (undone > 0) changes.push({ kind: 'undo', steps: undone });
  // What could be redone now, nearest first.
  const redoable = [
    ...before.future.map(({ event }) => event),
    ...before.past
      .slice(shared)
      .map(({ event }) => event)
      .reverse(),
  ].reverse();
  const isRedo = added.every((event, i) => redoable[i] === event);
  const left = redoable.slice(added.length);
  const wanted = after.future.map(({ event }) => event).reverse();
  if (isRedo && left.length === wanted.length && left.every((event, i) => event === wanted[i])) {
    if (added.length > 0) changes.push({ kind: 'redo', steps: added.length });
    return changes;
  }
  changes.push(...added, ...wanted);
  if (wanted.length > 0) changes.push({ kind: 'undo', steps: wanted.length });
  return changes;
}
