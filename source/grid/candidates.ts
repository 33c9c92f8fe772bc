import {
  type Candidate,
  type Cell,
  candidateOf,
  cellOf,
  type Digit,
  type DigitMask,
  digitOf,
  type Layout,
} from './layout.ts';

/** How many digits a mask holds. */
export function countDigits(mask: DigitMask): number {
  let count = 0;
  for (let rest = mask; rest !== 0; rest &= rest - 1) count += 1;
  return count;
}

/** The digits of a mask, ascending. */
export function digitsIn(mask: DigitMask): Digit[] {
  const digits: Digit[] = [];
  for (let rest = mask; rest !== 0; rest &= rest - 1) digits.push(32 - Math.clz32(rest & -rest));
  return digits;
}

/** The mask of one digit. */
export const maskOf = (digit: Digit): DigitMask => 1 << (digit - 1);

/** An immutable set of candidates of one layout. Every operation answers with a set of its own. */
export class CandidateSet implements Iterable<Candidate> {
  readonly layout: Layout;
  /** One digit mask a cell. Never written after construction. */
  readonly #masks: Uint32Array;

  private constructor(layout: Layout, masks: Uint32Array) {
    this.layout = layout;
    this.#masks = masks;
  }

  /** No candidate at all. */
  static empty(layout: Layout): CandidateSet {
    return new CandidateSet(layout, new Uint32Array(layout.cellCount));
  }

  /** Every digit in every cell. */
  static full(layout: Layout): CandidateSet {
    return new CandidateSet(layout, new Uint32Array(layout.cellCount).fill(layout.allDigits));
  }

  /** A set of the candidates given. */
  static of(layout: Layout, candidates: Iterable<Candidate>): CandidateSet {
    const masks = new Uint32Array(layout.cellCount);
    for (const c of candidates) masks[cellOf(layout, c)] |= maskOf(digitOf(layout, c));
    return new CandidateSet(layout, masks);
  }

  /** A set from one digit mask a cell; the array is copied. */
  static fromMasks(layout: Layout, masks: ArrayLike<DigitMask>): CandidateSet {
    return new CandidateSet(layout, Uint32Array.from(masks));
  }

  /** The digits of one cell, as bits. */
  digitsAt(cell: Cell): DigitMask {
    return this.#masks[cell];
  }

  /** A copy of all cells' digit masks, in cell order. */
  toMasks(): Uint32Array {
    return this.#masks.slice();
  }

  has(candidate: Candidate): boolean {
    return (this.#masks[cellOf(this.layout, candidate)] & maskOf(digitOf(this.layout, candidate))) !== 0;
  }

  /** How many candidates are in the set. */
  get size(): number {
    let size = 0;
    for (const mask of this.#masks) size += countDigits(mask);
    return size;
  }

  get isEmpty(): boolean {
    return this.#masks.every((mask) => mask === 0);
  }

  union(other: CandidateSet): CandidateSet {
    return new CandidateSet(
      this.layout,
      this.#masks.map((mask, cell) => mask | other.#masks[cell]),
    );
  }

  intersect(other: CandidateSet): CandidateSet {
    return new CandidateSet(
      this.layout,
      this.#masks.map((mask, cell) => mask & other.#masks[cell]),
    );
  }

  /** This set less every candidate of the other. */
  without(other: CandidateSet): CandidateSet {
    return new CandidateSet(
      this.layout,
      this.#masks.map((mask, cell) => mask & ~other.#masks[cell]),
    );
  }

  equals(other: CandidateSet): boolean {
    return this.layout === other.layout && this.#masks.every((mask, cell) => mask === other.#masks[cell]);
  }

  /** Ascending by candidate number: cell by cell, digit by digit. */
  *[Symbol.iterator](): IterableIterator<Candidate> {
    for (let cell = 0; cell < this.#masks.length; cell += 1) {
      for (const digit of digitsIn(this.#masks[cell])) yield candidateOf(this.layout, cell, digit);
    }
  }
}
