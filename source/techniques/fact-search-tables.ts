import type { Layout } from '../grid/layout.ts';
import { tablesOf } from './board.ts';
import { Demands } from './fact-search-demands.ts';

/** Set in a fact's working mask to say that it has nothing more to tell: it is satisfied, or left out. */
export const SPENT = 2 ** 30;

/**
 * What a house fact with several places left still rules out: the cells, outside its house, that see every
 * one of those places. Sets of cells are numbered from 1 as they turn up; 0 says that there is no such cell.
 */
export class Alignments {
  readonly #layout: Layout;
  readonly #shift: number;
  /** By `house * 2^size + mask`: a number, 0, or -1 where nobody has asked yet. Null on large layouts. */
  readonly #table: Int16Array | null;
  readonly #map = new Map<number, number>();
  readonly #numbers = new Map<string, number>();
  /** The cells of a set, by its number. */
  readonly cells: (readonly number[])[] = [[]];
  /** `sees[number * cellCount + cell]`: 1 where the cell is in the set. */
  sees: Uint8Array;
  /** `within[number * houses + house]`: the cells of the set that lie in the house, as bits of its mask. */
  within: Int32Array;

  constructor(layout: Layout) {
    this.#layout = layout;
    this.#shift = layout.size;
    const { size, houses, cellCount } = layout;
    this.#table = size <= 10 ? new Int16Array(houses.length << size).fill(-1) : null;
    this.sees = new Uint8Array(128 * cellCount);
    this.within = new Int32Array(128 * houses.length);
  }

  /** The number of the set of cells that a digit is ruled out of when its places in a house are these. */
  of(house: number, mask: number): number {
    const known =
      this.#table === null ? this.#inMap(house, mask) : this.#table[(house << this.#shift) | mask];
    return known >= 0 ? known : this.#work(house, mask);
  }

  #inMap(house: number, mask: number): number {
    return this.#map.get(house * 2 ** this.#shift + mask) ?? -1;
  }

  #work(house: number, mask: number): number {
    const { cellCount, houses, sees } = this.#layout;
    const places = houses[house].cells.filter((_, bit) => (mask >> bit) & 1);
    const cells: number[] = [];
    for (let cell = 0; cell < cellCount; cell += 1) {
      if (houses[house].cells.includes(cell)) continue;
      if (places.every((place) => sees[place * cellCount + cell] === 1)) cells.push(cell);
    }
    const number = cells.length === 0 ? 0 : this.#numberOf(cells);
    if (this.#table === null) this.#map.set(house * 2 ** this.#shift + mask, number);
    else this.#table[(house << this.#shift) | mask] = number;
    return number;
  }

  #numberOf(cells: readonly number[]): number {
    const name = cells.join();
    const known = this.#numbers.get(name);
    if (known !== undefined) return known;
    const { cellCount, houses } = this.#layout;
    const number = this.#numbers.size + 1;
    this.#numbers.set(name, number);
    if ((number + 1) * cellCount > this.sees.length) {
      const [sees, within] = [this.sees, this.within];
      this.sees = new Uint8Array(sees.length * 2);
      this.sees.set(sees);
      this.within = new Int32Array(within.length * 2);
      this.within.set(within);
    }
    this.cells.push(cells);
    for (const cell of cells) this.sees[number * cellCount + cell] = 1;
    for (const house of houses) {
      let mask = 0;
      house.cells.forEach((cell, bit) => {
        if (cells.includes(cell)) mask |= 1 << bit;
      });
      this.within[number * houses.length + house.index] = mask;
    }
    return number;
  }
}

/** What the search needs of a layout, flat. Candidates and facts are numbered as everywhere. */
export interface SearchTables {
  readonly layout: Layout;
  readonly size: number;
  readonly cellCount: number;
  readonly houseCount: number;
  readonly factCount: number;
  readonly candidateCount: number;
  /** `candidateAt[fact * size + bit]`. */
  readonly candidateAt: Uint16Array;
  readonly cellOf: Uint16Array;
  readonly digitOf: Uint8Array;
  /** The house of a house fact; 0 for a cell's. */
  readonly houseOf: Uint8Array;
  /** The digit of a house fact; 0 for a cell's. */
  readonly digitOfFact: Uint8Array;
  /** The facts that candidate c is a place of: `ownFact[i]`, bit `ownBit[i]`, `ownStart[c] <= i < ownStart[c + 1]`. */
  readonly ownStart: Int32Array;
  readonly ownFact: Uint16Array;
  readonly ownBit: Int32Array;
  /** The other facts that lose places when c is true, and which places: as above. */
  readonly touchStart: Int32Array;
  readonly touchFact: Uint16Array;
  readonly touchMask: Int32Array;
  /** The candidates in conflict with c, ascending. */
  readonly excludes: readonly Uint16Array[];
  /** The same as bits: `conflict[c * conflictWords + (d >> 5)] >>> (d & 31) & 1`. */
  readonly conflict: Int32Array;
  readonly conflictWords: number;
  readonly alignments: Alignments;
  readonly demands: Demands;
}

const cache = new WeakMap<Layout, SearchTables>();

/** The search's tables of a layout, made once. Layouts of up to 29 digits. */
export function searchTablesOf(layout: Layout): SearchTables {
  const known = cache.get(layout);
  if (known) return known;
  const { size, cellCount, houses } = layout;
  const { factCount, candidateCount, candidateAt, placesIn, ownStart, ownFact, ownBit, excludes } =
    tablesOf(layout);
  if (size > 29) throw new RangeError(`${layout.name}: the k-fact search takes up to 29 digits`);
  const conflictWords = (candidateCount + 31) >> 5;
  const conflict = new Int32Array(candidateCount * conflictWords);
  const touch = { start: [0], fact: [] as number[], mask: [] as number[] };
  for (let c = 0; c < candidateCount; c += 1) {
    const lost = new Map<number, number>();
    for (const other of excludes[c]) {
      conflict[c * conflictWords + (other >> 5)] |= 1 << (other & 31);
      for (const { fact, bit } of placesIn[other]) lost.set(fact, (lost.get(fact) ?? 0) | bit);
    }
    for (const { fact } of placesIn[c]) lost.delete(fact);
    for (const [fact, mask] of [...lost].sort(([a], [b]) => a - b)) {
      touch.fact.push(fact);
      touch.mask.push(mask);
    }
    touch.start.push(touch.fact.length);
  }
  const facts = Array.from({ length: factCount }, (_, fact) => fact - cellCount);
  const candidates = Array.from({ length: candidateCount }, (_, candidate) => candidate);
  const tables: SearchTables = {
    layout,
    size,
    cellCount,
    houseCount: houses.length,
    factCount,
    candidateCount,
    candidateAt,
    cellOf: Uint16Array.from(candidates, (c) => Math.floor(c / size)),
    digitOf: Uint8Array.from(candidates, (c) => (c % size) + 1),
    houseOf: Uint8Array.from(facts, (f) => (f < 0 ? 0 : Math.floor(f / size))),
    digitOfFact: Uint8Array.from(facts, (f) => (f < 0 ? 0 : (f % size) + 1)),
    ownStart,
    ownFact,
    ownBit,
    touchStart: Int32Array.from(touch.start),
    touchFact: Uint16Array.from(touch.fact),
    touchMask: Int32Array.from(touch.mask),
    excludes,
    conflict,
    conflictWords,
    alignments: new Alignments(layout),
    demands: new Demands(layout),
  };
  cache.set(layout, tables);
  return tables;
}
