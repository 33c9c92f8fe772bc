import type { Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import type { Board } from '../techniques/board.ts';

const LIVE = -1;
const DEAD_BEFORE = -2;

/**
 * Some facts of a board and what their places exclude, flat and small: asked again and again whether some of
 * the facts can come out together. Places and facts are numbered from 0 as they turn up here.
 */
class Arranging {
  readonly facts: readonly Fact[];
  readonly #places: readonly number[][];
  readonly #factsOf: readonly number[][];
  readonly #excludes: readonly number[][];
  readonly #killer: Int32Array;
  readonly #killTime: Int32Array;
  readonly #count: Int32Array;
  readonly #chosenAt: Int32Array;
  readonly #choice: Int32Array;
  /** How often a fact was a dead end, and one: such facts are looked at earlier. */
  readonly #weight: Float64Array;
  readonly #trail: number[] = [];
  #clock = 0;
  #spent = 0;

  constructor(board: Board, assumed: Candidate, facts: readonly Fact[]) {
    this.facts = facts;
    const { excludes } = board.tables;
    const shut = new Set<Candidate>(excludes[assumed]);
    const numbers = new Map<Candidate, number>();
    const factsOf: number[][] = [];
    this.#places = facts.map((fact, index) =>
      board.placesOf(fact).flatMap((place) => {
        if (shut.has(place)) return [];
        let number = numbers.get(place);
        if (number === undefined) {
          number = numbers.size;
          numbers.set(place, number);
          factsOf.push([]);
        }
        factsOf[number].push(index);
        return [number];
      }),
    );
    this.#factsOf = factsOf;
    this.#excludes = [...numbers.keys()].map((place) =>
      [...excludes[place]].flatMap((other) => numbers.get(other) ?? []),
    );
    this.#killer = new Int32Array(numbers.size).fill(LIVE);
    this.#killTime = new Int32Array(numbers.size);
    this.#count = Int32Array.from(this.#places, (places) => places.length);
    this.#chosenAt = new Int32Array(facts.length);
    this.#choice = new Int32Array(facts.length);
    this.#weight = new Float64Array(facts.length).fill(1);
  }

  /**
   * The facts that dead ends rest on, among those allowed, by index; or, where these can come out together,
   * a place for each of them. Null where that takes more choices than `nodes`.
   */
  decide(
    allowed: readonly number[],
    nodes: number,
  ): { readonly core: Set<number> } | { readonly arrangement: Int32Array } | null {
    this.#spent = nodes;
    this.#clock = 1;
    const core = this.#search(allowed);
    if (core !== 'arranged') return core && { core };
    const arrangement = new Int32Array(this.facts.length).fill(-1);
    for (const fact of allowed) arrangement[fact] = this.#choice[fact];
    this.#undoTo(0);
    this.#chosenAt.fill(0);
    return { arrangement };
  }

  #search(allowed: readonly number[]): Set<number> | 'arranged' | null {
    const mark = this.#trail.length;
    const forced: number[] = [];
    const leave = <T>(answer: T): T => {
      this.#undoTo(mark);
      for (const fact of forced) this.#chosenAt[fact] = 0;
      return answer;
    };
    for (;;) {
      let next = -1;
      let best = Number.POSITIVE_INFINITY;
      for (const fact of allowed) {
        if (this.#chosenAt[fact] !== 0) continue;
        if (this.#count[fact] < 2) {
          next = fact;
          if (this.#count[fact] === 0) break;
          best = 0;
          continue;
        }
        const rank = this.#count[fact] / this.#weight[fact];
        if (rank >= best) continue;
        best = rank;
        next = fact;
      }
      if (next < 0) return 'arranged';
      if (this.#count[next] === 0) {
        this.#weight[next] += 1;
        const core = new Set<number>();
        this.#clock += 1;
        this.#addWithReasons(core, next, this.#clock);
        return leave(core);
      }
      this.#spent -= 1;
      if (this.#spent < 0) return leave(null);
      const places = this.#places[next].filter((place) => this.#killer[place] === LIVE);
      if (places.length === 1) {
        this.#choose(next, places[0]);
        forced.push(next);
        continue;
      }
      const whole = new Set<number>();
      const before = this.#clock + 1;
      for (const place of places) {
        const depth = this.#trail.length;
        this.#choose(next, place);
        const core = this.#search(allowed);
        if (core === 'arranged') return core;
        this.#undoTo(depth);
        this.#chosenAt[next] = 0;
        if (core === null || !core.has(next)) return leave(core);
        for (const fact of core) whole.add(fact);
      }
      whole.delete(next);
      this.#addWithReasons(whole, next, before);
      return leave(whole);
    }
  }

  #choose(fact: number, place: number): void {
    this.#clock += 1;
    this.#chosenAt[fact] = this.#clock;
    this.#choice[fact] = place;
    for (const other of this.#excludes[place]) {
      if (this.#killer[other] !== LIVE) continue;
      this.#killer[other] = fact;
      this.#killTime[other] = this.#clock;
      this.#trail.push(other);
      for (const one of this.#factsOf[other]) this.#count[one] -= 1;
    }
  }

  #undoTo(length: number): void {
    while (this.#trail.length > length) {
      const place = this.#trail.pop() as number;
      this.#killer[place] = LIVE;
      for (const one of this.#factsOf[place]) this.#count[one] += 1;
    }
  }

  /** Adds a fact and, for the places that it had lost by `before`, the facts whose choices took them. */
  #addWithReasons(core: Set<number>, fact: number, before: number): void {
    if (core.has(fact)) return;
    core.add(fact);
    for (const place of this.#places[fact]) {
      const by = this.#killer[place];
      if (by > DEAD_BEFORE && by !== LIVE && this.#killTime[place] < before) {
        this.#addWithReasons(core, by, this.#chosenAt[by]);
      }
    }
  }

  /**
   * Facts that are needed because an arrangement of all others than one of them is there: from one that
   * leaves `missing` out, by letting it have a place and seeing whether that leaves out exactly one other.
   */
  rotate(arrangement: Int32Array, missing: number, kept: readonly number[], needed: Set<number>): void {
    for (const place of this.#places[missing]) {
      const clashing = kept.filter(
        (fact) => fact !== missing && this.#excludes[place].includes(arrangement[fact]),
      );
      if (clashing.length !== 1 || needed.has(clashing[0])) continue;
      const turned = arrangement.slice();
      turned[missing] = place;
      turned[clashing[0]] = -1;
      needed.add(clashing[0]);
      this.rotate(turned, clashing[0], kept, needed);
    }
  }
}

/** How many choices a trial may take before a fact is taken to be needed. */
const trialNodes = 20_000;

/**
 * Leaves out of facts that refute a candidate those that are not needed: none of what is left can be dropped,
 * unless the bound cuts a trial short. Null where the facts do not refute it within the bound.
 */
export function shrink(board: Board, candidate: Candidate, facts: readonly Fact[]): Fact[] | null {
  const arranging = new Arranging(board, candidate, facts);
  const all = facts.map((_, index) => index);
  const first = arranging.decide(all, trialNodes * 5);
  if (first === null || 'arrangement' in first) return null;
  let kept = all.filter((fact) => first.core.has(fact));
  const needed = new Set<number>();
  for (const fact of [...all].reverse()) {
    if (!kept.includes(fact) || needed.has(fact)) continue;
    const outcome = arranging.decide(
      kept.filter((other) => other !== fact),
      trialNodes,
    );
    if (outcome === null) continue;
    if ('core' in outcome) {
      kept = kept.filter((other) => outcome.core.has(other));
    } else {
      needed.add(fact);
      arranging.rotate(outcome.arrangement, fact, kept, needed);
    }
  }
  return kept.map((index) => facts[index]);
}
