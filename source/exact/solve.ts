import { type Digit, type Layout, plain } from '../grid/layout.ts';
import { Position } from '../grid/position.ts';
import { GeneralSearch } from './general.ts';
import { LearningSearch } from './learn.ts';
import { makePlainSearch } from './plain.ts';
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

const plainSearch = makePlainSearch();

/** The share of the first search, before the second takes over. */
const plainNodes = 1000;
const generalNodes = 3000;

/**
 * The searches of a layout in the order in which they are tried, each with its share of nodes: the last one
 * has no limit. The first is nearly always done long before its share (the hardest published grids take it
 * 300 nodes); grids that lead it astray, as a rule without a solution, go to one that learns from failures.
 */
type Strategies = readonly { readonly search: () => Search; readonly nodes: number }[];

const strategies = new WeakMap<Layout, Strategies>();

/** Builds a search when it is first needed. */
function once(build: () => Search): () => Search {
  let built: Search | undefined;
  return () => {
    built ??= build();
    return built;
  };
}

function strategiesFor(layout: Layout): Strategies {
  let list = strategies.get(layout);
  if (!list) {
    const learning = { search: once(() => new LearningSearch(layout)), nodes: Infinity };
    list = isPlain(layout)
      ? [{ search: () => plainSearch, nodes: plainNodes }, learning]
      : [{ search: once(() => new GeneralSearch(layout)), nodes: generalNodes }, learning];
    strategies.set(layout, list);
  }
  return list;
}

/** Whether a layout has the houses of the plain one, by whatever name and from wherever it was read. */
function isPlain(layout: Layout): boolean {
  return (
    layout.size === plain.size &&
    layout.houses.length === plain.houses.length &&
    layout.houses.every((house, i) => house.cells.every((cell, j) => cell === plain.houses[i].cells[j]))
  );
}

const decisionOf = (search: Search, { found, finished }: SearchOutcome): Decision | Undecided => {
  if (found >= 2) return { verdict: 'several', witnesses: [search.witness(0), search.witness(1)] };
  if (!finished) return { verdict: 'undecided' };
  return found === 1 ? { verdict: 'one', solution: search.witness(0) } : { verdict: 'none' };
};

/**
 * Whether a position can be completed: in no way, in one, in several. A completion takes one live candidate
 * in each cell, so ink and strikes count as much as givens. Always answers, unless a budget is given.
 */
export function decide(position: Position): Decision;
export function decide(position: Position, budget: Budget): Decision | Undecided;
export function decide(position: Position, budget?: Budget): Decision | Undecided {
  const masks = position.candidates.toMasks();
  let left = budget?.nodes ?? Infinity;
  let decision: Decision | Undecided = { verdict: 'undecided' };
  for (const { search, nodes } of strategiesFor(position.layout)) {
    const outcome = search().run(masks, { solutions: 2, nodes: Math.min(nodes, left) });
    decision = decisionOf(search(), outcome);
    left -= outcome.nodes;
    if (decision.verdict !== 'undecided' || left <= 0) break;
  }
  return decision;
}

/**
 * `decide` for a plain grid as text: 81 characters from `from` on, all but `1` to `9` open cells. Nothing is
 * built on the way but the solutions, for checking many grids at once.
 */
export function decideText(text: string, from = 0): Decision {
  const outcome = plainSearch.runText(text, { solutions: 2, nodes: plainNodes }, from);
  const decision = decisionOf(plainSearch, outcome);
  if (decision.verdict !== 'undecided') return decision;
  return decide(Position.from(plain, Array.from(text.slice(from, from + 81), digitOrOpen)));
}

const digitOrOpen = (sign: string): Digit => (sign >= '1' && sign <= '9' ? Number(sign) : 0);

/** `decide` for bare digits, 0 where a cell is open. */
export function decideDigits(layout: Layout, digits: ArrayLike<Digit>): Decision {
  return decide(Position.from(layout, digits));
}

/** How many completions a position has, counted up to `limit`; all of them without one. */
export function countSolutions(position: Position, limit: number = Infinity): number {
  const masks = position.candidates.toMasks();
  const [{ search, nodes }] = strategiesFor(position.layout);
  const outcome = search().run(masks, { solutions: limit, nodes });
  if (outcome.finished) return outcome.found;
  // Much is left. Where there is little to find, the searches that are hard to lead astray say so.
  const decision = outcome.found >= 2 ? null : decide(position);
  if (decision?.verdict === 'none') return 0;
  if (decision?.verdict === 'one') return Math.min(1, limit);
  return search().run(masks, { solutions: limit, nodes: Infinity }).found;
}
