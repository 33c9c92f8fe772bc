import { factName, factParts } from '../argument/fact.ts';
import { list, sayPlace, startSentence } from '../argument/words.ts';
import type { Layout } from '../grid/layout.ts';
import { cellName, digitName, sayHouse } from '../grid/names.ts';
import { type Flaw, flawKey, flawsOf } from './flaws.ts';
import { marksOf, placedAt } from './marks.ts';
import { sayEvent, sayMarked } from './say.ts';
import { newSheet } from './sheet.ts';
import type { Sheet, SheetState, Slip } from './state.ts';
import type { Asking } from './view.ts';

const hasFlaw = (state: SheetState, key: string): boolean =>
  flawsOf(state, { asking: true }).some((flaw) => flawKey(flaw.kind, flaw.fact) === key);

/** Which move brought a flaw in that the sheet has now, and how many steps lead to just before it. */
function origin(sheet: Sheet, key: string): { undoSteps: number; move: string } {
  const { layout } = sheet.state;
  for (let i = sheet.past.length - 1; i >= 0; i -= 1) {
    const { before, event } = sheet.past[i];
    const opened = event.kind === 'open';
    if (opened && hasFlaw(newSheet(layout, event.givens, '').state, key)) break;
    if (opened || !hasFlaw(before, key)) {
      return { undoSteps: sheet.past.length - i, move: sayEvent(layout, event) };
    }
  }
  return { undoSteps: 0, move: '' };
}

const times = (count: number): string => (count === 2 ? 'twice' : `${count} times`);

function sayMarks(layout: Layout, flaw: Flaw): string {
  if (flaw.marks.length === 0) return '.';
  return `, with ${list(flaw.marks.map((fact) => factName(layout, fact)))} as marked.`;
}

/** The flaw in a plain sentence: house, digit and cells named, the cell or house first. */
function sayFlaw(state: SheetState, flaw: Flaw): string {
  const { layout } = state;
  const parts = factParts(layout, flaw.fact);
  const marks = marksOf(state, flaw.fact).map((mark) => sayPlace(layout, flaw.fact, mark));
  if (flaw.kind === 'empty-claim') {
    const gone = marks.length === 1 ? 'it is gone' : marks.length === 2 ? 'both are gone' : 'all are gone';
    return parts.kind === 'cell'
      ? `${sayMarked(layout, flaw.fact)} was noted ${list(marks, 'or')}; ${gone}.`
      : `${sayMarked(layout, flaw.fact)} was marked in ${list(marks)}; ${gone}.`;
  }
  if (parts.kind === 'cell') {
    const cell = cellName(layout, parts.cell);
    const placed = placedAt(state, parts.cell);
    if (placed !== 0) return `${cell} is ${digitName(placed)}, and ${digitName(placed)} was struck there.`;
    return `${cell} has nothing left${sayMarks(layout, flaw)}`;
  }
  const house = startSentence(sayHouse(parts.house));
  const digit = digitName(parts.digit);
  if (flaw.kind === 'no-place') return `${house} has no place for ${digit}${sayMarks(layout, flaw)}`;
  const cells = list(flaw.cells.map((cell) => cellName(layout, cell)));
  return `${house} has ${digit} ${times(flaw.cells.length)}: ${cells}.`;
}

/** Clashes before what digits and strikes leave empty and marks that are gone, before what the marks exclude. */
function rank(flaw: Flaw): number {
  if (flaw.kind === 'twice') return 0;
  return flaw.kind === 'empty-claim' || flaw.marks.length === 0 ? 1 : 2;
}

/**
 * What on the sheet cannot be completed, seen without the solution, roots first. Of all that one move
 * brought in only the root is told: where there is a clash among it, the clash alone; else what no longer
 * has a place by digits and strikes and claims whose last place has gone; only where there is none of these,
 * what the claims leave without a place. So the empty cells and houses that a clashing digit brings with it
 * wait until the clash is dealt with, while what went wrong earlier or later is still told.
 *
 * The move is looked for backwards through the undo history, as long as the same thing was wrong; marks in
 * hand count as claimed there, so that the mark itself is named and not what was done after it.
 */
export function slipsOf(sheet: Sheet, { asking = false }: Asking = {}): Slip[] {
  const { state } = sheet;
  const found = flawsOf(state, { asking }).map((flaw) => ({
    flaw,
    rank: rank(flaw),
    ...origin(sheet, flawKey(flaw.kind, flaw.fact)),
  }));
  const roots = found.filter(
    (one) => !found.some((other) => other.undoSteps === one.undoSteps && other.rank < one.rank),
  );
  return roots
    .sort((a, b) => a.rank - b.rank)
    .map(({ flaw, undoSteps, move }) => {
      const parts = factParts(state.layout, flaw.fact);
      return {
        kind: flaw.kind,
        house: parts.kind === 'house' ? parts.house.index : null,
        digit: parts.kind === 'house' ? parts.digit : placedAt(state, parts.cell) || null,
        cells: flaw.cells,
        text: sayFlaw(state, flaw),
        undoSteps,
        move,
      };
    });
}
