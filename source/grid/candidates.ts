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

/**
 * Candidates that go, and the sets that this leaves on the way: for a long row of positions, each the one
 * before less a few candidates. The sets share one array until somebody looks at an older one.
 */
export class Removals {
  readonly layout: Layout;
  /** One digit mask a cell, as things stand now. */
  readonly #masks: Uint32Array;
  /** What has gone, in order. No candidate goes twice. */
  readonly #gone: Uint16Array;
  #count = 0;

  constructor(start: CandidateSet) {
    this.layout = start.layout;
    this.#masks = start.toMasks();
    this.#gone = new Uint16Array(this.layout.cellAt.length);
  }

  /** Removes some digits from a cell. */
  remove(cell: Cell, digits: DigitMask): void {
    const gone = this.#masks[cell] & digits;
    if (gone === 0) return;
    this.#masks[cell] ^= gone;
    const first = cell * this.layout.size + 31;
    for (let rest = gone; rest !== 0; rest &= rest - 1) {
      this.#gone[this.#count] = first - Math.clz32(rest & -rest);
      this.#count += 1;
    }
  }

  /** Removes one digit, as its bit, from several cells. */
  removeFrom(cells: readonly Cell[], bit: DigitMask): void {
    const masks = this.#masks;
    const gone = this.#gone;
    const { size } = this.layout;
    const digit = 31 - Math.clz32(bit);
    let count = this.#count;
    for (let i = 0; i < cells.length; i += 1) {
      const cell = cells[i];
      if ((masks[cell] & bit) === 0) continue;
      masks[cell] ^= bit;
      gone[count] = cell * size + digit;
      count += 1;
    }
    this.#count = count;
  }

  /** How many have gone. */
  get count(): number {
    return this.#count;
  }

  /** The set as it stands now; what goes later stays in it. */
  get set(): CandidateSet {
    return CandidateSet.leftBy(this);
  }

  /** The masks now, to look at and not to keep. */
  get current(): Uint32Array {
    return this.#masks;
  }

  /** A copy of the masks as they were when so many had gone. */
  masksAfter(count: number): Uint32Array {
    const { size, cellAt } = this.layout;
    const masks = this.#masks.slice();
    for (let i = count; i < this.#count; i += 1) {
      const cell = cellAt[this.#gone[i]];
      masks[cell] |= 1 << (this.#gone[i] - cell * size);
    }
    return masks;
  }
}

/** Whether a candidate is in the set that has these masks. */
function isIn(masks: Uint32Array, { size, cellAt }: Layout, candidate: Candidate): boolean {
  const cell = cellAt[candidate];
  return (masks[cell] & (1 << (candidate - cell * size))) !== 0;
}

/** An immutable set of candidates of one layout. Every operation answers with a set of its own. */
export class CandidateSet implements Iterable<Candidate> {
  readonly layout: Layout;
  /** One digit mask a cell, never written after construction; null while they are those of `#removals`. */
  #own: Uint32Array | null;
  /** Where the masks are as long as this set has none of its own, and how often something had gone then. */
  #removals: Removals | null;
  readonly #count: number;

  private constructor(layout: Layout, masks: Uint32Array | null, removals: Removals | null = null) {
    this.layout = layout;
    this.#own = masks;
    this.#removals = removals;
    this.#count = removals === null ? 0 : removals.count;
  }

  /** What `removals` has left so far. */
  static leftBy(removals: Removals): CandidateSet {
    return new CandidateSet(removals.layout, null, removals);
  }

  /** The masks, to read at once: they may be shared with what goes on being removed. */
  get #masks(): Uint32Array {
    const removals = this.#removals;
    return removals !== null && removals.count === this.#count ? removals.current : this.#settled;
  }

  /** The masks, for good. */
  get #settled(): Uint32Array {
    if (this.#removals !== null) {
      this.#own = this.#removals.masksAfter(this.#count);
      this.#removals = null;
    }
    return this.#own as Uint32Array;
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
    return isIn(this.#masks, this.layout, candidate);
  }

  /** Those of some candidates that are in the set, in the order given. */
  among(candidates: readonly Candidate[]): Candidate[] {
    const masks = this.#masks;
    const { layout } = this;
    let count = 0;
    let last = -1;
    for (let i = 0; i < candidates.length; i += 1) {
      if (!isIn(masks, layout, candidates[i])) continue;
      count += 1;
      last = i;
    }
    // Made to measure: this is asked for every fact of every argument.
    const found = new Array<Candidate>(count);
    for (let i = last; count > 0; i -= 1) {
      if (!isIn(masks, layout, candidates[i])) continue;
      count -= 1;
      found[count] = candidates[i];
    }
    return found;
  }

  /** The one of some candidates that is in the set; undefined where that is none of them, or several. */
  only(candidates: readonly Candidate[]): Candidate | undefined {
    const masks = this.#masks;
    let only: Candidate | undefined;
    for (let i = 0; i < candidates.length; i += 1) {
      if (!isIn(masks, this.layout, candidates[i])) continue;
      if (only !== undefined) return undefined;
      only = candidates[i];
    }
    return only;
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
    const masks = this.#settled;
    for (let cell = 0; cell < masks.length; cell += 1) {
      for (const digit of digitsIn(masks[cell])) yield candidateOf(this.layout, cell, digit);
    }
  }
}
