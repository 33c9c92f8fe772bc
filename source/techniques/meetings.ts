import type { House, Layout } from '../grid/layout.ts';

/** Two houses that share cells, seen from the first. Masks are over a house's cells in their order. */
export interface Meeting {
  readonly from: House;
  readonly to: House;
  /** The cells of `from` that lie in `to`. */
  readonly shared: number;
  /** The cells of `to` that lie in `from`. */
  readonly sharedInTo: number;
}

/** Rows, columns and diagonals are lines; boxes and extra boxes are regions. */
export const isLine = (house: House): boolean => house.kind !== 'box' && house.kind !== 'extra';

const maskIn = (from: House, to: House): number =>
  from.cells.reduce((mask, cell, i) => (to.cells.includes(cell) ? mask | (1 << i) : mask), 0);

const cache = new WeakMap<Layout, readonly Meeting[]>();

/** All ordered pairs of houses that share two cells or more, made once a layout. */
export function meetingsOf(layout: Layout): readonly Meeting[] {
  const known = cache.get(layout);
  if (known) return known;
  const meetings = layout.houses.flatMap((from) =>
    layout.houses.flatMap((to) => {
      const shared = from === to ? 0 : maskIn(from, to);
      return (shared & (shared - 1)) === 0 ? [] : [{ from, to, shared, sharedInTo: maskIn(to, from) }];
    }),
  );
  cache.set(layout, meetings);
  return meetings;
}
