import fc from 'fast-check';
import type { Layout } from '../../source/grid/layout.ts';
import type { Grid } from '../../source/grid/position.ts';
import { readGrid } from '../../source/grid/read.ts';

/** The seed of this run: `INKLING_SEED`, or a new one; printed so that a failure can be run again. */
export const seed = Number(process.env.INKLING_SEED ?? Date.now() % 2 ** 31);

/** Numbers from 0 to below 1 that follow from a seed (mulberry32, public domain). */
export function numbersFrom(start: number): () => number {
  let state = start >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** The first grid of a university assignment built on Crook, Notices of the AMS 56(4), 2009. */
export const sample = '..19....86...85.3...7.6.1...34.9.......5.4.......1.42...5.7.9...1.84...77....92..';

export const rowsOf = (line: string, size = 9): string[] =>
  Array.from({ length: size }, (_, row) => line.slice(row * size, row * size + size));

/** A grid as one line of signs, marks in brackets behind it, for comparing. */
export function shown(grid: Grid): string {
  const givens = grid.givens.map((digit) => (digit === 0 ? '.' : digit.toString(36))).join('');
  return grid.marks ? `${givens} [${grid.marks.join(' ')}]` : givens;
}

/** Reads a text that must be a grid. */
export function mustRead(text: string, layout?: Layout): string {
  const result = readGrid(text, layout ? { layout } : {});
  if (!result.ok) throw new Error(`${result.error.message}\n${text}`);
  return shown(result.value.grid);
}

/** Any grid of a layout, legal or not; with marks in some open cells where `marked`. */
export const anyGrid = (layout: Layout, marked: boolean): fc.Arbitrary<Grid> => {
  const digit = fc.oneof(
    { weight: 2, arbitrary: fc.constant(0) },
    { weight: 1, arbitrary: fc.integer({ min: 1, max: layout.size }) },
  );
  const mask = fc.oneof(
    fc.constant(0),
    fc.integer({ min: 0, max: layout.allDigits }),
    fc.integer({ min: 0, max: layout.size - 1 }).map((bit) => 1 << bit),
  );
  const cells = { minLength: layout.cellCount, maxLength: layout.cellCount };
  return fc.tuple(fc.array(digit, cells), fc.array(mask, cells)).map(([givens, masks]): Grid => {
    const marks = masks.map((m, cell) => (givens[cell] === 0 ? m : 0));
    return marked && marks.some((m) => m !== 0) ? { layout, givens, marks } : { layout, givens };
  });
};
