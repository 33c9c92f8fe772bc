import type { Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import type { Board } from './board.ts';
import type { FactStrike } from './fact-search.ts';
import { SearchBudget } from './fact-search-budget.ts';
import { Refuter } from './fact-search-refuter.ts';
import { SearchState } from './fact-search-state.ts';
import { type SearchTables, searchTablesOf } from './fact-search-tables.ts';

/** Working memory is large and is used again, by one pursuit of a layout at a time. */
interface Memory {
  readonly state: SearchState;
  readonly refuter: Refuter;
  /** 1 where the candidate's touch list is that of this path. Most are never asked for. */
  readonly trimmed: Uint8Array;
  /** Candidates that are due to be looked at, as bits: in a search only live ones of open cells. */
  readonly due: Int32Array;
  /** Places of the facts that have shrunk, as bits; none between two searches. */
  readonly places: Int32Array;
  /** The live candidates of open cells, as bits. */
  readonly open: Int32Array;
}

const memory = new WeakMap<SearchTables, Memory>();

function memoryFor(tables: SearchTables): Memory {
  let used = memory.get(tables);
  if (!used) {
    const state = new SearchState(tables);
    used = {
      state,
      refuter: new Refuter(state, new SearchBudget()),
      trimmed: new Uint8Array(tables.candidateCount),
      due: new Int32Array(tables.conflictWords),
      places: new Int32Array(tables.conflictWords),
      // A cell's digits are written across two words.
      open: new Int32Array(tables.conflictWords + 1),
    };
    memory.set(tables, used);
  }
  return used;
}

/**
 * The search of two facts along a path: it looks again only at candidates that what has gone from the board
 * since may concern. Starting another pursuit on the same layout ends this one.
 */
export class FactPursuit {
  readonly #board: Board;
  readonly #memory: Memory;
  /** Where to go on in the words of `due`. */
  #word = 0;

  /** The board must stand in a position in which single facts do nothing any more. */
  constructor(board: Board) {
    this.#board = board;
    this.#memory = memoryFor(searchTablesOf(board.layout));
    const { state, refuter, trimmed, due } = this.#memory;
    trimmed.fill(0);
    due.fill(-1);
    state.masks.set(board.masks);
    refuter.begin(new SearchBudget(), true);
  }

  /**
   * A strike that two facts support, with the facts ascending; null where there is none. Single facts must do
   * nothing any more in the position that the board stands in.
   */
  next(): FactStrike | null {
    this.#catchUp();
    const { due } = this.#memory;
    for (let i = 0; i < due.length; i += 1) {
      const word = this.#word;
      while (due[word] !== 0) {
        const candidate = (word << 5) + 31 - Math.clz32(due[word] & -due[word]);
        const facts = this.#refute(candidate);
        // Should it not be struck, it is found again.
        if (facts !== null) return { candidate, facts };
        due[word] &= due[word] - 1;
      }
      this.#word = word + 1 === due.length ? 0 : word + 1;
    }
    return null;
  }

  /** The two facts that refute a candidate; null where it is not live, or stands on the grid, or none do. */
  #refute(candidate: Candidate): readonly Fact[] | null {
    const { live, placed, layout } = this.#board;
    if (candidate >= live.length || live[candidate] === 0 || placed[layout.cellAt[candidate]] !== 0)
      return null;
    const { state, refuter, trimmed } = this.#memory;
    if (trimmed[candidate] === 0) {
      trimmed[candidate] = 1;
      state.trimTouchList(candidate);
    }
    return refuter.refute(candidate, 2);
  }

  /**
   * Takes over what has changed on the board. A shrunk fact may be one of two that refute what conflicts with a
   * place that it still has, unless it takes more than two candidates to rule all its places out.
   */
  #catchUp(): void {
    const { state, due, places, open } = this.#memory;
    const { size, cellCount, candidateAt, factCount, conflict, conflictWords, demands } = state.tables;
    const { masks } = state;
    for (let fact = 0; fact < factCount; fact += 1) {
      const mask = this.#board.masks[fact];
      if (masks[fact] === mask) continue;
      masks[fact] = mask;
      if (demands.of(fact, mask) > 2) continue;
      for (let rest = mask; rest !== 0; rest &= rest - 1) {
        const place = candidateAt[fact * size + 31 - Math.clz32(rest & -rest)];
        places[place >> 5] |= 1 << (place & 31);
      }
    }
    for (let word = 0; word < conflictWords; word += 1) {
      for (; places[word] !== 0; places[word] &= places[word] - 1) {
        const row = ((word << 5) + 31 - Math.clz32(places[word] & -places[word])) * conflictWords;
        for (let other = 0; other < conflictWords; other += 1) due[other] |= conflict[row + other];
      }
    }
    open.fill(0);
    for (let cell = 0; cell < cellCount; cell += 1) {
      if (this.#board.placed[cell] !== 0) continue;
      const first = cell * size;
      open[first >> 5] |= masks[cell] << (first & 31);
      open[(first >> 5) + 1] |= (masks[cell] >>> 1) >>> (31 - (first & 31));
    }
    for (let word = 0; word < conflictWords; word += 1) due[word] &= open[word];
  }
}
