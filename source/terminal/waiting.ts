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
