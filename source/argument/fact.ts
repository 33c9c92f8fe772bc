import {
  type Candidate,
  type Cell,
  type Digit,
  type House,
  type Layout,
  statementsOf,
} from '../grid/layout.ts';
import { cellName, digitName, parseCell, parseDigit, parseHouse } from '../grid/names.ts';
import type { Argument, Fact } from './kernel.ts';

/** A fact taken apart. */
export type FactParts =
  | { readonly kind: 'cell'; readonly cell: Cell }
  | { readonly kind: 'house'; readonly house: House; readonly digit: Digit };

/** How many facts a layout has: one a cell, one a digit and house. 324 on the plain layout. */
export const factCount = (layout: Layout): number => layout.cellCount + layout.houses.length * layout.size;

/** The fact that a cell has exactly one digit. */
export const cellFact = (cell: Cell): Fact => cell;

/** The fact that a house has a digit in exactly one cell. */
export const houseFact = (layout: Layout, house: House, digit: Digit): Fact =>
  layout.cellCount + house.index * layout.size + digit - 1;

/** Takes a fact's number apart. */
export function factParts(layout: Layout, fact: Fact): FactParts {
  if (fact < layout.cellCount) return { kind: 'cell', cell: fact };
  const rest = fact - layout.cellCount;
  return {
    kind: 'house',
    house: layout.houses[Math.floor(rest / layout.size)],
    digit: (rest % layout.size) + 1,
  };
}

/** Every candidate that a fact could ever have, live or not, ascending by cell or digit. */
export const factCandidates = (layout: Layout, fact: Fact): readonly Candidate[] =>
  statementsOf(layout)[fact];

/** The facts that a candidate is a place of: its cell's, then one for each house of the cell. */
export function factsOf(layout: Layout, candidate: Candidate): Fact[] {
  const cell = Math.floor(candidate / layout.size);
  const digit = (candidate % layout.size) + 1;
  return [cell, ...layout.housesOf[cell].map((house) => houseFact(layout, layout.houses[house], digit))];
}

/** As people write it: `r4c8`, or `7@c2`. */
export function factName(layout: Layout, fact: Fact): string {
  const parts = factParts(layout, fact);
  return parts.kind === 'cell'
    ? cellName(layout, parts.cell)
    : `${digitName(parts.digit)}@${parts.house.name}`;
}

/** Reads `r4c8` or `7@c2`, in either case; null if it is no fact of the layout. */
export function parseFact(layout: Layout, text: string): Fact | null {
  const cell = parseCell(layout, text);
  if (cell !== null) return cell;
  const at = text.indexOf('@');
  if (at < 1) return null;
  const digit = parseDigit(layout, text.slice(0, at));
  const house = parseHouse(layout, text.slice(at + 1));
  return digit === null || house === null ? null : houseFact(layout, house, digit);
}

/**
 * How many facts must be held in mind at once. A one-solution argument counts its axiom as one fact, and
 * the cell fact of every cell of its pattern that is not listed anyway.
 */
export function weightOf(layout: Layout, argument: Argument): number {
  if (argument.assumes === 'nothing') return argument.facts.length;
  const cells = new Set((argument.pattern ?? []).map((candidate) => Math.floor(candidate / layout.size)));
  return new Set([...argument.facts, ...cells]).size + 1;
}
