import { check, type OneSolutionToken } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import type { Position } from '../grid/position.ts';
import { Board } from '../techniques/board.ts';
import { SearchBudget, strikesUpTo } from '../techniques/fact-search.ts';
import type { Finding, Technique } from '../techniques/technique.ts';
import { weightOfChecked } from './lightest.ts';
import { argumentsIn } from './minimal.ts';
import { fewestOf, refutationNodes } from './refute.ts';

/** One instance of a pattern in a position, with what it does that lighter arguments do not do anyway. */
export interface Instance {
  readonly finding: Finding;
  /** How many facts must be held in mind for it. */
  readonly weight: number;
  /** Those of its conclusions, ascending, that no lighter argument makes in the position as it stands. */
  readonly fresh: readonly Candidate[];
}

/** An instance of which it may not be known yet what is new in it: null. */
export interface InstanceSoFar extends Omit<Instance, 'fresh'> {
  readonly fresh: readonly Candidate[] | null;
}

/** Lighter arguments are looked for with so many facts at most, and so long: the same position, the same answer. */
const searchedFacts = 4;
const searchedWorlds = 2_000_000;

/** For each strike that few facts support, how many; a placement's strikes are among those of one fact. */
function lightestWeights(board: Board, facts: number): ReadonlyMap<Candidate, number> {
  if (facts < 1) return new Map();
  const search = strikesUpTo(board, Math.min(facts, searchedFacts), new SearchBudget(searchedWorlds));
  if (search.kind === 'broken') return new Map();
  return new Map(search.strikes.map(({ candidate, facts: by }) => [candidate, by.length]));
}

/**
 * All instances of a technique in a position, in the order in which the technique has them. What is new in
 * one is told by an exact search up to four facts, and by its own facts up to thirty: a strike that some of
 * them make without the others is not what the pattern does. A one-solution technique has instances only with a
 * token for the position. `watch` is told at the start how to ask for those that there are so far, each taken by
 * the kernel, also where all this was ended in the middle.
 */
export function instancesOf(
  position: Position,
  technique: Technique,
  token?: OneSolutionToken,
  watch?: (soFar: () => readonly InstanceSoFar[]) => void,
): readonly Instance[] {
  if (technique.assumes === 'one-solution' && !token?.vouchesFor(position)) return [];
  const board = Board.from(position);
  const weighed = (finding: Finding) => {
    const weight = weightIn(position, finding, token);
    return weight === null ? [] : [{ finding, weight }];
  };
  const instances: Instance[] = [];
  let findings: () => readonly Finding[] = () => [];
  watch?.(() => [
    ...instances,
    ...findings()
      .flatMap(weighed)
      .slice(instances.length)
      .map((each) => ({ ...each, fresh: null })),
  ]);
  const all = technique.find(board, undefined, (soFar) => {
    findings = soFar;
  });
  findings = () => all;
  const found = all.flatMap(weighed);
  const most = Math.max(0, ...found.map(({ weight }) => weight));
  const lightest = lightestWeights(board, most - 1);
  for (const { finding, weight } of found) {
    const isFresh = (x: Candidate) =>
      finding.conclusions.kind === 'placements' ||
      ((lightest.get(x) ?? Number.POSITIVE_INFINITY) >= weight &&
        !needsFewer(position, board, finding, x, token));
    instances.push({ finding, weight, fresh: finding.conclusions.candidates.filter(isFresh) });
  }
  return instances;
}

/** Of more facts than this it is not tried whether fewer of them would do: that could take minutes. */
const tryableFacts = 30;

/** Whether some of an instance's own facts make the strike without the others. */
function needsFewer(
  position: Position,
  board: Board,
  finding: Finding,
  strike: Candidate,
  token?: OneSolutionToken,
): boolean {
  const { facts, pattern } = finding;
  if (facts.length > tryableFacts) return false;
  if (!pattern) {
    return fewestOf(board, strike, refutationNodes(position.layout), facts).length < facts.length;
  }
  const conclusions = { kind: 'strikes', candidates: [strike] } as const;
  const [{ argument }] = argumentsIn(position, { ...finding, conclusions }, token);
  return argument.facts.length < facts.length;
}

/** The weight of a whole instance, all its facts taken; null if the kernel does not accept it. */
function weightIn(position: Position, finding: Finding, token?: OneSolutionToken): number | null {
  const { technique, facts, conclusions, pattern } = finding;
  const assumes = pattern ? 'one-solution' : 'nothing';
  const verdict = check(
    position,
    { technique, facts, conclusions, assumes, ...(pattern && { pattern }) },
    token,
  );
  return verdict.verdict === 'holds' ? weightOfChecked(verdict.checked) : null;
}
