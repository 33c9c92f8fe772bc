import { type App, arguedOf, hasUnsavedWork, keyOf } from './app-state.ts';
import { only, type Update } from './messages.ts';
import { keepLine } from './recalling.ts';
import { isSheetAtRisk } from './saving.ts';
import { say } from './saying.ts';

/** Whether Escape has something to leave. */
export const isOpen = (app: App): boolean =>
  app.mode.kind !== 'work' ||
  app.thinking !== null ||
  app.hint !== null ||
  arguedOf(app) !== null ||
  app.series !== null ||
  app.picked.size > 0 ||
  app.held !== null ||
  app.found !== null ||
  app.showBivalue;

/** Leaves what is open, the last opened first. Never touches the sheet. */
export function leave(app: App): App {
  const plain = { ...app, message: [], page: 0, quitAsked: false };
  if (app.mode.kind === 'help' || app.mode.kind === 'palette')
    return { ...app, mode: app.mode.over, page: 0 };
  if (app.mode.kind === 'ten') return { ...app, mode: app.mode.over };
  if (app.mode.kind === 'enter') {
    return say(
      { ...plain, mode: { kind: 'work' } },
      `Not locked. ${keyOf(app, 'enter')} goes on, ${keyOf(app, 'undo')} takes it back.`,
    );
  }
  if (app.mode.kind === 'paste') return { ...plain, mode: { kind: 'work' }, thinking: null };
  // What was typed is not lost: the key for the line before brings it back.
  if (app.mode.kind === 'typed') return { ...keepLine(plain, app.mode.text), mode: { kind: 'work' } };
  if (app.mode.kind !== 'work') return { ...plain, mode: { kind: 'work' } };
  if (app.thinking) return { ...plain, thinking: null };
  if (app.hint) return { ...plain, hint: null };
  if (arguedOf(app)) return { ...plain, argued: null };
  if (app.series) return { ...plain, series: null };
  if (app.picked.size > 0) return { ...plain, picked: new Set() };
  return { ...plain, held: null, found: null, showBivalue: false };
}

/** Quits; where work would be lost, asks first. */
export function quit(app: App, code: 0 | 130): Update {
  if (!hasUnsavedWork(app) || app.quitAsked) return only(app, { kind: 'quit', code });
  return only({
    ...say(
      { ...app, mode: { kind: 'work' } },
      `${isSheetAtRisk(app.saving) ? 'The sheet' : 'The sheet before'} is not saved. ${keyOf(app, 'quit')} again quits, any other key stays.`,
    ),
    quitAsked: true,
  });
}
