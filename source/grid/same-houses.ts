import type { Layout } from './layout.ts';

/** Whether two layouts have the same houses. Layouts are data: read twice from one text, they are the same. */
export const sameHouses = (a: Layout, b: Layout): boolean =>
  a === b ||
  (a.size === b.size &&
    a.houses.length === b.houses.length &&
    a.houses.every((house, i) => house.cells.every((cell, j) => cell === b.houses[i].cells[j])));
