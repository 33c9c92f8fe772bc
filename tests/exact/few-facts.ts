import { conflicts, type Layout } from '../../source/grid/layout.ts';
import type { Position } from '../../source/grid/position.ts';

/**
 * What arguments of one fact, or of at most two, can reach, straight from the definition: a candidate x goes
 * where some facts have an arrangement, but none with x true. Slow, and written to be obviously right.
 */

/** For each candidate those it conflicts with, by number. */
function conflictTable(layout: Layout): Set<number>[] {
  const count = layout.cellCount * layout.size;
  const all = Array.from({ length: count }, (_, candidate) => candidate);
  return all.map((a) => new Set(all.filter((b) => conflicts(layout, a, b))));
}

const tables = new WeakMap<Layout, Set<number>[]>();

/** The candidates left when no argument of at most `weight` facts strikes anything more. */
export function closeUnder(position: Position, weight: 1 | 2): Set<number> {
  const { layout } = position;
  const { size, cellCount, houses } = layout;
  let table = tables.get(layout);
  if (!table) {
    table = conflictTable(layout);
    tables.set(layout, table);
  }
  const conflictsWith = table;
  const live = new Set(position.candidates);
  const digits = Array.from({ length: size }, (_, i) => i);
  const facts = [
    ...Array.from({ length: cellCount }, (_, cell) => digits.map((digit) => cell * size + digit)),
    ...houses.flatMap((house) => digits.map((digit) => house.cells.map((cell) => cell * size + digit))),
  ];
  const strikes = (x: number): boolean => {
    const left: number[][] = [];
    for (const fact of facts) {
      const places = fact.filter((place) => live.has(place));
      if (places.includes(x)) continue;
      const compatible = places.filter((place) => !conflictsWith[x].has(place));
      if (compatible.length === 0) return true;
      // A fact that x does not touch is of no use beside one other: they would conflict without x.
      if (compatible.length < places.length) left.push(compatible);
    }
    if (weight === 1) return false;
    return left.some((first, i) =>
      left.slice(i + 1).some((second) => second.every((q) => first.every((p) => conflictsWith[p].has(q)))),
    );
  };
  for (let moved = true; moved; ) {
    moved = false;
    for (const x of [...live]) {
      if (!strikes(x)) continue;
      live.delete(x);
      moved = true;
    }
  }
  return live;
}

/** Whether arguments of at most `weight` facts solve a position. */
export const solvedBy = (position: Position, weight: 1 | 2): boolean =>
  closeUnder(position, weight).size === position.layout.cellCount;
