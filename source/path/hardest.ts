import type { Candidate } from '../grid/layout.ts';
import type { Board } from '../techniques/board.ts';
import { membersOfPairs, type Nested } from './nested.ts';
import type { Refutation } from './nets.ts';
import { factsThatRefute, refutationNodes } from './refute.ts';

/** A refutation of so few facts is taken at once; of those searched to their end so many are compared. */
const lightEnough = 24;
const enoughToChoose = 2;

/**
 * A refutation by suppositions within suppositions, for positions in which nothing follows from assuming any
 * one candidate; its facts are enough, and perhaps more than needed. Where one supposition within another does
 * not do, or not within its bound, members of facts with two places are searched to their ends, one after the
 * other. Null where no such candidate can be refuted within the bound.
 */
export function hardest(board: Board, nested: Nested): Refutation | null {
  const members = membersOfPairs(board);
  const open = members.filter((candidate) => board.placed[Math.floor(candidate / board.layout.size)] === 0);
  const nodes = refutationNodes(board.layout);
  return (
    nested.lightest() ??
    lightestOf(open, enoughToChoose, (candidate) => {
      const facts = factsThatRefute(board, candidate, nodes);
      return facts && { candidate, facts };
    })
  );
}

function lightestOf(
  candidates: readonly Candidate[],
  enough: number,
  refute: (candidate: Candidate) => Refutation | null,
): Refutation | null {
  let best: Refutation | null = null;
  let count = 0;
  for (const candidate of candidates) {
    const refutation = refute(candidate);
    if (refutation === null) continue;
    count += 1;
    if (best === null || refutation.facts.length < best.facts.length) best = refutation;
    if (best.facts.length <= lightEnough || count >= enough) break;
  }
  return best;
}
