import type { Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import type { Board } from '../techniques/board.ts';
import type { SearchTables } from '../techniques/fact-search-tables.ts';
import { bitCount } from '../techniques/finding.ts';
import { meetingsOf } from '../techniques/meetings.ts';

/** Where a board stands: for each fact its live places as bits, for each candidate whether it is live. */
export interface Standing {
  readonly masks: ArrayLike<number>;
  readonly live: Uint8Array;
}

const BY_ASSUMPTION = -1;
const FROM_OUTSIDE = -2;

/** Facts that rule out a candidate in what a run had led to at a time. */
export type Explain = (candidate: Candidate, time: number) => readonly Fact[];

/** The effect of what is ruled out from outside: no candidate made true, and no alignment. */
const RULED = -0x40000000;

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
  /** The most places that can be aligned: the most cells that two houses share. */
  readonly #mostAligned: number;
  #standing: Standing;
  /** The candidates that one excludes, flat, and the live ones among them up to `liveEnd` where `listedIn` is the load. */
  readonly #allFrom: Int32Array;
  readonly #all: Uint16Array;
  readonly #live: Uint16Array;
  readonly #liveEnd: Int32Array;
  readonly #listedIn: Int32Array;
  #load = 0;
  /** In a run: what is left of a fact's places, valid where `touchedIn` is the run. */
  readonly #left: Int32Array;
  readonly #touchedIn: Int32Array;
  /** The run in which a candidate died or was made true; in a run, by what and when it died. */
  readonly #deadIn: Int32Array;
  readonly #trueIn: Int32Array;
  readonly #killer: Int32Array;
  readonly #killTime: Int32Array;
  /** In a run: when the fact made a place true or struck by its aligned places. */
  readonly #firedAt: Int32Array;
  readonly #coreIn: Int32Array;
  readonly #coreBefore: Int32Array;
  /** What has fired and waits: the fact, the candidate made true or -1 - the number of an alignment, the level. */
  readonly #fired: Int16Array;
  readonly #effect: Int32Array;
  readonly #level: Int32Array;
  /** The candidate last ruled out from outside. */
  #ruled: Candidate = 0;
  #head = 0;
  #tail = 0;
  #time = 0;
  #run = 0;
  #coreRun = 0;
  /** The facts that the run has touched, as bits: bit `fact & 31` of word `fact >> 5`. */
  readonly touched: Int32Array;

  constructor(tables: SearchTables, standing: Standing) {
    const { factCount, candidateCount, excludes, layout, size } = tables;
    this.#tables = tables;
    this.#standing = standing;
    this.#mostAligned = Math.max(0, ...meetingsOf(layout).map(({ shared }) => bitCount(shared)));
    this.#allFrom = new Int32Array(candidateCount + 1);
    for (let c = 0; c < candidateCount; c += 1) this.#allFrom[c + 1] = this.#allFrom[c] + excludes[c].length;
    this.#all = new Uint16Array(this.#allFrom[candidateCount]);
    for (let c = 0; c < candidateCount; c += 1) this.#all.set(excludes[c], this.#allFrom[c]);
    this.#live = new Uint16Array(this.#all.length);
    this.#liveEnd = new Int32Array(candidateCount);
    this.#listedIn = new Int32Array(candidateCount);
    this.#left = new Int32Array(factCount);
    this.#touchedIn = new Int32Array(factCount);
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
    this.touched = new Int32Array((factCount + 31) >> 5);
  }

  /** Goes over to a position. Due again when it has changed; no run outlives it. */
  load(standing: Standing): void {
    this.#standing = standing;
    this.#load += 1;
  }

  /** Lists the live candidates that one excludes: only those that are made true are asked for. */
  #list(candidate: Candidate): void {
    const { live } = this.#standing;
    let end = this.#allFrom[candidate];
    for (let i = end; i < this.#allFrom[candidate + 1]; i += 1) {
      const other = this.#all[i];
      if (live[other] === 0) continue;
      this.#live[end] = other;
      end += 1;
    }
    this.#liveEnd[candidate] = end;
    this.#listedIn[candidate] = this.#load;
  }

  /** Assumes a live candidate, and nothing else, and follows it so many levels. See `go`. */
  assume(candidate: Candidate, levels: number): Fact {
    this.#run += 1;
    this.#time = 0;
    this.#head = 0;
    this.#tail = 1;
    this.touched.fill(0);
    this.#fired[0] = BY_ASSUMPTION;
    this.#effect[0] = candidate;
    this.#level[0] = 0;
    this.#trueIn[candidate] = this.#run;
    return this.go(levels);
  }

  /** Rules out a candidate, and follows that. See `go`. */
  rule(candidate: Candidate): Fact {
    this.#ruled = candidate;
    this.#fired[this.#tail] = FROM_OUTSIDE;
    this.#effect[this.#tail] = RULED;
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
    const { alignments, size, digitOfFact, ownStart, ownFact, ownBit, candidateAt, cellCount, houseOf } =
      this.#tables;
    const { live, masks } = this.#standing;
    const run = this.#run;
    const left = this.#left;
    const touchedIn = this.#touchedIn;
    const touched = this.touched;
    const deadIn = this.#deadIn;
    const trueIn = this.#trueIn;
    const killer = this.#killer;
    const killTime = this.#killTime;
    const firedAt = this.#firedAt;
    const fired = this.#fired;
    const effects = this.#effect;
    const levelOf = this.#level;
    const excluded = this.#live;
    const spare = this.#mostAligned - 2;
    let head = this.#head;
    let tail = this.#tail;
    let time = this.#time;
    let outcome = NOTHING_MORE;
    scan: while (head < tail) {
      const by = fired[head];
      const effect = effects[head];
      const level = levelOf[head];
      if (level > levels) {
        outcome = TOO_DEEP;
        break;
      }
      head += 1;
      const cells = effect >= 0 ? null : effect === RULED ? null : alignments.cells[-1 - effect];
      const digit = cells === null ? 0 : digitOfFact[by] - 1;
      if (effect >= 0 && this.#listedIn[effect] !== this.#load) this.#list(effect);
      const start = effect >= 0 ? this.#allFrom[effect] : 0;
      const end = cells !== null ? cells.length : effect >= 0 ? this.#liveEnd[effect] : 1;
      for (let i = start; i < end; i += 1) {
        const other = cells !== null ? cells[i] * size + digit : effect >= 0 ? excluded[i] : this.#ruled;
        if (deadIn[other] === run || live[other] === 0) continue;
        time += 1;
        deadIn[other] = run;
        killer[other] = by;
        killTime[other] = time;
        const last = ownStart[other + 1];
        for (let j = ownStart[other]; j < last; j += 1) {
          const fact = ownFact[j];
          let mask: number;
          if (touchedIn[fact] === run) mask = left[fact];
          else {
            touchedIn[fact] = run;
            touched[fact >> 5] |= 1 << (fact & 31);
            mask = masks[fact];
          }
          const rest = mask & ~ownBit[j];
          left[fact] = rest;
          const more = rest & (rest - 1);
          let next: number;
          if (more === 0) {
            if (rest === 0) {
              firedAt[fact] = time + 1;
              outcome = fact;
              break scan;
            }
            next = candidateAt[fact * size + 31 - Math.clz32(rest)];
            if (trueIn[next] === run) continue;
            trueIn[next] = run;
          } else {
            if (fact < cellCount) continue;
            const third = more & (more - 1);
            if (third !== 0 && (spare < 1 || bitCount(third) > spare)) continue;
            const number = alignments.of(houseOf[fact], rest);
            if (number === 0) continue;
            next = -1 - number;
          }
          firedAt[fact] = time + 1;
          fired[tail] = fact;
          effects[tail] = next;
          levelOf[tail] = level + 1;
          tail += 1;
        }
      }
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
