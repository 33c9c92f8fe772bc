import type { Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import type { SearchBudget } from './fact-search-budget.ts';
import type { SearchState } from './fact-search-state.ts';
import { SPENT } from './fact-search-tables.ts';

/**
 * Closes several worlds by the same facts: those that the places of one fact open. Each world is a copy of
 * the facts' masks. Exact and without refinement: it is reached only when each world closes by itself.
 */
export class ParallelWorlds {
  readonly #state: SearchState;
  /** 1 for a fact that has been tried in vain. */
  readonly #leftOut: Uint8Array;
  readonly #pool: Int32Array[] = [];
  #pooled = 0;

  constructor(state: SearchState) {
    this.#state = state;
    this.#leftOut = new Uint8Array(state.tables.factCount);
  }

  /**
   * At most k facts that together close every world that a place of the fact opens from the state's masks as
   * they are now, followed by the fact itself; null if there are none. Spent facts are not used.
   */
  closeAfter(fact: Fact, k: number, budget: SearchBudget): Fact[] | null {
    const { candidateAt, size } = this.#state.tables;
    const { masks } = this.#state;
    const found: Fact[] = [];
    const worlds: Int32Array[] = [];
    this.#pooled = 0;
    for (let left = masks[fact]; left !== 0; left &= left - 1) {
      worlds.push(this.#copyUnder(masks, candidateAt[fact * size + 31 - Math.clz32(left & -left)]));
    }
    return this.#close(worlds, k, budget, found) ? [...found, fact] : null;
  }

  /** A copy of a world with one more candidate assumed. */
  #copyUnder(world: Int32Array, candidate: Candidate): Int32Array {
    const { touchFact, touchMask, touchEnd, tables } = this.#state;
    if (this.#pooled === this.#pool.length) this.#pool.push(new Int32Array(tables.factCount));
    const copy = this.#pool[this.#pooled];
    this.#pooled += 1;
    copy.set(world);
    for (let i = tables.touchStart[candidate]; i < touchEnd[candidate]; i += 1) {
      copy[touchFact[i]] &= ~touchMask[i];
    }
    for (let i = tables.ownStart[candidate]; i < tables.ownStart[candidate + 1]; i += 1) {
      copy[tables.ownFact[i]] |= SPENT;
    }
    return copy;
  }

  /** Whether the candidate, assumed in a world, leaves a fact without a place there. */
  #empties(world: Int32Array, candidate: Candidate): boolean {
    const { touchFact, touchMask, touchEnd, tables } = this.#state;
    for (let i = tables.touchStart[candidate]; i < touchEnd[candidate]; i += 1) {
      if ((world[touchFact[i]] & ~touchMask[i]) === 0) return true;
    }
    return false;
  }

  /**
   * Whether at most k facts close all of the worlds. A set that does, and of which none can be dropped, has a
   * fact that shrank in the first of them since the worlds parted.
   */
  #close(worlds: readonly Int32Array[], k: number, budget: SearchBudget, found: Fact[]): boolean {
    const { masks, tables } = this.#state;
    if (worlds.length === 0) return true;
    if (k === 0) return false;
    const first = worlds[0];
    if (k === 1) {
      const fact = first.findIndex(
        (mask, index) => mask === 0 && worlds.every((world) => world[index] === 0),
      );
      if (fact >= 0) found.push(fact);
      return fact >= 0;
    }
    const tried: Fact[] = [];
    let closed = false;
    for (let fact = 0; fact < tables.factCount && !closed; fact += 1) {
      if (first[fact] >= SPENT || first[fact] === masks[fact] || this.#leftOut[fact] !== 0) continue;
      if (!budget.spend()) break;
      const pooled = this.#pooled;
      const opened = this.#open(worlds, fact, k);
      closed = opened !== null && this.#close(opened, k - 1, budget, found);
      if (closed) found.push(fact);
      this.#pooled = pooled;
      tried.push(fact);
      this.#leftOut[fact] = 1;
    }
    for (const fact of tried) this.#leftOut[fact] = 0;
    return closed;
  }

  /** The worlds that a fact's places open in each of these; null if k facts in all can't close one of them. */
  #open(worlds: readonly Int32Array[], fact: Fact, k: number): Int32Array[] | null {
    const { candidateAt, size } = this.#state.tables;
    const opened: Int32Array[] = [];
    for (const world of worlds) {
      if (world[fact] >= SPENT) {
        opened.push(world);
        continue;
      }
      const mustEmpty = k === 2 && !world.includes(0);
      for (let left = world[fact]; left !== 0; left &= left - 1) {
        const place = candidateAt[fact * size + 31 - Math.clz32(left & -left)];
        if (mustEmpty && !this.#empties(world, place)) return null;
        opened.push(this.#copyUnder(world, place));
      }
    }
    return opened;
  }
}
