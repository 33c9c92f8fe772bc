import type { ActionName } from './actions.ts';
import { type App, keyOf } from './app-state.ts';
import type { Asking } from './engine.ts';
import { only, type Update } from './messages.ts';

/** Has a question thought about; one that is being thought about already is given up for it. */
export const think = (app: App, asking: Asking): Update =>
  only({ ...app, thinking: { asking, waiting: [], isSlow: false } }, asking);

/** Whether a hint has been asked for that is not there yet. */
export const waitsForHint = (app: App): boolean => app.thinking?.asking.kind === 'find-hint';

/** What is done as soon as the answer is there. */
export const waitWith = (app: App, name: ActionName): App =>
  app.thinking ? { ...app, thinking: { ...app.thinking, waiting: [...app.thinking.waiting, name] } } : app;

/** A thought takes long: from now on it is told of until it ends. */
export const slowly = (app: App): App =>
  app.thinking ? { ...app, thinking: { ...app.thinking, isSlow: true } } : app;

/**
 * What is told of a thought that takes long, as long as it lasts and whatever is done meanwhile, and how it is
 * stopped where one key does it; null where there is none. A pasted grid has a line of its own for what is not
 * known of it yet.
 */
export function sayThinking(app: App): string | null {
  if (!app.thinking?.isSlow || app.mode.kind === 'paste') return null;
  return app.mode.kind === 'work' ? `Thinking. ${keyOf(app, 'leave')} stops it.` : 'Thinking.';
}
