import { CandidateSet, maskOf } from './candidates.ts';
import type { Candidate, Cell, Digit, DigitMask, Layout } from './layout.ts';

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
  /** Givens and ink; 0 where the cell is open. */
  readonly placed: Uint8Array;
  readonly candidates: CandidateSet;

  private constructor(layout: Layout, givens: Uint8Array, placed: Uint8Array, candidates: CandidateSet) {
    this.layout = layout;
    this.givens = givens;
    this.placed = placed;
    this.candidates = candidates;
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
      for (const peer of layout.peers[cell]) masks[peer] &= ~maskOf(placed[cell]);
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
