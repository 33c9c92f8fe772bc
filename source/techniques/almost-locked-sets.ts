import { type Cell, candidateOf, type Digit, type DigitMask, type Layout } from '../grid/layout.ts';
import type { Board } from './board.ts';
import { bitCount } from './finding.ts';
import { eachTightSet } from './tight-sets.ts';

/** Cells as bits, 32 a word. */
export type CellBits = Int32Array;

/** Cells of one house with one digit more than there are cells: without any of the digits all others are there. */
export interface AlmostLockedSet {
  /** Ascending. */
  readonly cells: readonly Cell[];
  readonly digits: DigitMask;
  /** For each digit, by `digit - 1`: its cells in the set, and the cells that see all of these. Empty where it has none. */
  readonly holders: readonly CellBits[];
  readonly viewers: readonly CellBits[];
}

const bitsCache = new WeakMap<Layout, readonly CellBits[]>();

const emptyBits = (layout: Layout): CellBits => new Int32Array((layout.cellCount + 31) >> 5);

/** For each cell its peers, as bits. */
function peerBits(layout: Layout): readonly CellBits[] {
  const known = bitsCache.get(layout);
  if (known) return known;
  const peers = layout.peers.map((others) => {
    const bits = emptyBits(layout);
    for (const cell of others) bits[cell >> 5] |= 1 << (cell & 31);
    return bits;
  });
  bitsCache.set(layout, peers);
  return peers;
}

/** Whether all bits of one are among those of the other. */
export const isWithin = (some: CellBits, all: CellBits): boolean =>
  some.every((word, i) => (word & ~all[i]) === 0);

/** For each digit, by `digit - 1`, the cells that have it live, as bits. */
export function liveBits(board: Board): CellBits[] {
  const { layout, masks } = board;
  return Array.from({ length: layout.size }, (_, i) => {
    const bits = emptyBits(layout);
    for (let cell = 0; cell < layout.cellCount; cell += 1) {
      if ((masks[cell] & (1 << i)) !== 0) bits[cell >> 5] |= 1 << (cell & 31);
    }
    return bits;
  });
}

/** The cells in all of the bit sets, ascending. */
export function cellsInAll(sets: readonly CellBits[]): Cell[] {
  const cells: Cell[] = [];
  for (let word = 0; word < sets[0].length; word += 1) {
    let rest = sets[0][word];
    for (let i = 1; i < sets.length; i += 1) rest &= sets[i][word];
    for (; rest !== 0; rest &= rest - 1) cells.push(word * 32 + 31 - Math.clz32(rest & -rest));
  }
  return cells;
}

/**
 * All almost locked sets of at most so many cells, each once, none with a naked set within. A cell with two
 * digits is the smallest.
 */
export function almostLockedSets(board: Board, mostCells: number): AlmostLockedSet[] {
  const { layout, masks } = board;
  const sets = new Map<string, AlmostLockedSet>();
  for (const house of layout.houses) {
    const open = house.cells.filter((cell) => bitCount(masks[cell]) >= 2);
    const own = open.map((cell) => masks[cell]);
    for (let k = 1; k <= mostCells && k < open.length; k += 1) {
      eachTightSet(own, own.length, k, k + 1, (chosen, digits) => {
        if (hasNakedSet(chosen.map((i) => own[i]))) return;
        const cells = chosen.map((i) => open[i]).sort((a, b) => a - b);
        const key = cells.join(' ');
        if (!sets.has(key)) sets.set(key, makeSet(board, cells, digits));
      });
    }
  }
  return [...sets.values()];
}

function makeSet({ layout, masks }: Board, cells: readonly Cell[], digits: DigitMask): AlmostLockedSet {
  const peers = peerBits(layout);
  const none = emptyBits(layout);
  const holders: CellBits[] = [];
  const viewers: CellBits[] = [];
  for (let bit = 0; bit < layout.size; bit += 1) {
    if ((digits & (1 << bit)) === 0) {
      holders.push(none);
      viewers.push(none);
      continue;
    }
    const own = emptyBits(layout);
    const seeing = emptyBits(layout).fill(-1);
    for (const cell of cells) {
      if ((masks[cell] & (1 << bit)) === 0) continue;
      own[cell >> 5] |= 1 << (cell & 31);
      for (let word = 0; word < seeing.length; word += 1) seeing[word] &= peers[cell][word];
    }
    holders.push(own);
    viewers.push(seeing);
  }
  return { cells, digits, holders, viewers };
}

/** Whether some of the masks, not all, have no more bits together than there are of them. */
export function hasNakedSet(masks: readonly number[]): boolean {
  for (let chosen = 1; chosen < (1 << masks.length) - 1; chosen += 1) {
    const union = masks.reduce((all, mask, i) => ((chosen & (1 << i)) === 0 ? all : all | mask), 0);
    if (bitCount(union) <= bitCount(chosen)) return true;
  }
  return false;
}

/** The digits that can only be in one of two sets: every place in the one sees every place in the other. */
export function restrictedCommons(a: AlmostLockedSet, b: AlmostLockedSet): DigitMask {
  let restricted = 0;
  for (let rest = a.digits & b.digits; rest !== 0; rest &= rest - 1) {
    const bit = 31 - Math.clz32(rest & -rest);
    if (isWithin(b.holders[bit], a.viewers[bit])) restricted |= 1 << bit;
  }
  return restricted;
}

/** What goes where all places of a digit in some sets are seen, for each digit of a mask. */
export function struckBySets(
  layout: Layout,
  live: readonly CellBits[],
  sets: readonly AlmostLockedSet[],
  digits: DigitMask,
): number[] {
  const struck: number[] = [];
  for (let rest = digits; rest !== 0; rest &= rest - 1) {
    const bit = 31 - Math.clz32(rest & -rest);
    const seen = cellsInAll([live[bit], ...sets.map(({ viewers }) => viewers[bit])]);
    for (const cell of seen) struck.push(candidateOf(layout, cell, (bit + 1) as Digit));
  }
  return struck;
}

/** Whether some house has all of the cells: then they are no more than a naked set. */
export const isInOneHouse = (layout: Layout, cells: readonly Cell[]): boolean =>
  layout.housesOf[cells[0]].some((house) => cells.every((cell) => layout.housesOf[cell].includes(house)));
