import type { Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import type { Board } from '../techniques/board.ts';
import { type SearchTables, searchTablesOf } from '../techniques/fact-search-tables.ts';
import { bitCount } from '../techniques/finding.ts';
import { type Effects, effectsOf, IS_EMPTY, MAY_BE_ALIGNED, SAYS_NOTHING } from './effects.ts';

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
  readonly #of: Effects;
  /** How many words of bits a set of candidates takes. */
  readonly words: number;
  #board: Board;
  /** What the board stood in when it was last loaded: the dead as bits, and what was left of each cell. */
  readonly #baseDead: Int32Array;
  readonly #baseLeft: Int32Array;
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
  /** For each world on which level a candidate has died there. */
  #diedOn = new Uint8Array(0);
  /** How many deaths of the board a world knows of, and what has come of it. */
  #seen = new Uint16Array(0);
  #outcome = new Uint8Array(0);
  /** For each world what waits to be followed, effects and their levels in turn, and how much that is. */
  #waiting = new Int32Array(0);
  #waitingCount = new Uint8Array(0);
  /** The lowest level that waits. */
  #waitingLevel = new Int32Array(0);
  /** The effects to be followed, and on which level. */
  readonly #effects: Int32Array;
  readonly #levels: Int32Array;

  constructor(board: Board) {
    this.#board = board;
    this.#tables = searchTablesOf(board.layout);
    const { candidateCount, factCount, size } = this.#tables;
    this.#of = effectsOf(this.#tables);
    this.words = (candidateCount + 31) >> 5;
    this.#baseDead = new Int32Array(this.words);
    this.#baseLeft = new Int32Array(this.#tables.cellCount);
    this.#deaths = new Uint16Array(candidateCount);
    this.#worldOf = new Int16Array(candidateCount).fill(-1);
    // Each candidate is made true or ruled out once, each fact aligned at most once a place.
    this.#effects = new Int32Array(candidateCount * 2 + factCount * size);
    this.#levels = new Int32Array(candidateCount * 2 + factCount * size);
    this.start(board);
  }

  /** Goes over to another board of the same layout, and forgets all that is known. */
  start(board: Board): void {
    this.#board = board;
    this.#worldOf.fill(-1);
    this.#worldCount = firstWorld;
    this.#deathCount = 0;
    this.#baseLeft.set(board.masks.subarray(0, this.#tables.cellCount));
    this.#baseDead.fill(0);
    for (let candidate = 0; candidate < board.live.length; candidate += 1) {
      if (board.live[candidate] === 0) this.#baseDead[candidate >> 5] |= 1 << (candidate & 31);
    }
  }

  /** Takes over the position that the board stands in now. */
  load(): void {
    const { masks } = this.#board;
    const { cellCount, candidateAt, size } = this.#tables;
    const left = this.#baseLeft;
    for (let cell = 0; cell < cellCount; cell += 1) {
      let gone = left[cell] & ~masks[cell];
      for (left[cell] = masks[cell]; gone !== 0; gone &= gone - 1) {
        const candidate = candidateAt[cell * size + 31 - Math.clz32(gone & -gone)];
        this.#baseDead[candidate >> 5] |= 1 << (candidate & 31);
        this.#deaths[this.#deathCount] = candidate;
        this.#deathCount += 1;
      }
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
    const outcome = this.#go(world, levels, this.#deaths, this.#seen[world], this.#deathCount);
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
          if (this.#go(OUTER, Number.POSITIVE_INFINITY, [member], 0, 1) === REFUTED) return ruled;
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
    return count === 0 ? OPEN : this.#go(INNER, Number.POSITIVE_INFINITY, none, 0, 0, count);
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
    this.#waitingLevel[world] = 0;
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
    this.#diedOn = grown(this.#diedOn, new Uint8Array(capacity * this.#tables.candidateCount));
    this.#seen = grown(this.#seen, new Uint16Array(capacity));
    this.#outcome = grown(this.#outcome, new Uint8Array(capacity));
    this.#waiting = grown(this.#waiting, new Int32Array(capacity * mostWaiting * 2));
    this.#waitingCount = grown(this.#waitingCount, new Uint8Array(capacity));
    this.#waitingLevel = grown(this.#waitingLevel, new Int32Array(capacity));
    this.#capacity = capacity;
  }

  /** `queued`: how much is to be followed already. One long loop over local names: a path spends its time here. */
  #go(
    world: number,
    levels: number,
    ruledOut: ArrayLike<Candidate>,
    from: number,
    to: number,
    queued = 0,
  ): Outcome {
    const { size, ownStart, ownFact, ownBit, candidateAt, digitOfFact, factCount, candidateCount } =
      this.#tables;
    const of = this.#of;
    const { start, fact: factIn, mask: maskIn, said, row } = of;
    const dead = this.#dead;
    const isTrue = this.#true;
    const left = this.#left;
    const diedOn = this.#diedOn;
    const effects = this.#effects;
    const levelOf = this.#levels;
    const word0 = world * this.words;
    const fact0 = world * factCount;
    const candidate0 = world * candidateCount;
    const waiting = world * mostWaiting * 2;
    let kept = this.#waitingCount[world];
    let head = 0;
    let tail = queued;
    for (let i = from; i < to; i += 1) {
      effects[tail] = candidateCount + ruledOut[i];
      levelOf[tail] = 0;
      tail += 1;
    }
    for (;;) {
      if (head === tail || levelOf[head] > levels) {
        // What is new comes before what has waited.
        if (kept > 0 && (this.#waitingLevel[world] <= levels || kept + tail - head > mostWaiting)) {
          for (let i = waiting; kept > 0; kept -= 1, i += 2) {
            effects[tail] = this.#waiting[i];
            levelOf[tail] = this.#waiting[i + 1];
            tail += 1;
          }
        }
        if (head === tail) {
          this.#waitingCount[world] = kept;
          return kept === 0 ? OPEN : CUT_SHORT;
        }
        if (levelOf[head] > levels && kept + tail - head <= mostWaiting) {
          this.#keep(world, kept, head, tail);
          return CUT_SHORT;
        }
      }
      const level = levelOf[head] + 1;
      const isRuledOut = effects[head] >= candidateCount && effects[head] < 2 * candidateCount;
      const end = start[effects[head] + 1];
      for (let part = start[effects[head]]; part < end; part += 1) {
        const place0 = factIn[part] * size;
        for (let gone = left[fact0 + factIn[part]] & maskIn[part]; gone !== 0; gone &= gone - 1) {
          const candidate = candidateAt[place0 + 31 - Math.clz32(gone & -gone)];
          dead[word0 + (candidate >> 5)] |= 1 << (candidate & 31);
          diedOn[candidate0 + candidate] = level - 1;
          const last = ownStart[candidate + 1];
          for (let i = ownStart[candidate]; i < last; i += 1) {
            const fact = ownFact[i];
            const rest = left[fact0 + fact] & ~ownBit[i];
            left[fact0 + fact] = rest;
            const says = said === null ? of.sayOf(fact, rest) : said[row[fact] + rest];
            if (says === SAYS_NOTHING) continue;
            if (says === IS_EMPTY) return REFUTED;
            let effect: number;
            if (says > 0) {
              effect = candidateAt[fact * size + says - 1];
              const bit = 1 << (effect & 31);
              if ((isTrue[word0 + (effect >> 5)] & bit) !== 0) continue;
              isTrue[word0 + (effect >> 5)] |= bit;
            } else if (says < MAY_BE_ALIGNED) {
              effect = MAY_BE_ALIGNED - says + digitOfFact[fact];
            } else {
              effect = of.effectOf(fact, rest, says);
              if (effect < 0) continue;
            }
            effects[tail] = effect;
            levelOf[tail] = isRuledOut ? this.#levelOf(world, fact) : level;
            if (!isRuledOut || levelOf[tail] <= levels || kept === mostWaiting) tail += 1;
            else {
              this.#keep(world, kept, tail, tail + 1);
              kept += 1;
            }
          }
        }
      }
      head += 1;
    }
  }

  /** The level on which a fact says something in a world: one more than that on which its last place has died. */
  #levelOf(world: number, fact: Fact): number {
    const { candidateAt, size, factCount, candidateCount } = this.#tables;
    let level = 0;
    const gone = this.#board.masks[fact] & ~this.#left[world * factCount + fact];
    for (let rest = gone; rest !== 0; rest &= rest - 1) {
      const place = candidateAt[fact * size + 31 - Math.clz32(rest & -rest)];
      level = Math.max(level, this.#diedOn[world * candidateCount + place]);
    }
    return level + 1;
  }

  /** Lets what is yet to be followed wait, after what waits already. */
  #keep(world: number, count: number, head: number, tail: number): void {
    let lowest = count > 0 ? this.#waitingLevel[world] : this.#levels[head];
    let at = world * mostWaiting * 2 + 2 * count;
    for (let i = head; i < tail; i += 1, at += 2) {
      this.#waiting[at] = this.#effects[i];
      this.#waiting[at + 1] = this.#levels[i];
      lowest = Math.min(lowest, this.#levels[i]);
    }
    this.#waitingLevel[world] = lowest;
    this.#waitingCount[world] = count + tail - head;
  }
}
