import type { Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import type { Board } from '../techniques/board.ts';
import type { SearchTables } from '../techniques/fact-search-tables.ts';
import { type Effects, effectsOf, IS_EMPTY, MAY_BE_ALIGNED, SAYS_NOTHING } from './effects.ts';

/** Where a board stands: for each fact its live places as bits, for each candidate whether it is live. */
export interface Standing {
  readonly masks: ArrayLike<number>;
  readonly live: Uint8Array;
}

const BY_ASSUMPTION = -1;
const FROM_OUTSIDE = -2;

/** Facts that rule out a candidate in what a run had led to at a time. */
export type Explain = (candidate: Candidate, time: number) => readonly Fact[];

/** How following an assumption ends: a fact without a place, nothing more to follow, or too many levels. */
const NOTHING_MORE = -1;
const TOO_DEEP = -2;

/**
 * Follows an assumption through a position: a fact with one place left makes it true, a house fact with its
 * places aligned strikes what sees them all, and a fact without a place is the end. Remembers which fact did
 * what, and when. The level of something counts the facts on the way to it.
 */
export class Following {
  readonly #tables: SearchTables;
  readonly #of: Effects;
  #standing: Standing;
  /** The places of each fact where nothing is assumed, and what a run has left of them. */
  readonly #masks: Int32Array;
  readonly #left: Int32Array;
  /** The run in which a candidate died or was made true; in a run, by what and when it died. */
  readonly #deadIn: Int32Array;
  readonly #trueIn: Int32Array;
  readonly #killer: Int32Array;
  readonly #killTime: Int32Array;
  /** In a run: when the fact made a place true or struck by its aligned places. */
  readonly #firedAt: Int32Array;
  readonly #coreIn: Int32Array;
  readonly #coreBefore: Int32Array;
  /** What has fired and waits: the fact, the effect, the level. */
  readonly #fired: Int16Array;
  readonly #effect: Int32Array;
  readonly #level: Int32Array;
  #head = 0;
  #tail = 0;
  #time = 0;
  #run = 0;
  #coreRun = 0;
  /** The candidates that died in the run, as bits: bit `candidate & 31` of word `candidate >> 5`. */
  readonly gone: Int32Array;

  constructor(tables: SearchTables, standing: Standing) {
    const { factCount, candidateCount, size } = tables;
    this.#tables = tables;
    this.#standing = standing;
    this.#of = effectsOf(tables);
    this.#masks = new Int32Array(factCount);
    this.#left = new Int32Array(factCount);
    this.#deadIn = new Int32Array(candidateCount);
    this.#trueIn = new Int32Array(candidateCount);
    this.#killer = new Int32Array(candidateCount);
    this.#killTime = new Int32Array(candidateCount);
    this.#firedAt = new Int32Array(factCount);
    this.#coreIn = new Int32Array(factCount);
    this.#coreBefore = new Int32Array(factCount);
    // Each candidate is made true or ruled out once, each fact aligned at most once a place.
    const firings = 2 * candidateCount + factCount * size;
    this.#fired = new Int16Array(firings);
    this.#effect = new Int32Array(firings);
    this.#level = new Int32Array(firings);
    this.gone = new Int32Array((candidateCount + 31) >> 5);
    this.load(standing);
  }

  /** Goes over to a position. Due again when it has changed; no run outlives it. */
  load(standing: Standing): void {
    this.#standing = standing;
    this.#masks.set(standing.masks);
  }

  /** Assumes a live candidate, and nothing else, and follows it so many levels. See `go`. */
  assume(candidate: Candidate, levels: number): Fact {
    this.#run += 1;
    this.#time = 0;
    this.#head = 0;
    this.#tail = 1;
    this.gone.fill(0);
    this.#left.set(this.#masks);
    this.#fired[0] = BY_ASSUMPTION;
    this.#effect[0] = candidate;
    this.#level[0] = 0;
    this.#trueIn[candidate] = this.#run;
    return this.go(levels);
  }

  /** Rules out a candidate, and follows that. See `go`. */
  rule(candidate: Candidate): Fact {
    this.#fired[this.#tail] = FROM_OUTSIDE;
    this.#effect[this.#tail] = this.#of.outOf(candidate);
    this.#level[this.#tail] = 0;
    this.#tail += 1;
    return this.go(Number.POSITIVE_INFINITY);
  }

  /** Whether a candidate is still live in what the run has led to. */
  isLive(candidate: Candidate): boolean {
    return this.#standing.live[candidate] !== 0 && this.#deadIn[candidate] !== this.#run;
  }

  /** Puts a bare board into what the run had led to at a time. */
  standAt(time: number, world: Board): void {
    const { live, masks } = this.#standing;
    const { ownStart, ownFact, ownBit, candidateCount } = this.#tables;
    world.live.set(live);
    world.masks.set(masks);
    for (let candidate = 0; candidate < candidateCount; candidate += 1) {
      if (this.#deadIn[candidate] !== this.#run || this.#killTime[candidate] >= time) continue;
      world.live[candidate] = 0;
      for (let i = ownStart[candidate]; i < ownStart[candidate + 1]; i += 1) {
        world.masks[ownFact[i]] &= ~ownBit[i];
      }
    }
  }

  /**
   * Follows what waits. The fact that is left without a place, NOTHING_MORE or TOO_DEEP. One long loop over
   * local names: this is where a path spends its time.
   */
  go(levels: number): Fact {
    const { size, ownStart, ownFact, ownBit, candidateAt, digitOfFact } = this.#tables;
    const of = this.#of;
    const { start, fact: factIn, mask: maskIn, said, row } = of;
    const run = this.#run;
    const { gone } = this;
    const left = this.#left;
    const deadIn = this.#deadIn;
    const trueIn = this.#trueIn;
    const killer = this.#killer;
    const killTime = this.#killTime;
    const firedAt = this.#firedAt;
    const fired = this.#fired;
    const effects = this.#effect;
    const levelOf = this.#level;
    let head = this.#head;
    let tail = this.#tail;
    let time = this.#time;
    let outcome = NOTHING_MORE;
    scan: while (head < tail) {
      const by = fired[head];
      const level = levelOf[head] + 1;
      if (level > levels + 1) {
        outcome = TOO_DEEP;
        break;
      }
      const end = start[effects[head] + 1];
      for (let part = start[effects[head]]; part < end; part += 1) {
        const place0 = factIn[part] * size;
        for (let places = left[factIn[part]] & maskIn[part]; places !== 0; places &= places - 1) {
          const candidate = candidateAt[place0 + 31 - Math.clz32(places & -places)];
          time += 1;
          gone[candidate >> 5] |= 1 << (candidate & 31);
          deadIn[candidate] = run;
          killer[candidate] = by;
          killTime[candidate] = time;
          const last = ownStart[candidate + 1];
          for (let i = ownStart[candidate]; i < last; i += 1) {
            const fact = ownFact[i];
            const rest = left[fact] & ~ownBit[i];
            left[fact] = rest;
            const says = said === null ? of.sayOf(fact, rest) : said[row[fact] + rest];
            if (says === SAYS_NOTHING) continue;
            let effect: number;
            if (says > 0) {
              effect = candidateAt[fact * size + says - 1];
              if (trueIn[effect] === run) continue;
              trueIn[effect] = run;
            } else if (says === IS_EMPTY) {
              firedAt[fact] = time + 1;
              outcome = fact;
              break scan;
            } else if (says < MAY_BE_ALIGNED) {
              effect = MAY_BE_ALIGNED - says + digitOfFact[fact];
            } else {
              effect = of.effectOf(fact, rest, says);
              if (effect < 0) continue;
            }
            firedAt[fact] = time + 1;
            fired[tail] = fact;
            effects[tail] = effect;
            levelOf[tail] = level;
            tail += 1;
          }
        }
      }
      head += 1;
    }
    this.#head = head;
    this.#tail = tail;
    this.#time = time;
    return outcome;
  }

  /** The facts that an end rests on, ascending; null if there are more than `most`. */
  coreOf(end: Fact, most: number, explain?: Explain): Fact[] | null {
    return this.coreOfAll([end], most, this.#firedAt[end], explain);
  }

  /**
   * The same for some facts as they are left: they, and what their dead places rest on. `before`: only what
   * died before that time counts. `explain` is asked about candidates that were ruled out.
   */
  coreOfAll(
    ends: readonly Fact[],
    most: number,
    before: number = Number.MAX_SAFE_INTEGER,
    explain?: Explain,
  ): Fact[] | null {
    const { candidateAt, size } = this.#tables;
    this.#coreRun += 1;
    const core: Fact[] = [];
    const waiting: Fact[] = [];
    const add = (fact: Fact, until: number): void => {
      if (this.#coreIn[fact] !== this.#coreRun) {
        this.#coreIn[fact] = this.#coreRun;
        core.push(fact);
      } else if (this.#coreBefore[fact] >= until) return;
      this.#coreBefore[fact] = Math.min(until, 0x7fffffff);
      waiting.push(fact);
    };
    for (const fact of ends) add(fact, before);
    while (waiting.length > 0) {
      const fact = waiting.pop() as Fact;
      const until = this.#coreBefore[fact];
      for (let bit = 0; bit < size; bit += 1) {
        const place = candidateAt[fact * size + bit];
        if (this.#deadIn[place] !== this.#run || this.#killTime[place] >= until) continue;
        const killer = this.#killer[place];
        const time = this.#killTime[place];
        if (killer >= 0) add(killer, Math.min(time, this.#firedAt[killer]));
        else if (killer === FROM_OUTSIDE && explain) for (const one of explain(place, time)) add(one, time);
      }
      if (core.length > most) return null;
    }
    return inOrder(core);
  }
}

/** Sorts a few numbers in place, ascending. */
function inOrder(numbers: number[]): number[] {
  for (let i = 1; i < numbers.length; i += 1) {
    const number = numbers[i];
    let at = i;
    for (; at > 0 && numbers[at - 1] > number; at -= 1) numbers[at] = numbers[at - 1];
    numbers[at] = number;
  }
  return numbers;
}
