import { houseFact } from '../argument/fact.ts';
import { maskOf } from '../grid/candidates.ts';
import { cellOf, type Digit } from '../grid/layout.ts';
import { writeLayout } from '../grid/layout-text.ts';
import { cellName, digitName } from '../grid/names.ts';
import { placedAt, positionOf } from '../sheet/marks.ts';
import { singlesOf } from '../sheet/singles.ts';
import type { SheetEvent } from '../sheet/state.ts';
import { type App, candidateHere } from './app-state.ts';
import { move } from './moving.ts';
import { say, withSheet } from './saying.ts';

const here = (app: App): string => cellName(app.sheet.state.layout, app.cursor);

/** The event of a digit written with the pen into the cell under the cursor. */
function penEvent(app: App, digit: Digit): SheetEvent {
  const { layout } = app.sheet.state;
  switch (app.pen) {
    case 'ink':
      return { kind: 'ink', cell: app.cursor, digit };
    case 'note':
      return { kind: 'note', cell: app.cursor, digits: maskOf(digit) };
    case 'strike':
      return { kind: 'strike', candidates: [candidateHere(app, digit)] };
    case 'spot': {
      const houses = layout.housesOf[app.cursor].map((index) => layout.houses[index]);
      const house = houses.find(({ kind }) => kind === app.spotHouse) ?? houses[0];
      return { kind: 'spot', fact: houseFact(layout, house, digit), cell: app.cursor };
    }
  }
}

/** Writes a digit with the pen. Where nothing can be written, says why. */
export function write(app: App, digit: Digit): App {
  const { state } = app.sheet;
  const name = digitName(digit);
  if (state.givens[app.cursor] !== 0) return say(app, `${here(app)} is a given.`);
  const ink = state.ink[app.cursor];
  if (app.pen !== 'ink' && ink !== 0) {
    return say(app, `${here(app)} holds ${digitName(ink)}. 0 erases it.`);
  }
  const changed = withSheet(app, penEvent(app, digit));
  if (changed !== app) return changed;
  if (app.pen === 'ink') return say(app, `${here(app)} is ${name} already.`);
  return say(app, `${name} is out of ${here(app)} already.`);
}

/** Erases the cell under the cursor: its ink, else its marks. */
export function erase(app: App): App {
  if (app.sheet.state.givens[app.cursor] !== 0) return say(app, `${here(app)} is a given.`);
  return withSheet(app, { kind: 'erase', cell: app.cursor });
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
    : say(changed, 'Back to the givens. u takes it back.');
}

/** Places every single that stands now, in one undo step. */
export function placeSingles(app: App): App {
  const candidates = singlesOf(app.sheet.state);
  if (candidates.length === 0) return say(app, 'No single here.');
  const changed = withSheet(app, { kind: 'ink-all', candidates });
  if (changed.message.length > 0) return changed;
  const count = candidates.length;
  return say(changed, `${count} ${count === 1 ? 'single' : 'singles'} placed.`);
}

/** Starts entering a grid by hand: on an empty grid, or on this one while it has no givens. */
export function startEntering(app: App): App {
  const { layout, givens } = app.sheet.state;
  const isEmpty = givens.every((digit) => digit === 0);
  const blank = givens.map(() => 0);
  const opened = isEmpty
    ? app
    : withSheet(app, {
        kind: 'open',
        layout: writeLayout(layout),
        name: 'entered',
        givens: blank,
        notes: [],
      });
  const firstOpen = isEmpty ? app.cursor : 0;
  return say(
    {
      ...opened,
      cursor: firstOpen,
      mode: { kind: 'enter' },
      hint: null,
      series: null,
      held: null,
      found: null,
    },
    `Type the givens from ${cellName(layout, firstOpen)} on, 0 for an open cell.`,
  );
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

/** Turns what was entered into givens. */
export function lockGivens(app: App): App {
  const changed = withSheet(app, { kind: 'lock' });
  if (changed === app) return say({ ...app, mode: { kind: 'work' } }, 'Nothing to lock.');
  const givens = changed.sheet.state.givens.filter((digit) => digit !== 0).length;
  return say({ ...changed, mode: { kind: 'work' } }, `${givens} givens locked.`);
}
