import type { Digit, DigitMask } from '../grid/layout.ts';

/** What a search is told to stop at. */
export interface SearchLimits {
  /** Stop once this many solutions are found; Infinity: find them all. */
  readonly solutions: number;
  /** Stop after this many branchings; Infinity: never. */
  readonly nodes: number;
}

/** How a search ended. `finished` means that nothing is left to find, or that the limit of solutions is met. */
export interface SearchOutcome {
  readonly found: number;
  readonly nodes: number;
  readonly finished: boolean;
}

/**
 * A backtracking search over one layout. Built once a layout, then used for one grid after the other: it
 * keeps its memory. Not reentrant.
 */
export interface Search {
  /** Searches from one digit mask a cell, struck candidates left out. The array is not changed. */
  run(masks: ArrayLike<DigitMask>, limits: SearchLimits): SearchOutcome;
  /** A copy of the first (0) or second (1) solution of the last run, one digit a cell. */
  witness(which: 0 | 1): Uint8Array;
}

/** The digit of a mask that holds exactly one. */
export const soleDigit = (mask: DigitMask): Digit => 32 - Math.clz32(mask);
