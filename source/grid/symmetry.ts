import type { Cell, Layout } from './layout.ts';

/** Symmetries of the square, by name. `diagonal`: about the one from the first cell; quarter turns, all of them. */
export const gridSymmetries = [
  'half-turn',
  'quarter-turn',
  'left-right',
  'top-bottom',
  'diagonal',
  'anti-diagonal',
] as const;
export type GridSymmetry = (typeof gridSymmetries)[number];

/** Where a symmetry takes a cell; a quarter turn goes clockwise. */
export function mirrorCell(layout: Layout, symmetry: GridSymmetry, cell: Cell): Cell {
  const { size } = layout;
  const last = size - 1;
  const row = Math.floor(cell / size);
  const column = cell % size;
  switch (symmetry) {
    case 'half-turn':
      return (last - row) * size + last - column;
    case 'quarter-turn':
      return column * size + last - row;
    case 'left-right':
      return row * size + last - column;
    case 'top-bottom':
      return (last - row) * size + column;
    case 'diagonal':
      return column * size + row;
    case 'anti-diagonal':
      return (last - column) * size + last - row;
  }
}

/** The symmetries under which the cells with a given trade places among themselves. `givens`: 0 for an open cell. */
export const symmetriesOfGivens = (layout: Layout, givens: ArrayLike<number>): GridSymmetry[] =>
  gridSymmetries.filter((symmetry) =>
    Array.from(givens).every(
      (given, cell) => (given === 0) === (givens[mirrorCell(layout, symmetry, cell)] === 0),
    ),
  );
