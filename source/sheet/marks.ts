import { factParts } from '../argument/fact.ts';
import type { Fact } from '../argument/kernel.ts';
import { digitsIn } from '../grid/candidates.ts';
import { type Candidate, type Cell, candidateOf, type Digit, type DigitMask } from '../grid/layout.ts';
import { Position } from '../grid/position.ts';
import type { SheetState, TagLetter } from './state.ts';

/** The digit that stands in a cell, given or ink; 0 where it is open. */
export const placedAt = (state: SheetState, cell: Cell): Digit => state.givens[cell] || state.ink[cell];

let latest: { readonly state: SheetState; readonly position: Position } | null = null;

/** The position of givens, ink and strikes; what the marks claim is not in it. */
export function positionOf(state: SheetState): Position {
  // One state is asked about many times over before the next one comes, so the last answer is kept.
  if (latest?.state !== state) {
    const placed = state.givens.map((_, cell) => placedAt(state, cell));
    latest = { state, position: Position.from(state.layout, state.givens, placed, state.strikes) };
  }
  return latest.position;
}

/** Whether every cell holds a digit and none is twice in a house; strikes and marks do not matter. */
export function isSolved(state: SheetState): boolean {
  const placed = state.givens.map((_, cell) => placedAt(state, cell));
  return !placed.includes(0) && Position.from(state.layout, state.givens, placed).isSolved;
}

/** All marks of a fact as they were made by hand, live or not, ascending by cell or digit. */
export function marksOf(state: SheetState, fact: Fact): Candidate[] {
  const { layout } = state;
  const parts = factParts(layout, fact);
  return parts.kind === 'cell'
    ? digitsIn(state.notes[parts.cell]).map((digit) => candidateOf(layout, parts.cell, digit))
    : (state.spots.get(fact) ?? []).map((cell) => candidateOf(layout, cell, parts.digit));
}

/** The marks of a fact that are shown and counted: in open cells, excluded by no placed digit or strike. */
export function liveMarks(state: SheetState, fact: Fact): Candidate[] {
  const { candidates, layout } = positionOf(state);
  return marksOf(state, fact).filter(
    (mark) => placedAt(state, Math.floor(mark / layout.size)) === 0 && candidates.has(mark),
  );
}

/** What the note of a cell shows: the live digits of it. 0 for a placed cell. */
export const liveNote = (state: SheetState, cell: Cell): DigitMask =>
  placedAt(state, cell) === 0 ? state.notes[cell] & positionOf(state).candidates.digitsAt(cell) : 0;

/** The cells in which the mark of a house fact is shown, ascending. */
export const liveSpots = (state: SheetState, fact: Fact): Cell[] =>
  liveMarks(state, fact).map((mark) => Math.floor(mark / state.layout.size));

/** The tags to show: those on live candidates of open cells. */
export function liveTags(state: SheetState): ReadonlyMap<Candidate, TagLetter> {
  const { candidates, layout } = positionOf(state);
  return new Map(
    [...state.tags].filter(
      ([candidate]) =>
        placedAt(state, Math.floor(candidate / layout.size)) === 0 && candidates.has(candidate),
    ),
  );
}

/** The facts with marks, live or not, ascending. */
export function markedFacts(state: SheetState): Fact[] {
  const noted = state.notes.flatMap((digits, cell) => (digits === 0 ? [] : [cell]));
  return [...noted, ...[...state.spots.keys()].sort((a, b) => a - b)];
}

/** Whether a digit stands in one of the fact's marked places: then the marks have had their say. */
export const isSettled = (state: SheetState, fact: Fact): boolean =>
  marksOf(state, fact).some(
    (mark) => placedAt(state, Math.floor(mark / state.layout.size)) === (mark % state.layout.size) + 1,
  );

/** The facts that have live marks and are not claimed, ascending; the one in hand is among them. */
export const pendingFacts = (state: SheetState): Fact[] =>
  markedFacts(state).filter((fact) => !state.claimed.has(fact) && liveMarks(state, fact).length > 0);
