import { weightOf } from '../argument/fact.ts';
import type { CheckedArgument } from '../argument/kernel.ts';
import { list } from '../argument/words.ts';
import { type Candidate, cellOf, digitOf, type Layout } from '../grid/layout.ts';
import { cellName, digitName } from '../grid/names.ts';
import type { Analysis } from '../path/analysis.ts';
import type { Path } from '../path/whole.ts';
import { techniqueById } from '../techniques/catalogue.ts';
import { ladderFor } from './ladder.ts';
import type { Drawing, HintLine } from './rung.ts';
import { byDigit, cellsInARow, sayFacts, sayNumber, sentence } from './words.ts';

/** A step as it is told: what is concluded, by what, and the whole argument below. */
export interface ToldStep {
  /** `r4c7 is 3`, `7 goes from r3c5 r8c6`. */
  readonly concluded: string;
  /** `X-wing, two facts`, `three facts, no name`. */
  readonly by: string;
  /** Its facts, lettered, what follows, and why. */
  readonly lines: readonly HintLine[];
  /** Why, in sentences. */
  readonly prose: readonly string[];
  readonly drawing: Drawing;
}

const concludedFrom = ({ position, argument }: CheckedArgument): string => {
  const { layout } = position;
  const { conclusions } = argument;
  if (conclusions.kind === 'breaks') return 'something cannot be right';
  const { candidates } = conclusions;
  if (conclusions.kind === 'placements') {
    return list(
      candidates.map((c) => `${cellName(layout, cellOf(layout, c))} is ${digitName(digitOf(layout, c))}`),
    );
  }
  return list(
    byDigit(layout, candidates).map(
      ([digit, group]) => `${digitName(digit)} goes from ${cellsInARow(layout, group)}`,
    ),
  );
};

/** Tells one checked argument. */
export function tellStep(checked: CheckedArgument): ToldStep {
  const { position, argument } = checked;
  const weight = weightOf(position.layout, argument);
  const { conclusions } = argument;
  const step =
    conclusions.kind === 'breaks'
      ? ({ kind: 'broken', part: checked, weight } as const)
      : ({ kind: 'step', parts: [checked], weights: [weight], weight, written: conclusions } as const);
  const { lines, json, drawing } = ladderFor(step, position).rungs[4];
  const name = techniqueById(argument.technique)?.name;
  const { prose } = json;
  return {
    concluded: concludedFrom(checked),
    by: name ? `${name}, ${sayFacts(weight)}` : `${sayFacts(weight)}, no name`,
    lines,
    prose: typeof prose === 'string' ? [prose] : [],
    drawing,
  };
}

/** So many steps that another rests on are named; of more, the last few. */
const mostNamed = 8;
const lastNamed = 4;

/** `Rests on steps 3 and 7.`: the steps whose strikes a step needs, by index; empty where there are none. */
export function sayRestsOn(steps: readonly number[]): string {
  if (steps.length === 0) return '';
  const many = steps.length > mostNamed;
  const named = list((many ? steps.slice(-lastNamed) : steps).map((index) => String(index + 1)));
  if (many) return `Rests on ${steps.length} earlier steps, last on ${named}.`;
  return `Rests on ${steps.length === 1 ? 'step' : 'steps'} ${named}.`;
}

/** What a path is like, in sentences. Steps count from 1. */
export function sayAnalysis({ start, steps, solved }: Path, analysis: Analysis): string[] {
  const { layout } = start;
  const numbers = (indices: readonly number[]) => indices.map((index) => String(index + 1));
  const stepsOf = (indices: readonly number[]) =>
    `${indices.length === 1 ? 'step' : 'steps'} ${list(numbers(indices))}`;
  const spare = analysis.essential.flatMap((is, index) => (is ? [] : [index]));
  const releasing = analysis.weights.flatMap((weight, index) =>
    weight > 1 && analysis.available[index].exact && analysis.available[index].releases === 1 ? [index] : [],
  );
  const many = `${sayNumber(steps.length)} ${steps.length === 1 ? 'step' : 'steps'}`;
  const heaviest = `the heaviest rests on ${sayFacts(analysis.heaviest)}`;
  return [
    solved
      ? `solved in ${many}`
      : steps.length > 0
        ? `not solved: after ${many} no further one was found`
        : 'not solved: no step was found',
    ...(steps.length > 0 ? [heaviest] : []),
    ...(solved && spare.length > 0 ? [`without ${stepsOf(spare)} the others still solve it`] : []),
    ...(analysis.bottlenecks.length > 0
      ? [
          `narrow at ${stepsOf(analysis.bottlenecks)}: there arguments no heavier than the step rule out at most two candidates`,
        ]
      : []),
    ...(releasing.length > 0
      ? [`at ${stepsOf(releasing)} only one argument no heavier than the step frees a placement at once`]
      : []),
    ...analysis.meetings.map(({ cell, strikes, from, neededBy }) => {
      const lost = (which: 0 | 1) => sayLost(layout, strikes[which], from[which]);
      return `two findings meet in ${cellName(layout, cell)}: ${lost(0)} and ${lost(1)}; step ${neededBy + 1} needs both`;
    }),
  ].map(sentence);
}

const sayLost = (layout: Layout, candidate: Candidate, step: number): string =>
  `its ${digitName(digitOf(layout, candidate))} went in step ${step + 1}`;
