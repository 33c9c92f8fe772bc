import { factCandidates, weightOf } from '../argument/fact.ts';
import { type CheckedArgument, check, type OneSolutionToken } from '../argument/kernel.ts';
import { CandidateSet } from '../grid/candidates.ts';
import { type Candidate, type Cell, cellOf } from '../grid/layout.ts';
import { Position } from '../grid/position.ts';
import { type Available, availableTo } from './available.ts';
import { killersOf, replay, solvedGrid, thinned } from './thin.ts';
import type { Path } from './whole.ts';

/** Two strikes of different essential steps that meet in one cell, and the step that needs both. Indices of steps. */
export interface Meeting {
  readonly cell: Cell;
  readonly strikes: readonly [Candidate, Candidate];
  readonly from: readonly [number, number];
  readonly neededBy: number;
}

/** What a path is like. Lists run along its steps; steps are named by their index. */
export interface Analysis {
  readonly weights: readonly number[];
  readonly heaviest: number;
  /** Whether the step stays when, walking backwards, each is dropped that the rest can do without. */
  readonly essential: readonly boolean[];
  readonly available: readonly Available[];
  /**
   * Striking steps for which at most two candidates are known to be available, and no more can be. A step that
   * places is none: few are left to strike then.
   */
  readonly bottlenecks: readonly number[];
  readonly meetings: readonly Meeting[];
}

/** At most so many candidates available make a bottleneck. */
const narrow = 2;

/** The figures of a path. The essential steps of a path that does not solve are all of them. */
export function analyse(path: Path, token?: OneSolutionToken): Analysis {
  const { steps, start } = path;
  const { layout } = start;
  const weights = steps.map(({ argument }) => weightOf(layout, argument));
  const essential = path.solved ? thinned(steps, solvedGrid, token) : steps.map(() => true);
  const available = steps.map(availableTo);
  const bottlenecks = steps.flatMap(({ argument }, index) => {
    const { candidates, exact } = available[index];
    return argument.conclusions.kind === 'strikes' && exact && candidates <= narrow ? [index] : [];
  });
  return {
    weights,
    heaviest: Math.max(0, ...weights),
    essential,
    available,
    bottlenecks,
    meetings: meetingsIn(path, essential, weights, token),
  };
}

/** The essential steps alone, each checked again where it now stands. */
export function essentialSteps(
  path: Path,
  essential: readonly boolean[],
  token?: OneSolutionToken,
): readonly CheckedArgument[] {
  const again = replay(
    path.start,
    path.steps.filter((_, index) => essential[index]),
    token,
  );
  if (!again) throw new Error('the essential steps do not replay');
  return again.steps;
}

function meetingsIn(
  path: Path,
  essential: readonly boolean[],
  weights: readonly number[],
  token?: OneSolutionToken,
): Meeting[] {
  const { layout } = path.start;
  const indices = essential.flatMap((is, index) => (is ? [index] : []));
  const steps = essentialSteps(path, essential, token);
  const killers = killersOf(steps);
  const meetings: Meeting[] = [];
  steps.forEach((step, at) => {
    /** Strikes of heavier steps among the dead places of this one's facts, by cell. */
    const byCell = new Map<Cell, Candidate[]>();
    const dead = new Set(step.argument.facts.flatMap((fact) => factCandidates(layout, fact)));
    for (const place of dead) {
      const killer = killers.get(place);
      if (killer === undefined || killer >= at || weights[indices[killer]] < 2) continue;
      if (steps[killer].argument.conclusions.kind !== 'strikes') continue;
      const cell = cellOf(layout, place);
      byCell.set(cell, [...(byCell.get(cell) ?? []), place]);
    }
    for (const [cell, struck] of byCell) {
      if (new Set(struck.map((place) => killers.get(place))).size < 2) continue;
      const needed = struck.filter((place) => isNeeded(step, place, token));
      needed.forEach((first, i) => {
        for (const second of needed.slice(i + 1)) {
          const from = [killers.get(first) ?? 0, killers.get(second) ?? 0] as const;
          if (from[0] === from[1]) continue;
          meetings.push({
            cell,
            strikes: [first, second],
            from: [indices[from[0]], indices[from[1]]],
            neededBy: indices[at],
          });
        }
      });
    }
  });
  return meetings;
}

/** Whether an argument no longer holds once a candidate that has gone is put back. */
function isNeeded(
  { position, argument }: CheckedArgument,
  dead: Candidate,
  token?: OneSolutionToken,
): boolean {
  const { layout, givens, placed, candidates } = position;
  const struck = CandidateSet.full(layout)
    .without(candidates)
    .without(CandidateSet.of(layout, [dead]));
  return check(Position.from(layout, givens, placed, struck), argument, token).verdict === 'refused';
}
