import type { Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import type { Position } from '../grid/position.ts';
import { Board } from './board.ts';
import { SearchBudget } from './fact-search-budget.ts';
import { Refuter } from './fact-search-refuter.ts';
import { type SearchState, stateOf } from './fact-search-state.ts';

export { SearchBudget } from './fact-search-budget.ts';

/** A strike and a smallest set of facts that supports it, ascending. */
export interface FactStrike {
  readonly candidate: Candidate;
  readonly facts: readonly Fact[];
}

/** What a search of a position as it stands comes to. */
export type FactSearch =
  /** Some facts have no arrangement: the position is broken, and nothing else may be said of it. */
  | { readonly kind: 'broken'; readonly facts: readonly Fact[] }
  /** `complete`: whether the budget lasted; if not, strikes may be missing. */
  | { readonly kind: 'strikes'; readonly strikes: readonly FactStrike[]; readonly complete: boolean };

/** One step of a closure; a placement clears its cell and its peers for free. */
export interface FactStep extends FactStrike {
  readonly kind: 'placement' | 'strike';
}

/** Where a closure ends. */
export interface FactClosure {
  /** `stuck`: nothing more follows; `spent`: the budget did not last; `broken`: a fact has no place left. */
  readonly end: 'solved' | 'stuck' | 'spent' | 'broken';
  /** In the order in which they were made, each in the position that those before it leave. */
  readonly steps: readonly FactStep[];
  /** The most facts that one of the steps needed; 0 where there are none. */
  readonly heaviest: number;
  /** The most facts that were tried: those with fewer, all together, do not solve the position. */
  readonly reached: number;
}

const refuters = new WeakMap<SearchState, Refuter>();

function refuterOf(state: SearchState, budget: SearchBudget, closed: boolean): Refuter {
  let refuter = refuters.get(state);
  if (!refuter) {
    refuter = new Refuter(state, budget);
    refuters.set(state, refuter);
  }
  refuter.begin(budget, closed);
  return refuter;
}

/** Goes through the position as it stands, fewest facts first, to the end of what `until` says. */
function searchUpTo(
  board: Board,
  k: number,
  budget: SearchBudget,
  until: 'all' | 'lightest' | 'first',
): FactSearch {
  const state = stateOf(board);
  const { tables, live, placed, masks } = state;
  const { factCount, candidateCount, candidateAt, size } = tables;
  state.trimTouchLists();
  const refuter = refuterOf(state, budget, false);
  const struck = new Uint8Array(candidateCount);
  const strikes: FactStrike[] = [];
  if (state.empty >= 0) return { kind: 'broken', facts: [masks.indexOf(0)] };
  for (let count = 1; count <= k; count += 1) {
    // Broken by `count` facts only if the others refute every place of one of them.
    for (let fact = 0; fact < factCount && strikes.length > 0; fact += 1) {
      let refuted = true;
      for (let rest = masks[fact]; rest !== 0 && refuted; rest &= rest - 1) {
        refuted = struck[candidateAt[fact * size + 31 - Math.clz32(rest & -rest)]] !== 0;
      }
      const facts = refuted ? refuter.breakWith(fact, count - 1) : null;
      if (facts) return { kind: 'broken', facts };
    }
    for (let candidate = 0; candidate < candidateCount; candidate += 1) {
      if (live[candidate] === 0 || placed[candidate] !== 0 || struck[candidate] !== 0) continue;
      const facts = refuter.refute(candidate, count);
      if (!facts) continue;
      struck[candidate] = 1;
      strikes.push({ candidate, facts });
      if (until === 'first') break;
    }
    if (budget.isSpent || (until !== 'all' && strikes.length > 0)) break;
  }
  return { kind: 'strikes', strikes, complete: !budget.isSpent };
}

/**
 * Every strike that at most k facts support in the board's position as it stands, each with a smallest set
 * of facts: first those of one fact, then those of two, and so on; candidates ascending. Nothing is made, so
 * nothing follows from anything else. `broken` where at most k facts have no arrangement. The board is not
 * changed.
 */
export function strikesUpTo(board: Board, k: number, budget = new SearchBudget()): FactSearch {
  return searchUpTo(board, k, budget, 'all');
}

/** The strikes that k facts support and no fewer; otherwise as `strikesUpTo`. */
export function strikesByFacts(board: Board, k: number, budget = new SearchBudget()): FactSearch {
  const search = strikesUpTo(board, k, budget);
  if (search.kind === 'broken') return search;
  return { ...search, strikes: search.strikes.filter(({ facts }) => facts.length === k) };
}

/**
 * All strikes of the least weight that there is, up to k facts: the proof that nothing lighter exists goes
 * with them. Otherwise as `strikesUpTo`.
 */
export function lightestStrikes(board: Board, k: number, budget = new SearchBudget()): FactSearch {
  return searchUpTo(board, k, budget, 'lightest');
}

/**
 * The first strike of the least weight that there is, up to k facts, as the only one of `strikes`; none where
 * there is none. It ends as soon as it has that one, and is proved the lightest all the same.
 */
export function lightestStrike(board: Board, k: number, budget = new SearchBudget()): FactSearch {
  return searchUpTo(board, k, budget, 'first');
}

/** Closes the state under at most k facts, fewest first. */
function closeState(
  state: SearchState,
  k: number,
  budget: SearchBudget,
  tell: ((kind: FactStep['kind'], candidate: Candidate, facts: readonly Fact[]) => void) | null,
): Omit<FactClosure, 'steps'> {
  const { live, placed, stale, tables } = state;
  const { candidateCount } = tables;
  const tellOne = tell && ((kind: FactStep['kind'], c: Candidate, fact: Fact) => tell(kind, c, [fact]));
  let heaviest = 0;
  const followUp = () => {
    const before = state.placedCount;
    state.closeUnderOne(tellOne);
    if (heaviest === 0 && state.placedCount > before) heaviest = 1;
  };
  followUp();
  state.trimTouchLists();
  const refuter = refuterOf(state, budget, true);
  const cursors = new Uint16Array(k + 1);
  /** Makes the next strike of exactly this many facts; false if there is none. */
  const strikeBy = (count: number): boolean => {
    for (let i = 0; i < candidateCount; i += 1) {
      let candidate = cursors[count] + i;
      if (candidate >= candidateCount) candidate -= candidateCount;
      if (live[candidate] === 0 || placed[candidate] !== 0) continue;
      if (count === 2) {
        if (stale[candidate] === 0) continue;
        stale[candidate] = 0;
      }
      const facts = refuter.refute(candidate, count);
      if (!facts) {
        if (budget.isSpent) return false;
        continue;
      }
      tell?.('strike', candidate, facts);
      state.strike(candidate);
      cursors[count] = candidate;
      heaviest = Math.max(heaviest, count);
      return true;
    }
    return false;
  };
  let reached = Math.min(k, 1);
  for (;;) {
    if (state.empty >= 0) return { end: 'broken', heaviest, reached };
    if (state.isSolved) return { end: 'solved', heaviest, reached };
    let count = 2;
    for (; count <= k; count += 1) {
      reached = Math.max(reached, count);
      if (strikeBy(count)) break;
      if (budget.isSpent) return { end: 'spent', heaviest, reached };
    }
    if (count > k) return { end: 'stuck', heaviest, reached };
    followUp();
  }
}

/**
 * Makes every placement and strike that arguments of at most k facts support, and those that they lead to,
 * the lightest first. What is reached does not depend on the order. The board is left where the closure ends.
 */
export function closeUnder(board: Board, k: number, budget = new SearchBudget()): FactClosure {
  const steps: FactStep[] = [];
  const closure = closeState(stateOf(board), k, budget, (kind, candidate, facts) => {
    steps.push({ kind, candidate, facts });
  });
  for (const { kind, candidate } of steps) {
    if (kind === 'placement') board.place(candidate);
    else board.strike(candidate);
  }
  return { ...closure, steps };
}

/** A puzzle's weight, as bounds: `atMost` is null where no number of facts up to the limit is known to do. */
export interface PuzzleWeight {
  readonly atLeast: number;
  readonly atMost: number | null;
}

/**
 * The smallest number of facts, up to k, such that arguments of at most so many facts solve the puzzle; 0
 * for a solved one. Lighter steps come first, so the heaviest one of a closure that solves is exactly it.
 * Null for a position that turns out to be broken on the way.
 */
export function weightUpTo(position: Position, k: number, budget = new SearchBudget()): PuzzleWeight | null {
  const { end, heaviest, reached } = closeState(stateOf(Board.from(position)), k, budget, null);
  switch (end) {
    case 'broken':
      return null;
    case 'solved':
      return { atLeast: heaviest, atMost: heaviest };
    case 'stuck':
      return { atLeast: k + 1, atMost: null };
    case 'spent':
      return { atLeast: reached, atMost: null };
  }
}
