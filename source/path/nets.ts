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
const depths = [2, 3, Number.POSITIVE_INFINITY];

/**
 * Facts that refute a candidate: as they were found, none of them to spare, or not looked at since one of them has
 * shrunk.
 */
interface Known {
  readonly facts: readonly Fact[];
  readonly state: 'found' | 'minimal' | 'shrunk';
}

/** By how many facts more than the lightest net another one is still looked at again where its facts are as they were. */
const near = 1;

/**
 * Refutations by what follows from assuming a candidate. Chains, grouped chains and nets alike are found so.
 * Whether a candidate is refuted at all is found from where it was left; by which facts, only then. Facts that
 * refute a candidate go on refuting it. Fewer are looked for only when a fact that the candidate touched has shrunk
 * since, and then only if it is one of them, or if they are not far from the fewest and nothing lighter is near.
 */
export class Nets {
  #board: Board;
  readonly #tables: SearchTables;
  readonly #following: Following;
  readonly #words: number;
  /** For each candidate those that died in its last run, as bits. */
  readonly #footprints: Int32Array;
  readonly #known: (Known | null)[];
  /** How many levels need not be looked at again. */
  readonly #seen: Float64Array;
  /** What follows from each candidate. After `lightest` found nothing, all are followed to their ends. */
  readonly worlds: Worlds;
  /** The facts as they were when the board was last loaded, and which had shrunk then. */
  readonly #before: Int32Array;
  readonly #hasShrunk: Uint8Array;
  /** The places that facts which had shrunk then had had before, as bits. */
  readonly #around: Int32Array;
  /** The live candidates of open cells, ascending, when the board was last loaded; before that, all. */
  readonly #open: Uint16Array;
  #openCount = 0;
  /** Whether nothing has been loaded of this board yet. */
  #isNew = true;
  /** The candidate after which the next search begins. */
  #cursor = 0;

  constructor(board: Board) {
    this.#board = board;
    this.#tables = searchTablesOf(board.layout);
    const { factCount, candidateCount } = this.#tables;
    this.#following = new Following(this.#tables, board);
    this.#words = this.#following.gone.length;
    this.#footprints = new Int32Array(candidateCount * this.#words);
    this.#known = new Array<Known | null>(candidateCount).fill(null);
    this.#seen = new Float64Array(candidateCount);
    this.worlds = new Worlds(board);
    this.#before = new Int32Array(factCount);
    this.#hasShrunk = new Uint8Array(factCount);
    this.#around = new Int32Array(this.#words);
    this.#open = new Uint16Array(candidateCount);
    this.#openAll();
  }

  /** Goes over to another board of the same layout, and forgets all that is known. */
  start(board: Board): void {
    this.#board = board;
    this.#known.fill(null);
    this.#seen.fill(0);
    this.worlds.start(board);
    this.#openAll();
    this.#isNew = true;
    this.#cursor = 0;
  }

  #openAll(): void {
    this.#openCount = this.#open.length;
    for (let candidate = 0; candidate < this.#openCount; candidate += 1) this.#open[candidate] = candidate;
  }

  /** Takes over the position that the board stands in now. Due before every search. */
  load(): void {
    const { live, masks, placed } = this.#board;
    const { candidateAt, size, cellOf } = this.#tables;
    const words = this.#words;
    const hasShrunk = this.#hasShrunk;
    const around = this.#around.fill(0);
    this.#following.load(this.#board);
    this.worlds.load();
    if (this.#isNew) {
      // Nothing is known that could have changed.
      this.#isNew = false;
      this.#before.set(masks);
    }
    for (let fact = 0; fact < hasShrunk.length; fact += 1) {
      const before = this.#before[fact];
      hasShrunk[fact] = before === masks[fact] ? 0 : 1;
      if (before === masks[fact]) continue;
      this.#before[fact] = masks[fact];
      for (let rest = before; rest !== 0; rest &= rest - 1) {
        const place = candidateAt[fact * size + 31 - Math.clz32(rest & -rest)];
        around[place >> 5] |= 1 << (place & 31);
      }
    }
    const before = this.#openCount;
    this.#openCount = 0;
    for (let i = 0; i < before; i += 1) {
      const candidate = this.#open[i];
      if (live[candidate] === 0 || placed[cellOf[candidate]] !== 0) {
        this.#known[candidate] = null;
        this.#seen[candidate] = 0;
        continue;
      }
      this.#open[this.#openCount] = candidate;
      this.#openCount += 1;
      const known = this.#known[candidate];
      if (known !== null && known.state !== 'shrunk' && this.#haveShrunk(known.facts)) {
        this.#known[candidate] = { facts: known.facts, state: 'shrunk' };
      }
      if (this.#seen[candidate] === 0) continue;
      for (let word = 0; word < words; word += 1) {
        if ((this.#footprints[candidate * words + word] & around[word]) === 0) continue;
        this.#seen[candidate] = 0;
        break;
      }
    }
  }

  #haveShrunk(facts: readonly Fact[]): boolean {
    for (let i = 0; i < facts.length; i += 1) if (this.#hasShrunk[facts[i]] !== 0) return true;
    return false;
  }

  /** Every candidate for which so many facts or fewer turn up within so many levels, with them. */
  upTo(most: number, levels: number = most): Refutation[] {
    const found: Refutation[] = [];
    for (let i = 0; i < this.#openCount; i += 1) {
      const candidate = this.#open[i];
      this.#look(candidate, levels);
      const known = this.#known[candidate];
      if (known && known.facts.length <= most) found.push({ candidate, facts: known.facts });
    }
    return found;
  }

  /**
   * The few lightest refutations by what follows, lightest first and among those of a weight the ones first after
   * which more follows, each on facts none of which it can do without; found by looking ever deeper. One of `enough`
   * facts is taken alone and at once: from those known before, or from the first that turn up, up to one after which
   * something follows. Each search goes on from where the last one ended.
   */
  lightest(few: number, enough: number): Net[] {
    const open = this.#open;
    const count = this.#openCount;
    const found = new Lightest(few, enough);
    for (let i = 0; i < count; i += 1) if (this.#known[open[i]] !== null) this.#consider(open[i], found);
    if (found.light !== null) return [this.#goOnFrom(found.light)];
    let start = 0;
    while (start < count && open[start] <= this.#cursor) start += 1;
    for (const levels of depths) {
      let isCutShort = false;
      for (let i = 0; i < count && !found.isEnough; i += 1) {
        const candidate = open[start + i < count ? start + i : start + i - count];
        const [first] = found.nets;
        if (this.#mayStay(this.#known[candidate], first, levels)) continue;
        // What is further away has more facts than the last of those found.
        const last = found.nets[few - 1];
        const most = last ? Math.min(levels, last.facts.length - 1) : levels;
        const outcome = this.#look(candidate, most);
        if (outcome === CUT_SHORT) isCutShort = true;
        if (outcome === REFUTED) this.#consider(candidate, found);
      }
      if (found.light !== null) return [this.#goOnFrom(found.light)];
      const [first] = found.nets;
      // What is further away has two facts more than levels, or more. On the first levels one after which nothing
      // follows is not taken yet: another of as many facts may do better.
      const isUnbeaten = first !== undefined && first.facts.length <= levels + 2;
      if (!isCutShort || (isUnbeaten && (levels > depths[0] || first.gain > 0))) break;
    }
    return found.nets.map((net) => ({ ...net, facts: this.#shrink(net) })).sort(inOrder);
  }

  /** Whether facts that are known need not be looked at again: those that are as they were, on the first levels or far off. */
  #mayStay(known: Known | null, lightest: Net | undefined, levels: number): boolean {
    if (known === null || known.state === 'shrunk') return false;
    return levels === depths[0] || known.facts.length > (lightest?.facts.length ?? known.facts.length) + near;
  }

  #consider(candidate: Candidate, found: Lightest): void {
    const facts = this.#known[candidate]?.facts;
    if (facts !== undefined && found.wants(facts)) {
      found.add({ candidate, facts, gain: this.worlds.gainOf(candidate) });
    }
  }

  #goOnFrom(net: Net): Net {
    this.#cursor = net.candidate;
    return net;
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
    this.#footprints.set(this.#following.gone, candidate * this.#words);
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

/** How many of the nets that are light enough to be taken at once are compared. */
const lightsCompared = 3;

/** The lightest of the nets that turn up. */
class Lightest {
  /** Of those with too many facts to be taken at once the few lightest, in order. */
  readonly nets: Net[] = [];
  /** Of those that are light enough the lightest, and of these the first one after which most follows. */
  light: Net | null = null;
  readonly #few: number;
  readonly #enough: number;
  #lights = 0;

  constructor(few: number, enough: number) {
    this.#few = few;
    this.#enough = enough;
  }

  /** Whether one is found that may be taken without looking for others. */
  get isEnough(): boolean {
    return this.light !== null && (this.light.gain > 0 || this.#lights >= lightsCompared);
  }

  /** Whether a net of these facts may be among the lightest. */
  wants({ length }: readonly Fact[]): boolean {
    const last = this.nets[this.#few - 1];
    return length <= this.#enough || last === undefined || length <= last.facts.length;
  }

  add(net: Net): void {
    if (net.facts.length <= this.#enough) {
      this.#lights += 1;
      const more = net.facts.length - (this.light?.facts.length ?? Number.POSITIVE_INFINITY);
      if (more < 0 || (more === 0 && net.gain > (this.light?.gain ?? 0))) this.light = net;
      return;
    }
    const at = this.nets.findIndex(({ candidate }) => candidate === net.candidate);
    if (at >= 0) this.nets.splice(at, 1);
    let place = this.nets.length;
    while (place > 0 && inOrder(net, this.nets[place - 1]) < 0) place -= 1;
    this.nets.splice(place, 0, net);
    if (this.nets.length > this.#few) this.nets.pop();
  }
}
