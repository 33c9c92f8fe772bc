import { factParts } from '../argument/fact.ts';
import { type Fact, placesOf } from '../argument/kernel.ts';
import { type Candidate, cellOf, type House } from '../grid/layout.ts';
import type { Position } from '../grid/position.ts';
import type { Drawing, DrawnCandidate } from './rung.ts';

/** A fact with its letter and the places that it is drawn and told with. */
export interface Lettered {
  readonly fact: Fact;
  readonly letter: string;
  readonly places: readonly Candidate[];
}

/** `A`, `B`, .. `Z`, `AA`, `AB`: a fact's letter by its place in the argument. */
export function letterOf(index: number): string {
  const letter = String.fromCharCode(65 + (index % 26));
  return index < 26 ? letter : letterOf(Math.floor(index / 26) - 1) + letter;
}

/** Gives facts their letters, each fact once, with their live places in a position. */
export const lettered = (position: Position, facts: readonly Fact[]): Lettered[] =>
  [...new Set(facts)].map((fact, i) => ({ fact, letter: letterOf(i), places: placesOf(position, fact) }));

/** What the lowest rungs draw: a house, and nothing else. */
export const drawHouse = (house: House): Drawing => ({
  house: house.index,
  houses: [],
  cells: [],
  candidates: [],
});

/** What the rungs from `cells` on draw: the facts, and what else is given. */
export function drawFacts(
  position: Position,
  facts: readonly Lettered[],
  more: readonly DrawnCandidate[] = [],
): Drawing {
  const { layout } = position;
  const houses = facts.flatMap(({ fact, letter }) => {
    const parts = factParts(layout, fact);
    return parts.kind === 'house' ? [{ house: parts.house.index, letter }] : [];
  });
  const taken = new Set(more.map(({ candidate }) => candidate));
  const own = facts.flatMap(({ places, letter }) =>
    places
      .filter((candidate) => !taken.has(candidate))
      .map((candidate) => ({ candidate, role: 'fact' as const, letter })),
  );
  const cells = new Set(facts.flatMap(({ places }) => places.map((candidate) => cellOf(layout, candidate))));
  return { house: null, houses, cells: [...cells].sort((a, b) => a - b), candidates: [...own, ...more] };
}
