import { factParts, houseFact } from '../argument/fact.ts';
import { type Fact, placesOf } from '../argument/kernel.ts';
import { digitsIn } from '../grid/candidates.ts';
import type { Cell, DigitMask, House } from '../grid/layout.ts';
import type { Position } from '../grid/position.ts';
import { bitCount } from './finding.ts';

/**
 * The open cells of a house and the digits that it lacks, both in two parts: some cells take as many digits
 * between them, which is a naked set; the other digits fill the other cells, which is a hidden set. The two say
 * the same of the house: one finding, seen from either side.
 */
export interface TwoSides {
  readonly house: House;
  /** The cells of the naked set, ascending, and their digits. */
  readonly cells: readonly Cell[];
  readonly digits: DigitMask;
  /** The open cells that are left, ascending, and the digits that fill them. */
  readonly others: readonly Cell[];
  readonly otherDigits: DigitMask;
}

/** The facts of the naked set. */
export const nakedSide = ({ cells }: TwoSides): readonly Fact[] => cells;

/** The facts of the hidden set. */
export const hiddenSide = ({ layout }: Position, { house, otherDigits }: TwoSides): readonly Fact[] =>
  digitsIn(otherDigits).map((digit) => houseFact(layout, house, digit));

/** The house with a naked set taken out; null where these cells are none, or nothing is left beside them. */
function splitBy(position: Position, house: House, set: readonly Cell[]): TwoSides | null {
  const { candidates, placed, layout } = position;
  const open = house.cells.filter((cell) => placed[cell] === 0).sort((a, b) => a - b);
  const cells = open.filter((cell) => set.includes(cell));
  const others = open.filter((cell) => !set.includes(cell));
  const digits = cells.reduce((mask, cell) => mask | candidates.digitsAt(cell), 0);
  const missing = house.cells.reduce((mask, cell) => mask & ~(1 << (placed[cell] - 1)), layout.allDigits);
  const isSet = cells.length === set.length && bitCount(digits) === cells.length && others.length > 0;
  // A house without as many digits to place as cells to fill cannot be completed.
  if (!isSet || bitCount(missing) !== open.length || (digits & ~missing) !== 0) return null;
  return { house, cells, digits, others, otherDigits: missing & ~digits };
}

/** Both sides of a naked or hidden set, in each house in which it is one; none where the facts are no such set. */
export function sidesOf(position: Position, facts: readonly Fact[]): TwoSides[] {
  const { layout, placed } = position;
  const parts = facts.map((fact) => factParts(layout, fact));
  const cells = parts.flatMap((part) => (part.kind === 'cell' ? [part.cell] : []));
  if (cells.length > 0) {
    if (cells.length < facts.length) return [];
    const houses = layout.houses.filter((house) => cells.every((cell) => house.cells.includes(cell)));
    return houses.flatMap((house) => splitBy(position, house, cells) ?? []);
  }
  const [first] = parts;
  if (first?.kind !== 'house' || parts.some((part) => part.kind === 'house' && part.house !== first.house)) {
    return [];
  }
  const own = new Set(
    facts.flatMap((fact) => placesOf(position, fact)).map((place) => Math.floor(place / layout.size)),
  );
  if (own.size !== facts.length) return [];
  const rest = first.house.cells.filter((cell) => placed[cell] === 0 && !own.has(cell));
  const split = splitBy(position, first.house, rest);
  return split ? [split] : [];
}

/** The facts of a set's other side, where it has fewer than the set itself; null where it has not. */
export function lighterSide(position: Position, facts: readonly Fact[]): readonly Fact[] | null {
  for (const sides of sidesOf(position, facts)) {
    const isNaked = facts[0] < position.layout.cellCount;
    const other = isNaked ? hiddenSide(position, sides) : nakedSide(sides);
    if (other.length < facts.length) return other;
  }
  return null;
}
