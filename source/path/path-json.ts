import { factName, parseFact, weightOf } from '../argument/fact.ts';
import type { Argument, CheckedArgument } from '../argument/kernel.ts';
import { type Candidate, type Layout, plain } from '../grid/layout.ts';
import { readWritten, writeLayout } from '../grid/layout-text.ts';
import { cellName, digitName, parseConclusion, placementName, strikeName } from '../grid/names.ts';
import type { Analysis } from './analysis.ts';
import { type Available, availableTo } from './available.ts';
import type { Path } from './whole.ts';

/** The number of the form in which paths are printed, and the only one that is read back. */
export const pathSchema = 1;

/** A step as it stands in JSON; `pattern` only with one-solution steps. */
export interface StepJson {
  readonly technique: string;
  readonly facts: readonly string[];
  readonly placements: readonly string[];
  readonly strikes: readonly string[];
  readonly assumes: 'nothing' | 'one-solution';
  readonly pattern?: readonly string[];
  readonly weight: number;
}

/** Writes a step. */
export function makeStepJson({ position, argument }: CheckedArgument): StepJson {
  const { layout } = position;
  const { technique, facts, conclusions, assumes, pattern } = argument;
  return {
    technique,
    facts: facts.map((fact) => factName(layout, fact)),
    placements:
      conclusions.kind === 'placements' ? conclusions.candidates.map((c) => placementName(layout, c)) : [],
    strikes: conclusions.kind === 'strikes' ? conclusions.candidates.map((c) => strikeName(layout, c)) : [],
    assumes,
    ...(pattern && { pattern: pattern.map((c) => placementName(layout, c)) }),
    weight: weightOf(layout, argument),
  };
}

const figuresJson = ({ candidates, releases, exact }: Available) => ({
  available: candidates,
  releases,
  ...(!exact && { availableAtLeast: true }),
});

/** Writes the steps of a trace as those of a path; every one of them is essential. */
export const makeTraceJson = (steps: readonly CheckedArgument[]): Record<string, unknown>[] =>
  steps.map((step) => ({
    ...makeStepJson(step),
    ...figuresJson(availableTo(step)),
    essential: true,
  }));

/**
 * Writes a path with what it is like, and on another layout than the plain one with that. Steps are counted
 * from 1 where others refer to them.
 */
export function makePathJson(path: Path, analysis: Analysis): Record<string, unknown> {
  const { layout, givens } = path.start;
  return {
    schema: pathSchema,
    ...(layout !== plain && { layout: writeLayout(layout) }),
    puzzle: Array.from(givens, (digit) => (digit === 0 ? '.' : digitName(digit))).join(''),
    solved: path.solved,
    heaviest: analysis.heaviest,
    steps: path.steps.map((step, index) => ({
      ...makeStepJson(step),
      ...figuresJson(analysis.available[index]),
      essential: analysis.essential[index],
    })),
    contour: analysis.weights,
    bottlenecks: analysis.bottlenecks.map((index) => index + 1),
    meetings: analysis.meetings.map(({ cell, strikes, from, neededBy }) => ({
      cell: cellName(layout, cell),
      strikes: strikes.map((candidate) => strikeName(layout, candidate)),
      steps: from.map((index) => index + 1),
      neededBy: neededBy + 1,
    })),
  };
}

/** The layout that a path says it is on, the plain one where it says nothing; null where that is no layout. */
export function parsePathLayout(value: unknown): Layout | null {
  if (typeof value !== 'object' || value === null || !('layout' in value)) return plain;
  const { layout } = value;
  if (typeof layout !== 'object' || layout === null) return null;
  const { name, text } = layout as { readonly [key: string]: unknown };
  return typeof name === 'string' && typeof text === 'string' ? readWritten({ name, text }) : null;
}

/** What is wrong with a step's text: which part, and what stands there. */
export interface StepFlaw {
  readonly reason: 'no-such-fact' | 'repeated-fact' | 'no-such-conclusion' | 'no-step';
  readonly found: string;
}

const isTexts = (value: unknown): value is readonly string[] =>
  Array.isArray(value) && value.every((text) => typeof text === 'string');

/** Reads a step back; whatever it may be, the answer is an argument or what is wrong with it. */
export function parseStep(layout: Layout, value: unknown): Argument | StepFlaw {
  if (typeof value !== 'object' || value === null) return { reason: 'no-step', found: String(value) };
  const {
    technique,
    facts,
    placements = [],
    strikes = [],
    assumes = 'nothing',
    pattern,
  } = value as {
    readonly [key: string]: unknown;
  };
  if (!isTexts(facts)) return { reason: 'no-step', found: 'facts' };
  if (!isTexts(placements) || !isTexts(strikes)) return { reason: 'no-step', found: 'conclusions' };
  if (assumes !== 'nothing' && assumes !== 'one-solution') return { reason: 'no-step', found: 'assumes' };
  if (pattern !== undefined && !isTexts(pattern)) return { reason: 'no-step', found: 'pattern' };
  if (placements.length > 0 && strikes.length > 0) return { reason: 'no-step', found: 'conclusions' };
  const numbers: number[] = [];
  for (const name of facts) {
    const fact = parseFact(layout, name);
    if (fact === null) return { reason: 'no-such-fact', found: name };
    if (numbers.includes(fact)) return { reason: 'repeated-fact', found: name };
    numbers.push(fact);
  }
  const kind = placements.length > 0 ? 'placements' : 'strikes';
  const candidates = parseAll(layout, kind === 'placements' ? placements : strikes, kind);
  if (typeof candidates === 'string') return { reason: 'no-such-conclusion', found: candidates };
  const cells = parseAll(layout, pattern ?? [], 'placements');
  if (typeof cells === 'string') return { reason: 'no-such-conclusion', found: cells };
  return {
    technique: typeof technique === 'string' ? technique : '',
    facts: numbers,
    conclusions: { kind, candidates },
    assumes,
    ...(pattern && { pattern: cells }),
  };
}

/** The candidates of some conclusions of a kind, or the text that is none. */
function parseAll(
  layout: Layout,
  texts: readonly string[],
  kind: 'placements' | 'strikes',
): Candidate[] | string {
  const candidates: Candidate[] = [];
  for (const text of texts) {
    const conclusion = parseConclusion(layout, text);
    if (conclusion === null || `${conclusion.kind}s` !== kind) return text;
    candidates.push(conclusion.candidate);
  }
  return candidates;
}
