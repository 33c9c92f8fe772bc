import { countDigits } from '../grid/candidates.ts';
import type { Cell, DigitMask, Layout } from '../grid/layout.ts';
import { randomBelow, shuffled } from './random.ts';
import { anotherFits, decideDigits, firstCompletion } from './solve.ts';

/** How the givens of a grid mirror each other; `none`: they need not. `diagonal`: about the one from r1c1. */
export type Symmetry = 'none' | 'half-turn' | 'quarter-turn' | 'left-right' | 'top-bottom' | 'diagonal';

/** A puzzle with exactly one solution. Both hold one digit a cell, `givens` 0 where a cell is open. */
export interface GeneratedPuzzle {
  readonly givens: Uint8Array;
  readonly solution: Uint8Array;
}

/** Dead ends after which a random filling begins anew, for each cell of the layout. */
const patience = 2;
/** Fillings begun before chance alone is given up. */
const attempts = 40;

/**
 * A full grid from chance: cell by cell, always one with fewest digits left, a random one of them; dead ends
 * are undone. Every full grid can come up; that all are equally likely is not claimed. Throws a RangeError
 * for a layout that no grid fits.
 *
 * The searches are not used, so that a seed gives the same grid whatever becomes of them. Only on layouts
 * where forty fillings run aground (25x25, or none exists) a search completes some random cells.
 */
export function randomGrid(layout: Layout, random: () => number): Uint8Array {
  for (let attempt = 0; attempt < attempts; attempt += 1) {
    const grid = fill(layout, random);
    if (grid) return grid;
  }
  for (let taken = layout.cellCount >> 3; ; taken >>= 1) {
    const grid = firstCompletion(layout, sprinkle(layout, random, taken));
    if (grid) return grid;
    if (taken === 0) throw new RangeError(`no grid fits the ${layout.name} layout`);
  }
}

/** One random filling; null where it ran out of patience. */
function fill(layout: Layout, random: () => number): Uint8Array | null {
  const { cellCount, size, peers } = layout;
  const digits = new Uint8Array(cellCount);
  const cells = Uint16Array.from(shuffled([...digits.keys()], random));
  const free = new Uint32Array(cellCount).fill(layout.allDigits);
  const counts = new Uint8Array(cellCount).fill(size);
  /** The cells that lost a digit, in order, to give it back. */
  const changes = new Uint16Array(cellCount * size);
  let changed = 0;
  let deadEnds = 0;
  /** Takes a digit from the open peers of a cell; false where one of them has none left. */
  const exclude = (cell: Cell, bit: DigitMask): boolean => {
    const mates = peers[cell];
    for (let i = 0; i < mates.length; i += 1) {
      const mate = mates[i];
      if (digits[mate] !== 0 || (free[mate] & bit) === 0) continue;
      free[mate] ^= bit;
      counts[mate] -= 1;
      changes[changed++] = mate;
      if (counts[mate] === 0) return false;
    }
    return true;
  };
  // The first `settled` of `cells` have their digit.
  const settle = (settled: number): boolean => {
    if (settled === cellCount) return true;
    let best = settled;
    for (let i = settled + 1; i < cellCount && counts[cells[best]] > 1; i += 1) {
      if (counts[cells[i]] < counts[cells[best]]) best = i;
    }
    const cell = cells[best];
    cells[best] = cells[settled];
    cells[settled] = cell;
    for (let open = free[cell]; open !== 0; ) {
      const bit = randomBit(open, random);
      open ^= bit;
      digits[cell] = 32 - Math.clz32(bit);
      const before = changed;
      if (exclude(cell, bit) && settle(settled + 1)) return true;
      while (changed > before) {
        const mate = changes[--changed];
        free[mate] ^= bit;
        counts[mate] += 1;
      }
      digits[cell] = 0;
      deadEnds += 1;
      if (deadEnds > patience * cellCount) return false;
    }
    return false;
  };
  return settle(0) ? digits : null;
}

/** Random digits that do not clash, in so many random cells. */
function sprinkle(layout: Layout, random: () => number, taken: number): Uint8Array {
  const digits = new Uint8Array(layout.cellCount);
  const free = new Uint32Array(layout.cellCount).fill(layout.allDigits);
  for (const cell of shuffled([...digits.keys()], random).slice(0, taken)) {
    if (free[cell] === 0) continue;
    const bit = randomBit(free[cell], random);
    digits[cell] = 32 - Math.clz32(bit);
    for (const peer of layout.peers[cell]) free[peer] &= ~bit;
  }
  return digits;
}

/** One bit of a mask that is not empty. */
function randomBit(mask: DigitMask, random: () => number): DigitMask {
  let rest = mask;
  for (let skip = randomBelow(random, countDigits(mask)); skip > 0; skip -= 1) rest &= rest - 1;
  return rest & -rest;
}

/**
 * A puzzle made top-down: a full grid loses givens in random order for as long as one solution is left.
 * Without a symmetry it is minimal: every given is needed. With one, cells that mirror each other are kept or
 * dropped together, and no such group can be dropped. The same stream gives the same puzzle. Puzzles with few
 * givens come up less often than among all minimal puzzles (Berthier, Unbiased Statistics of a CSP, 2009).
 */
export function generate(layout: Layout, random: () => number, symmetry: Symmetry = 'none'): GeneratedPuzzle {
  const solution = randomGrid(layout, random);
  const givens = solution.slice();
  const groups = shuffled(mirrorGroups(layout, symmetry), random);
  // Whether givens can be dropped together tells of each by itself as well, so the first groups go many at a
  // time. What is left is what one at a time would leave.
  let at = 0;
  let together = Math.max(1, groups.length >> 2);
  while (at < groups.length) {
    const cells = together === 1 ? groups[at] : groups.slice(at, at + together).flat();
    if (canDrop(layout, givens, cells)) {
      at += together;
    } else {
      for (const cell of cells) givens[cell] = solution[cell];
      if (together === 1) at += 1;
      else together = Math.max(1, together >> 1);
    }
  }
  return { givens, solution };
}

/** Drops givens; whether one solution is left. */
function canDrop(layout: Layout, givens: Uint8Array, cells: readonly Cell[]): boolean {
  const [first] = cells;
  const digit = givens[first];
  for (const cell of cells) givens[cell] = 0;
  return cells.length === 1
    ? !anotherFits(layout, givens, first, digit)
    : decideDigits(layout, givens).verdict === 'one';
}

const groupsKept = new WeakMap<Layout, Map<Symmetry, Cell[][]>>();

/** The cells in groups that mirror each other, worked out once. */
function mirrorGroups(layout: Layout, symmetry: Symmetry): readonly Cell[][] {
  let kept = groupsKept.get(layout);
  if (!kept) {
    kept = new Map();
    groupsKept.set(layout, kept);
  }
  const groups = kept.get(symmetry) ?? findMirrorGroups(layout, symmetry);
  kept.set(symmetry, groups);
  return groups;
}

function findMirrorGroups(layout: Layout, symmetry: Symmetry): Cell[][] {
  const last = layout.size - 1;
  const mirror = (cell: Cell): Cell => {
    const row = Math.floor(cell / layout.size);
    const column = cell % layout.size;
    const at = (r: number, c: number): Cell => r * layout.size + c;
    switch (symmetry) {
      case 'none':
        return cell;
      case 'half-turn':
        return at(last - row, last - column);
      case 'quarter-turn':
        return at(column, last - row);
      case 'left-right':
        return at(row, last - column);
      case 'top-bottom':
        return at(last - row, column);
      case 'diagonal':
        return at(column, row);
    }
  };
  const groups: Cell[][] = [];
  const seen = new Set<Cell>();
  for (let cell = 0; cell < layout.cellCount; cell += 1) {
    const group: Cell[] = [];
    for (let next = cell; !seen.has(next); next = mirror(next)) {
      seen.add(next);
      group.push(next);
    }
    if (group.length > 0) groups.push(group);
  }
  return groups;
}
