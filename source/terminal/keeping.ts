import type { App } from './app-state.ts';
import { only, type Update } from './messages.ts';
import type { SavingProgress, SheetKeeper } from './saving.ts';
import { say } from './saying.ts';

/** The workbench with news of saving; the very same where nothing is new. */
export function withProgress(app: App, { saved, problem, aside = 0 }: SavingProgress): App {
  const { saving } = app;
  if (saving.saved === saved && saving.problem === problem && (saving.aside ?? 0) === aside) return app;
  return { ...app, saving: { ...saving, saved, problem, aside } };
}

/**
 * Hands a changed sheet to its keeper. Where the sheet is read-only the change is not made at all, and why is
 * said instead: the one place that every change passes.
 */
export function keepChange(before: App, update: Update, keeper: SheetKeeper | undefined): Update {
  const { app, effects } = update;
  // A sheet in another's place is no change of either.
  if (app.sheet === before.sheet || app.trail !== before.trail) return update;
  const { readOnly } = before.saving;
  if (readOnly !== null) {
    const { mode } = before;
    const stays = mode.kind === 'typed' || mode.kind === 'paste';
    const told = say({ ...before, mode: stays ? mode : { kind: 'work' } }, readOnly);
    // Perhaps it is no longer so.
    return only(told, { kind: 'turn', to: 'again' });
  }
  const taken = keeper ? keeper.take(before.sheet, app.sheet) : before.saving.taken + 1;
  return { app: { ...app, saving: { ...app.saving, taken } }, effects };
}
