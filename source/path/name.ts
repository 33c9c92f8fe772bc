import type { Fact } from '../argument/kernel.ts';
import type { Candidate, Layout } from '../grid/layout.ts';
import { Board } from '../techniques/board.ts';
import { patterns } from '../techniques/catalogue.ts';
import type { Technique } from '../techniques/technique.ts';
import { unnamed } from './minimal.ts';

const bareBoards = new WeakMap<Layout, Board>();

/** What an argument is called, and its facts in the order in which that technique tells them. */
export interface Named {
  readonly technique: string;
  readonly facts: readonly Fact[];
}

/**
 * The patterns that may name a set of so many facts, in the order of the catalogue: those whose instances all
 * have so many, and with `open` those too whose instances may have more.
 */
function namersOf(count: number, open: boolean): readonly Technique[] {
  const key = open ? -count : count;
  let known = namers.get(key);
  if (!known) {
    known = patterns.filter(
      ({ assumes, weight }) => assumes === 'nothing' && (weight === count || (open && weight > count)),
    );
    namers.set(key, known);
  }
  return known;
}
const namers = new Map<number, readonly Technique[]>();

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
  const visible = [...facts.flatMap((fact) => board.placesOf(fact)), ...strikes];
  for (const candidate of visible) shown.revive(candidate);
  const named = nameOn(shown, namersOf(facts.length, open), facts, strikes);
  for (const candidate of visible) shown.strike(candidate);
  return named ?? { technique: unnamed, facts };
}

function nameOn(
  shown: Board,
  techniques: readonly Technique[],
  facts: readonly Fact[],
  strikes: readonly Candidate[],
): Named | null {
  for (const technique of techniques) {
    for (const finding of technique.find(shown)) {
      const { kind, candidates } = finding.conclusions;
      if (kind !== 'strikes' || finding.facts.length !== facts.length) continue;
      if (!sameFacts(shown, finding.facts, facts)) continue;
      if (!strikes.every((candidate) => candidates.includes(candidate))) continue;
      return { technique: technique.id, facts: finding.facts };
    }
  }
  return null;
}

/** Whether facts are the same, or say the same: two facts with the same places do. */
const sameFacts = (shown: Board, some: readonly Fact[], others: readonly Fact[]): boolean => {
  const match = (fact: Fact, list: readonly Fact[]) =>
    list.includes(fact) || list.some((other) => `${shown.placesOf(other)}` === `${shown.placesOf(fact)}`);
  return some.every((fact) => match(fact, others)) && others.every((fact) => match(fact, some));
};
