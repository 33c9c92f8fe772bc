import { type NamedGrid, readGrids } from '../grid/read.ts';
import { newSheet } from '../sheet/sheet.ts';
import { safeText } from '../text/safe.ts';
import type { App } from './app-state.ts';
import { only, type Update } from './messages.ts';
import { say } from './saying.ts';
import { think } from './thinking.ts';

/** The most characters of a pasted text that the typed line takes. */
const mostTyped = 200;

/**
 * What a paste does: into an open typed line it types its first line; otherwise it opens a preview of the
 * grids that can be read from it, or says where it cannot be read. The sheet stays as it is.
 */
export function readPaste(app: App, text: string, truncated: boolean): Update {
  if (app.mode.kind === 'typed') {
    const { mode } = app;
    const [first, ...others] = text.trimEnd().split('\n');
    const line = safeText(first);
    const pasted = mode.text + line.slice(0, mostTyped);
    const typed = { ...app, mode: { ...mode, text: pasted, entries: mode.entries + 1 } };
    if (line.length > mostTyped || truncated) return only(say(typed, 'The paste is too long for the line.'));
    return only(others.length > 0 ? say(typed, 'Only the first line of the paste was taken.') : typed);
  }
  if (truncated) {
    const tooLong = 'The paste is too long, so nothing was read. INKLING_PASTE_LIMIT sets how much is.';
    return only(say(app, tooLong));
  }
  const { layout } = app.sheet.state;
  const { gridLimit: limit } = app.settings;
  const results = readGrids(text, { layout, ...(limit !== undefined && { limit }) });
  const grids = results.flatMap((result) => (result.ok ? [result.value] : []));
  if (grids.length === 0) {
    const error = results.find((result) => !result.ok)?.error;
    const raise = error?.code === 'too-long' ? ['INKLING_GRID_LIMIT sets how many are read.'] : [];
    const why = safeText(error?.message ?? 'It holds no grid.');
    return only(say(app, 'The paste cannot be read.', why, ...raise));
  }
  const bad = results.length - grids.length;
  const message = bad > 0 ? [`${bad} of ${results.length} could not be read.`] : [];
  return preview({ ...app, hint: null, series: null, message }, grids, 0);
}

/** Shows one of the grids read, and has its solutions counted. */
function preview(app: App, grids: readonly NamedGrid[], index: number): Update {
  const { layout, givens } = grids[index].grid;
  const { state } = newSheet(layout, givens, '');
  const shown: App = { ...app, mode: { kind: 'paste', grids, index, solutions: null }, page: 0 };
  return think(shown, { kind: 'how-many-solutions', state });
}

/** The preview of the grid so many on, round again at the ends. */
export function turnPreview(app: App, by: 1 | -1): Update {
  if (app.mode.kind !== 'paste') return only(app);
  const { grids, index } = app.mode;
  return preview(app, grids, (index + by + grids.length) % grids.length);
}

/** Puts the sheet of the grid in the preview in the place of this one. */
export function openGrid(app: App): Update {
  if (app.mode.kind !== 'paste') return only(app);
  const { grid, name } = app.mode.grids[app.mode.index];
  const opening = { grid, title: name === undefined ? 'pasted' : safeText(name) };
  return only(app, { kind: 'turn', to: 'pasted', opening });
}
