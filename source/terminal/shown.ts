import { withClaims } from '../argument/claim.ts';
import type { Candidate, Cell } from '../grid/layout.ts';
import type { Position } from '../grid/position.ts';
import type { SheetState } from '../sheet/state.ts';
import { viewOf } from '../sheet/view.ts';
import { type App, drawingOf, stateShown } from './app-state.ts';
import { bivalueCells, type GridScene, placesOfDigit } from './grid-look.ts';

/** The position as the person takes it to be: what their claims leave out counts as struck. */
export function knownPosition(state: SheetState): Position {
  const { position, claims } = viewOf(state);
  return withClaims(position, claims);
}

/** Where the shown digit can go; empty where none is shown. */
export const placesShown = (app: App): ReadonlySet<Candidate> =>
  app.found === null ? new Set() : placesOfDigit(knownPosition(app.sheet.state), app.found);

const none: ReadonlySet<Cell> = new Set();

/** What the grid's picture shows of the workbench. */
export function sceneOf(app: App): GridScene {
  const { state } = app.sheet;
  return {
    state: stateShown(app),
    cursor: app.cursor,
    slips: app.slips,
    drawing: drawingOf(app),
    found: app.found === null ? null : { digit: app.found, places: placesShown(app) },
    bivalue: app.showBivalue ? bivalueCells(knownPosition(state)) : none,
  };
}
