import { maskOf } from '../grid/candidates.ts';
import { type Cell, type Digit, type DigitMask, type Layout, plain } from '../grid/layout.ts';
import { Position } from '../grid/position.ts';
import { sameHouses } from '../grid/same-houses.ts';
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

/** The share of the first search, before the second takes over. */
const plainNodes = 500;
/** And of the second on the plain layout: some 100 solves by exact cover. */
const thoroughNodes = 3000;
const generalNodes = 3000;

const firstOnly = { solutions: 1, nodes: plainNodes };
const firstTwo = { solutions: 2, nodes: plainNodes };

/**
 * The searches of a layout in the order in which they are tried, each with its share of nodes: the last one
 * has no limit. The first is nearly always done long before its share (the hardest published grids take it
 * 300 nodes); grids that lead it astray, as a rule without a solution, go on the plain layout to one that chooses
 * with more care, and then to one that learns from failures. The ten worst grids that an hour of climbing found
 * against the first and the last took the one between them 13 nodes at most.
 */
type Strategies = readonly { readonly search: () => Search; readonly nodes: number }[];

const strategies = new WeakMap<Layout, Strategies>();

/** Builds a search when it is first needed. */
function once<Kind extends Search>(build: () => Kind): () => Kind {
  let built: Kind | undefined;
  return () => {
    built ??= build();
    return built;
  };
}

const plainSearch = once(makePlainSearch);

function strategiesFor(layout: Layout): Strategies {
  let list = strategies.get(layout);
  if (!list) {
    const learning = { search: once(() => new LearningSearch(layout)), nodes: Infinity };
    list = isPlain(layout)
      ? [
          { search: plainSearch, nodes: plainNodes },
          { search: () => plainSearch().thorough, nodes: thoroughNodes },
          learning,
        ]
      : [{ search: once(() => new GeneralSearch(layout)), nodes: generalNodes }, learning];
    strategies.set(layout, list);
  }
  return list;
}

const plainTwins = new WeakMap<Layout, boolean>();

/** Whether a layout has the houses of the plain one, by whatever name and from wherever it was read. */
function isPlain(layout: Layout): boolean {
  if (layout === plain) return true;
  let twin = plainTwins.get(layout);
  if (twin === undefined) {
    twin = sameHouses(layout, plain);
    plainTwins.set(layout, twin);
  }
  return twin;
}

const decisionOf = (search: Search, { found, finished }: SearchOutcome): Decision | Undecided => {
  if (found >= 2) return { verdict: 'several', witnesses: [search.witness(0), search.witness(1)] };
  if (!finished) return { verdict: 'undecided' };
  return found === 1 ? { verdict: 'one', solution: search.witness(0) } : { verdict: 'none' };
};

/** Tries one search after the other, within a budget of nodes for all. `spent`: the nodes of all together. */
function runAll(
  layout: Layout,
  masks: ArrayLike<DigitMask>,
  solutions: number,
  budget: number,
): { readonly search: Search; readonly outcome: SearchOutcome; readonly spent: number } {
  const list = strategiesFor(layout);
  let spent = 0;
  for (let i = 0; ; i += 1) {
    const search = list[i].search();
    const outcome = search.run(masks, { solutions, nodes: Math.min(list[i].nodes, budget - spent) });
    spent += outcome.nodes;
    if (outcome.finished || spent >= budget || i === list.length - 1) return { search, outcome, spent };
  }
}

/**
 * Whether a position can be completed: in no way, in one, in several. A completion takes one live candidate
 * in each cell, so ink and strikes count as much as givens. Always answers, unless a budget is given.
 */
export function decide(position: Position): Decision;
export function decide(position: Position, budget: Budget): Decision | Undecided;
export function decide(position: Position, budget?: Budget): Decision | Undecided {
  const masks = position.candidates.toMasks();
  const { search, outcome } = runAll(position.layout, masks, 2, budget?.nodes ?? Infinity);
  return decisionOf(search, outcome);
}

/** What it takes to decide a position, by no clock: branchings and contradictions of all its searches. */
export const effort = (position: Position): number =>
  runAll(position.layout, position.candidates.toMasks(), 2, Infinity).spent;

/**
 * `decide` for a plain grid as text: 81 characters from `from` on, all but `1` to `9` open cells. Nothing is
 * built on the way but the solutions, for checking many grids at once.
 */
export function decideText(text: string, from = 0): Decision {
  const search = plainSearch();
  const outcome = search.runText(text, firstTwo, from);
  const decision = decisionOf(search, outcome);
  if (decision.verdict !== 'undecided') return decision;
  return decideDigits(plain, Array.from(text.slice(from, from + 81), digitOrOpen));
}

const digitOrOpen = (sign: string): Digit => (sign >= '1' && sign <= '9' ? Number(sign) : 0);

/** `decide` for bare digits, 0 where a cell is open. */
export function decideDigits(layout: Layout, digits: ArrayLike<Digit>): Decision {
  if (isPlain(layout)) {
    const search = plainSearch();
    const outcome = search.runDigits(digits, firstTwo);
    const decision = decisionOf(search, outcome);
    if (decision.verdict !== 'undecided') return decision;
  }
  return decide(Position.from(layout, digits));
}

/** Some completion of digits (0 where a cell is open), always the same one; null if there is none. */
export function firstCompletion(layout: Layout, digits: ArrayLike<Digit>): Uint8Array | null {
  if (isPlain(layout)) {
    const search = plainSearch();
    const { found, finished } = search.runDigits(digits, firstOnly);
    if (found > 0) return search.witness(0);
    if (finished) return null;
  }
  const masks = Position.from(layout, digits).candidates.toMasks();
  const { search, outcome } = runAll(layout, masks, 1, Infinity);
  return outcome.found > 0 ? search.witness(0) : null;
}

/** Whether digits (0 where a cell is open) have a completion in which an open cell has another digit than this. */
export function anotherFits(layout: Layout, digits: ArrayLike<Digit>, cell: Cell, digit: Digit): boolean {
  if (isPlain(layout)) {
    const { found, finished } = plainSearch().runDigits(digits, firstOnly, { cell, digit });
    if (found > 0 || finished) return found > 0;
  }
  const masks = Position.from(layout, digits).candidates.toMasks();
  masks[cell] &= ~maskOf(digit);
  return runAll(layout, masks, 1, Infinity).outcome.found > 0;
}

/** How many completions a position has, counted up to `limit`; all of them without one. */
export function countSolutions(position: Position, limit: number = Infinity): number {
  const masks = position.candidates.toMasks();
  const [{ search, nodes }] = strategiesFor(position.layout);
  const outcome = search().run(masks, { solutions: limit, nodes });
  if (outcome.finished) return outcome.found;
  // Much is left. Where there is little to find, the search that is hard to lead astray says so.
  if (outcome.found < 2) {
    const few = runAll(position.layout, masks, 2, Infinity).outcome.found;
    if (few < 2) return Math.min(few, limit);
  }
  return search().run(masks, { solutions: limit, nodes: Infinity }).found;
}
