import { factName, factParts } from '../argument/fact.ts';
import type { Fact } from '../argument/kernel.ts';
import { list, sayPlace, startSentence } from '../argument/words.ts';
import type { Layout } from '../grid/layout.ts';
import { cellName, digitName, sayHouse } from '../grid/names.ts';
import { type Flaw, flawKey, flawsOf, withoutClashes } from './flaws.ts';
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

const times = (count: number): string =>
  count === 2 ? 'twice' : count === 3 ? 'three times' : `${count} times`;

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

/** A flaw with the move that brought it in. */
interface Traced extends Flaw {
  readonly undoSteps: number;
  readonly move: string;
}

/** Clashes before what digits and strikes leave empty and marks that are gone, before what the marks exclude. */
function rank({ kind, marks }: Flaw): number {
  if (kind === 'twice') return 0;
  return kind === 'empty-claim' || marks.length === 0 ? 1 : 2;
}

/** Where several houses have lost the same digit, the one to tell: boxes are seen best, then rows, columns. */
function houseOrder(layout: Layout, fact: Fact): number {
  const parts = factParts(layout, fact);
  if (parts.kind === 'cell') return 0;
  const kinds = ['box', 'row', 'column', 'diagonal', 'extra'];
  return kinds.indexOf(parts.house.kind) * layout.houses.length + parts.house.index;
}

/** Whether one flaw is told instead of another that came with the same move. */
function goesBefore(layout: Layout, one: Flaw, other: Flaw): boolean {
  if (rank(one) === 0 || one === other) return false;
  if (rank(one) === 1 && rank(other) === 2) return true;
  if (one.kind === 'no-place' && other.kind === 'no-place' && rank(one) === rank(other)) {
    const sameDigit = (one.fact - other.fact) % layout.size === 0;
    return sameDigit && houseOrder(layout, one.fact) < houseOrder(layout, other.fact);
  }
  return one.fact === other.fact && other.kind === 'empty-claim';
}

/**
 * The flaws to tell: the roots. Left out are
 * - what came with a clash or after it and would be all right without the clashing digits;
 * - what came with the same move as something plainer: marks that exclude a place where digits alone do,
 *   a second house without the same digit, a claim without a place where its house or cell has none at all;
 * - a house or cell without a place whose claim had lost its last one before.
 */
function rootsOf(state: SheetState, found: readonly Traced[], asking: Asking): Traced[] {
  const clash = Math.max(-1, ...found.filter((flaw) => rank(flaw) === 0).map((flaw) => flaw.undoSteps));
  const lifted = clash < 0 ? [] : flawsOf(withoutClashes(state), asking);
  const staysWithoutClash = new Set(lifted.map((flaw) => flawKey(flaw.kind, flaw.fact)));
  return found.filter((flaw) => {
    if (rank(flaw) === 0) return true;
    if (flaw.undoSteps <= clash && !staysWithoutClash.has(flawKey(flaw.kind, flaw.fact))) return false;
    return !found.some(
      (other) =>
        (other.undoSteps === flaw.undoSteps && goesBefore(state.layout, other, flaw)) ||
        (other.undoSteps > flaw.undoSteps && other.kind === 'empty-claim' && other.fact === flaw.fact),
    );
  });
}

/**
 * What on the sheet cannot be completed, seen without the solution: clashes first, then what digits, strikes
 * and emptied claims leave without a place, then what the claims do. Only roots are told: the empty cells and
 * homeless digits that a clash brings with it wait until it is dealt with, while what went wrong before it,
 * or has nothing to do with it, is told beside it. If anything at all is wrong, something is told.
 *
 * The move is looked for backwards through the undo history, as long as the same thing was wrong; marks in
 * hand count as claimed there, so that the mark itself is named and not what was done after it.
 */
export function slipsOf(sheet: Sheet, asking: Asking = {}): Slip[] {
  const { state } = sheet;
  const { layout } = state;
  const found = flawsOf(state, asking).map((flaw) => ({
    ...flaw,
    ...origin(sheet, flawKey(flaw.kind, flaw.fact)),
  }));
  return rootsOf(state, found, asking)
    .sort((a, b) => rank(a) - rank(b))
    .map((flaw) => {
      const parts = factParts(layout, flaw.fact);
      return {
        kind: flaw.kind,
        house: parts.kind === 'house' ? parts.house.index : null,
        digit: parts.kind === 'house' ? parts.digit : placedAt(state, parts.cell) || null,
        cells: flaw.cells,
        text: sayFlaw(state, flaw),
        undoSteps: flaw.undoSteps,
        move: flaw.move,
      };
    });
}
