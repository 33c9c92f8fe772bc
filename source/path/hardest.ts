import type { Candidate } from '../grid/layout.ts';
import type { Board } from '../techniques/board.ts';
import { bitCount } from '../techniques/finding.ts';
import type { Refutation } from './nets.ts';
import { factsThatRefute, fewestOf, refutationNodes } from './refute.ts';

/** A refutation of so few facts is taken without looking for a lighter one. */
const lightEnough = 24;

/**
 * A refutation by suppositions within suppositions, for positions in which nothing follows from assuming any
 * one candidate: each member of a fact with two places is assumed and searched to its end, and the first
 * reasonably light refutation is taken, otherwise the lightest, on a minimal set of its facts. Null where no
 * such candidate can be refuted within the bound.
 */
export function hardest(board: Board): Refutation | null {
  const nodes = refutationNodes(board.layout);
  const tried = new Set<Candidate>();
  let best: Refutation | null = null;
  for (let fact = 0; fact < board.tables.factCount; fact += 1) {
    if (bitCount(board.masks[fact]) !== 2) continue;
    for (const candidate of board.placesOf(fact)) {
      if (tried.has(candidate)) continue;
      tried.add(candidate);
      const facts = factsThatRefute(board, candidate, nodes);
      if (!facts || (best && best.facts.length <= facts.length)) continue;
      best = { candidate, facts };
      if (facts.length <= lightEnough) return shrunk(board, best, nodes);
    }
  }
  return best && shrunk(board, best, nodes);
}

const shrunk = (board: Board, { candidate, facts }: Refutation, nodes: number): Refutation => ({
  candidate,
  facts: fewestOf(board, candidate, nodes, facts),
});
