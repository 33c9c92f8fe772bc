import type { Candidate } from '../grid/layout.ts';
import type { Board } from '../techniques/board.ts';
import { type SearchTables, searchTablesOf } from '../techniques/fact-search-tables.ts';
import { bitCount } from '../techniques/finding.ts';
import { meetingsOf } from '../techniques/meetings.ts';

/** What has come of following a candidate: nothing against it, levels still to follow, or a fact without a place. */
export const OPEN = 0;
export const CUT_SHORT = 1;
export const REFUTED = 2;
export type Outcome = typeof OPEN | typeof CUT_SHORT | typeof REFUTED;

/** The worlds before these are where suppositions within suppositions are tried out. */
const OUTER = 0;
const INNER = 1;
const firstWorld = 2;

/** So much of what waits is kept; where more waits, it is followed at once. */
const mostWaiting = 48;
const none: readonly Candidate[] = [];

/**
 * What follows from assuming a candidate, for all candidates of a board, without the reasons: what is dead, what
 * is true, what is left of each fact. What follows stays true when more is struck, so each world goes on from
 * where it stood.
 */
export class Worlds {
  readonly #tables: SearchTables;
  /** The most places that can be aligned: the most cells that two houses share. */
  readonly #mostAligned: number;
  /** How many words of bits a set of candidates takes. */
  readonly words: number;
  /** What each candidate excludes, as bits. */
  readonly #excludes: Int32Array;
  #board: Board;
  /** What the board stood in when it was last loaded: the dead as bits. */
  readonly #baseDead: Int32Array;
  /** What has died on the board since the start, in order. */
  readonly #deaths: Uint16Array;
  #deathCount = 0;
  /** The world of a candidate, by number, or -1. */
  readonly #worldOf: Int16Array;
  #worldCount = firstWorld;
  #capacity = 0;
  /** For each world the dead and the true candidates as bits, and what is left of each fact. */
  #dead = new Int32Array(0);
  #true = new Int32Array(0);
  #left = new Int32Array(0);
  /** How many deaths of the board a world knows of, and what has come of it. */
  #seen = new Uint16Array(0);
  #outcome = new Uint8Array(0);
  /** For each world what waits to be followed, effects and their levels in turn, and how much that is. */
  #waiting = new Int32Array(0);
  #waitingCount = new Uint8Array(0);
  /** What is to be followed: a candidate made true, or -1 - (alignment * size + digit); and on which level. */
  readonly #effects: Int32Array;
  readonly #levels: Int32Array;
  readonly #todo: Uint16Array;

  constructor(board: Board) {
    this.#board = board;
    this.#tables = searchTablesOf(board.layout);
    const { candidateCount, factCount, excludes, layout, size } = this.#tables;
    this.#mostAligned = Math.max(0, ...meetingsOf(layout).map(({ shared }) => bitCount(shared)));
    this.words = (candidateCount + 31) >> 5;
    this.#excludes = new Int32Array(candidateCount * this.words);
    for (let candidate = 0; candidate < candidateCount; candidate += 1) {
      for (const other of excludes[candidate]) {
        this.#excludes[candidate * this.words + (other >> 5)] |= 1 << (other & 31);
      }
    }
    this.#baseDead = new Int32Array(this.words);
    this.#deaths = new Uint16Array(candidateCount);
    this.#worldOf = new Int16Array(candidateCount).fill(-1);
    // Each candidate is made true once, each fact aligned at most once a place.
    this.#effects = new Int32Array(candidateCount + factCount * size);
    this.#levels = new Int32Array(candidateCount + factCount * size);
    this.#todo = new Uint16Array(candidateCount);
    this.start(board);
  }

  /** Goes over to another board of the same layout, and forgets all that is known. */
  start(board: Board): void {
    this.#board = board;
    this.#worldOf.fill(-1);
    this.#worldCount = firstWorld;
    this.#deathCount = 0;
    this.#baseDead.fill(0);
    for (let candidate = 0; candidate < board.live.length; candidate += 1) {
      if (board.live[candidate] === 0) this.#baseDead[candidate >> 5] |= 1 << (candidate & 31);
    }
  }

  /** Takes over the position that the board stands in now. */
  load(): void {
    const { live } = this.#board;
    for (let candidate = 0; candidate < live.length; candidate += 1) {
      if (live[candidate] !== 0) continue;
      const bit = 1 << (candidate & 31);
      if ((this.#baseDead[candidate >> 5] & bit) !== 0) continue;
      this.#baseDead[candidate >> 5] |= bit;
      this.#deaths[this.#deathCount] = candidate;
      this.#deathCount += 1;
    }
  }

  /** Follows a live candidate at least so many levels, further where it has been followed further before. */
  follow(candidate: Candidate, levels: number): Outcome {
    let world = this.#worldOf[candidate];
    if (world < 0) world = this.#begin(candidate);
    else if (
      this.#outcome[world] === REFUTED ||
      (this.#seen[world] === this.#deathCount && this.#outcome[world] === OPEN)
    ) {
      return this.#outcome[world] as Outcome;
    }
    const outcome = this.#go(world, levels, this.#deaths.subarray(this.#seen[world], this.#deathCount));
    this.#seen[world] = this.#deathCount;
    this.#outcome[world] = outcome;
    return outcome;
  }

  /**
   * How much follows at once when a candidate goes: how many others die with what it forces, where that has been
   * followed.
   */
  gainOf(candidate: Candidate): number {
    const { ownStart, ownFact, ownBit, candidateAt, size } = this.#tables;
    let gain = 0;
    for (let i = ownStart[candidate]; i < ownStart[candidate + 1]; i += 1) {
      const rest = this.#board.masks[ownFact[i]] & ~ownBit[i];
      if (rest === 0 || (rest & (rest - 1)) !== 0) continue;
      const partner = candidateAt[ownFact[i] * size + 31 - Math.clz32(rest)];
      const world = this.#worldOf[partner];
      gain = Math.max(gain, world < 0 ? 1 : this.#deadIn(world));
    }
    return gain;
  }

  #deadIn(world: number): number {
    let count = 1;
    for (let word = 0; word < this.words; word += 1) {
      count += bitCount(this.#dead[world * this.words + word] & ~this.#baseDead[word]);
    }
    return count;
  }

  /**
   * The candidates that come to an end within what follows from one, in the order in which they are ruled out, if
   * that at last leads to an end itself; otherwise null. `mostPlaces`: only places of facts with so many places
   * left, at most, are tried. Each candidate must have been followed to its end.
   */
  suppose(candidate: Candidate, mostPlaces: number): Candidate[] | null {
    const { candidateAt, factCount, size } = this.#tables;
    const left = this.#left;
    this.#copy(this.#worldOf[candidate], OUTER);
    const ruled: Candidate[] = [];
    const tried = new Int32Array(this.words);
    for (let changed = true; changed; ) {
      changed = false;
      tried.fill(0);
      for (let fact = 0; fact < factCount; fact += 1) {
        if (bitCount(left[fact]) > mostPlaces) continue;
        for (let places = left[fact]; (places & (places - 1)) !== 0; ) {
          const bit = places & -places;
          places ^= bit;
          const member = candidateAt[fact * size + 31 - Math.clz32(bit)];
          const world = this.#worldOf[member];
          if (world < 0 || (tried[member >> 5] & (1 << (member & 31))) !== 0) continue;
          tried[member >> 5] |= 1 << (member & 31);
          if (this.#join(world) !== REFUTED) continue;
          ruled.push(member);
          if (this.#go(OUTER, Number.POSITIVE_INFINITY, [member]) === REFUTED) return ruled;
          changed = true;
          places = left[fact];
        }
      }
    }
    return null;
  }

  #copy(from: number, to: number): void {
    const { words } = this;
    const { factCount } = this.#tables;
    this.#dead.copyWithin(to * words, from * words, (from + 1) * words);
    this.#true.copyWithin(to * words, from * words, (from + 1) * words);
    this.#left.copyWithin(to * factCount, from * factCount, (from + 1) * factCount);
    this.#waitingCount[to] = 0;
  }

  /** How often two worlds have been joined: what suppositions within suppositions cost. */
  joins = 0;

  /** Follows what the outer world and another one together lead to. */
  #join(world: number): Outcome {
    this.joins += 1;
    const { words } = this;
    const { factCount, candidateAt, size } = this.#tables;
    const dead = this.#dead;
    const isTrue = this.#true;
    const left = this.#left;
    const word0 = world * words;
    const inner0 = INNER * words;
    for (let word = 0; word < words; word += 1) {
      const allTrue = isTrue[word] | isTrue[word0 + word];
      const allDead = dead[word] | dead[word0 + word];
      if ((allTrue & allDead) !== 0) return REFUTED;
      isTrue[inner0 + word] = allTrue;
      dead[inner0 + word] = allDead;
    }
    const fact0 = world * factCount;
    const innerFact0 = INNER * factCount;
    let count = 0;
    for (let fact = 0; fact < factCount; fact += 1) {
      const rest = left[fact] & left[fact0 + fact];
      left[innerFact0 + fact] = rest;
      if ((rest & (rest - 1)) !== 0) continue;
      if (rest === 0) return REFUTED;
      const sole = candidateAt[fact * size + 31 - Math.clz32(rest)];
      const bit = 1 << (sole & 31);
      if ((isTrue[inner0 + (sole >> 5)] & bit) !== 0) continue;
      isTrue[inner0 + (sole >> 5)] |= bit;
      this.#effects[count] = sole;
      this.#levels[count] = 0;
      count += 1;
    }
    return count === 0 ? OPEN : this.#go(INNER, Number.POSITIVE_INFINITY, none, count);
  }

  #begin(candidate: Candidate): number {
    const world = this.#worldCount;
    this.#worldCount += 1;
    if (world >= this.#capacity) this.#grow();
    this.#worldOf[candidate] = world;
    this.#dead.set(this.#baseDead, world * this.words);
    this.#true.fill(0, world * this.words, (world + 1) * this.words);
    this.#true[world * this.words + (candidate >> 5)] |= 1 << (candidate & 31);
    this.#left.set(this.#board.masks, world * this.#tables.factCount);
    this.#seen[world] = this.#deathCount;
    this.#waiting[world * mostWaiting * 2] = candidate;
    this.#waiting[world * mostWaiting * 2 + 1] = 0;
    this.#waitingCount[world] = 1;
    return world;
  }

  #grow(): void {
    const capacity = Math.max(256, this.#capacity * 2);
    const grown = <T extends Int32Array | Uint16Array | Uint8Array>(old: T, bigger: T): T => {
      bigger.set(old);
      return bigger;
    };
    this.#dead = grown(this.#dead, new Int32Array(capacity * this.words));
    this.#true = grown(this.#true, new Int32Array(capacity * this.words));
    this.#left = grown(this.#left, new Int32Array(capacity * this.#tables.factCount));
    this.#seen = grown(this.#seen, new Uint16Array(capacity));
    this.#outcome = grown(this.#outcome, new Uint8Array(capacity));
    this.#waiting = grown(this.#waiting, new Int32Array(capacity * mostWaiting * 2));
    this.#waitingCount = grown(this.#waitingCount, new Uint8Array(capacity));
    this.#capacity = capacity;
  }

  /** `queued`: how much is to be followed already. One long loop over local names: a path spends its time here. */
  #go(world: number, levels: number, ruledOut: ArrayLike<Candidate>, queued = 0): Outcome {
    const { alignments, size, digitOfFact, ownStart, ownFact, ownBit, candidateAt, cellCount, houseOf } =
      this.#tables;
    const { words } = this;
    const excludes = this.#excludes;
    const dead = this.#dead;
    const isTrue = this.#true;
    const left = this.#left;
    const effects = this.#effects;
    const levelOf = this.#levels;
    const todo = this.#todo;
    const spare = this.#mostAligned - 2;
    const word0 = world * words;
    const fact0 = world * this.#tables.factCount;
    let head = 0;
    let tail = queued;
    const waiting = world * mostWaiting * 2;
    for (; tail < this.#waitingCount[world]; tail += 1) {
      effects[tail] = this.#waiting[waiting + 2 * tail];
      levelOf[tail] = this.#waiting[waiting + 2 * tail + 1];
    }
    this.#waitingCount[world] = 0;
    let count = 0;
    for (let i = 0; i < ruledOut.length; i += 1) {
      const candidate = ruledOut[i];
      if ((dead[word0 + (candidate >> 5)] & (1 << (candidate & 31))) !== 0) continue;
      todo[count] = candidate;
      count += 1;
    }
    let level = 0;
    for (;;) {
      for (let i = 0; i < count; i += 1) {
        const candidate = todo[i];
        dead[word0 + (candidate >> 5)] |= 1 << (candidate & 31);
        const last = ownStart[candidate + 1];
        for (let j = ownStart[candidate]; j < last; j += 1) {
          const fact = ownFact[j];
          const rest = left[fact0 + fact] & ~ownBit[j];
          left[fact0 + fact] = rest;
          const more = rest & (rest - 1);
          if (more === 0) {
            if (rest === 0) return REFUTED;
            const next = candidateAt[fact * size + 31 - Math.clz32(rest)];
            const bit = 1 << (next & 31);
            if ((isTrue[word0 + (next >> 5)] & bit) !== 0) continue;
            isTrue[word0 + (next >> 5)] |= bit;
            effects[tail] = next;
          } else {
            if (fact < cellCount) continue;
            const third = more & (more - 1);
            if (third !== 0 && (spare < 1 || bitCount(third) > spare)) continue;
            const number = alignments.of(houseOf[fact], rest);
            if (number === 0) continue;
            effects[tail] = -1 - (number * size + digitOfFact[fact] - 1);
          }
          levelOf[tail] = level + 1;
          tail += 1;
        }
      }
      if (head === tail) return OPEN;
      level = levelOf[head];
      if (level > levels && tail - head <= mostWaiting) {
        this.#waitingCount[world] = tail - head;
        for (let i = waiting; head < tail; head += 1, i += 2) {
          this.#waiting[i] = effects[head];
          this.#waiting[i + 1] = levelOf[head];
        }
        return CUT_SHORT;
      }
      const effect = effects[head];
      head += 1;
      count = 0;
      if (effect >= 0) {
        for (let word = 0; word < words; word += 1) {
          let fresh = excludes[effect * words + word] & ~dead[word0 + word];
          while (fresh !== 0) {
            const lowest = fresh & -fresh;
            todo[count] = (word << 5) + 31 - Math.clz32(lowest);
            count += 1;
            fresh ^= lowest;
          }
        }
      } else {
        const number = Math.floor((-1 - effect) / size);
        const digit = -1 - effect - number * size;
        const cells = alignments.cells[number];
        for (let i = 0; i < cells.length; i += 1) {
          const candidate = cells[i] * size + digit;
          if ((dead[word0 + (candidate >> 5)] & (1 << (candidate & 31))) !== 0) continue;
          todo[count] = candidate;
          count += 1;
        }
      }
    }
  }
}
