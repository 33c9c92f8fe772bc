import { factName, factParts } from '../argument/fact.ts';
import type { Fact } from '../argument/kernel.ts';
import { list, sayPlace, sayTopic, startSentence } from '../argument/words.ts';
import type { Layout } from '../grid/layout.ts';
import { cellName, digitName, sayHouse } from '../grid/names.ts';
import { blamedClaims, type Flaw, flawNumber, flawsOf, withoutClashes } from './flaws.ts';
import { marksOf, placedAt } from './marks.ts';
import { originsOf } from './origins.ts';
import { sayEvent } from './say.ts';
import type { Sheet, SheetState, Slip } from './state.ts';
import type { Asking } from './view.ts';

const times = (count: number): string =>
  count === 2 ? 'twice' : count === 3 ? 'three times' : `${count} times`;

function sayMarks(state: SheetState, flaw: Flaw, asking: Asking): string {
  if (!flaw.byMarks) return '.';
  const claims = blamedClaims(state, flaw.fact, asking).map((fact) => factName(state.layout, fact));
  return `, with ${list(claims)} as marked.`;
}

/** The flaw in a plain sentence: house, digit and cells named, the cell or house first. */
function sayFlaw(state: SheetState, flaw: Flaw, asking: Asking): string {
  const { layout } = state;
  const parts = factParts(layout, flaw.fact);
  const marks = marksOf(state, flaw.fact).map((mark) => sayPlace(layout, flaw.fact, mark));
  if (flaw.kind === 'empty-claim') {
    const gone = marks.length === 1 ? 'it is gone' : marks.length === 2 ? 'both are gone' : 'all are gone';
    return parts.kind === 'cell'
      ? `${sayTopic(layout, flaw.fact)} was noted ${list(marks, 'or')}; ${gone}.`
      : `${sayTopic(layout, flaw.fact)} was marked in ${list(marks)}; ${gone}.`;
  }
  if (parts.kind === 'cell') {
    const cell = cellName(layout, parts.cell);
    const placed = placedAt(state, parts.cell);
    if (placed !== 0) return `${cell} is ${digitName(placed)}, and ${digitName(placed)} was struck there.`;
    return `${cell} has nothing left${sayMarks(state, flaw, asking)}`;
  }
  const house = startSentence(sayHouse(parts.house));
  const digit = digitName(parts.digit);
  if (flaw.kind === 'no-place') return `${house} has no place for ${digit}${sayMarks(state, flaw, asking)}`;
  const cells = list(flaw.cells.map((cell) => cellName(layout, cell)));
  return `${house} has ${digit} ${times(flaw.cells.length)}: ${cells}.`;
}

/** A flaw with the move that brought it in. */
interface Traced extends Flaw {
  /** How many steps ago it came in, at least 1; infinite where no move brought it in. */
  readonly age: number;
  readonly move: string;
}

/** Clashes before what digits and strikes leave empty and marks that are gone, before what the marks exclude. */
function rank({ kind, byMarks }: Flaw): number {
  if (kind === 'twice') return 0;
  return byMarks ? 2 : 1;
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
  const clash = Math.max(-1, ...found.filter((flaw) => rank(flaw) === 0).map((flaw) => flaw.age));
  const lifted = clash < 0 ? [] : flawsOf(withoutClashes(state), asking);
  const numberOf = (flaw: Flaw) => flawNumber(state.layout, flaw.kind, flaw.fact);
  const staysWithoutClash = new Set(lifted.map(numberOf));
  return found.filter((flaw) => {
    if (rank(flaw) === 0) return true;
    if (flaw.age <= clash && !staysWithoutClash.has(numberOf(flaw))) return false;
    return !found.some(
      (other) =>
        (other.age === flaw.age && goesBefore(state.layout, other, flaw)) ||
        (other.age > flaw.age && other.kind === 'empty-claim' && other.fact === flaw.fact),
    );
  });
}

/**
 * What on the sheet cannot be completed, seen without the solution: clashes first, then what digits, strikes
 * and emptied claims leave without a place, then what the claims do. Only roots are told: the empty cells and
 * homeless digits that a clash brings with it wait until it is dealt with, while what went wrong before it,
 * or has nothing to do with it, is told beside it. If anything at all is wrong, something is told.
 */
export function slipsOf(sheet: Sheet, asking: Asking = {}): Slip[] {
  const { state } = sheet;
  const { layout } = state;
  const flaws = flawsOf(state, asking);
  // Where a sheet begins with nothing wrong, no move has to be looked for.
  if (flaws.length === 0 && sheet.past.length === 0) return [];
  const originOf = originsOf(sheet);
  const found = flaws.map((flaw) => {
    const origin = originOf(flawNumber(layout, flaw.kind, flaw.fact));
    if (origin === null) return { ...flaw, age: Number.POSITIVE_INFINITY, move: '' };
    const move = sayEvent(layout, sheet.past[origin].event);
    return { ...flaw, age: sheet.past.length - origin, move };
  });
  return rootsOf(state, found, asking)
    .sort((a, b) => rank(a) - rank(b))
    .map((flaw) => {
      const parts = factParts(layout, flaw.fact);
      return {
        kind: flaw.kind,
        house: parts.kind === 'house' ? parts.house.index : null,
        digit: parts.kind === 'house' ? parts.digit : placedAt(state, parts.cell) || null,
        cells: flaw.cells,
        text: sayFlaw(state, flaw, asking),
        undoSteps: Number.isFinite(flaw.age) ? flaw.age : 0,
        move: flaw.move,
      };
    });
}
