import type { Digit } from '../grid/layout.ts';
import type { App } from './app-state.ts';
import { stepTo } from './moving.ts';

/** The digit that was waited for. */
export function answer(app: App, digit: Digit): App {
  switch (app.mode.kind) {
    case 'find':
      return { ...app, found: digit, mode: { kind: 'work' } };
    case 'hold':
      return { ...app, held: digit, found: digit, mode: { kind: 'work' } };
    case 'goto': {
      const { row } = app.mode;
      if (row === null) return { ...app, mode: { kind: 'goto', row: digit - 1 } };
      return { ...stepTo(app, row, digit - 1), mode: { kind: 'work' } };
    }
    default:
      return app;
  }
}

/** More than this is a slip of the finger. */
const mostTimes = 99;

/** A digit of the count that is typed. */
export function countDigit(app: App, digit: number): App {
  if (app.mode.kind !== 'count') return app;
  const count = (app.mode.count ?? 0) * 10 + digit;
  return {
    ...app,
    mode: { kind: 'count', count: count === 0 || count > mostTimes ? app.mode.count : count },
  };
}
