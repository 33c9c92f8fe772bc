import { factCandidates } from '../argument/fact.ts';
import { type CheckedArgument, check, type OneSolutionToken } from '../argument/kernel.ts';
import { type Candidate, cellOf, digitOf } from '../grid/layout.ts';
import { type Position, Walk } from '../grid/position.ts';

/** What some arguments come to when they are made one after the other from a position. */
export interface Replay {
  readonly steps: readonly CheckedArgument[];
  readonly end: Position;
}

/**
 * Makes arguments again, one after the other, each asked of the kernel in the position that those before it
 * leave. Null as soon as one is refused.
 */
export function replay(
  start: Position,
  arguments_: Iterable<CheckedArgument>,
  token?: OneSolutionToken,
): Replay | null {
  const walk = new Walk(start);
  const steps: CheckedArgument[] = [];
  for (const { argument } of arguments_) {
    const verdict = check(walk.position, argument, token);
    if (verdict.verdict !== 'holds') return null;
    steps.push(verdict.checked);
    makeOn(walk, verdict.checked);
  }
  return { steps, end: walk.position };
}

/** Does on a walk what a checked argument says. */
export function makeOn(walk: Walk, { argument }: CheckedArgument): void {
  const { conclusions } = argument;
  if (conclusions.kind === 'strikes') walk.strike(conclusions.candidates);
  else if (conclusions.kind === 'placements') {
    for (const candidate of conclusions.candidates) {
      walk.place(cellOf(walk.layout, candidate), digitOf(walk.layout, candidate));
    }
  }
}

/** What is wanted of the end of some steps, and whether every placement is needed for it. */
export interface Wanted {
  readonly isMet: (end: Position) => boolean;
  readonly everyPlacement: boolean;
}

/** That the grid is filled: no step but its own fills a cell. */
export const solvedGrid: Wanted = { isMet: (end) => end.isSolved, everyPlacement: true };

/**
 * Which steps are left when, walking backwards, each is dropped, and stays dropped if the rest still replays
 * through the kernel and ends where it is wanted. Each step must stand in the position that those before it
 * leave.
 */
export function thinned(
  steps: readonly CheckedArgument[],
  wanted: Wanted,
  token?: OneSolutionToken,
): boolean[] {
  const kept = steps.map(() => true);
  for (let i = steps.length - 1; i >= 0; i -= 1) {
    if (wanted.everyPlacement && steps[i].argument.conclusions.kind === 'placements') continue;
    const rest = steps.filter((_, j) => j > i && kept[j]);
    const outcome = replay(steps[i].position, rest, token);
    if (outcome && wanted.isMet(outcome.end)) kept[i] = false;
  }
  return kept;
}

/** For each candidate that the steps kill, the index of the one that does. */
export function killersOf(steps: readonly CheckedArgument[]): Map<Candidate, number> {
  const killers = new Map<Candidate, number>();
  steps.forEach(({ argument, position }, index) => {
    const { conclusions } = argument;
    if (conclusions.kind === 'breaks') return;
    for (const candidate of conclusions.candidates) {
      if (conclusions.kind === 'strikes') killers.set(candidate, index);
      else for (const other of clearedBy(position, candidate)) killers.set(other, index);
    }
  });
  return killers;
}

/** The live candidates that a placement clears from its cell and its peers. */
export function clearedBy({ layout, candidates }: Position, placed: Candidate): Candidate[] {
  const { size } = layout;
  const cell = cellOf(layout, placed);
  const inCell = Array.from({ length: size }, (_, i) => cell * size + i).filter((other) => other !== placed);
  const inPeers = layout.peers[cell].map((peer) => peer * size + (placed % size));
  return [...inCell, ...inPeers].filter((other) => candidates.has(other));
}

/**
 * The steps that the one at `last` needs, and those that these need: for every dead place of a fact that is
 * used, the step that killed it. Sufficient, not yet minimal; `thinned` does the rest. Ascending, with `last`.
 */
export function sliceFor(steps: readonly CheckedArgument[], last: number): number[] {
  const killers = killersOf(steps.slice(0, last));
  const needed = new Set<number>([last]);
  for (let i = last; i >= 0; i -= 1) {
    if (!needed.has(i)) continue;
    const { argument, position } = steps[i];
    const { layout } = position;
    const cells = (argument.pattern ?? []).map((candidate) => cellOf(layout, candidate));
    for (const fact of [...argument.facts, ...cells]) {
      for (const place of factCandidates(layout, fact)) {
        const killer = killers.get(place);
        if (killer !== undefined && killer < i) needed.add(killer);
      }
    }
  }
  return [...needed].sort((a, b) => a - b);
}
