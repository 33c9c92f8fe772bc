import { factCandidates } from '../argument/fact.ts';
import type { CheckedArgument } from '../argument/kernel.ts';
import { type Candidate, cellOf, digitOf } from '../grid/layout.ts';
import { killersOf } from './thin.ts';

/**
 * For each of some steps the earlier ones whose strikes its facts rest on, ascending: those that took a place of
 * a fact which no digit on the grid rules out by now.
 */
export function strikesBehind(steps: readonly CheckedArgument[]): number[][] {
  const killers = killersOf(steps);
  return steps.map(({ argument, position }, index) => {
    const { layout, placed, candidates } = position;
    const isRuledOut = (x: Candidate) =>
      placed[cellOf(layout, x)] !== 0 ||
      layout.peers[cellOf(layout, x)].some((peer) => placed[peer] === digitOf(layout, x));
    const cells = (argument.pattern ?? []).map((candidate) => cellOf(layout, candidate));
    const dead = [...argument.facts, ...cells]
      .flatMap((fact) => factCandidates(layout, fact))
      .filter((place) => !candidates.has(place) && !isRuledOut(place));
    const behind = dead.flatMap((place) => killers.get(place) ?? []).filter((killer) => killer < index);
    return [...new Set(behind)].sort((a, b) => a - b);
  });
}
