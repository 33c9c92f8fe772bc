import { type CheckedArgument, check } from '../argument/kernel.ts';
import { decide } from '../exact/solve.ts';
import { type Candidate, cellOf, digitOf } from '../grid/layout.ts';
import type { Position } from '../grid/position.ts';
import { replay, sliceFor, thinned, type Wanted } from './thin.ts';
import { pathOf } from './whole.ts';

/** What somebody wants to know about: that a digit stands in a cell, or that it does not. */
export interface Target {
  readonly kind: 'placement' | 'strike';
  readonly candidate: Candidate;
}

/** How a target comes about. */
export type Trace =
  /** Arguments that lead to it from the position, none of which can be left out. */
  | { readonly kind: 'chain'; readonly steps: readonly CheckedArgument[] }
  /** It is so in the position as it stands. */
  | { readonly kind: 'already' }
  /** The position has a completion in which it is not so: it cannot be shown. */
  | { readonly kind: 'not-so' }
  /** The position has no completion. */
  | { readonly kind: 'broken' }
  /** It is so, but the bound on suppositions was met first. */
  | { readonly kind: 'not-found' };

/** Whether a position says what the target says. */
function isReached(position: Position, { kind, candidate }: Target): boolean {
  const { layout, placed, candidates } = position;
  return kind === 'placement'
    ? placed[cellOf(layout, candidate)] === digitOf(layout, candidate)
    : !candidates.has(candidate);
}

/** Whether some completion of the position contradicts the target. */
function mayFail(position: Position, { kind, candidate }: Target): boolean {
  const { layout } = position;
  const otherwise =
    kind === 'placement'
      ? position.strike([candidate])
      : position.place(cellOf(layout, candidate), digitOf(layout, candidate));
  return decide(otherwise).verdict !== 'none';
}

/**
 * How one gets from a position to a target: the steps of the path up to it, less all that it does not rest
 * on, each checked again in the position that those before it leave. Steps are as light as the path's. `watch`
 * sees the steps of that path before each further one.
 */
export function trace(
  position: Position,
  target: Target,
  watch?: (steps: readonly CheckedArgument[]) => void,
): Trace {
  if (decide(position).verdict === 'none') return { kind: 'broken' };
  if (isReached(position, target)) return { kind: 'already' };
  if (mayFail(position, target)) return { kind: 'not-so' };
  const { candidate } = target;
  const cell = cellOf(position.layout, candidate);
  const path = pathOf(position, {
    allNames: true,
    enough: ({ board, steps }) => {
      watch?.(steps);
      return target.kind === 'placement' ? board.placed[cell] !== 0 : board.live[candidate] === 0;
    },
  });
  if (!isReached(path.end, target)) return { kind: 'not-found' };
  return { kind: 'chain', steps: chainTo(position, path.steps, target) };
}

function chainTo(start: Position, steps: readonly CheckedArgument[], target: Target): CheckedArgument[] {
  const last = steps.length - 1;
  const sliced = replay(
    start,
    sliceFor(steps, last).map((index) => steps[index]),
  );
  if (!sliced) throw new Error('a slice of the path does not replay');
  const wanted: Wanted = { isMet: (end) => isReached(end, target), everyPlacement: false };
  const kept = thinned(sliced.steps, wanted);
  const again = replay(
    start,
    sliced.steps.filter((_, index) => kept[index]),
  );
  if (!again) throw new Error('a thinned slice of the path does not replay');
  return [...again.steps.slice(0, -1), onlyTarget(again.steps[again.steps.length - 1], target)];
}

/** The last argument without what it concludes besides the target. */
function onlyTarget(last: CheckedArgument, { kind, candidate }: Target): CheckedArgument {
  const { conclusions } = last.argument;
  if (kind !== 'strike' || conclusions.kind !== 'strikes' || !conclusions.candidates.includes(candidate)) {
    return last;
  }
  const verdict = check(last.position, {
    ...last.argument,
    conclusions: { kind: 'strikes', candidates: [candidate] },
  });
  return verdict.verdict === 'holds' ? verdict.checked : last;
}
