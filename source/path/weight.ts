import { decide } from '../exact/solve.ts';
import type { Position } from '../grid/position.ts';
import { type PuzzleWeight, SearchBudget, weightUpTo } from '../techniques/fact-search.ts';

export type { PuzzleWeight } from '../techniques/fact-search.ts';

/** How many facts a weight is searched with where nothing else is asked for. */
export const usualFacts = 4;

/**
 * The weight of a puzzle: the smallest number of facts such that arguments of at most so many solve it, as
 * exact bounds, searched up to `upTo` facts. `atMost` is null where these do not solve it. `worlds` bounds the
 * search; where it is spent, only `atLeast` is known. Null where there is no solution.
 */
export const puzzleWeight = (
  position: Position,
  upTo: number = usualFacts,
  worlds: number = Number.POSITIVE_INFINITY,
): PuzzleWeight | null =>
  decide(position).verdict === 'none' ? null : weightUpTo(position, upTo, new SearchBudget(worlds));
