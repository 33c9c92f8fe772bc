import type { Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import { type SearchTables, SPENT } from './fact-search-tables.ts';

/**
 * Hands out the places of some facts, those first that are places of most of the facts, until every fact is
 * spent or has had all its places handed out. Which facts are spent is read off their masks on the way.
 */
export class Cover {
  readonly #tables: SearchTables;
  readonly #most: number;
  /** For each fact the visit that it was added in. */
  readonly #added: Int32Array;
  #visit = 0;
  /** For each candidate of how many of the facts it is a place, at most; 0 once handed out. */
  readonly #count: Uint8Array;
  readonly #places: Uint16Array;
  #length = 0;
  #wanted = 0;
  #at = 0;

  constructor(tables: SearchTables) {
    const { ownStart, candidateCount } = tables;
    this.#tables = tables;
    this.#added = new Int32Array(tables.factCount);
    this.#count = new Uint8Array(candidateCount);
    this.#places = new Uint16Array(candidateCount);
    let most = 0;
    for (let c = 0; c < candidateCount; c += 1) most = Math.max(most, ownStart[c + 1] - ownStart[c]);
    this.#most = most;
  }

  /** Starts without facts. */
  begin(): void {
    for (let i = 0; i < this.#length; i += 1) this.#count[this.#places[i]] = 0;
    this.#length = 0;
    this.#visit += 1;
    this.#wanted = this.#most;
    this.#at = 0;
  }

  /** Adds a fact with these places; before the first `next`. */
  add(fact: Fact, mask: number): void {
    const { candidateAt, size } = this.#tables;
    const count = this.#count;
    this.#added[fact] = this.#visit;
    for (let left = mask; left !== 0; left &= left - 1) {
      const place = candidateAt[fact * size + 31 - Math.clz32(left & -left)];
      if (count[place] === 0) {
        this.#places[this.#length] = place;
        this.#length += 1;
      }
      count[place] += 1;
    }
  }

  /** The next place of a fact that is not spent; -1 when there is none left. */
  next(masks: Int32Array): Candidate {
    const { ownStart, ownFact } = this.#tables;
    const count = this.#count;
    const places = this.#places;
    const spent = SPENT;
    for (; this.#wanted > 0; this.#wanted -= 1) {
      for (let at = this.#at; at < this.#length; at += 1) {
        const place = places[at];
        if (count[place] !== this.#wanted) continue;
        let still = 0;
        for (let i = ownStart[place]; i < ownStart[place + 1]; i += 1) {
          if (this.#added[ownFact[i]] === this.#visit && masks[ownFact[i]] < spent) still += 1;
        }
        if (still < this.#wanted) {
          count[place] = still;
          continue;
        }
        count[place] = 0;
        this.#at = at + 1;
        return place;
      }
      this.#at = 0;
    }
    return -1;
  }
}
