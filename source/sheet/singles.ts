import { withClaims } from '../argument/claim.ts';
import { factCandidates, factCount } from '../argument/fact.ts';
import { type Candidate, cellOf, conflicts } from '../grid/layout.ts';
import { placedAt } from './marks.ts';
import type { SheetState } from './state.ts';
import { viewOf } from './view.ts';

/**
 * All placements that follow by one fact with a single place left, in the position with the claims, ascending:
 * what an `ink-all` event takes. One round: what they lead to in turn is not among them. Two that exclude
 * each other mean that something is wrong; then neither is taken.
 */
export function singlesOf(state: SheetState): Candidate[] {
  const { layout } = state;
  const view = viewOf(state);
  const { candidates } = withClaims(view.position, view.claims);
  const singles = new Set<Candidate>();
  for (let fact = 0; fact < factCount(layout); fact += 1) {
    const live = factCandidates(layout, fact).filter((candidate) => candidates.has(candidate));
    if (live.length === 1 && placedAt(state, cellOf(layout, live[0])) === 0) singles.add(live[0]);
  }
  const all = [...singles].sort((a, b) => a - b);
  return all.filter((candidate) => !all.some((other) => conflicts(layout, candidate, other)));
}
