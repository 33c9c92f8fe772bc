import type { OneSolutionToken } from '../argument/kernel.ts';
import type { Digit, Layout } from '../grid/layout.ts';
import type { Position } from '../grid/position.ts';
import { sameHouses } from '../grid/same-houses.ts';
import { decideDigits } from './solve.ts';

/**
 * Mints the token that one-solution arguments need, after counting: null where the givens do not have
 * exactly one solution. `givens` has one digit a cell, 0 where there is none. The token vouches for every
 * position with this layout and these givens, whatever has been placed or struck in it since.
 */
export function mintToken(layout: Layout, givens: ArrayLike<Digit>): OneSolutionToken | null {
  if (decideDigits(layout, givens).verdict !== 'one') return null;
  const counted = Uint8Array.from(givens);
  const token = Object.freeze({
    vouchesFor: (position: Position): boolean =>
      sameHouses(layout, position.layout) &&
      position.givens.length === counted.length &&
      position.givens.every((digit, cell) => digit === counted[cell]),
  });
  // The brand exists only in the type: this is the one place of the project that may claim it.
  return token as unknown as OneSolutionToken;
}
