import type { ArgueAnswer } from '../hint/argue-words.ts';
import { viewOf } from '../sheet/view.ts';
import type { LocatedError, Result } from '../text/result.ts';
import type { App } from './app-state.ts';
import type { Update } from './messages.ts';
import { say } from './saying.ts';
import type { Answer, Question } from './series.ts';
import { think } from './thinking.ts';

/** An answer on the workbench; a question that can't be read stays in the typed line. */
export function answered(app: App, text: string, answer: Answer): App {
  const plain: App = { ...app, series: null, argued: null, hint: null };
  switch (answer.kind) {
    case 'unreadable':
      return { ...say(app, ...answer.lines), mode: { kind: 'typed', text, entries: 0 } };
    case 'said':
      return say(plain, ...answer.lines);
    case 'series': {
      const { title, shown, contour = '' } = answer;
      return { ...plain, series: { text, title, shown, contour, at: 0 }, message: [], page: 0 };
    }
  }
}

/** The next one of a series, or the one before, round again at its ends. */
export function turn(app: App, by: 1 | -1): App {
  const { series } = app;
  if (!series) return app;
  const { length } = series.shown;
  return { ...app, series: { ...series, at: (series.at + by + length) % length }, page: 0 };
}

/** Asks for a technique, or for the way to a cell or candidate, on the sheet as it stands. */
export const ask = (app: App, about: Question, text: string): Update =>
  think(app, { kind: 'ask', about, text, view: viewOf(app.sheet.state) });

/** An argument's answer on the workbench; one that can't be read stays in the typed line. */
export function argued(app: App, text: string, answer: Result<ArgueAnswer, LocatedError>): App {
  if (!answer.ok) return { ...say(app, answer.error.message), mode: { kind: 'typed', text, entries: 0 } };
  const given = { text, answer: answer.value, on: app.sheet.state };
  return { ...app, argued: given, series: null, message: [], page: 0 };
}
