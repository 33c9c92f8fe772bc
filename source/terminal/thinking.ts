import type { ActionName } from './actions.ts';
import type { App } from './app-state.ts';
import type { Asking } from './engine.ts';
import { only, type Update } from './messages.ts';

/** Has a question thought about; one that is being thought about already is given up for it. */
export const think = (app: App, asking: Asking): Update =>
  only({ ...app, thinking: { asking, waiting: [] } }, asking);

/** Whether a hint has been asked for that is not there yet. */
export const waitsForHint = (app: App): boolean => app.thinking?.asking.kind === 'find-hint';

/** What is done as soon as the answer is there. */
export const waitWith = (app: App, name: ActionName): App =>
  app.thinking ? { ...app, thinking: { ...app.thinking, waiting: [...app.thinking.waiting, name] } } : app;
