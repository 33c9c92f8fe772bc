import { sayEvent } from '../sheet/say.ts';
import { redo, undo } from '../sheet/sheet.ts';
import type { App } from './app-state.ts';
import { only, type Update } from './messages.ts';
import { say, withSheet } from './saying.ts';
import { placeAfter, placeBefore } from './turning.ts';

/** The sheet some moves back, and what has been taken back. `nothing` is said where there is nothing to. */
export function takeBack(app: App, moves: number, nothing = 'Nothing to undo.'): App {
  const { past, state } = app.sheet;
  const first = past.at(-moves);
  if (moves === 0 || !first) return say(app, nothing);
  const move = sayEvent(state.layout, first.event);
  const back = withSheet(app, undo(app.sheet, moves));
  return say(back, moves === 1 ? `Took back ${move}.` : `Took back ${moves} moves, to before ${move}.`);
}

/** Some of the moves that were undone last, done again, and up to which. */
export function doAgain(app: App, moves: number): App {
  const { future, state } = app.sheet;
  const last = future.at(-moves);
  if (moves === 0 || !last) return say(app, 'Nothing to redo.');
  const move = sayEvent(state.layout, last.event);
  const done = withSheet(app, redo(app.sheet, moves));
  return say(done, moves === 1 ? `Did ${move} again.` : `Did ${moves} moves again, up to ${move}.`);
}

/** Takes back what was done last: a move, or that another sheet was put in the place of one. */
export function undoLast(app: App): Update {
  const place = placeBefore(app);
  return place === null ? only(takeBack(app, 1)) : only(app, { kind: 'turn', to: 'before', place });
}

/** Does again what was undone last. */
export function redoLast(app: App): Update {
  const place = placeAfter(app);
  return place === null ? only(doAgain(app, 1)) : only(app, { kind: 'turn', to: 'after', place });
}
