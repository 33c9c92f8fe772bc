import { weightOf } from '../argument/fact.ts';
import type { CheckedArgument, OneSolutionToken } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import type { Position } from '../grid/position.ts';
import { Board } from '../techniques/board.ts';
import { catalogue } from '../techniques/catalogue.ts';
import type { Technique } from '../techniques/technique.ts';
import { argumentsIn, strikeBy } from './minimal.ts';
import { factsThatRefute, fewestOf, refutationNodes } from './refute.ts';

/** The weight of a checked argument, in facts. */
export const weightOfChecked = ({ position, argument }: CheckedArgument): number =>
  weightOf(position.layout, argument);

/** The placements or strikes of an argument; none where it breaks. */
export const conclusionsOf = ({ argument }: CheckedArgument): readonly Candidate[] =>
  argument.conclusions.kind === 'breaks' ? [] : argument.conclusions.candidates;

/** Every argument that some techniques make in a position, each conclusion on a minimal set of facts. */
export function argumentsBy(
  position: Position,
  techniques: readonly Technique[],
  token?: OneSolutionToken,
): CheckedArgument[] {
  const board = Board.from(position);
  const seen = new Set<string>();
  const found: CheckedArgument[] = [];
  for (const technique of techniques) {
    for (const finding of technique.find(board)) {
      for (const checked of argumentsIn(position, finding, token)) {
        const { facts } = checked.argument;
        const key = `${[...facts].sort((a, b) => a - b).join(' ')}: ${conclusionsOf(checked).join(' ')}`;
        if (seen.has(key)) continue;
        seen.add(key);
        found.push(checked);
      }
    }
  }
  return found;
}

/**
 * The lightest arguments that the position has, all of one weight, from the catalogue; where it has nothing,
 * the lightest refutation among all candidates. Empty where nothing can be shown: the position is solved, or
 * its candidates can all be completed.
 */
export function lightestArguments(position: Position, token?: OneSolutionToken): CheckedArgument[] {
  const offered = catalogue.filter((technique) => technique.assumes === 'nothing' || token);
  const weights = [...new Set(offered.map((technique) => technique.weight))].sort((a, b) => a - b);
  let heavier: CheckedArgument[] = [];
  for (const weight of weights) {
    const here = argumentsBy(
      position,
      offered.filter((technique) => technique.weight === weight),
      token,
    );
    heavier = [...heavier, ...here];
    const lightest = Math.min(...heavier.map(weightOfChecked));
    if (lightest <= weight) return heavier.filter((checked) => weightOfChecked(checked) === lightest);
  }
  if (heavier.length > 0) {
    const lightest = Math.min(...heavier.map(weightOfChecked));
    return heavier.filter((checked) => weightOfChecked(checked) === lightest);
  }
  return lightestRefutations(position);
}

/** How many refutations are worth the search for a minimal set of their facts. */
const worthShrinking = 4;

/**
 * Strikes found by assuming each candidate and searching it to its end, for positions in which no technique
 * finds anything: the lightest few, each on a minimal set of facts, lightest first.
 */
export function lightestRefutations(position: Position): CheckedArgument[] {
  const board = Board.from(position);
  const { size } = position.layout;
  const nodes = refutationNodes(position.layout);
  const refuted = [...position.candidates].flatMap((candidate) => {
    if (position.placed[Math.floor(candidate / size)] !== 0) return [];
    const facts = factsThatRefute(board, candidate, nodes);
    return facts ? [{ candidate, facts }] : [];
  });
  refuted.sort((a, b) => a.facts.length - b.facts.length || a.candidate - b.candidate);
  return refuted
    .slice(0, worthShrinking)
    .flatMap(({ candidate, facts }) => {
      const checked = strikeBy(position, candidate, fewestOf(board, candidate, nodes, facts));
      return checked ? [checked] : [];
    })
    .sort((a, b) => weightOfChecked(a) - weightOfChecked(b));
}
