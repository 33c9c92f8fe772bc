import type { Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import type { Board } from '../techniques/board.ts';
import { type SearchTables, searchTablesOf } from '../techniques/fact-search-tables.ts';
import { Following } from './following.ts';
import { CUT_SHORT, REFUTED, Worlds } from './worlds.ts';

/** A candidate and facts that rule it out; enough, perhaps more than needed. */
export interface Refutation {
  readonly candidate: Candidate;
  readonly facts: readonly Fact[];
}

/** A refutation by what follows from a candidate. */
export interface Net extends Refutation {
  /** How much follows at once when the candidate goes. */
  readonly gain: number;
}

/** What came of a candidate when it was last assumed: facts that refute it, or how many levels were in vain. */
type Known = readonly Fact[] | number;

/** How many levels are looked at, one after the other. */
const depths = [4, Number.POSITIVE_INFINITY];

/**
 * Refutations by what follows from assuming a candidate. Chains, grouped chains and nets alike are found so.
 * Whether a candidate is refuted at all is found from where it was left; by which facts only then, again when
 * one of the facts that it touched has shrunk since.
 */
export class Nets {
  #board: Board;
  readonly #tables: SearchTables;
  readonly #following: Following;
  readonly #words: number;
  /** For each candidate the facts that its last run touched, as bits. */
  readonly #footprints: Int32Array;
  readonly #known: (Known | null)[];
  /** What follows from each candidate. After `lightest` found nothing, all are followed to their ends. */
  readonly worlds: Worlds;
  /** The facts as they were when the board was last loaded. */
  readonly #before: Int32Array;
  #cursor = 0;

  constructor(board: Board) {
    this.#board = board;
    this.#tables = searchTablesOf(board.layout);
    const { factCount, candidateCount } = this.#tables;
    this.#following = new Following(this.#tables, board);
    this.#words = this.#following.touched.length;
    this.#footprints = new Int32Array(candidateCount * this.#words);
    this.#known = new Array<Known | null>(candidateCount).fill(null);
    this.worlds = new Worlds(board);
    this.#before = new Int32Array(factCount);
  }

  /** Goes over to another board of the same layout, and forgets all that is known. */
  start(board: Board): void {
    this.#board = board;
    this.#known.fill(null);
    this.worlds.start(board);
    this.#cursor = 0;
  }

  /** Takes over the position that the board stands in now. Due before every search. */
  load(): void {
    const { masks } = this.#board;
    const words = this.#words;
    this.#following.load(this.#board);
    this.worlds.load();
    const changed = new Int32Array(words);
    for (let fact = 0; fact < this.#before.length; fact += 1) {
      if (this.#before[fact] === masks[fact]) continue;
      this.#before[fact] = masks[fact];
      changed[fact >> 5] |= 1 << (fact & 31);
    }
    for (let candidate = 0; candidate < this.#known.length; candidate += 1) {
      if (this.#known[candidate] === null) continue;
      for (let word = 0; word < words; word += 1) {
        if ((this.#footprints[candidate * words + word] & changed[word]) === 0) continue;
        this.#known[candidate] = null;
        break;
      }
    }
  }

  /** Every candidate for which so many facts or fewer turn up within so many levels, with them. */
  upTo(most: number, levels: number = most): Refutation[] {
    const found: Refutation[] = [];
    for (let candidate = 0; candidate < this.#tables.candidateCount; candidate += 1) {
      const known = this.#knownOf(candidate, levels);
      if (typeof known !== 'number' && known.length <= most) found.push({ candidate, facts: known });
    }
    return found;
  }

  /**
   * The few lightest refutations by what follows, lightest first and among those of a weight the ones first after
   * which more follows, found by looking ever deeper; the first one of `enough` facts is taken alone and at once. Each search goes on from where the last one ended.
   */
  lightest(few: number, enough: number): Net[] {
    const { candidateCount } = this.#tables;
    let found: Net[] = [];
    for (const levels of depths) {
      let cutShort = false;
      found = [];
      for (let i = 1; i <= candidateCount; i += 1) {
        const candidate = (this.#cursor + i) % candidateCount;
        // What is further away has more facts than the last of those found.
        const most = found.length === few ? Math.min(levels, found[few - 1].facts.length - 1) : levels;
        const facts = this.#knownOf(candidate, most);
        if (typeof facts === 'number') {
          if (facts !== Number.POSITIVE_INFINITY) cutShort = true;
          continue;
        }
        if (facts.length <= enough) {
          this.#cursor = candidate;
          return [{ candidate, facts, gain: 0 }];
        }
        if (found.length === few && found[few - 1].facts.length < facts.length) continue;
        found.push({ candidate, facts, gain: this.worlds.gainOf(candidate) });
        found.sort((a, b) => a.facts.length - b.facts.length || b.gain - a.gain || a.candidate - b.candidate);
        found.length = Math.min(found.length, few);
      }
      if (!cutShort || (found.length > 0 && found[0].facts.length <= levels + 2)) break;
    }
    return found;
  }

  /** Facts that refute a candidate; otherwise the number of levels in which nothing came of it. */
  #knownOf(candidate: Candidate, levels: number): Known {
    const { live, placed } = this.#board;
    const { cellOf, factCount } = this.#tables;
    if (live[candidate] === 0 || placed[cellOf[candidate]] !== 0) return Number.POSITIVE_INFINITY;
    const before = this.#known[candidate];
    if (before !== null && (typeof before !== 'number' || before >= levels)) return before;
    const outcome = this.worlds.follow(candidate, levels);
    if (outcome !== REFUTED) return outcome === CUT_SHORT ? levels : Number.POSITIVE_INFINITY;
    const end = this.#following.assume(candidate, levels);
    const known = end >= 0 ? (this.#following.coreOf(end, factCount) ?? []) : levels;
    this.#known[candidate] = known;
    this.#footprints.set(this.#following.touched, candidate * this.#words);
    return known;
  }
}
