import type { Argument, Conclusions } from '../../source/argument/kernel.ts';
import { generate } from '../../source/exact/generate.ts';
import { plain } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';
import { pathOf } from '../../source/path/whole.ts';
import { Board } from '../../source/techniques/board.ts';
import { SearchBudget, strikesUpTo } from '../../source/techniques/fact-search.ts';
import { judge } from '../judges/arguments.ts';
import { positionOf, sourcedGrids } from '../path/grids.ts';
import type { Random } from '../random.ts';
import { movePosition, randomSymmetry } from '../techniques/symmetry.ts';
import { plainArgument, type RandomPosition, trueArgument } from './random-arguments.ts';

/** Where a true argument is taken from before the judge leaves out what it can do without. */
export const origins = ['search by facts', 'technique', 'path'] as const;
export type Origin = (typeof origins)[number];

/** An argument of one conclusion that holds, and no longer does with any one of its facts left out. */
export interface MinimalArgument extends RandomPosition {
  readonly origin: Origin;
  readonly argument: Argument;
}

/** Leaves out facts, last first, as long as the judge's answer is the same. */
export function leaveOutBy(position: Position, argument: Argument): Argument {
  const due = judge(position, argument);
  let kept = argument;
  for (const fact of [...argument.facts].reverse()) {
    const fewer = { ...argument, facts: kept.facts.filter((other) => other !== fact) };
    if (judge(position, fewer) === due) kept = fewer;
  }
  return kept;
}

/** The argument with each of its facts left out in turn. */
export const oneFactLess = (argument: Argument): Argument[] =>
  argument.facts.map((_, i) => ({ ...argument, facts: argument.facts.filter((__, j) => j !== i) }));

/** The same facts with one of the conclusions. */
function oneOf(random: Random, { facts, conclusions }: Argument): Argument {
  const one: Conclusions =
    conclusions.kind === 'breaks'
      ? conclusions
      : { kind: conclusions.kind, candidates: [random.pick(conclusions.candidates)] };
  return plainArgument(random.shuffle(facts), one);
}

/** A few of what at most four facts strike in a position, most facts first, or what breaks it. */
function bySearch(random: Random, { position }: RandomPosition): Argument[] {
  const search = strikesUpTo(Board.from(position), 1 + random.below(4), new SearchBudget(2000));
  if (search.kind === 'broken') return [plainArgument(search.facts, { kind: 'breaks' })];
  return random
    .shuffle(search.strikes)
    .sort((a, b) => b.facts.length - a.facts.length)
    .slice(0, 3)
    .map(({ candidate, facts }) => plainArgument(facts, { kind: 'strikes', candidates: [candidate] }));
}

/** Beyond so many facts the judge, which tries every way, is not asked. */
const mostFacts = 12;

/** Steps of the path of a puzzle: a random minimal one, or now and then a hard one with a source, turned round. */
function byPath(random: Random): MinimalArgument[] {
  const hard = random.below(20) === 0;
  const start = hard
    ? movePosition(randomSymmetry(random), positionOf(random.pick(sourcedGrids)))
    : Position.from(plain, generate(plain, () => random.unit()).givens);
  const { steps, end, solved } = pathOf(start);
  const told = steps.filter(({ argument: { facts } }) => facts.length <= mostFacts);
  const several = told.filter(({ argument: { facts } }) => facts.length > 1);
  return [...random.shuffle(several).slice(0, 20), ...random.shuffle(told).slice(0, 3)].map((step) => ({
    origin: 'path',
    position: step.position,
    solution: solved ? [...end.placed] : null,
    argument: leaveOutBy(step.position, oneOf(random, step.argument)),
  }));
}

/** True minimal arguments around a position, and now and then those of a whole path elsewhere. */
export function minimalArguments(random: Random, scene: RandomPosition): MinimalArgument[] {
  const { position } = scene;
  const inScene = (origin: Origin, argument: Argument): MinimalArgument => ({
    ...scene,
    origin,
    argument: leaveOutBy(position, argument),
  });
  const known = trueArgument(random, position);
  return [
    ...bySearch(random, scene).map((argument) => inScene('search by facts', argument)),
    ...(known ? [inScene('technique', oneOf(random, known))] : []),
    ...(random.below(4) === 0 ? byPath(random) : []),
  ];
}
