import type { Candidate } from '../grid/layout.ts';
import type { Position } from '../grid/position.ts';
import { factCandidates } from './fact.ts';
import type { Fact } from './kernel.ts';

/** A fact that a person's marks assert: the fact holds, and it comes out in one of these places. */
export interface Claim {
  readonly fact: Fact;
  /** The marked places that are still live; none where the last one has gone. */
  readonly places: readonly Candidate[];
}

/** What the claims leave out: candidates of a claimed fact that are not among its marked places. */
export function leftOutBy(position: Position, claims: readonly Claim[]): Candidate[] {
  const { layout, candidates } = position;
  return claims.flatMap(({ fact, places }) =>
    factCandidates(layout, fact).filter((c) => candidates.has(c) && !places.includes(c)),
  );
}

/** The position as the person sees it: what their claims leave out counts as struck. */
export const withClaims = (position: Position, claims: readonly Claim[]): Position =>
  claims.length === 0 ? position : position.strike(leftOutBy(position, claims));
