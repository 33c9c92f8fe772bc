import { houseFact } from '../argument/fact.ts';
import type { Fact } from '../argument/kernel.ts';
import { maskOf } from '../grid/candidates.ts';
import { type Cell, candidateOf, cellOf, type Digit } from '../grid/layout.ts';
import { cellName, digitName } from '../grid/names.ts';
import { gridOf } from '../sheet/copy.ts';
import { placedAt, positionOf } from '../sheet/marks.ts';
import { singlesOf } from '../sheet/singles.ts';
import type { SheetEvent } from '../sheet/state.ts';
import { type App, candidateHere, keyOf } from './app-state.ts';
import { only, type Update } from './messages.ts';
import { move } from './moving.ts';
import { say, withSheet } from './saying.ts';
import { sayEnter } from './turning.ts';

const here = (app: App): string => cellName(app.sheet.state.layout, app.cursor);

/** The cells that are written: those picked, else the one under the cursor. */
const targets = (app: App): readonly Cell[] =>
  app.picked.size > 0 ? [...app.picked].sort((a, b) => a - b) : [app.cursor];

/** Whether a cell has a digit's mark of the pen in use already; of the ink pen nothing is asked. */
function isMarked(app: App, cell: Cell, digit: Digit): boolean {
  const { state } = app.sheet;
  if (app.pen === 'note') return (state.notes[cell] & maskOf(digit)) !== 0;
  return state.spots.get(spotFact(app, cell, digit))?.includes(cell) ?? false;
}

function spotFact(app: App, cell: Cell, digit: Digit): Fact {
  const { layout } = app.sheet.state;
  const houses = layout.housesOf[cell].map((index) => layout.houses[index]);
  const house = houses.find(({ kind }) => kind === app.spotHouse) ?? houses[0];
  return houseFact(layout, house, digit);
}

/**
 * The event of a digit written with the pen into some cells, as one undo step. A mark is a toggle: where all
 * that can have it have it, it goes, otherwise it comes to those that lack it.
 */
function penEvent(app: App, cells: readonly Cell[], digit: Digit): SheetEvent {
  const candidates = cells.map((cell) => candidateOf(app.sheet.state.layout, cell, digit));
  const { pen } = app;
  switch (pen) {
    case 'ink':
      if (cells.length === 1) return { kind: 'ink', cell: cells[0], digit };
      return { kind: 'ink-all', candidates };
    case 'strike':
      return { kind: 'strike', candidates };
    case 'note':
    case 'spot': {
      const { candidates: live } = positionOf(app.sheet.state);
      const able = cells.length === 1 ? cells : cells.filter((_, index) => live.has(candidates[index]));
      const lacking = able.filter((cell) => !isMarked(app, cell, digit));
      const events = (lacking.length > 0 ? lacking : able).map(
        (cell): SheetEvent =>
          pen === 'note'
            ? { kind: 'note', cell, digits: maskOf(digit) }
            : { kind: 'spot', fact: spotFact(app, cell, digit), cell },
      );
      return events.length === 1 ? events[0] : { kind: 'several', events };
    }
  }
}

/** Whether the spot pen has a house for the cell: not every cell lies on a diagonal or in an extra box. */
function hasSpotHouse(app: App, cell: Cell): boolean {
  const { houses, housesOf } = app.sheet.state.layout;
  return app.pen !== 'spot' || housesOf[cell].some((house) => houses[house].kind === app.spotHouse);
}

/** Why a digit cannot be written into the cells, in a sentence; null where it can into one at least. */
function whyNot(app: App, cells: readonly Cell[]): string | null {
  const { state } = app.sheet;
  const open = (cell: Cell) => state.givens[cell] === 0 && (app.pen === 'ink' || state.ink[cell] === 0);
  if (cells.some((cell) => open(cell) && hasSpotHouse(app, cell))) return null;
  const where = app.spotHouse === 'diagonal' ? 'on a diagonal' : 'in an extra box';
  if (cells.length > 1) {
    return cells.some(open) ? `No open picked cell lies ${where}.` : 'None of the picked cells is open.';
  }
  const [cell] = cells;
  if (open(cell)) return `${cellName(state.layout, cell)} does not lie ${where}.`;
  const name = cellName(state.layout, cell);
  if (state.givens[cell] !== 0) return `${name} is a given.`;
  return `${name} holds ${digitName(state.ink[cell])}. ${keyOf(app, 'erase')} erases it.`;
}

/** Writes a digit with the pen, into all picked cells at once where there are any. Where it can't, says why. */
export function write(app: App, digit: Digit): App {
  const { state } = app.sheet;
  const cells = targets(app);
  const problem = whyNot(app, cells);
  if (problem !== null) return say(app, problem);
  const open = cells.filter(
    (cell) =>
      state.givens[cell] === 0 && (app.pen === 'ink' || state.ink[cell] === 0) && hasSpotHouse(app, cell),
  );
  const changed = withSheet(app, penEvent(app, open, digit));
  const { pen, spotHouse } = app;
  if (changed !== app) return { ...changed, last: { pen, spotHouse, digit } };
  const name = digitName(digit);
  const where = cells.length === 1 ? cellName(state.layout, cells[0]) : 'all picked cells';
  if (pen === 'ink') return say(app, `${where} ${cells.length === 1 ? 'is' : 'are'} ${name} already.`);
  return say(app, `${name} is out of ${where} already.`);
}

/** Writes what was written last once more, with the pen that it was written with. */
export function writeAgain(app: App): App {
  const { last, pen, spotHouse } = app;
  if (!last) return say(app, 'Nothing was written yet.');
  const written = write({ ...app, pen: last.pen, spotHouse: last.spotHouse }, last.digit);
  return { ...written, pen, spotHouse };
}

/** Erases the cell under the cursor, or all picked ones: ink, else marks. */
export function erase(app: App): App {
  const { state } = app.sheet;
  const cells = targets(app).filter((cell) => state.givens[cell] === 0);
  if (cells.length === 0) {
    return say(app, app.picked.size > 0 ? 'The picked cells are all givens.' : `${here(app)} is a given.`);
  }
  const events = cells.map((cell): SheetEvent => ({ kind: 'erase', cell }));
  return withSheet(app, events.length === 1 ? events[0] : { kind: 'several', events });
}

/** Tags a candidate with the letter in use, or takes that letter off. */
export function tagDigit(app: App, digit: Digit): App {
  if (app.mode.kind !== 'tag') return app;
  const candidate = candidateHere(app, digit);
  const { state } = app.sheet;
  if (state.givens[app.cursor] !== 0) return say(app, `${here(app)} is a given.`);
  const live = placedAt(state, app.cursor) === 0 && positionOf(state).candidates.has(candidate);
  if (!live) return say(app, `${digitName(digit)} is out of ${here(app)} already.`);
  const same = state.tags.get(candidate) === app.mode.tag;
  return withSheet(app, { kind: 'tag', candidate, tag: same ? null : app.mode.tag });
}

/** Takes every tag off the cell under the cursor. */
export function untag(app: App): App {
  const { layout, tags } = app.sheet.state;
  return [...tags.keys()]
    .filter((candidate) => cellOf(layout, candidate) === app.cursor)
    .reduce((current, candidate) => withSheet(current, { kind: 'tag', candidate, tag: null }), app);
}

/** Notes every candidate in all cells that have no note. */
export function fillNotes(app: App): App {
  const changed = withSheet(app, { kind: 'fill' });
  return changed === app ? say(app, 'Every open cell has a note already.') : changed;
}

/** Back to the givens; the way back from there is undo. */
export function restart(app: App): App {
  const changed = withSheet(app, { kind: 'restart' });
  return changed === app
    ? say(app, 'Nothing but givens here.')
    : say(changed, `Back to the givens. ${keyOf(app, 'undo')} takes it back.`);
}

/** Places every single that stands now, in one undo step. None beside a slip: from what is wrong, all follows. */
export function placeSingles(app: App): App {
  if (app.slips.length > 0)
    return say(app, `No singles beside a slip. ${keyOf(app, 'back')} goes back to before it.`);
  const candidates = singlesOf(app.sheet.state);
  if (candidates.length === 0) return say(app, 'No single here.');
  const changed = withSheet(app, { kind: 'ink-all', candidates });
  if (changed.message.length > 0) return changed;
  const count = candidates.length;
  return say(changed, `${count} ${count === 1 ? 'single' : 'singles'} placed.`);
}

/** Starts entering a grid by hand: on this sheet while it has no givens, else on one of its own. */
export function startEntering(app: App): Update {
  const { layout, givens } = app.sheet.state;
  if (givens.some((digit) => digit !== 0)) {
    const grid = { layout, givens: givens.map(() => 0) };
    return only(app, { kind: 'turn', to: 'blank', opening: { grid, title: 'entered' } });
  }
  const entering: App = {
    ...app,
    mode: { kind: 'enter' },
    hint: null,
    series: null,
    picked: new Set(),
    held: null,
    found: null,
  };
  return only(say(entering, sayEnter(entering)));
}

/** The next cell in reading order, staying on the last. */
const onward = (app: App): App =>
  app.cursor === app.sheet.state.layout.cellCount - 1 ? app : { ...app, cursor: app.cursor + 1 };

/** Writes a digit of the grid that is being entered and goes on. */
export const enterDigit = (app: App, digit: Digit): App =>
  app.sheet.state.givens[app.cursor] === 0
    ? onward(withSheet(app, { kind: 'ink', cell: app.cursor, digit }))
    : onward(app);

/** Leaves the cell open and goes on. */
export const enterNothing = (app: App): App =>
  onward(app.sheet.state.ink[app.cursor] === 0 ? app : withSheet(app, { kind: 'erase', cell: app.cursor }));

/** Goes back a cell and erases it. */
export function rubOut(app: App): App {
  const back = app.cursor === 0 ? app : move({ ...app, found: null }, 'left');
  const cursor = app.cursor === 0 ? 0 : app.cursor - 1;
  const there = { ...back, cursor };
  return there.sheet.state.ink[cursor] === 0 ? there : withSheet(there, { kind: 'erase', cell: cursor });
}

/** Makes what was entered the givens of a sheet of their own. */
export function lockGivens(app: App): Update {
  const { state } = app.sheet;
  if (state.ink.every((digit) => digit === 0)) {
    return only(say({ ...app, mode: { kind: 'work' } }, 'Nothing to lock.'));
  }
  const opening = { grid: gridOf(state), title: 'entered' };
  return only(app, { kind: 'turn', to: 'locked', opening });
}
