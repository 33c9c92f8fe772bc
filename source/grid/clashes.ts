import type { Cell, Digit, House, Layout } from './layout.ts';

/** The same digit more than once in a house. */
export interface Clash {
  readonly house: House;
  readonly digit: Digit;
  /** The cells of the house that hold the digit, in the house's order; two or more. */
  readonly cells: readonly Cell[];
}

function hasTwice({ cells }: House, digits: ArrayLike<Digit>): boolean {
  let seen = 0;
  for (let i = 0; i < cells.length; i += 1) {
    const digit = digits[cells[i]];
    const bit = digit === 0 ? 0 : 1 << digit;
    if ((seen & bit) !== 0) return true;
    seen |= bit;
  }
  return false;
}

/** Every digit that stands twice in a house, house by house, digits ascending. `digits`: one a cell, 0 for none. */
export function findClashes(layout: Layout, digits: ArrayLike<Digit>): Clash[] {
  const clashes: Clash[] = [];
  for (const house of layout.houses) {
    if (!hasTwice(house, digits)) continue;
    const cellsOf: Cell[][] = Array.from({ length: layout.size + 1 }, () => []);
    for (const cell of house.cells) cellsOf[digits[cell]].push(cell);
    for (let digit = 1; digit <= layout.size; digit += 1) {
      if (cellsOf[digit].length > 1) clashes.push({ house, digit, cells: cellsOf[digit] });
    }
  }
  return clashes;
}
