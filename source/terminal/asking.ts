import type { App } from './app-state.ts';
import { say } from './saying.ts';
import type { Answer } from './series.ts';

/** An answer on the workbench; a question that can't be read stays in the typed line. */
export function answered(app: App, text: string, answer: Answer): App {
  const plain: App = { ...app, series: null, argued: null, hint: null };
  switch (answer.kind) {
    case 'unreadable':
      return { ...say(app, ...answer.lines), mode: { kind: 'typed', text, entries: 0 } };
    case 'said':
      return say(plain, ...answer.lines);
    case 'series': {
      const { title, shown } = answer;
      return { ...plain, series: { text, title, shown, at: 0 }, message: [], page: 0 };
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
