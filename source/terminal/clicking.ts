import { moving } from './action.ts';
import { type App, keyModeOf } from './app-state.ts';
import { planScreen } from './layout-sizes.ts';
import { stepTo } from './moving.ts';

/** A click goes to the cell that it falls on, wherever the cursor can move; elsewhere it does nothing. */
export function click(app: App, x: number, y: number): App {
  const { layout } = app.sheet.state;
  const plan = planScreen(app.size, layout);
  const mode = keyModeOf(app);
  if (!plan || !moving.some((each) => each === mode)) return app;
  const indices = Array.from({ length: layout.size }, (_, index) => index);
  // The gap to the right of a cell and the line below it belong to nobody.
  const column = indices.find((each) => x >= plan.cellX(each) && x < plan.cellX(each) + plan.cellWidth);
  const row = indices.find((each) => y >= plan.cellY(each) && y < plan.cellY(each) + plan.cellHeight);
  return row === undefined || column === undefined ? app : stepTo(app, row, column);
}
