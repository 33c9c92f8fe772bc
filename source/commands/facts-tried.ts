import type { Position } from '../grid/position.ts';
import { Board } from '../techniques/board.ts';
import { lightestStrike, SearchBudget } from '../techniques/fact-search.ts';
import { lastLook, withinSeconds } from './in-time.ts';

/** Beyond so many facts the search takes longer than anybody waits. */
const mostFacts = 4;

/**
 * The most facts of which it is known, after a last look, that no argument of so many or fewer strikes anything in a
 * position. 0: not even that one fact does nothing. `seconds`: what the whole answer might have taken.
 */
export function factsTried(position: Position, seconds: number): number {
  let tried = 0;
  withinSeconds(lastLook(seconds), () => {
    for (let facts = 1; facts <= mostFacts; facts += 1) {
      const search = lightestStrike(Board.from(position), facts, new SearchBudget());
      if (search.kind === 'broken' || search.strikes.length > 0) return;
      tried = facts;
    }
  });
  return tried;
}

/** The same in a sentence; none where nothing is known. */
export const sayTried = (facts: number): string[] => {
  if (facts === 0) return [];
  return [
    facts === 1
      ? 'No single fact strikes anything.'
      : `No argument of ${facts} facts or fewer strikes anything.`,
  ];
};
