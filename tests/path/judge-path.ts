import { check, isChecked, placesOf } from '../../source/argument/kernel.ts';
import { cellOf, digitOf } from '../../source/grid/layout.ts';
import type { Position } from '../../source/grid/position.ts';
import { take } from '../../source/path/next.ts';
import type { Path } from '../../source/path/whole.ts';
import { coverSolutions } from '../judges/exact-cover.ts';
import { arrangementExists } from '../judges/sat.ts';

/**
 * What is wrong with a path of a grid with one solution; null: nothing. Every step is asked of the kernel again
 * in a position of our own, and compared with the solution that an exact cover solver finds.
 */
export function faultOfPath({ start, steps, end, solved }: Path): string | null {
  const { layout } = start;
  const [solution] = coverSolutions(start, 1);
  let here = start;
  for (const [index, step] of steps.entries()) {
    const { conclusions } = step.argument;
    if (!isChecked(step)) return `step ${index}: not checked`;
    if (conclusions.kind === 'breaks') return `step ${index}: breaks`;
    const { verdict } = check(here, step.argument);
    if (verdict !== 'holds') return `step ${index}: ${verdict}`;
    for (const candidate of conclusions.candidates) {
      const isTrue = solution[cellOf(layout, candidate)] === digitOf(layout, candidate);
      if (isTrue !== (conclusions.kind === 'placements')) return `step ${index}: false`;
    }
    here = take(here, step);
  }
  if (!here.candidates.equals(end.candidates)) return 'the end is not where the steps lead';
  if (solved !== here.isSolved) return `said to be ${solved ? '' : 'un'}solved`;
  if (!solved) return 'not solved';
  return here.placed.every((digit, cell) => digit === solution[cell]) ? null : 'another solution';
}

/** What a SAT solver says against an argument by itself; null: nothing. */
export function satFault(position: Position, { argument }: Path['steps'][number]): string | null {
  const { layout } = position;
  const lists = argument.facts.map((fact) => placesOf(position, fact));
  if (argument.conclusions.kind === 'breaks') return 'breaks';
  if (!arrangementExists(layout, lists)) return 'the facts cannot all hold';
  for (const candidate of argument.conclusions.candidates) {
    if (!position.candidates.has(candidate)) return 'a conclusion about a candidate that is gone';
    const rivals =
      argument.conclusions.kind === 'strikes'
        ? [[candidate]]
        : lists
            .filter((places) => places.includes(candidate))
            .map((places) => places.filter((place) => place !== candidate));
    const shut = rivals.some((list) => list.every((rival) => !arrangementExists(layout, lists, [rival])));
    if (!shut) return `candidate ${candidate} stays open`;
  }
  return null;
}
