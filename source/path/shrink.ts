import type { Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import type { Board, BoardTables } from '../techniques/board.ts';
import { Arranging } from './arranging.ts';

/** How many choices a trial may take before a fact is taken to be needed. */
const trialNodes = 20_000;

/** Working memory is used again by all that is shrunk on a layout. */
const memory = new WeakMap<BoardTables, Arranging>();

/**
 * Leaves out of facts that refute a candidate those that are not needed: none of what is left can be dropped,
 * unless the bound cuts a trial short. Null where the facts do not refute it within the bound.
 */
export function shrink(board: Board, candidate: Candidate, facts: readonly Fact[]): Fact[] | null {
  let arranging = memory.get(board.tables);
  if (!arranging) {
    arranging = new Arranging(board.tables);
    memory.set(board.tables, arranging);
  }
  arranging.take(board, candidate, facts);
  if (arranging.decide(trialNodes * 5) !== 'clash') return null;
  arranging.keepCore();
  const isNeeded = new Uint8Array(facts.length);
  for (let fact = facts.length - 1; fact >= 0; fact -= 1) {
    if (!arranging.isAllowed(fact) || isNeeded[fact] !== 0) continue;
    arranging.leaveOut(fact);
    switch (arranging.decide(trialNodes)) {
      case 'clash':
        arranging.keepCore();
        break;
      case 'arranged':
        isNeeded[fact] = 1;
        arranging.rotate(fact, isNeeded);
        arranging.putBack(fact);
        break;
      case 'spent':
        arranging.putBack(fact);
        break;
    }
  }
  return facts.filter((_, index) => arranging.isAllowed(index));
}
