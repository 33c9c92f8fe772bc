import type { Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import type { Board } from '../techniques/board.ts';
import { type SearchTables, searchTablesOf } from '../techniques/fact-search-tables.ts';
import { bitCount } from '../techniques/finding.ts';

/** More arrangements than this are not gone through. */
const mostArrangements = 256;

/** Working memory is used again by all facts of a layout. */
const memory = new WeakMap<SearchTables, Arrangements>();

/**
 * All live candidates, ascending, that some facts rule out together: those in conflict with every one of
 * their arrangements. Null where there are too many arrangements to go through, or none.
 */
export function reachOf(board: Board, facts: readonly Fact[]): Candidate[] | null {
  const tables = searchTablesOf(board.layout);
  let arrangements = memory.get(tables);
  if (!arrangements) {
    arrangements = new Arrangements(tables);
    memory.set(tables, arrangements);
  }
  if (!arrangements.goThroughAll(board, facts)) return null;
  const reach: Candidate[] = [];
  for (let word = 0; word < tables.conflictWords; word += 1) {
    for (let rest = arrangements.reach[word]; rest !== 0; rest &= rest - 1) {
      const candidate = (word << 5) + 31 - Math.clz32(rest & -rest);
      if (board.live[candidate] === 1) reach.push(candidate);
    }
  }
  return reach;
}

/** The arrangements of some facts, and what all of them rule out, as bits of words. */
class Arrangements {
  #count = 0;
  readonly reach: Int32Array;
  readonly #tables: SearchTables;
  #masks: ArrayLike<number> = [];
  #facts: readonly Fact[] = [];
  /** What the first so many places of an arrangement rule out, one after the other. */
  #ruledOut: Int32Array;

  constructor(tables: SearchTables) {
    this.#tables = tables;
    this.reach = new Int32Array(tables.conflictWords);
    this.#ruledOut = new Int32Array(tables.conflictWords);
  }

  /** Goes through all arrangements of some facts; false: there are too many, or none. */
  goThroughAll(board: Board, facts: readonly Fact[]): boolean {
    const { conflictWords } = this.#tables;
    const places = (fact: Fact) => bitCount(board.masks[fact]);
    this.#masks = board.masks;
    this.#facts = [...facts].sort((a, b) => places(a) - places(b));
    this.#count = 0;
    this.reach.fill(-1);
    const room = (facts.length + 1) * conflictWords;
    if (this.#ruledOut.length < room) this.#ruledOut = new Int32Array(room);
    this.#ruledOut.fill(0, 0, conflictWords);
    return this.#goThrough(0) && this.#count > 0;
  }

  /** Goes through all that begin with the first `chosen` places as they are chosen; false: there are too many. */
  #goThrough(chosen: number): boolean {
    const { candidateAt, size, conflict, conflictWords } = this.#tables;
    const ruledOut = this.#ruledOut;
    const here = chosen * conflictWords;
    if (chosen === this.#facts.length) {
      for (let word = 0; word < conflictWords; word += 1) this.reach[word] &= ruledOut[here + word];
      this.#count += 1;
      return this.#count <= mostArrangements;
    }
    const fact = this.#facts[chosen];
    const next = here + conflictWords;
    for (let rest = this.#masks[fact]; rest !== 0; rest &= rest - 1) {
      const place = candidateAt[fact * size + 31 - Math.clz32(rest & -rest)];
      if ((ruledOut[here + (place >> 5)] & (1 << (place & 31))) !== 0) continue;
      const row = place * conflictWords;
      for (let word = 0; word < conflictWords; word += 1) {
        ruledOut[next + word] = ruledOut[here + word] | conflict[row + word];
      }
      if (!this.#goThrough(chosen + 1)) return false;
    }
    return true;
  }
}
