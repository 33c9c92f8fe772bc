import { cellFact, factCandidates, factCount, houseFact } from '../argument/fact.ts';
import type { Fact } from '../argument/kernel.ts';
import { CandidateSet } from '../grid/candidates.ts';
import type { Candidate, DigitMask, Layout } from '../grid/layout.ts';
import { Position } from '../grid/position.ts';

/** What never changes for a layout: which candidates each fact has, and which facts each candidate touches. */
export interface BoardTables {
  readonly layout: Layout;
  readonly factCount: number;
  readonly candidateCount: number;
  /** `candidateAt[fact * size + bit]`: the candidate behind a bit of the fact's mask. */
  readonly candidateAt: Uint16Array;
  /** For each candidate the facts that it is a place of (its cell's, then one a house) and its bit in each. */
  readonly placesIn: readonly { readonly fact: Fact; readonly bit: number }[][];
  /** The same flat: facts and bits of candidate c stand at `ownStart[c] <= i < ownStart[c + 1]`. */
  readonly ownStart: Int32Array;
  readonly ownFact: Uint16Array;
  readonly ownBit: Int32Array;
  /** For each candidate those that it excludes, ascending. */
  readonly excludes: readonly Uint16Array[];
}

const cache = new WeakMap<Layout, BoardTables>();

/** The candidates that cannot be true beside one, ascending: its cell's others, and its digit in the cell's peers. */
function excludedBy({ size, peers }: Layout, candidate: Candidate): Uint16Array {
  const cell = Math.floor(candidate / size);
  const digit = candidate - cell * size;
  const seen = peers[cell];
  const others = new Uint16Array(seen.length + size - 1);
  let at = 0;
  let i = 0;
  for (; i < seen.length && seen[i] < cell; i += 1) others[at++] = seen[i] * size + digit;
  for (let other = cell * size; other < (cell + 1) * size; other += 1) {
    if (other !== candidate) others[at++] = other;
  }
  for (; i < seen.length; i += 1) others[at++] = seen[i] * size + digit;
  return others;
}

/** The tables of a layout, made once. */
export function tablesOf(layout: Layout): BoardTables {
  const known = cache.get(layout);
  if (known) return known;
  const { size } = layout;
  const count = factCount(layout);
  const candidateCount = layout.cellCount * size;
  const candidateAt = new Uint16Array(count * size);
  for (let fact = 0; fact < count; fact += 1) candidateAt.set(factCandidates(layout, fact), fact * size);
  // Loops by index: each command that searches begins with this, before anything is compiled well.
  const placesIn: { readonly fact: Fact; readonly bit: number }[][] = [];
  const excludes: Uint16Array[] = [];
  for (let candidate = 0; candidate < candidateCount; candidate += 1) {
    const cell = Math.floor(candidate / size);
    placesIn.push([{ fact: cellFact(cell), bit: 1 << (candidate - cell * size) }]);
    excludes.push(excludedBy(layout, candidate));
  }
  for (let house = 0; house < layout.houses.length; house += 1) {
    const { cells } = layout.houses[house];
    for (let digit = 1; digit <= size; digit += 1) {
      const fact = houseFact(layout, layout.houses[house], digit);
      for (let i = 0; i < size; i += 1) placesIn[cells[i] * size + digit - 1].push({ fact, bit: 1 << i });
    }
  }
  const ownStart = new Int32Array(candidateCount + 1);
  for (let candidate = 0; candidate < candidateCount; candidate += 1) {
    ownStart[candidate + 1] = ownStart[candidate] + placesIn[candidate].length;
  }
  const ownFact = new Uint16Array(ownStart[candidateCount]);
  const ownBit = new Int32Array(ownStart[candidateCount]);
  for (let candidate = 0; candidate < candidateCount; candidate += 1) {
    const own = placesIn[candidate];
    for (let i = 0; i < own.length; i += 1) {
      ownFact[ownStart[candidate] + i] = own[i].fact;
      ownBit[ownStart[candidate] + i] = own[i].bit;
    }
  }
  const tables: BoardTables = {
    layout,
    factCount: count,
    candidateCount,
    candidateAt,
    placesIn,
    ownStart,
    ownFact,
    ownBit,
    excludes,
  };
  cache.set(layout, tables);
  return tables;
}

/** Facts in the order in which they shrank, each once until it is taken. */
export class ShrunkFacts {
  readonly #facts: Uint16Array;
  readonly #waiting: Uint8Array;
  #head = 0;
  #count = 0;

  constructor(factCount: number) {
    this.#facts = new Uint16Array(factCount);
    this.#waiting = new Uint8Array(factCount);
  }

  add(fact: Fact): void {
    if (this.#waiting[fact] !== 0) return;
    this.#waiting[fact] = 1;
    let at = this.#head + this.#count;
    if (at >= this.#facts.length) at -= this.#facts.length;
    this.#facts[at] = fact;
    this.#count += 1;
  }

  /** Forgets all that wait. */
  clear(): void {
    while (this.take() >= 0);
  }

  /** The first one that waits, or -1. */
  take(): Fact {
    if (this.#count === 0) return -1;
    const fact = this.#facts[this.#head];
    this.#head = this.#head + 1 === this.#facts.length ? 0 : this.#head + 1;
    this.#count -= 1;
    this.#waiting[fact] = 0;
    return fact;
  }
}

/**
 * Somebody who is told of facts that shrink, and of the places that they have left: of all but those that a digit
 * settles as it is placed.
 */
export interface FactWatch {
  note(fact: Fact, mask: number): void;
}

/**
 * The mutable working board that techniques search on: one mask of live places a fact, kept up to date on
 * every strike. Built from a position and handed only to `path/`.
 */
export class Board {
  readonly tables: BoardTables;
  readonly layout: Layout;
  readonly givens: Uint8Array;
  readonly placed: Uint8Array;
  /** 1 where the candidate is live. Written only by this class. */
  readonly live: Uint8Array;
  /** For each fact its live places, as bits over the fact's candidates in ascending order. */
  readonly masks: Uint32Array;
  readonly #watch: FactWatch | null;
  /** Of the facts of a candidate that is placed, the other places that they had. */
  readonly #others: number[] = [];

  private constructor(tables: BoardTables, givens: Uint8Array, placed: Uint8Array, watch: FactWatch | null) {
    this.tables = tables;
    this.layout = tables.layout;
    this.givens = givens;
    this.placed = placed;
    this.live = new Uint8Array(tables.candidateCount);
    this.masks = new Uint32Array(tables.factCount);
    this.#watch = watch;
  }

  /** A board of its own, in the position given. `watch` is told of facts that shrink from then on. */
  static from(position: Position, watch: FactWatch | null = null): Board {
    const { layout } = position;
    const bare = () => new Uint8Array(layout.cellCount);
    const board = new Board(tablesOf(layout), bare(), bare(), watch);
    board.stand(position);
    return board;
  }

  /** Goes over to a position of the same layout, whatever the board stood in. Facts do not count as shrunk. */
  stand({ layout, candidates, givens, placed }: Position): void {
    const { live, masks, tables } = this;
    this.givens.set(givens);
    this.placed.set(placed);
    const { ownStart, ownFact, ownBit } = tables;
    const { size, cellCount } = layout;
    live.fill(0);
    masks.fill(0);
    for (let cell = 0; cell < cellCount; cell += 1) {
      // A cell's fact has its digits in order, and is the first of a candidate's own.
      const digits = candidates.digitsAt(cell);
      masks[cell] = digits;
      for (let rest = digits; rest !== 0; rest &= rest - 1) {
        const candidate = cell * size + 31 - Math.clz32(rest & -rest);
        live[candidate] = 1;
        const end = ownStart[candidate + 1];
        for (let i = ownStart[candidate] + 1; i < end; i += 1) masks[ownFact[i]] |= ownBit[i];
      }
    }
  }

  /** A board on which nothing is live and nothing placed. */
  static bare(layout: Layout): Board {
    const none = new Uint8Array(layout.cellCount);
    return new Board(tablesOf(layout), none, none.slice(), null);
  }

  /** Brings a candidate back, for a board that shows some candidates of another one. */
  revive(candidate: Candidate): void {
    if (this.live[candidate] !== 0) return;
    this.live[candidate] = 1;
    const { ownStart, ownFact, ownBit } = this.tables;
    for (let i = ownStart[candidate]; i < ownStart[candidate + 1]; i += 1) {
      this.masks[ownFact[i]] |= ownBit[i];
    }
  }

  /** A board of its own in the position that this one stands in. */
  copy(): Board {
    const board = new Board(this.tables, this.givens, this.placed.slice(), null);
    board.live.set(this.live);
    board.masks.set(this.masks);
    return board;
  }

  /** Strikes a candidate; says whether it was live. */
  strike(candidate: Candidate): boolean {
    const { live, masks } = this;
    if (live[candidate] === 0) return false;
    live[candidate] = 0;
    const watch = this.#watch;
    const { ownStart, ownFact, ownBit } = this.tables;
    const end = ownStart[candidate + 1];
    for (let i = ownStart[candidate]; i < end; i += 1) {
      const fact = ownFact[i];
      const left = masks[fact] & ~ownBit[i];
      // A fact that is being settled has shrunk already.
      if (left === masks[fact]) continue;
      masks[fact] = left;
      if (watch !== null) watch.note(fact, left);
    }
    return true;
  }

  /**
   * Places a digit, live or not, and clears its cell and its peers: the other places of the facts it is in, those
   * of its cell last.
   */
  place(candidate: Candidate): void {
    const { masks, placed } = this;
    const { layout, candidateAt, ownStart, ownFact, ownBit } = this.tables;
    const { size, cellAt } = layout;
    const cell = cellAt[candidate];
    placed[cell] = candidate - cell * size + 1;
    const others = this.#others;
    const start = ownStart[candidate];
    const end = ownStart[candidate + 1];
    for (let i = start; i < end; i += 1) {
      const fact = ownFact[i];
      others[i - start] = masks[fact] & ~ownBit[i];
      masks[fact] &= ownBit[i];
      if (masks[fact] === 0) this.#watch?.note(fact, 0);
    }
    for (let i = end - 1; i >= start; i -= 1) {
      const first = ownFact[i] * size;
      for (let rest = others[i - start]; rest !== 0; rest &= rest - 1) {
        this.strike(candidateAt[first + 31 - Math.clz32(rest & -rest)]);
      }
    }
  }

  /** The digits that are live somewhere, as bits. */
  get liveDigits(): DigitMask {
    let digits = 0;
    for (let cell = 0; cell < this.layout.cellCount; cell += 1) digits |= this.masks[cell];
    return digits;
  }

  /** The live places of a fact, ascending. */
  placesOf(fact: Fact): Candidate[] {
    const places: Candidate[] = [];
    const base = fact * this.layout.size;
    for (let rest = this.masks[fact]; rest !== 0; rest &= rest - 1) {
      places.push(this.tables.candidateAt[base + 31 - Math.clz32(rest & -rest)]);
    }
    return places;
  }

  /** Whether the fact is settled: its one place stands on the grid. */
  isSettled(fact: Fact): boolean {
    const mask = this.masks[fact];
    if (mask === 0 || (mask & (mask - 1)) !== 0) return false;
    const candidate = this.tables.candidateAt[fact * this.layout.size + 31 - Math.clz32(mask)];
    return this.placed[Math.floor(candidate / this.layout.size)] !== 0;
  }

  /** The position that the board stands in now. */
  toPosition(): Position {
    const { layout } = this;
    const dead: Candidate[] = [];
    for (let candidate = 0; candidate < this.live.length; candidate += 1) {
      if (this.live[candidate] === 0) dead.push(candidate);
    }
    return Position.from(layout, this.givens, this.placed, CandidateSet.of(layout, dead));
  }
}
