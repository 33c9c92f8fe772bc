import type { Digit, DigitMask, Layout } from '../grid/layout.ts';
import { Position } from '../grid/position.ts';
import { GeneralSearch } from './general.ts';
import type { Search, SearchOutcome } from './search.ts';

/** How many solutions there are. Solutions and witnesses hold one digit a cell. */
export type Decision =
  | { readonly verdict: 'none' }
  | { readonly verdict: 'one'; readonly solution: Uint8Array }
  /** Two different solutions. */
  | { readonly verdict: 'several'; readonly witnesses: readonly [Uint8Array, Uint8Array] };

/** The answer where a budget ran out first. */
export interface Undecided {
  readonly verdict: 'undecided';
}

/** `nodes`: how many branchings may be spent; the same budget always ends at the same point. */
export interface Budget {
  readonly nodes: number;
}

const searches = new WeakMap<Layout, Search>();

function searchFor(layout: Layout): Search {
  let search = searches.get(layout);
  if (!search) {
    search = new GeneralSearch(layout);
    searches.set(layout, search);
  }
  return search;
}

const decisionOf = (search: Search, outcome: SearchOutcome): Decision | Undecided => {
  if (outcome.found >= 2) return { verdict: 'several', witnesses: [search.witness(0), search.witness(1)] };
  if (!outcome.finished) return { verdict: 'undecided' };
  return outcome.found === 1 ? { verdict: 'one', solution: search.witness(0) } : { verdict: 'none' };
};

/**
 * Whether a position can be completed: in no way, in one, in several. A completion takes one live candidate
 * in each cell, so ink and strikes count as much as givens. Always answers, unless a budget is given.
 */
export function decide(position: Position): Decision;
export function decide(position: Position, budget: Budget): Decision | Undecided;
export function decide(position: Position, budget?: Budget): Decision | Undecided {
  const search = searchFor(position.layout);
  const masks = position.candidates.toMasks();
  return decisionOf(search, search.run(masks, { solutions: 2, nodes: budget?.nodes ?? Infinity }));
}

/** `decide` for bare digits, 0 where a cell is open. */
export function decideDigits(layout: Layout, digits: ArrayLike<Digit>): Decision {
  return decide(Position.from(layout, digits));
}

/** How many completions a position has, counted up to `limit`; all of them without one. */
export function countSolutions(position: Position, limit: number = Infinity): number {
  const masks: ArrayLike<DigitMask> = position.candidates.toMasks();
  return searchFor(position.layout).run(masks, { solutions: limit, nodes: Infinity }).found;
}
