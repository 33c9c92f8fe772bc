import { CandidateSet, maskOf, Removals } from './candidates.ts';
import {
  type Candidate,
  type Cell,
  cellOf,
  type Digit,
  type DigitMask,
  digitOf,
  type Layout,
} from './layout.ts';

/**
 * What a text or a person sets down, legal or not: digits may clash, and marks may be anything.
 * `givens[cell]` is a digit or 0. `marks`, where there are any, hold one digit mask a cell for cells that
 * were written as a list of candidates; 0 where nothing was listed.
 */
export interface Grid {
  readonly layout: Layout;
  readonly givens: readonly Digit[];
  readonly marks?: readonly DigitMask[];
}

/**
 * Where an argument takes place: all candidates, less those that placed digits exclude in their peers,
 * less strikes. Immutable. A placed cell keeps its own digit as its one candidate unless a peer has the
 * same digit: then both cells are left without any.
 */
export class Position {
  readonly layout: Layout;
  /** The digits that came with the puzzle; 0 elsewhere. */
  readonly givens: Uint8Array;
  readonly candidates: CandidateSet;
  /** The digits on the grid; as long as nobody has asked, the walk that knows them and how far it had come. */
  #placed: Uint8Array | Walk;
  readonly #count: number;

  private constructor(
    layout: Layout,
    givens: Uint8Array,
    placed: Uint8Array | Walk,
    candidates: CandidateSet,
    count = 0,
  ) {
    this.layout = layout;
    this.givens = givens;
    this.#placed = placed;
    this.candidates = candidates;
    this.#count = count;
  }

  /** Givens and ink; 0 where the cell is open. */
  get placed(): Uint8Array {
    if (this.#placed instanceof Walk) this.#placed = this.#placed.placedAfter(this.#count);
    return this.#placed;
  }

  /** Where a walk stands after so many placements. */
  static on(walk: Walk, count: number, candidates: CandidateSet): Position {
    return new Position(walk.layout, walk.givens, walk, candidates, count);
  }

  /**
   * A position from digits. `givens` and `placed` have one digit a cell, 0 where there is none; `placed`
   * covers the givens as well. `struck` are candidates ruled out by hand or by argument.
   */
  static from(
    layout: Layout,
    givens: ArrayLike<Digit>,
    placed: ArrayLike<Digit> = givens,
    struck: CandidateSet = CandidateSet.empty(layout),
  ): Position {
    const masks = new Uint32Array(layout.cellCount).fill(layout.allDigits);
    for (let cell = 0; cell < layout.cellCount; cell += 1) {
      if (placed[cell] !== 0) masks[cell] &= maskOf(placed[cell]);
    }
    for (let cell = 0; cell < layout.cellCount; cell += 1) {
      if (placed[cell] === 0) continue;
      const peers = layout.peers[cell];
      const bit = maskOf(placed[cell]);
      for (let i = 0; i < peers.length; i += 1) masks[peers[i]] &= ~bit;
    }
    const candidates = CandidateSet.fromMasks(layout, masks).without(struck);
    return new Position(layout, Uint8Array.from(givens), Uint8Array.from(placed), candidates);
  }

  /** The position after a digit is placed: its cell and its peers are cleared, for free. */
  place(cell: Cell, digit: Digit): Position {
    const placed = this.placed.slice();
    placed[cell] = digit;
    const masks = this.candidates.toMasks();
    masks[cell] &= maskOf(digit);
    for (const peer of this.layout.peers[cell]) masks[peer] &= ~maskOf(digit);
    const candidates = CandidateSet.fromMasks(this.layout, masks);
    return new Position(this.layout, this.givens, placed, candidates);
  }

  /** The position after some candidates are struck. */
  strike(candidates: Iterable<Candidate>): Position {
    const struck = CandidateSet.of(this.layout, candidates);
    return new Position(this.layout, this.givens, this.placed, this.candidates.without(struck));
  }

  /** Whether every cell holds a digit and none is twice in a house. */
  get isSolved(): boolean {
    return this.placed.every(
      (digit, cell) => digit !== 0 && this.candidates.digitsAt(cell) === maskOf(digit),
    );
  }
}

/**
 * A row of positions, each the one before after placements and strikes: what `place` and `strike` of a
 * position give, for a long row of them at a fraction of the cost. A position that the walk has stood in
 * stays as it was.
 */
export class Walk {
  readonly layout: Layout;
  readonly givens: Uint8Array;
  readonly #start: Uint8Array;
  readonly #placements: Candidate[] = [];
  readonly #removals: Removals;
  #here: Position | null;

  constructor(start: Position) {
    this.layout = start.layout;
    this.givens = start.givens;
    this.#start = start.placed;
    this.#removals = new Removals(start.candidates);
    this.#here = start;
  }

  /** The position that the walk stands in. */
  get position(): Position {
    if (this.#here === null) {
      this.#here = Position.on(this, this.#placements.length, this.#removals.set);
    }
    return this.#here;
  }

  /** The digits on the grid after so many placements. */
  placedAfter(count: number): Uint8Array {
    const { size } = this.layout;
    const placed = this.#start.slice();
    for (let i = 0; i < count; i += 1) {
      const candidate = this.#placements[i];
      placed[Math.floor(candidate / size)] = (candidate % size) + 1;
    }
    return placed;
  }

  /** Places a digit: its cell and its peers are cleared. */
  place(cell: Cell, digit: Digit): void {
    const { size, peers } = this.layout;
    this.#placements.push(cell * size + digit - 1);
    const bit = maskOf(digit);
    this.#removals.remove(cell, ~bit);
    this.#removals.removeFrom(peers[cell], bit);
    this.#here = null;
  }

  /** Strikes some candidates. */
  strike(candidates: readonly Candidate[]): void {
    const { layout } = this;
    for (let i = 0; i < candidates.length; i += 1) {
      this.#removals.remove(cellOf(layout, candidates[i]), maskOf(digitOf(layout, candidates[i])));
    }
    this.#here = null;
  }
}
