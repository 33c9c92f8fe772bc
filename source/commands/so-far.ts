import { factName } from '../argument/fact.ts';
import type { CheckedArgument } from '../argument/kernel.ts';
import { strikeName } from '../grid/names.ts';
import type { Position } from '../grid/position.ts';
import type { ArguedSoFar } from '../path/argue.ts';
import type { InstanceSoFar } from '../path/find.ts';
import { sayWithin } from './in-time.ts';

/** The steps of the path that there are so far. */
export type StepsSoFar = readonly CheckedArgument[];

/** What there is so far of the answer to one question, for when time runs out: written while it is worked on. */
export interface SoFar {
  argued: ArguedSoFar | null;
  steps: StepsSoFar | null;
  found: (() => readonly InstanceSoFar[]) | null;
}

export const nothingSoFar = (): SoFar => ({ argued: null, steps: null, found: null });

/** An instance of more facts than this is counted, not told. */
const mostFacts = 8;

/**
 * `3 instances found by then, r1c2<>3 by 3@r5 3@c4 among them.`: how many instances there are, and a short one as it
 * can be typed as an argument. Nothing where there are none.
 */
export function sayFoundSoFar(position: Position, instances: readonly InstanceSoFar[]): string[] {
  const count = instances.length;
  if (count === 0) return [];
  const { layout } = position;
  const said = `${count} ${count === 1 ? 'instance' : 'instances'} found by then`;
  const short = instances.find(
    ({ finding: { facts, conclusions } }) => conclusions.kind === 'strikes' && facts.length <= mostFacts,
  );
  if (!short) return [`${said}.`];
  const { facts, conclusions } = short.finding;
  const strikes = conclusions.candidates.map((x) => strikeName(layout, x)).join(' ');
  const by = facts.map((fact) => factName(layout, fact)).join(' ');
  return [`${said}${count === 1 ? `: ${strikes} by ${by}.` : `, ${strikes} by ${by} among them.`}`];
}

/** What is known of an argument when time has run out, in a sentence. */
export function sayArguedSoFar(known: ArguedSoFar | null, seconds: number): string {
  const within = sayWithin(seconds);
  if (known === null) return `Whether it holds was not decided ${within}.`;
  return known.kind === 'holds'
    ? `It holds; which of its facts it needs was not found out ${within}.`
    : `It does not hold; what else follows was not found out ${within}.`;
}

/** ` 12 steps of the path were found by then.`, to stand behind a sentence; nothing where there are none. */
export function sayStepsSoFar(steps: StepsSoFar | null): string {
  const count = steps?.length ?? 0;
  if (count === 0) return '';
  return count === 1
    ? ' 1 step of the path was found by then.'
    : ` ${count} steps of the path were found by then.`;
}
