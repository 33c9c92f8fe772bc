import { factParts } from '../argument/fact.ts';
import type { Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import { alternatingInferenceChain } from './alternating-inference-chain.ts';
import type { Board } from './board.ts';
import { walkChain } from './chain-words.ts';
import { remotePairs } from './remote-pairs.ts';
import { xChain } from './x-chain.ts';
import { xyChain } from './xy-chain.ts';

/** A chain of more facts goes without a name. */
const mostFacts = 12;

/**
 * The id of the chain that some facts make, told from these alone: of all of them, in whatever order, one link
 * after the other to the strikes. Null where they make none, or one so short that it has another name.
 */
export function chainNameOf(
  board: Board,
  facts: readonly Fact[],
  struck: readonly Candidate[],
): string | null {
  if (facts.length < 2 || facts.length > mostFacts) return null;
  const chain = walkChain(board, facts, struck);
  if (!chain) return null;
  const { layout, masks } = board;
  const nodes = [chain.start, ...chain.steps];
  const digitOf = ([candidate]: readonly Candidate[]) => candidate % layout.size;
  const sameEnds = digitOf(nodes[0]) === digitOf(nodes[nodes.length - 1]);
  const parts = facts.map((fact) => factParts(layout, fact));
  const isSingle = nodes.every((node) => node.length === 1);
  const [first] = parts;
  if (
    first.kind === 'house' &&
    isSingle &&
    parts.every((p) => p.kind === 'house' && p.digit === first.digit)
  ) {
    return xChain.id;
  }
  if (facts.length < 3) return null;
  if (sameEnds && parts.every(({ kind }) => kind === 'cell')) {
    const isPair = facts.every((cell) => masks[cell] === masks[facts[0]]);
    return isPair && facts.length >= 4 && facts.length % 2 === 0 ? remotePairs.id : xyChain.id;
  }
  return alternatingInferenceChain.id;
}
