import type { Board } from './board.ts';
import type { FactStrike } from './fact-search.ts';
import { SearchBudget } from './fact-search-budget.ts';
import { Refuter } from './fact-search-refuter.ts';
import { SearchState } from './fact-search-state.ts';
import { type SearchTables, searchTablesOf } from './fact-search-tables.ts';

/** Working memory is large and is used again, by one pursuit of a layout at a time. */
const memory = new WeakMap<
  SearchTables,
  { readonly state: SearchState; readonly refuter: Refuter; readonly trimmed: Uint8Array }
>();

/**
 * The search of two facts along a path: it looks again only at candidates that what has gone from the board
 * since may concern. Starting another pursuit on the same layout ends this one.
 */
export class FactPursuit {
  readonly #board: Board;
  readonly #state: SearchState;
  readonly #refuter: Refuter;
  /** 1 where the candidate's touch list is that of this path. Most are never asked for. */
  readonly #trimmed: Uint8Array;
  #cursor = 0;

  /** The board must stand in a position in which single facts do nothing any more. */
  constructor(board: Board) {
    const tables = searchTablesOf(board.layout);
    let used = memory.get(tables);
    if (!used) {
      const state = new SearchState(tables);
      const trimmed = new Uint8Array(tables.candidateCount);
      used = { state, refuter: new Refuter(state, new SearchBudget()), trimmed };
      memory.set(tables, used);
    }
    this.#board = board;
    this.#state = used.state;
    this.#refuter = used.refuter;
    this.#trimmed = used.trimmed;
    this.#trimmed.fill(0);
    this.#state.load(board);
    this.#refuter.begin(new SearchBudget(), true);
  }

  /**
   * A strike that two facts support, with the facts ascending; null where there is none. Single facts must do
   * nothing any more in the position that the board stands in.
   */
  next(): FactStrike | null {
    this.#catchUp();
    const { live, placed, stale, tables } = this.#state;
    for (let i = 0; i < tables.candidateCount; i += 1) {
      let candidate = this.#cursor + i;
      if (candidate >= tables.candidateCount) candidate -= tables.candidateCount;
      if (stale[candidate] === 0) continue;
      stale[candidate] = 0;
      if (live[candidate] === 0 || placed[candidate] !== 0) continue;
      if (this.#trimmed[candidate] === 0) {
        this.#trimmed[candidate] = 1;
        this.#state.trimTouchList(candidate);
      }
      const facts = this.#refuter.refute(candidate, 2);
      if (facts === null) continue;
      this.#cursor = candidate;
      // Should it not be struck, it is found again.
      stale[candidate] = 1;
      return { candidate, facts };
    }
    return null;
  }

  /** Takes over what has changed on the board. What conflicts with a place of a shrunk fact is due again. */
  #catchUp(): void {
    const { live, placed, masks, stale, tables } = this.#state;
    const { size, cellCount, candidateAt, excludes, factCount } = tables;
    live.set(this.#board.live);
    for (let cell = 0; cell < cellCount; cell += 1) {
      const digit = this.#board.placed[cell];
      if (digit !== 0) placed[cell * size + digit - 1] = 1;
    }
    for (let fact = 0; fact < factCount; fact += 1) {
      const mask = this.#board.masks[fact];
      if (masks[fact] === mask) continue;
      masks[fact] = mask;
      for (let rest = mask; rest !== 0; rest &= rest - 1) {
        const others = excludes[candidateAt[fact * size + 31 - Math.clz32(rest & -rest)]];
        for (let i = 0; i < others.length; i += 1) stale[others[i]] = 1;
      }
    }
  }
}
