import { factCount } from '../../source/argument/fact.ts';
import { type Fact, placesOf } from '../../source/argument/kernel.ts';
import { type Candidate, conflicts } from '../../source/grid/layout.ts';
import type { Position } from '../../source/grid/position.ts';
import { Random } from '../random.ts';
import type { SlowSearch } from './slow-fact-search.ts';

/**
 * The k-fact search by what choices leave unmet, quicker than going through all sets and as plain to see:
 *
 * Take any choice of candidates, no two in conflict, with x among them. The facts that have a place among them
 * are met, the others unmet. Facts that are all met leave x open. So a set of facts that refutes x has, for
 * every such choice, at least one of the facts that the choice leaves unmet.
 *
 * So: begin with no facts; as long as those chosen can be arranged with x, take some choice that meets them all,
 * and try each of the facts that it leaves unmet as the next one, until k are chosen. A fact that has been tried
 * at one place need not be tried again beside the others of that place. Which choice is taken decides how long
 * it takes, never what comes out.
 */
export function unmetFactSearch(position: Position, k: number, seed = 1): SlowSearch {
  const choices = new Choices(position, new Random(seed));
  const breaking = new Search(choices, null).fewest(k);
  if (breaking !== null) return { broken: breaking, fewest: new Map() };
  const fewest = new Map<Candidate, number>();
  for (const candidate of position.candidates) {
    const size = new Search(choices, candidate).fewest(k);
    if (size !== null) fewest.set(candidate, size);
  }
  return { broken: null, fewest };
}

/** The facts that a choice leaves unmet, and for each fact whether it is one. */
interface Unmet {
  readonly facts: readonly Fact[];
  readonly has: Uint8Array;
}

/** The live candidates and facts of a position, by number, and choices among them. A choice is kept for each of its candidates. */
class Choices {
  readonly #live: readonly Candidate[];
  readonly #random: Random;
  readonly #places: readonly (readonly number[])[];
  readonly #factsOf: readonly (readonly Fact[])[];
  readonly #against: readonly (readonly number[])[];
  readonly #numberOf: ReadonlyMap<Candidate, number>;
  readonly #all: Unmet[] = [];
  readonly #with: readonly Unmet[][];

  constructor(position: Position, random: Random) {
    const { layout } = position;
    const live = [...position.candidates];
    const numberOf = new Map(live.map((candidate, number) => [candidate, number]));
    const factsOf: Fact[][] = live.map(() => []);
    this.#places = Array.from({ length: factCount(layout) }, (_, fact) =>
      placesOf(position, fact).map((candidate) => numberOf.get(candidate) as number),
    );
    this.#places.forEach((places, fact) => {
      for (const place of places) factsOf[place].push(fact);
    });
    this.#live = live;
    this.#with = live.map(() => []);
    this.#random = random;
    this.#factsOf = factsOf;
    this.#numberOf = numberOf;
    this.#against = live.map((a) => live.flatMap((b, number) => (conflicts(layout, a, b) ? [number] : [])));
  }

  /** What the choices taken so far leave unmet, those that have x. */
  known(x: Candidate | null): readonly Unmet[] {
    return x === null ? this.#all : this.#with[this.#numberOf.get(x) as number];
  }

  /** What some choice leaves unmet that has x and a place of each of the facts; null where there is none. */
  unmetBy(x: Candidate | null, facts: readonly Fact[]): Unmet | null {
    const start = x === null ? [] : [this.#numberOf.get(x) as number];
    const first = this.#arrange(facts, start);
    return first && this.#extend(first);
  }

  /** One place of each fact beside those chosen, no two in conflict. */
  #arrange(facts: readonly Fact[], chosen: readonly number[]): readonly number[] | null {
    if (facts.length === 0) return chosen;
    const [fact, ...others] = facts;
    for (const place of this.#places[fact]) {
      if (chosen.some((other) => this.#against[other].includes(place))) continue;
      const all = this.#arrange(others, [...chosen, place]);
      if (all) return all;
    }
    return null;
  }

  /** The choice with more candidates added until no other fits, so that few facts are left unmet. */
  #extend(chosen: readonly number[]): Unmet {
    const shut = new Uint8Array(this.#live.length);
    const left = this.#places.map((places) => places.length);
    const all: number[] = [];
    const met = new Uint8Array(this.#places.length);
    const choose = (place: number): void => {
      if (!all.includes(place)) all.push(place);
      for (const fact of this.#factsOf[place]) met[fact] = 1;
      for (const other of this.#against[place]) {
        if (shut[other] === 1) continue;
        shut[other] = 1;
        for (const fact of this.#factsOf[other]) left[fact] -= 1;
      }
    };
    for (const place of chosen) choose(place);
    for (;;) {
      let next = -1;
      let least = Number.POSITIVE_INFINITY;
      const from = this.#random.below(left.length);
      for (let i = 0; i < left.length; i += 1) {
        const fact = (from + i) % left.length;
        if (met[fact] === 1 || left[fact] === 0 || left[fact] >= least) continue;
        least = left[fact];
        next = fact;
      }
      if (next < 0) break;
      let best = -1;
      let fewestLost = Number.POSITIVE_INFINITY;
      for (const place of this.#places[next]) {
        if (shut[place] === 1) continue;
        const lost = this.#lostBy(place, shut, left, met);
        if (lost >= fewestLost) continue;
        fewestLost = lost;
        best = place;
      }
      choose(best);
    }
    const facts = this.#places.flatMap((_, fact) => (met[fact] === 1 ? [] : [fact]));
    const unmet = { facts, has: met.map((isMet) => 1 - isMet) };
    this.#all.push(unmet);
    for (const place of all) this.#with[place].push(unmet);
    return unmet;
  }

  /** How many unmet facts would be left without a place. */
  #lostBy(place: number, shut: Uint8Array, left: readonly number[], met: Uint8Array): number {
    const own = this.#factsOf[place];
    const gone = new Map<Fact, number>();
    for (const other of this.#against[place]) {
      if (shut[other] === 1) continue;
      for (const fact of this.#factsOf[other]) {
        if (met[fact] === 0 && !own.includes(fact)) gone.set(fact, (gone.get(fact) ?? 0) + 1);
      }
    }
    let lost = 0;
    for (const [fact, count] of gone) if (count === left[fact]) lost += 1;
    return lost;
  }
}

/** The search for one candidate, or, with null, for facts that cannot all hold. */
class Search {
  readonly #choices: Choices;
  readonly #x: Candidate | null;

  constructor(choices: Choices, x: Candidate | null) {
    this.#choices = choices;
    this.#x = x;
  }

  /** The size of the smallest set of at most k facts that refutes; null if there is none. */
  fewest(k: number): number | null {
    for (let size = 0; size <= k; size += 1) if (this.#refutes([], new Set(), size)) return size;
    return null;
  }

  /** Whether the facts, with at most so many more, none of those tried before, refute. */
  #refutes(facts: readonly Fact[], tried: ReadonlySet<Fact>, more: number): boolean {
    let open: readonly Fact[] | null = null;
    let isKnown = false;
    for (const unmet of this.#choices.known(this.#x)) {
      if (facts.some((fact) => unmet.has[fact] === 1)) continue;
      isKnown = true;
      if (more === 0) return false;
      if (open !== null && unmet.facts.length - tried.size >= open.length) continue;
      const left = unmet.facts.filter((fact) => !tried.has(fact));
      if (open === null || left.length < open.length) open = left;
      if (left.length === 0) return false;
    }
    if (!isKnown) {
      const unmet = this.#choices.unmetBy(this.#x, facts);
      if (unmet === null) return true;
      open = unmet.facts.filter((fact) => !tried.has(fact));
    }
    if (more === 0 || open === null) return false;
    const done = new Set(tried);
    for (const fact of open) {
      if (this.#refutes([...facts, fact], done, more - 1)) return true;
      done.add(fact);
    }
    return false;
  }
}
