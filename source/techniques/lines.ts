import { houseFact } from '../argument/fact.ts';
import type { Fact } from '../argument/kernel.ts';
import type { Cell, Digit, House, Layout } from '../grid/layout.ts';

/**
 * The rows and the columns of a layout, which every layout has: bit i of a row's fact is column i, bit i of
 * a column's fact is row i.
 */
export interface Lines {
  /** Rows crossed by columns, and columns crossed by rows. */
  readonly sides: readonly { readonly along: readonly House[]; readonly across: readonly House[] }[];
  /** `seen[side][cell * size + line]`: the places of that line that the cell sees, itself left out. */
  readonly seen: readonly Uint32Array[];
}

const cache = new WeakMap<Layout, Lines>();

/** The lines of a layout, made once. */
export function linesOf(layout: Layout): Lines {
  const known = cache.get(layout);
  if (known) return known;
  const { size, cellCount, sees } = layout;
  const rows = layout.houses.filter((house) => house.kind === 'row');
  const columns = layout.houses.filter((house) => house.kind === 'column');
  const seenFrom = (along: readonly House[]): Uint32Array =>
    Uint32Array.from({ length: cellCount * size }, (_, index) => {
      const cell = Math.floor(index / size);
      return along[index % size].cells.reduce(
        (mask, other, i) => mask | (sees[cell * cellCount + other] << i),
        0,
      );
    });
  const lines = {
    sides: [
      { along: rows, across: columns },
      { along: columns, across: rows },
    ],
    seen: [seenFrom(rows), seenFrom(columns)],
  };
  cache.set(layout, lines);
  return lines;
}

/** The facts of one digit in some lines. */
export const lineFacts = (layout: Layout, lines: readonly House[], digit: Digit): Fact[] =>
  lines.map((line) => houseFact(layout, line, digit));

/** The cells of a house behind the bits of a mask. */
export const cellsAt = (house: House, mask: number): Cell[] =>
  house.cells.filter((_, i) => (mask & (1 << i)) !== 0);
