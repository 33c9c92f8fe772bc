import { type Cell, cellOf } from '../grid/layout.ts';
import type { App } from './app-state.ts';
import { move, type Step } from './moving.ts';
import { say } from './saying.ts';
import { placesShown } from './shown.ts';

const withPicked = (app: App, picked: ReadonlySet<Cell>): App => ({ ...app, picked });

/** Picks the cell under the cursor, or lets it go again. */
export function pick(app: App): App {
  const picked = new Set(app.picked);
  if (!picked.delete(app.cursor)) picked.add(app.cursor);
  return withPicked(app, picked);
}

/** Picks the cell under the cursor and the one that a step leads to. */
export function pickOn(app: App, step: Step): App {
  const moved = move(app, step);
  return withPicked(moved, new Set([...app.picked, app.cursor, moved.cursor]));
}

/** Picks every cell where the shown digit can go. */
export function pickPlaces(app: App): App {
  if (app.found === null) return say(app, 'No digit is shown. Find one first.');
  const { layout } = app.sheet.state;
  const cells = [...placesShown(app)].map((candidate) => cellOf(layout, candidate));
  return cells.length === 0 ? say(app, 'It can go nowhere.') : withPicked(app, new Set(cells));
}
