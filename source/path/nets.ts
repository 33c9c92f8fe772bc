import type { Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import type { Board } from '../techniques/board.ts';
import { type SearchTables, searchTablesOf } from '../techniques/fact-search-tables.ts';
import { bitCount } from '../techniques/finding.ts';
import { meetingsOf } from '../techniques/meetings.ts';

/** A candidate and facts that rule it out; enough, perhaps more than needed. */
export interface Refutation {
  readonly candidate: Candidate;
  readonly facts: readonly Fact[];
}

const BY_ASSUMPTION = -1;
const allLevels = 1_000_000;

/**
 * What follows from assuming a candidate, one fact after the other: a fact with one place left makes it true,
 * a house fact with its places aligned strikes what sees them all, and a fact without a place is the end.
 * The facts that the end rests on refute the candidate. Chains, grouped chains and nets alike are found so.
 * A candidate's level counts the facts on the way to it.
 */
export class Nets {
  readonly #board: Board;
  readonly #tables: SearchTables;
  /** The most places that can be aligned: the most cells that two houses share. */
  readonly #mostAligned: number;
  /** The live candidates that a live one excludes, flat. */
  readonly #excludedFrom: Int32Array;
  readonly #excluded: Uint16Array;
  /** In a run: what is left of a fact's places, valid where `touchedIn` is the run. */
  readonly #left: Int32Array;
  readonly #touchedIn: Int32Array;
  /** The run in which a candidate died or was made true; in a run, by which fact and when it died. */
  readonly #deadIn: Int32Array;
  readonly #trueIn: Int32Array;
  readonly #killer: Int16Array;
  readonly #killTime: Int32Array;
  /** In a run: when the fact made a place true or struck by its aligned places. */
  readonly #firedAt: Int32Array;
  readonly #coreIn: Int32Array;
  /** What has fired and waits: the fact, the candidate made true or -1 - the number of an alignment, the level. */
  readonly #fired: Int16Array;
  readonly #effect: Int32Array;
  readonly #level: Int16Array;
  #run = 0;
  #coreRun = 0;
  #cursor = 0;
  /** Whether some search since this was last asked ended because of its levels. */
  #cutShort = false;

  constructor(board: Board) {
    const { factCount, candidateCount, excludes } = board.tables;
    const { layout } = board;
    this.#board = board;
    this.#tables = searchTablesOf(layout);
    this.#mostAligned = Math.max(0, ...meetingsOf(layout).map(({ shared }) => bitCount(shared)));
    this.#excludedFrom = new Int32Array(candidateCount + 1);
    this.#excluded = new Uint16Array(excludes.reduce((sum, others) => sum + others.length, 0));
    this.#left = new Int32Array(factCount);
    this.#touchedIn = new Int32Array(factCount);
    this.#deadIn = new Int32Array(candidateCount);
    this.#trueIn = new Int32Array(candidateCount);
    this.#killer = new Int16Array(candidateCount);
    this.#killTime = new Int32Array(candidateCount);
    this.#firedAt = new Int32Array(factCount);
    this.#coreIn = new Int32Array(factCount);
    const firings = candidateCount + factCount * layout.size;
    this.#fired = new Int16Array(firings);
    this.#effect = new Int32Array(firings);
    this.#level = new Int16Array(firings);
  }

  /** Takes over the position that the board stands in now. Due before every search. */
  load(): void {
    const { live, tables } = this.#board;
    let end = 0;
    for (let candidate = 0; candidate < tables.candidateCount; candidate += 1) {
      this.#excludedFrom[candidate] = end;
      if (live[candidate] === 0) continue;
      const others = tables.excludes[candidate];
      for (let i = 0; i < others.length; i += 1) {
        if (live[others[i]] === 0) continue;
        this.#excluded[end] = others[i];
        end += 1;
      }
    }
    this.#excludedFrom[tables.candidateCount] = end;
  }

  /** Every candidate for which so many facts or fewer turn up within so many levels, with them. */
  upTo(most: number, levels: number = most): Refutation[] {
    const found: Refutation[] = [];
    for (let candidate = 0; candidate < this.#tables.candidateCount; candidate += 1) {
      const facts = this.#refuting(candidate, levels, most);
      if (facts !== null) found.push({ candidate, facts });
    }
    return found;
  }

  /**
   * The few lightest refutations by what follows, lightest first, found by looking ever deeper; the first
   * one of `enough` facts is taken alone and at once. Each search goes on from where the last one ended.
   */
  lightest(few: number, enough: number): Refutation[] {
    const { candidateCount, factCount } = this.#tables;
    let found: Refutation[] = [];
    for (const levels of [3, 6, allLevels]) {
      this.#cutShort = false;
      found = [];
      for (let i = 1; i <= candidateCount; i += 1) {
        const candidate = (this.#cursor + i) % candidateCount;
        const most = found.length < few ? factCount : found[few - 1].facts.length - 1;
        const facts = this.#refuting(candidate, levels, most);
        if (facts === null) continue;
        if (facts.length <= enough) {
          this.#cursor = candidate;
          return [{ candidate, facts }];
        }
        found.push({ candidate, facts });
        found.sort((a, b) => a.facts.length - b.facts.length || a.candidate - b.candidate);
        found.length = Math.min(found.length, few);
      }
      if (!this.#cutShort || (found.length > 0 && found[0].facts.length <= levels + 2)) break;
    }
    return found;
  }

  /** Facts that refute a candidate, found within so many levels; null where there are none or too many. */
  #refuting(candidate: Candidate, levels: number, most: number): Fact[] | null {
    const { live, placed } = this.#board;
    if (live[candidate] === 0 || placed[this.#tables.cellOf[candidate]] !== 0) return null;
    this.#run += 1;
    const end = this.#follow(candidate, levels);
    if (end >= 0) return this.#coreOf(end, most);
    if (end === -2) this.#cutShort = true;
    return null;
  }

  /** The fact that is left without a place; -1: none is; -2: none is so far. */
  #follow(candidate: Candidate, levels: number): Fact {
    const { ownStart, ownFact, ownBit, candidateAt, size, cellCount, houseOf, digitOfFact, alignments } =
      this.#tables;
    const { masks, live } = this.#board;
    const left = this.#left;
    const touchedIn = this.#touchedIn;
    const deadIn = this.#deadIn;
    const run = this.#run;
    let head = 0;
    let tail = 1;
    let time = 0;
    this.#fired[0] = BY_ASSUMPTION;
    this.#effect[0] = candidate;
    this.#level[0] = 0;
    this.#trueIn[candidate] = run;
    while (head < tail) {
      const by = this.#fired[head];
      const effect = this.#effect[head];
      const level = this.#level[head];
      head += 1;
      if (level > levels) return -2;
      const cells = effect < 0 ? alignments.cells[-1 - effect] : null;
      const digit = effect < 0 ? digitOfFact[by] - 1 : 0;
      const start = effect < 0 ? 0 : this.#excludedFrom[effect];
      const end = cells !== null ? cells.length : this.#excludedFrom[effect + 1];
      for (let i = start; i < end; i += 1) {
        const other = cells === null ? this.#excluded[i] : cells[i] * size + digit;
        if (deadIn[other] === run || live[other] === 0) continue;
        deadIn[other] = run;
        this.#killer[other] = by;
        time += 1;
        this.#killTime[other] = time;
        for (let j = ownStart[other]; j < ownStart[other + 1]; j += 1) {
          const fact = ownFact[j];
          const rest = (touchedIn[fact] === run ? left[fact] : masks[fact]) & ~ownBit[j];
          touchedIn[fact] = run;
          left[fact] = rest;
          const more = rest & (rest - 1);
          let next: number;
          if (more === 0) {
            if (rest === 0) {
              this.#firedAt[fact] = time + 1;
              return fact;
            }
            next = candidateAt[fact * size + 31 - Math.clz32(rest)];
            if (this.#trueIn[next] === run) continue;
            this.#trueIn[next] = run;
          } else {
            if (fact < cellCount) continue;
            const third = more & (more - 1);
            if (third !== 0 && bitCount(third) > this.#mostAligned - 2) continue;
            const number = alignments.of(houseOf[fact], rest);
            if (number === 0) continue;
            next = -1 - number;
          }
          this.#firedAt[fact] = time + 1;
          this.#fired[tail] = fact;
          this.#effect[tail] = next;
          this.#level[tail] = level + 1;
          tail += 1;
        }
      }
    }
    return -1;
  }

  /** The facts that the end rests on, ascending; null if there are more than `most`. */
  #coreOf(end: Fact, most: number): Fact[] | null {
    const { candidateAt, size } = this.#tables;
    const run = this.#run;
    this.#coreRun += 1;
    const core: Fact[] = [end];
    this.#coreIn[end] = this.#coreRun;
    for (let i = 0; i < core.length; i += 1) {
      const fact = core[i];
      for (let bit = 0; bit < size; bit += 1) {
        const place = candidateAt[fact * size + bit];
        if (this.#deadIn[place] !== run || this.#killTime[place] >= this.#firedAt[fact]) continue;
        const killer = this.#killer[place];
        if (killer === BY_ASSUMPTION || this.#coreIn[killer] === this.#coreRun) continue;
        this.#coreIn[killer] = this.#coreRun;
        core.push(killer);
        if (core.length > most) return null;
      }
    }
    return core.sort((a, b) => a - b);
  }
}
