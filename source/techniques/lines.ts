import type { Cell, House, Layout } from '../grid/layout.ts';

/**
 * The rows and the columns of a layout, which every layout has: bit i of a row's fact is column i, bit i of
 * a column's fact is row i.
 */
export interface Lines {
  /** Rows crossed by columns, and columns crossed by rows. */
  readonly sides: readonly { readonly along: readonly House[]; readonly across: readonly House[] }[];
}

const cache = new WeakMap<Layout, Lines>();

/** The lines of a layout, made once. */
export function linesOf(layout: Layout): Lines {
  const known = cache.get(layout);
  if (known) return known;
  const rows = layout.houses.filter((house) => house.kind === 'row');
  const columns = layout.houses.filter((house) => house.kind === 'column');
  const lines = {
    sides: [
      { along: rows, across: columns },
      { along: columns, across: rows },
    ],
  };
  cache.set(layout, lines);
  return lines;
}

const seenCache = new WeakMap<Layout, Uint32Array>();

/** `seenIn[cell * houses + house]`: the cells of the house that the cell sees, itself left out, as a mask. */
export function seenIn(layout: Layout): Uint32Array {
  const known = seenCache.get(layout);
  if (known) return known;
  const { cellCount, houses, sees } = layout;
  const seen = Uint32Array.from({ length: cellCount * houses.length }, (_, index) => {
    const cell = Math.floor(index / houses.length);
    const { cells } = houses[index % houses.length];
    return cells.reduce((mask, other, i) => mask | (sees[cell * cellCount + other] << i), 0);
  });
  seenCache.set(layout, seen);
  return seen;
}

const beyondCache = new WeakMap<Layout, Uint32Array>();

/**
 * `seenBeyond[side * cells + cell]`: the lines along a side (see `linesOf`), its own left out, of which the cell sees
 * more than the one cell where the line across it meets them, as a mask.
 */
export function seenBeyond(layout: Layout): Uint32Array {
  const known = beyondCache.get(layout);
  if (known) return known;
  const { cellCount, houses } = layout;
  const seen = seenIn(layout);
  const beyond = Uint32Array.from({ length: 2 * cellCount }, (_, index) => {
    const cell = index % cellCount;
    const { along, across } = linesOf(layout).sides[Math.floor(index / cellCount)];
    const crossing = 1 << across.findIndex(({ cells }) => cells.includes(cell));
    return along.reduce(
      (mask, house, line) =>
        !house.cells.includes(cell) && (seen[cell * houses.length + house.index] & ~crossing) !== 0
          ? mask | (1 << line)
          : mask,
      0,
    );
  });
  beyondCache.set(layout, beyond);
  return beyond;
}

/** The cells of a house behind the bits of a mask. */
export const cellsAt = (house: House, mask: number): Cell[] =>
  house.cells.filter((_, i) => (mask & (1 << i)) !== 0);
