import type { Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import type { Board } from '../techniques/board.ts';
import type { Alignments } from '../techniques/fact-search-tables.ts';

/** A candidate and facts that rule it out; enough, perhaps more than needed. */
export interface Refutation {
  readonly candidate: Candidate;
  readonly facts: readonly Fact[];
}

const BY_ASSUMPTION = -1;

/**
 * What follows from assuming a candidate, one fact after the other: a fact with one place left makes it true,
 * a house fact with its places aligned strikes what sees them all, and a fact without a place is the end.
 * The facts that the end rests on refute the candidate. Chains, grouped chains and nets alike are found so.
 */
export class Nets {
  readonly #board: Board;
  readonly #alignments: Alignments;
  readonly #masks: Int32Array;
  /** The run in which a candidate died or was made true; in a run, by which fact and when it died. */
  readonly #deadIn: Int32Array;
  readonly #trueIn: Int32Array;
  readonly #killer: Int16Array;
  readonly #killTime: Int32Array;
  /** In a run: when the fact made a place true or struck by its aligned places. */
  readonly #firedAt: Int32Array;
  readonly #coreIn: Int32Array;
  readonly #trailFact: Uint16Array;
  readonly #trailMask: Int32Array;
  #trail = 0;
  /** What has fired and waits: the fact, the candidate made true or -1 - the number of an alignment, the level. */
  readonly #fired: Int16Array;
  readonly #effect: Int32Array;
  readonly #level: Int16Array;
  #run = 0;
  #coreRun = 0;

  constructor(board: Board, alignments: Alignments) {
    const { factCount, candidateCount } = board.tables;
    this.#board = board;
    this.#alignments = alignments;
    this.#masks = new Int32Array(factCount);
    this.#deadIn = new Int32Array(candidateCount);
    this.#trueIn = new Int32Array(candidateCount);
    this.#killer = new Int16Array(candidateCount);
    this.#killTime = new Int32Array(candidateCount);
    this.#firedAt = new Int32Array(factCount);
    this.#coreIn = new Int32Array(factCount);
    this.#trailFact = new Uint16Array(candidateCount * 8);
    this.#trailMask = new Int32Array(candidateCount * 8);
    this.#fired = new Int16Array(candidateCount + factCount * 10);
    this.#effect = new Int32Array(candidateCount + factCount * 10);
    this.#level = new Int16Array(candidateCount + factCount * 10);
  }

  /**
   * The lightest refutations by what follows, for all candidates, found by looking ever deeper; the few
   * lightest, lightest first. Empty where no candidate is refuted in this way.
   */
  lightest(few: number): Refutation[] {
    const { live, placed, layout, tables } = this.#board;
    this.#masks.set(this.#board.masks);
    let found: Refutation[] = [];
    for (const levels of [3, 5, 8, 1000]) {
      let deeper = false;
      found = [];
      for (let candidate = 0; candidate < tables.candidateCount; candidate += 1) {
        if (live[candidate] === 0 || placed[Math.floor(candidate / layout.size)] !== 0) continue;
        const most = found.length < few ? 1000 : found[few - 1].facts.length;
        const outcome = this.#assume(candidate, levels, most);
        if (outcome === 'deeper') deeper = true;
        if (typeof outcome === 'string') continue;
        found.push({ candidate, facts: outcome });
        found.sort((a, b) => a.facts.length - b.facts.length || a.candidate - b.candidate);
        found.length = Math.min(found.length, few);
      }
      if (!deeper || (found.length > 0 && found[0].facts.length <= levels + 2)) break;
    }
    return found;
  }

  /** Every candidate for which so many facts or fewer turn up, with them. */
  upTo(most: number): Refutation[] {
    const { live, placed, layout, tables } = this.#board;
    this.#masks.set(this.#board.masks);
    const found: Refutation[] = [];
    for (let candidate = 0; candidate < tables.candidateCount; candidate += 1) {
      if (live[candidate] === 0 || placed[Math.floor(candidate / layout.size)] !== 0) continue;
      const outcome = this.#assume(candidate, most, most);
      if (typeof outcome !== 'string') found.push({ candidate, facts: outcome });
    }
    return found;
  }

  /** Facts that refute a candidate; `open`: nothing comes of it; `deeper`: nothing in so many levels. */
  #assume(candidate: Candidate, levels: number, most: number): Fact[] | 'open' | 'deeper' {
    this.#run += 1;
    this.#trail = 0;
    const end = this.#follow(candidate, levels);
    const core = end >= 0 ? this.#coreOf(end, most) : null;
    for (let i = this.#trail - 1; i >= 0; i -= 1) this.#masks[this.#trailFact[i]] = this.#trailMask[i];
    if (end >= 0) return core ?? 'open';
    return end === -1 ? 'open' : 'deeper';
  }

  /** The fact that is left without a place; -1: none is; -2: none is so far. */
  #follow(candidate: Candidate, levels: number): Fact {
    const { tables, layout, live } = this.#board;
    const { size, cellCount } = layout;
    const { excludes, ownStart, ownFact, ownBit, candidateAt } = tables;
    const masks = this.#masks;
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
      const digit = effect < 0 ? (by - cellCount) % size : 0;
      const struck = effect >= 0 ? excludes[effect] : this.#alignments.cells[-1 - effect];
      for (let i = 0; i < struck.length; i += 1) {
        const other = effect >= 0 ? struck[i] : struck[i] * size + digit;
        if (live[other] === 0 || this.#deadIn[other] === run) continue;
        this.#deadIn[other] = run;
        this.#killer[other] = by;
        time += 1;
        this.#killTime[other] = time;
        for (let j = ownStart[other]; j < ownStart[other + 1]; j += 1) {
          const fact = ownFact[j];
          const mask = masks[fact];
          this.#trailFact[this.#trail] = fact;
          this.#trailMask[this.#trail] = mask;
          this.#trail += 1;
          const rest = mask & ~ownBit[j];
          masks[fact] = rest;
          if (rest === 0) {
            this.#firedAt[fact] = time + 1;
            return fact;
          }
          let next: number;
          if ((rest & (rest - 1)) === 0) {
            next = candidateAt[fact * size + 31 - Math.clz32(rest)];
            if (this.#trueIn[next] === run) continue;
            this.#trueIn[next] = run;
          } else {
            if (fact < cellCount) continue;
            const number = this.#alignments.of(Math.floor((fact - cellCount) / size), rest);
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
    const { candidateAt } = this.#board.tables;
    const { size } = this.#board.layout;
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
