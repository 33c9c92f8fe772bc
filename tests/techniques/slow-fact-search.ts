import { factCount } from '../../source/argument/fact.ts';
import { type Fact, placesOf } from '../../source/argument/kernel.ts';
import { type Candidate, conflicts } from '../../source/grid/layout.ts';
import type { Position } from '../../source/grid/position.ts';

/** What all sets of at most k facts say of a position. */
export interface SlowSearch {
  /** The size of the smallest set of facts without an arrangement, if there is one; then nothing else is told. */
  readonly broken: number | null;
  /** For each live candidate that some of the sets refute, the size of the smallest one. */
  readonly fewest: ReadonlyMap<Candidate, number>;
}

/**
 * The k-fact search by the definition, slow: every set of at most k facts, every arrangement of each. A
 * candidate is struck by a set if each arrangement of it has a place in conflict with the candidate. The
 * only short cuts: facts that conflict with nothing live are left out, and a set is given up as soon as no
 * candidate that smaller sets have not struck is in conflict with all of its arrangements so far.
 */
export function slowFactSearch(position: Position, k: number): SlowSearch {
  const { layout } = position;
  const live = [...position.candidates];
  const words = (live.length + 31) >> 5;
  const indexOf = new Map(live.map((candidate, index) => [candidate, index]));
  const against = live.map((a) => {
    const bits = new Uint32Array(words);
    live.forEach((b, index) => {
      if (conflicts(layout, a, b)) bits[index >> 5] |= 1 << (index & 31);
    });
    return bits;
  });
  const facts: number[][] = [];
  for (let fact: Fact = 0; fact < factCount(layout); fact += 1) {
    const places = placesOf(position, fact).map((candidate) => indexOf.get(candidate) as number);
    if (places.length === 0) return { broken: 1, fewest: new Map() };
    if (places.some((place) => against[place].some((bits) => bits !== 0))) facts.push(places);
  }
  const fewest = new Map<Candidate, number>();
  for (let size = 1; size <= k; size += 1) {
    const wanted = new Uint32Array(words);
    live.forEach((candidate, index) => {
      if (!fewest.has(candidate)) wanted[index >> 5] |= 1 << (index & 31);
    });
    if (!tryAll(facts, against, size, wanted, live, fewest)) return { broken: size, fewest };
  }
  return { broken: null, fewest };
}

/** An arrangement of some facts: the union of what its places are in conflict with. */
type Arrangement = Uint32Array;

/** Tries every set of exactly `size` facts; false if one has no arrangement. */
function tryAll(
  facts: readonly (readonly number[])[],
  against: readonly Uint32Array[],
  size: number,
  wanted: Uint32Array,
  live: readonly Candidate[],
  fewest: Map<Candidate, number>,
): boolean {
  const words = wanted.length;
  const isIn = (bits: Uint32Array, index: number) => ((bits[index >> 5] >>> (index & 31)) & 1) === 1;
  const common = new Uint32Array(words);
  /** The last fact: what is in conflict with every arrangement. */
  const finish = (arrangements: readonly Arrangement[], places: readonly number[]): boolean => {
    common.set(wanted);
    let any = false;
    for (const arrangement of arrangements) {
      for (const place of places) {
        if (isIn(arrangement, place)) continue;
        any = true;
        let left = 0;
        for (let i = 0; i < words; i += 1) {
          common[i] &= arrangement[i] | against[place][i];
          left |= common[i];
        }
        if (left === 0) return true;
      }
    }
    if (!any) return false;
    live.forEach((candidate, index) => {
      if (isIn(common, index) && !fewest.has(candidate)) fewest.set(candidate, size);
    });
    return true;
  };
  const extend = (start: number, left: number, arrangements: readonly Arrangement[]): boolean => {
    for (let fact = start; fact <= facts.length - left; fact += 1) {
      if (left === 1) {
        if (!finish(arrangements, facts[fact])) return false;
        continue;
      }
      const next: Arrangement[] = [];
      for (const arrangement of arrangements) {
        for (const place of facts[fact]) {
          if (!isIn(arrangement, place)) next.push(arrangement.map((bits, i) => bits | against[place][i]));
        }
      }
      if (!extend(fact + 1, left - 1, next)) return false;
    }
    return true;
  };
  return extend(0, size, [new Uint32Array(words)]);
}
