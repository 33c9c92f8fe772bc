import { countDigits } from '../grid/candidates.ts';
import type { Layout } from '../grid/layout.ts';

/** What regions can stand on so that two that touch differ. */
const shades = ['plain', 'tile', 'extra'] as const;
export type Shade = (typeof shades)[number];

const known = new WeakMap<Layout, readonly Shade[] | null>();

/**
 * A ground for each region of a layout whose boxes are not all rectangles, such that regions that touch along
 * a line stand on different ones; null where all are rectangles, or where three grounds are not enough.
 */
export function regionShades(layout: Layout): readonly Shade[] | null {
  let found = known.get(layout);
  if (found === undefined) {
    found = hasOddRegions(layout) ? shadeRegions(layout) : null;
    known.set(layout, found);
  }
  return found;
}

function hasOddRegions({ houses, size }: Layout): boolean {
  return houses.some(({ kind, cells }) => {
    if (kind !== 'box') return false;
    let [rows, columns] = [0, 0];
    for (const cell of cells) {
      rows |= 1 << Math.floor(cell / size);
      columns |= 1 << (cell % size);
    }
    return countDigits(rows) * countDigits(columns) !== size;
  });
}

function shadeRegions({ size, boxOf }: Layout): readonly Shade[] | null {
  const touching = Array.from({ length: size }, () => new Set<number>());
  boxOf.forEach((box, cell) => {
    for (const other of [cell % size < size - 1 ? cell + 1 : cell, cell + size]) {
      if (other >= boxOf.length || boxOf[other] === box) continue;
      touching[box].add(boxOf[other]);
      touching[boxOf[other]].add(box);
    }
  });
  const chosen: (Shade | undefined)[] = Array.from({ length: size });
  let tries = 0;
  const choose = (box: number): boolean => {
    if (box === size) return true;
    for (const shade of shades) {
      tries += 1;
      if (tries > 20_000) return false;
      if ([...touching[box]].some((other) => chosen[other] === shade)) continue;
      chosen[box] = shade;
      if (choose(box + 1)) return true;
    }
    chosen[box] = undefined;
    return false;
  };
  return choose(0) ? chosen.map((shade) => shade ?? 'plain') : null;
}
