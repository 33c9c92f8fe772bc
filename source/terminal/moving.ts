import type { Cell } from '../grid/layout.ts';
import { placedAt } from '../sheet/marks.ts';
import type { App } from './app-state.ts';
import { placesShown } from './shown.ts';

export type Step =
  | 'left'
  | 'right'
  | 'up'
  | 'down'
  | 'row-start'
  | 'row-end'
  | 'column-top'
  | 'column-bottom'
  | 'next'
  | 'previous';

const at = (app: App, cell: Cell): App => (cell === app.cursor ? app : { ...app, cursor: cell });

/** The cursor on a row and column, counted from 0. */
export const stepTo = (app: App, row: number, column: number): App =>
  at(app, row * app.sheet.state.layout.size + column);

/** The cursor one step on. It goes round at the edges of the grid. */
export function move(app: App, step: Step): App {
  const { size } = app.sheet.state.layout;
  const row = Math.floor(app.cursor / size);
  const column = app.cursor % size;
  switch (step) {
    case 'left':
      return stepTo(app, row, (column + size - 1) % size);
    case 'right':
      return stepTo(app, row, (column + 1) % size);
    case 'up':
      return stepTo(app, (row + size - 1) % size, column);
    case 'down':
      return stepTo(app, (row + 1) % size, column);
    case 'row-start':
      return stepTo(app, row, 0);
    case 'row-end':
      return stepTo(app, row, size - 1);
    case 'column-top':
      return stepTo(app, 0, column);
    case 'column-bottom':
      return stepTo(app, size - 1, column);
    case 'next':
      return at(app, nextOpen(app, 1));
    case 'previous':
      return at(app, nextOpen(app, -1));
  }
}

/** The next open cell in reading order; while a digit is shown, the next cell where it can go. */
function nextOpen(app: App, direction: 1 | -1): Cell {
  const { state } = app.sheet;
  const { cellCount, size } = state.layout;
  const places = app.found === null || app.hint ? null : placesShown(app);
  const digit = app.found ?? 0;
  const wanted = (cell: Cell) =>
    placedAt(state, cell) === 0 && (places === null || places.has(cell * size + digit - 1));
  for (let distance = 1; distance < cellCount; distance += 1) {
    const cell = (app.cursor + direction * distance + cellCount) % cellCount;
    if (wanted(cell)) return cell;
  }
  return app.cursor;
}
