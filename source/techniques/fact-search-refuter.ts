import type { Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import type { SearchBudget } from './fact-search-budget.ts';
import { Cover } from './fact-search-cover.ts';
import { ParallelWorlds } from './fact-search-parallel.ts';
import type { SearchState } from './fact-search-state.ts';
import { SPENT } from './fact-search-tables.ts';
import { World } from './fact-search-world.ts';

/**
 * Refutes candidates by as few facts as there can be. Up to two facts close a world by a complete list of
 * cases; for more, take a set that closes it and of which none can be dropped. Either one of its facts has a
 * single place here: each single in turn is assumed as well, with one fact less to go, and left out for
 * those after it once it has failed. Or all have several places: then one of them is touched by the last
 * assumption, and each place of each of them opens a world that the others close. A place whose world stays
 * open therefore rules out every fact that it is a place of; only if a fact has none such is it worth
 * looking for facts that close all its worlds together.
 */
export class Refuter {
  readonly #state: SearchState;
  readonly #world: World;
  readonly #parallel: ParallelWorlds;
  /** One for each k, since the searches nest. */
  readonly #covers: Cover[] = [];
  #budget: SearchBudget;
  /** The facts of the last refutation, in the order in which the cases closed. */
  #found: Fact[] = [];

  constructor(state: SearchState, budget: SearchBudget) {
    this.#state = state;
    this.#world = new World(state);
    this.#parallel = new ParallelWorlds(state);
    this.#budget = budget;
  }

  /** Starts on the position that the state stands in; `closed`: under one fact. */
  begin(budget: SearchBudget, closed: boolean): void {
    this.#budget = budget;
    this.#world.begin(closed);
  }

  /**
   * The k facts that refute a live candidate, ascending; null if none do, or if the budget is spent. Fewer
   * than k must not refute it, and no set of k facts may be without an arrangement.
   */
  refute(candidate: Candidate, k: number): Fact[] | null {
    if (!this.#budget.spend() || !this.#closesUnder(candidate, k, 0, 0)) return null;
    return [...this.#found].sort((a, b) => a - b);
  }

  /**
   * At most k facts, ascending, that have no arrangement with the fact, and the fact: the position is broken.
   * No set of k facts may be without an arrangement.
   */
  breakWith(fact: Fact, k: number): Fact[] | null {
    const found = this.#parallel.closeAfter(fact, k, this.#budget);
    return found?.sort((a, b) => a - b) ?? null;
  }

  /**
   * Whether at most k facts close the world in which the candidate is assumed as well. Of the singles so far
   * those from `from` on are in play, and those from `untried` on may still lead somewhere.
   */
  #closesUnder(candidate: Candidate, k: number, from: number, untried: number): boolean {
    const world = this.#world;
    if (k <= 2) {
      const closed = k === 1 ? world.closesByOne(candidate) : world.closesByTwo(candidate, from);
      return closed && this.#takeCase();
    }
    const mark = world.mark();
    const closed = world.enter(candidate, from)
      ? this.#takeCase()
      : this.#close(k, from, untried, mark.trail);
    world.leave(mark);
    return closed;
  }

  #takeCase(): boolean {
    const { closedBy, andBy } = this.#world;
    this.#found = andBy < 0 ? [closedBy] : [closedBy, andBy];
    return true;
  }

  /** The same for the world just entered, which no two facts close; its trail starts at `start`. */
  #close(k: number, from: number, untried: number, start: number): boolean {
    const world = this.#world;
    const end = world.singleCount;
    for (let i = untried; i < end; i += 1) {
      if (!this.#budget.spend()) return false;
      if (!this.#closesUnder(world.singlePlace[i], k - 1, from, i + 1)) continue;
      this.#found.push(world.singleFact[i]);
      return true;
    }
    return this.#closeBySeveral(k, from, start);
  }

  /** The same by facts that all have several places. */
  #closeBySeveral(k: number, from: number, start: number): boolean {
    const { demands } = this.#state.tables;
    const world = this.#world;
    const { masks, trailFact } = world;
    const mark = world.mark();
    world.spendSingles(from);
    this.#covers[k] ??= new Cover(this.#state.tables);
    const cover = this.#covers[k];
    cover.begin();
    for (let i = start; i < mark.trail; i += 1) {
      const fact = trailFact[i];
      if (masks[fact] >= SPENT) continue;
      if (demands.of(fact, masks[fact]) < k) cover.add(fact, masks[fact]);
      else world.spend(fact);
    }
    for (let place = cover.next(masks); place >= 0; place = cover.next(masks)) {
      const closes =
        this.#budget.spend() &&
        (k === 3
          ? world.closesByTwo(place, mark.singles)
          : this.#closesUnder(place, k - 1, mark.singles, mark.singles));
      if (!closes) world.spendFactsOf(place);
    }
    let found: Fact[] | null = null;
    for (let i = start; i < mark.trail && found === null; i += 1) {
      if (masks[trailFact[i]] >= SPENT) continue;
      found = this.#parallel.closeAfter(trailFact[i], k - 1, this.#budget);
      world.spend(trailFact[i]);
    }
    world.leave(mark);
    if (found === null) return false;
    this.#found = found;
    return true;
  }
}
