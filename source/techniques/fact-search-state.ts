import type { Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import { type Board, ShrunkFacts } from './board.ts';
import { type SearchTables, searchTablesOf } from './fact-search-tables.ts';

/** Called for each placement and each strike that one fact supports, in the order in which they are made. */
export type OneFactStep = (kind: 'placement' | 'strike', candidate: Candidate, fact: Fact) => void;

/**
 * The position that the search stands in, flat: live candidates and the live places of each fact. It is
 * loaded from a board and changes on its own; the board is left as it is.
 */
export class SearchState {
  readonly tables: SearchTables;
  /** For each fact its live places as bits. Worlds under assumption write here and put it back. */
  readonly masks: Int32Array;
  readonly live: Uint8Array;
  /** 1 where the candidate stands on the grid. */
  readonly placed: Uint8Array;
  placedCount = 0;
  /** A fact that has no place left, or -1. */
  empty: Fact = -1;
  /** Per candidate the facts it touches that still count; as in the tables, but ending at `touchEnd[c]`. */
  readonly touchFact: Uint16Array;
  readonly touchMask: Int32Array;
  readonly touchEnd: Int32Array;
  /** 1 where a search of two facts has to look at the candidate again. */
  readonly stale: Uint8Array;

  /** Facts that are due to be looked at. */
  readonly #due: ShrunkFacts;
  /** Whether anybody has looked at candidates since all were marked stale. */
  #watching = false;

  constructor(tables: SearchTables) {
    this.tables = tables;
    this.masks = new Int32Array(tables.factCount);
    this.live = new Uint8Array(tables.candidateCount);
    this.placed = new Uint8Array(tables.candidateCount);
    this.touchFact = tables.touchFact.slice();
    this.touchMask = tables.touchMask.slice();
    this.touchEnd = tables.touchStart.slice(1);
    this.stale = new Uint8Array(tables.candidateCount);
    this.#due = new ShrunkFacts(tables.factCount);
  }

  /** Takes over the position of a board of the same layout. Every fact is due to be looked at. */
  load(board: Board): void {
    const { factCount, size, cellCount } = this.tables;
    this.live.set(board.live);
    this.masks.set(board.masks);
    this.placed.fill(0);
    this.stale.fill(1);
    this.placedCount = 0;
    this.empty = -1;
    for (let cell = 0; cell < cellCount; cell += 1) {
      const digit = board.placed[cell];
      if (digit === 0) continue;
      this.placed[cell * size + digit - 1] = 1;
      this.placedCount += 1;
    }
    this.#watching = false;
    for (let fact = 0; fact < factCount; fact += 1) {
      this.#due.add(fact);
      if (this.masks[fact] === 0) this.empty = fact;
    }
  }

  /** Whether every cell holds a digit and none is in conflict with another. */
  get isSolved(): boolean {
    return this.empty === -1 && this.placedCount === this.tables.cellCount;
  }

  /** Strikes a live candidate. */
  strike(candidate: Candidate): void {
    const { ownStart, ownFact, ownBit } = this.tables;
    this.live[candidate] = 0;
    for (let i = ownStart[candidate]; i < ownStart[candidate + 1]; i += 1) {
      const fact = ownFact[i];
      this.masks[fact] &= ~ownBit[i];
      if (this.masks[fact] === 0) this.empty = fact;
      this.#due.add(fact);
      if (this.#watching) this.#markStale(fact);
    }
  }

  /** A fact has shrunk: what conflicts with a place that it still has may be refuted by two facts now. */
  #markStale(fact: Fact): void {
    const { candidateAt, size, excludes } = this.tables;
    for (let rest = this.masks[fact]; rest !== 0; rest &= rest - 1) {
      const others = excludes[candidateAt[fact * size + 31 - Math.clz32(rest & -rest)]];
      for (let i = 0; i < others.length; i += 1) this.stale[others[i]] = 1;
    }
  }

  /**
   * Makes every placement and strike that single facts support, and those that they lead to. Stops at once
   * when a fact has no place left.
   */
  closeUnderOne(tell: OneFactStep | null): void {
    const { tables, masks, live, placed } = this;
    const { candidateAt, size, cellCount, houseOf, digitOfFact, alignments, excludes } = tables;
    while (this.empty === -1) {
      const fact = this.#due.take();
      if (fact < 0) return;
      const mask = masks[fact];
      if ((mask & (mask - 1)) === 0) {
        const candidate = candidateAt[fact * size + 31 - Math.clz32(mask)];
        if (placed[candidate] !== 0) continue;
        placed[candidate] = 1;
        this.placedCount += 1;
        tell?.('placement', candidate, fact);
        const others = excludes[candidate];
        for (let i = 0; i < others.length; i += 1) if (live[others[i]] !== 0) this.strike(others[i]);
      } else if (fact >= cellCount) {
        const number = alignments.of(houseOf[fact], mask);
        if (number === 0) continue;
        const cells = alignments.cells[number];
        for (let i = 0; i < cells.length; i += 1) {
          const candidate = cells[i] * size + digitOfFact[fact] - 1;
          if (live[candidate] === 0) continue;
          this.strike(candidate);
          tell?.('strike', candidate, fact);
        }
      }
    }
  }

  /** Makes the touch lists of live candidates, without what no longer counts. Due after `load`. */
  trimTouchLists(): void {
    this.#watching = true;
    const { live, tables } = this;
    for (let candidate = 0; candidate < tables.candidateCount; candidate += 1) {
      if (live[candidate] !== 0) this.trimTouchList(candidate);
    }
  }

  /** The same for one candidate, by the masks as they are now, which must not be those of a world. */
  trimTouchList(candidate: Candidate): void {
    const { masks, touchFact, touchMask } = this;
    const { touchStart, touchFact: allFacts, touchMask: allMasks } = this.tables;
    const all = touchStart[candidate + 1];
    let end = touchStart[candidate];
    for (let i = end; i < all; i += 1) {
      const fact = allFacts[i];
      const mask = allMasks[i] & masks[fact];
      touchFact[end] = fact;
      touchMask[end] = mask;
      // One further unless the mask is empty: without a branch, which would go either way at random.
      end += -mask >>> 31;
    }
    this.touchEnd[candidate] = end;
  }
}

const cache = new WeakMap<SearchTables, SearchState>();

/** The one working state of a layout, loaded with the board's position. Good until the next call. */
export function stateOf(board: Board): SearchState {
  const tables = searchTablesOf(board.layout);
  let state = cache.get(tables);
  if (!state) {
    state = new SearchState(tables);
    cache.set(tables, state);
  }
  state.load(board);
  return state;
}
