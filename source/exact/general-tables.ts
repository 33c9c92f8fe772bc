import type { Layout } from '../grid/layout.ts';

/** Two houses that share cells: those, and the rest of each. */
export interface Meeting {
  readonly first: number;
  readonly second: number;
  readonly shared: Uint16Array;
  readonly restOfFirst: Uint16Array;
  readonly restOfSecond: Uint16Array;
}

/** Every two houses that share two cells or more, and yet are not the same cells. */
export function meetingsOf(layout: Layout): Meeting[] {
  return layout.houses.flatMap((a) =>
    layout.houses.slice(a.index + 1).flatMap((b) => {
      const shared = a.cells.filter((cell) => b.cells.includes(cell));
      if (shared.length < 2 || shared.length === layout.size) return [];
      return [
        {
          first: a.index,
          second: b.index,
          shared: Uint16Array.from(shared),
          restOfFirst: Uint16Array.from(a.cells.filter((cell) => !shared.includes(cell))),
          restOfSecond: Uint16Array.from(b.cells.filter((cell) => !shared.includes(cell))),
        },
      ];
    }),
  );
}

/** Where each row of a flattened table begins; one entry more than rows. */
export function starts(rows: readonly (readonly number[])[]): number[] {
  const result = [0];
  for (const row of rows) result.push(result[result.length - 1] + row.length);
  return result;
}
