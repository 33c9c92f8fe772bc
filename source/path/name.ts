import type { Fact } from '../argument/kernel.ts';
import type { Candidate, Layout } from '../grid/layout.ts';
import { Board } from '../techniques/board.ts';
import { patterns } from '../techniques/catalogue.ts';
import { bitCount } from '../techniques/finding.ts';
import type { FactsAbout, Technique } from '../techniques/technique.ts';
import { unnamed } from './minimal.ts';

const bareBoards = new WeakMap<Layout, Board>();

/** What an argument is called, and its facts in the order in which that technique tells them. */
export interface Named {
  readonly technique: string;
  readonly facts: readonly Fact[];
}

/** Patterns of at most so many facts have as many in each of their instances. */
export const largestSized = 4;

/** The patterns that may name a set of facts, by how many these are. */
type Namers = (readonly Technique[])[];

const bareNamers = (): Record<FactsAbout, Namers> => ({
  cells: [],
  'cells-and-houses': [],
  'one-digit': [],
  digits: [],
});
const sizedNamers = bareNamers();
const allNamers = bareNamers();

/**
 * The patterns that may name a set of so many facts about such things, in the order of the catalogue: those
 * whose instances all have so many, and with `open` those too whose instances differ in size.
 */
function namersOf(count: number, about: FactsAbout, open: boolean): readonly Technique[] {
  const known = (open ? allNamers : sizedNamers)[about];
  known[count] ??= patterns.filter(
    (technique) =>
      technique.assumes === 'nothing' &&
      (technique.about === undefined || technique.about === about) &&
      (technique.weight > largestSized ? open && technique.weight >= count : technique.weight === count),
  );
  return known[count];
}

/** What facts are about; the same for facts that say the same, if these have two places or more. */
function aboutOf({ cellCount, size }: Layout, facts: readonly Fact[]): FactsAbout {
  const ofCells = facts.filter((fact) => fact < cellCount).length;
  if (ofCells > 0) return ofCells === facts.length ? 'cells' : 'cells-and-houses';
  const digitOf = (fact: Fact) => (fact - cellCount) % size;
  return facts.every((fact) => digitOf(fact) === digitOf(facts[0])) ? 'one-digit' : 'digits';
}

/**
 * The first pattern of the catalogue that has an instance with exactly these facts and all these strikes;
 * `facts` where none has. Patterns are asked on a board that shows the places of the facts and the strikes
 * alone: what a pattern makes of its facts does not depend on the rest. `open`: whether chains and others
 * whose instances differ in size are asked as well, which takes longer.
 */
export function nameOf(
  board: Board,
  facts: readonly Fact[],
  strikes: readonly Candidate[],
  open: boolean,
): Named {
  const { layout } = board;
  let shown = bareBoards.get(layout);
  if (!shown) {
    shown = Board.bare(layout);
    bareBoards.set(layout, shown);
  }
  const techniques = namersOf(facts.length, aboutOf(layout, facts), open);
  if (techniques.length === 0) return { technique: unnamed, facts };
  show(shown, board, facts, strikes);
  const named = nameOn(shown, techniques, facts, strikes);
  hide(shown, board, facts, strikes);
  return named ?? { technique: unnamed, facts };
}

/** Brings the places of facts and the strikes of a board to a bare one. */
function show(shown: Board, board: Board, facts: readonly Fact[], strikes: readonly Candidate[]): void {
  for (const fact of facts) {
    for (let rest = board.masks[fact]; rest !== 0; rest &= rest - 1) shown.revive(placeOf(board, fact, rest));
  }
  for (const candidate of strikes) shown.revive(candidate);
}

/** Takes them away again. */
function hide(shown: Board, board: Board, facts: readonly Fact[], strikes: readonly Candidate[]): void {
  for (const fact of facts) {
    for (let rest = board.masks[fact]; rest !== 0; rest &= rest - 1) shown.strike(placeOf(board, fact, rest));
  }
  for (const candidate of strikes) shown.strike(candidate);
}

const placeOf = ({ tables, layout }: Board, fact: Fact, places: number): Candidate =>
  tables.candidateAt[fact * layout.size + 31 - Math.clz32(places & -places)];

function nameOn(
  shown: Board,
  techniques: readonly Technique[],
  facts: readonly Fact[],
  strikes: readonly Candidate[],
): Named | null {
  let most = 0;
  for (const fact of facts) most = Math.max(most, bitCount(shown.masks[fact]));
  for (const { find, mostPlaces, id } of techniques) {
    if (mostPlaces !== undefined && most > mostPlaces) continue;
    for (const finding of find(shown)) {
      const { kind, candidates } = finding.conclusions;
      if (kind !== 'strikes' || finding.facts.length !== facts.length) continue;
      if (!sameFacts(shown, finding.facts, facts)) continue;
      if (!strikes.every((candidate) => candidates.includes(candidate))) continue;
      return { technique: id, facts: finding.facts };
    }
  }
  return null;
}

/** Whether facts are the same, or say the same: two facts with the same places do. */
function sameFacts(shown: Board, some: readonly Fact[], others: readonly Fact[]): boolean {
  const saysTheSame = (fact: Fact, other: Fact): boolean => {
    if (fact === other) return true;
    const places = shown.placesOf(fact);
    const otherPlaces = shown.placesOf(other);
    return places.length === otherPlaces.length && places.every((place, i) => place === otherPlaces[i]);
  };
  const match = (fact: Fact, list: readonly Fact[]) =>
    list.includes(fact) || list.some((other) => saysTheSame(fact, other));
  return some.every((fact) => match(fact, others)) && others.every((fact) => match(fact, some));
}
