import type { Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import type { Board } from '../techniques/board.ts';
import { type SearchTables, searchTablesOf } from '../techniques/fact-search-tables.ts';
import { Following } from './following.ts';
import { shrink } from './shrink.ts';
import { CUT_SHORT, OPEN, type Outcome, REFUTED, Worlds } from './worlds.ts';

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

/** How many levels are looked at, one after the other. */
const depths = [3, Number.POSITIVE_INFINITY];

/**
 * Facts that refute a candidate: as they were found, none of them to spare, or not looked at since one of them has
 * shrunk.
 */
interface Known {
  readonly facts: readonly Fact[];
  readonly state: 'found' | 'minimal' | 'shrunk';
}

/** By how many facts more than the lightest net another one is still looked at again where its facts are as they were. */
const near = 2;

/**
 * Refutations by what follows from assuming a candidate. Chains, grouped chains and nets alike are found so.
 * Whether a candidate is refuted at all is found from where it was left; by which facts, only then. Facts that
 * refute a candidate go on refuting it. Fewer are looked for only when a fact that the candidate touched has shrunk
 * since, and then only if it is one of them or they are not far from the fewest.
 */
export class Nets {
  #board: Board;
  readonly #tables: SearchTables;
  readonly #following: Following;
  readonly #words: number;
  /** For each candidate the facts that its last run touched, as bits. */
  readonly #footprints: Int32Array;
  readonly #known: (Known | null)[];
  /** How many levels need not be looked at again. */
  readonly #seen: Float64Array;
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
    this.#seen = new Float64Array(candidateCount);
    this.worlds = new Worlds(board);
    this.#before = new Int32Array(factCount);
  }

  /** Goes over to another board of the same layout, and forgets all that is known. */
  start(board: Board): void {
    this.#board = board;
    this.#known.fill(null);
    this.#seen.fill(0);
    this.worlds.start(board);
    this.#cursor = 0;
  }

  /** Takes over the position that the board stands in now. Due before every search. */
  load(): void {
    const { live, masks } = this.#board;
    const words = this.#words;
    this.#following.load(this.#board);
    this.worlds.load();
    const changed = new Int32Array(words);
    for (let fact = 0; fact < this.#before.length; fact += 1) {
      if (this.#before[fact] === masks[fact]) continue;
      this.#before[fact] = masks[fact];
      changed[fact >> 5] |= 1 << (fact & 31);
    }
    const hasChanged = (fact: Fact) => (changed[fact >> 5] & (1 << (fact & 31))) !== 0;
    for (let candidate = 0; candidate < this.#known.length; candidate += 1) {
      if (live[candidate] === 0) {
        this.#known[candidate] = null;
        this.#seen[candidate] = 0;
        continue;
      }
      const known = this.#known[candidate];
      if (known !== null && known.state !== 'shrunk' && known.facts.some(hasChanged)) {
        this.#known[candidate] = { facts: known.facts, state: 'shrunk' };
      }
      if (this.#seen[candidate] === 0) continue;
      for (let word = 0; word < words; word += 1) {
        if ((this.#footprints[candidate * words + word] & changed[word]) === 0) continue;
        this.#seen[candidate] = 0;
        break;
      }
    }
  }

  /** Every candidate for which so many facts or fewer turn up within so many levels, with them. */
  upTo(most: number, levels: number = most): Refutation[] {
    const found: Refutation[] = [];
    for (let candidate = 0; candidate < this.#tables.candidateCount; candidate += 1) {
      if (!this.#isOpen(candidate)) continue;
      this.#look(candidate, levels);
      const known = this.#known[candidate];
      if (known && known.facts.length <= most) found.push({ candidate, facts: known.facts });
    }
    return found;
  }

  /**
   * The few lightest refutations by what follows, lightest first and among those of a weight the ones first after
   * which more follows, each on facts none of which it can do without; found by looking ever deeper. The first
   * one of `enough` facts is taken alone and at once. Each search goes on from where the last one ended.
   */
  lightest(few: number, enough: number): Net[] {
    const { candidateCount } = this.#tables;
    const found: Net[] = [];
    const consider = (candidate: Candidate): boolean => {
      const facts = this.#known[candidate]?.facts;
      if (facts === undefined) return false;
      if (facts.length <= enough) return true;
      const at = found.findIndex((net) => net.candidate === candidate);
      if (at >= 0) found.splice(at, 1);
      else if (found.length === few && found[few - 1].facts.length < facts.length) return false;
      const net = { candidate, facts, gain: this.worlds.gainOf(candidate) };
      let place = found.length;
      while (place > 0 && inOrder(net, found[place - 1]) < 0) place -= 1;
      found.splice(place, 0, net);
      if (found.length > few) found.pop();
      return false;
    };
    const alone = (candidate: Candidate): Net[] => {
      this.#cursor = candidate;
      const facts = this.#known[candidate]?.facts ?? [];
      return [{ candidate, facts, gain: 0 }];
    };
    for (let candidate = 0; candidate < candidateCount; candidate += 1) {
      if (this.#known[candidate] !== null && this.#isOpen(candidate) && consider(candidate)) {
        return alone(candidate);
      }
    }
    for (const levels of depths) {
      let isCutShort = false;
      for (let i = 1; i <= candidateCount; i += 1) {
        const candidate = (this.#cursor + i) % candidateCount;
        if (!this.#isOpen(candidate)) continue;
        const known = this.#known[candidate];
        if (
          known &&
          known.state !== 'shrunk' &&
          found[0] &&
          known.facts.length > found[0].facts.length + near
        ) {
          continue;
        }
        // What is further away has more facts than the last of those found.
        const most = found.length === few ? Math.min(levels, found[few - 1].facts.length - 1) : levels;
        const outcome = this.#look(candidate, most);
        if (outcome === CUT_SHORT) isCutShort = true;
        if (outcome === REFUTED && consider(candidate)) return alone(candidate);
      }
      if (!isCutShort || (found.length > 0 && found[0].facts.length <= levels + 2)) break;
    }
    return found.map((net) => ({ ...net, facts: this.#shrink(net) })).sort(inOrder);
  }

  #isOpen(candidate: Candidate): boolean {
    return this.#board.live[candidate] !== 0 && this.#board.placed[this.#tables.cellOf[candidate]] === 0;
  }

  /**
   * Looks for facts that refute a candidate within so many levels. REFUTED: there are some that were not known, or
   * fewer; OPEN: there is nothing new; CUT_SHORT: there may be something on further levels.
   */
  #look(candidate: Candidate, levels: number): Outcome {
    if (this.#seen[candidate] >= levels) {
      return this.#seen[candidate] === Number.POSITIVE_INFINITY ? OPEN : CUT_SHORT;
    }
    const outcome = this.worlds.follow(candidate, levels);
    if (outcome !== REFUTED) return outcome;
    const end = this.#following.assume(candidate, levels);
    this.#footprints.set(this.#following.touched, candidate * this.#words);
    this.#seen[candidate] = end < 0 ? levels : Number.POSITIVE_INFINITY;
    const known = this.#known[candidate];
    if (known?.state === 'shrunk') this.#known[candidate] = { facts: known.facts, state: 'found' };
    if (end < 0) return CUT_SHORT;
    const facts = this.#following.coreOf(end, this.#tables.factCount) ?? [];
    if (known && known.facts.length <= facts.length) return OPEN;
    this.#known[candidate] = { facts, state: 'found' };
    return REFUTED;
  }

  /** The facts of a net without those that it can do without, which is remembered. */
  #shrink({ candidate, facts }: Net): readonly Fact[] {
    if (this.#known[candidate]?.state === 'minimal') return facts;
    const fewer = shrink(this.#board, candidate, facts) ?? facts;
    this.#known[candidate] = { facts: fewer, state: 'minimal' };
    return fewer;
  }
}

const inOrder = (a: Net, b: Net): number =>
  a.facts.length - b.facts.length || b.gain - a.gain || a.candidate - b.candidate;
