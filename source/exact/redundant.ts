import type { Cell, Digit, Layout } from '../grid/layout.ts';
import { anotherFits } from './solve.ts';

/**
 * The cells whose givens could be left out, each by itself, of a grid with one solution, in order. Searched
 * one by one as they are asked for: the first tells that the grid is not minimal.
 */
export function* redundantGivens(layout: Layout, givens: ArrayLike<Digit>): Generator<Cell> {
  const left = Array.from(givens);
  for (let cell = 0; cell < left.length; cell += 1) {
    const digit = left[cell];
    if (digit === 0) continue;
    left[cell] = 0;
    if (!anotherFits(layout, left, cell, digit)) yield cell;
    left[cell] = digit;
  }
}

/** Whether a grid with one solution needs every given. */
export const isMinimal = (layout: Layout, givens: ArrayLike<Digit>): boolean =>
  redundantGivens(layout, givens).next().done === true;
