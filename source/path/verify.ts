import { factName, weightOf } from '../argument/fact.ts';
import {
  type Argument,
  check,
  type OneSolutionToken,
  placesOf,
  type Refusal,
  type Verdict,
} from '../argument/kernel.ts';
import { mintToken } from '../exact/token.ts';
import { type Candidate, conflicts, type Digit, type Layout } from '../grid/layout.ts';
import { parseDigit, placementName, strikeName } from '../grid/names.ts';
import { Position, Walk } from '../grid/position.ts';
import { parsePathLayout, parseStep, pathSchema, type StepFlaw } from './path-json.ts';
import { makeOn } from './thin.ts';

/** Why a step of a path is not taken. Steps count from 1; 0 stands for the path as a whole. */
export interface RefusedStep {
  readonly step: number;
  readonly reason: Refusal | StepFlaw['reason'] | 'wrong-weight' | 'not-solved' | 'cell-taken';
  /** The conclusion that does not follow, or the text that can't be read. */
  readonly candidate?: string;
  /** The fact that leaves it open: of those stated, the one that is least bound if the candidate stays. */
  readonly fact?: string;
  /** One place for each stated fact that leaves the candidate open. */
  readonly arrangement?: readonly string[];
}

/** What comes of verifying a path. */
export interface Verified {
  readonly steps: number;
  readonly accepted: number;
  readonly refused: readonly RefusedStep[];
}

/** What has come of it so far: of the steps so many are judged, in their order. */
export interface VerifiedSoFar extends Verified {
  readonly judged: number;
}

/** Why a text is no path at all. */
export interface NoPath {
  readonly message: string;
}

/**
 * Verifies a path as `path` prints it, by the kernel alone: each step in the position of the givens after the
 * steps accepted before it, on the layout given or else the one that the path says. Where the path says that it
 * solves, the accepted steps must end in a full grid. Once, and only where a step assumes it, solutions are
 * counted. `watch` is told before the first step how to ask for what has come of it so far.
 */
export function verifyPath(
  asked: Layout | undefined,
  value: unknown,
  watch?: (soFar: () => VerifiedSoFar) => void,
): Verified | NoPath {
  if (typeof value !== 'object' || value === null) return { message: 'this is no JSON object' };
  const layout = asked ?? parsePathLayout(value);
  if (layout === null) return { message: '"layout" is no layout' };
  const { schema = pathSchema, puzzle, steps, solved } = value as { readonly [key: string]: unknown };
  if (schema !== pathSchema) return { message: `"schema" is not ${pathSchema}` };
  const givens = typeof puzzle === 'string' ? parseGivens(layout, puzzle) : null;
  if (givens === null) return { message: `"puzzle" is not ${layout.cellCount} signs` };
  if (!Array.isArray(steps)) return { message: '"steps" is not a list' };
  const walk = new Walk(Position.from(layout, givens));
  const refused: RefusedStep[] = [];
  let token: OneSolutionToken | null | undefined;
  let judged = 0;
  watch?.(() => {
    const before = refused.filter(({ step }) => step >= 1 && step <= judged);
    return { steps: steps.length, judged, accepted: judged - before.length, refused: before };
  });
  steps.forEach((step: unknown, index) => {
    const number = index + 1;
    judged = index;
    const argument = parseStep(layout, step);
    if ('reason' in argument) {
      const isFact = argument.reason === 'no-such-fact' || argument.reason === 'repeated-fact';
      const name = isFact ? 'fact' : 'candidate';
      refused.push({ step: number, reason: argument.reason, [name]: argument.found });
      return;
    }
    if (argument.assumes === 'one-solution' && token === undefined) token = mintToken(layout, givens);
    const verdict = check(walk.position, argument, token ?? undefined);
    const refusal = refusalOf(walk.position, argument, verdict, step);
    if (refusal !== null) refused.push({ step: number, ...refusal });
    else if (verdict.verdict === 'holds') makeOn(walk, verdict.checked);
  });
  judged = steps.length;
  const accepted = steps.length - refused.length;
  if (solved === true && !walk.position.isSolved) refused.push({ step: 0, reason: 'not-solved' });
  return { steps: steps.length, accepted, refused };
}

/** The digits of a line of signs, 0 for what is no digit; null for another length. */
function parseGivens(layout: Layout, line: string): Digit[] | null {
  const signs = [...line];
  return signs.length === layout.cellCount ? signs.map((sign) => parseDigit(layout, sign) ?? 0) : null;
}

function refusalOf(
  position: Position,
  argument: Argument,
  verdict: Verdict,
  step: unknown,
): Omit<RefusedStep, 'step'> | null {
  const { layout, placed } = position;
  const { conclusions, facts } = argument;
  const first = conclusions.kind === 'breaks' ? undefined : conclusions.candidates[0];
  const nameFact = facts.length > 0 ? { fact: factName(layout, facts[0]) } : {};
  const name = (candidate: Candidate) =>
    conclusions.kind === 'placements' ? placementName(layout, candidate) : strikeName(layout, candidate);
  if (verdict.verdict !== 'refused') {
    const taken =
      conclusions.kind === 'placements'
        ? conclusions.candidates.find((candidate) => placed[Math.floor(candidate / layout.size)] !== 0)
        : undefined;
    if (taken !== undefined) return { reason: 'cell-taken', candidate: name(taken), ...nameFact };
    const { weight } = step as { readonly weight?: unknown };
    if (weight === undefined || weight === weightOf(layout, argument)) return null;
    return { reason: 'wrong-weight', ...(first !== undefined && { candidate: name(first) }), ...nameFact };
  }
  const candidate = verdict.candidate ?? first;
  const { arrangement } = verdict;
  return {
    reason: verdict.reason,
    ...(candidate !== undefined && { candidate: name(candidate) }),
    ...nameFact,
    ...(candidate !== undefined && facts.length > 0 && { fact: loosest(position, argument, candidate) }),
    ...(arrangement && { arrangement: arrangement.map((place) => placementName(layout, place)) }),
  };
}

/** Of the stated facts the one with most places left where the candidate stays; the first of several. */
function loosest(position: Position, { facts }: Argument, candidate: Candidate): string {
  const { layout } = position;
  const room = (fact: number) =>
    placesOf(position, fact).filter((place) => !conflicts(layout, place, candidate)).length;
  return factName(
    layout,
    facts.reduce((a, b) => (room(b) > room(a) ? b : a)),
  );
}
