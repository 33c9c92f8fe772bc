import { decide } from '../exact/solve.ts';
import { type Candidate, candidateOf, cellOf, digitOf, type Layout } from '../grid/layout.ts';
import { cellName, digitName, parseCell, parseConclusion, placementName, strikeName } from '../grid/names.ts';
import type { Position } from '../grid/position.ts';
import type { NamedGrid } from '../grid/read.ts';
import { sayNumber, sentence } from '../hint/words.ts';
import { makeTraceJson } from '../path/path-json.ts';
import { type Target, type Trace, trace } from '../path/trace.ts';
import { quoteSafe } from '../text/safe.ts';
import type { Run } from './command.ts';
import { complain } from './complain.ts';
import { type Answer, eachGridOn } from './each-grid.ts';
import { positionOf } from './grid-text.ts';
import { sayWithin } from './in-time.ts';
import { printsUnicode } from './signed-lines.ts';
import { type StepsSoFar, sayStepsSoFar } from './so-far.ts';
import { stepsText } from './told-steps.ts';
import { helpFor } from './usage.ts';

const schema = 1;

/** What is asked about: a cell's digit, whatever it is, or one digit in a cell. */
export type Asked = { readonly kind: 'cell'; readonly cell: number } | Target;

/** Reads `r7c3`, `r7c3=5` or `r7c3<>5`; null if it is none of these. */
export function parseAsked(layout: Layout, text: string): Asked | null {
  const cell = parseCell(layout, text.trim());
  return cell === null ? parseConclusion(layout, text) : { kind: 'cell', cell };
}

/** The digit that a cell has in every solution, as a target; null where there is no such digit. */
export function targetIn(position: Position, cell: number): Target | null {
  const { layout } = position;
  const decision = decide(position);
  if (decision.verdict === 'one') {
    return { kind: 'placement', candidate: candidateOf(layout, cell, decision.solution[cell]) };
  }
  if (decision.verdict === 'none') return null;
  const candidate = candidateOf(layout, cell, decision.witnesses[0][cell]);
  return decide(position.strike([candidate])).verdict === 'none' ? { kind: 'placement', candidate } : null;
}

const nameOf = (layout: Layout, { kind, candidate }: Target): string =>
  kind === 'placement' ? placementName(layout, candidate) : strikeName(layout, candidate);

/** `r7c3 is 5`, `r7c3 is not 4`. */
export const sayCandidate = (layout: Layout, { kind, candidate }: Target): string =>
  `${cellName(layout, cellOf(layout, candidate))} is ${kind === 'strike' ? 'not ' : ''}${sayDigit(layout, candidate)}`;
const sayDigit = (layout: Layout, candidate: Candidate): string => digitName(digitOf(layout, candidate));

/** What is said where there is no chain. */
function sayWhyNot(traced: Exclude<Trace['kind'], 'chain'>, said: string): string {
  switch (traced) {
    case 'already':
      return `${said}: that is so from the start`;
    case 'not-so':
      return `it cannot be shown that ${said}: there is a solution in which it is otherwise`;
    case 'broken':
      return 'the grid has no solution, so anything could be shown';
    case 'not-found':
      return `no chain of arguments to ${said} was found`;
  }
}

/** What `trace` says of a grid. `watch` sees the steps that there are before each further one. */
export function traceGrid(
  { grid }: NamedGrid,
  asked: Asked,
  unicode = true,
  watch?: (steps: StepsSoFar) => void,
): Answer {
  const { layout } = grid;
  const position = positionOf(grid);
  const target = asked.kind === 'cell' ? targetIn(position, asked.cell) : asked;
  if (target === null) {
    const cell = asked.kind === 'cell' ? cellName(layout, asked.cell) : '';
    const isBroken = decide(position).verdict === 'none';
    const reason = isBroken ? 'broken' : 'not-so';
    const said = isBroken
      ? 'the grid has no solution, so anything could be shown'
      : `${cell} has different digits in different solutions`;
    return { json: { schema, target: cell, steps: null, reason }, lines: [sentence(said)], negative: true };
  }
  const head = { schema, target: nameOf(layout, target) };
  const said = sayCandidate(layout, target);
  const traced = trace(position, target, watch);
  if (traced.kind === 'chain') {
    const count = traced.steps.length;
    return {
      json: { ...head, steps: makeTraceJson(traced.steps) },
      get lines() {
        const steps = `${sayNumber(count)} ${count === 1 ? 'step' : 'steps'}`;
        return [sentence(`${said}, in ${steps}`), '', ...stepsText(traced.steps, unicode)];
      },
      negative: false,
    };
  }
  const lines = [sentence(sayWhyNot(traced.kind, said))];
  if (traced.kind === 'already') return { json: { ...head, steps: [] }, lines, negative: false };
  return { json: { ...head, steps: null, reason: traced.kind }, lines, negative: true };
}

/** What `trace` says where time ran out: how many steps there are. */
export function traceUnfinished(
  { grid }: NamedGrid,
  asked: Asked,
  soFar: StepsSoFar | null,
  seconds: number,
): Answer {
  const { layout } = grid;
  const target = asked.kind === 'cell' ? cellName(layout, asked.cell) : nameOf(layout, asked);
  return {
    json: { schema, target, steps: null, reason: 'out-of-time', found: soFar?.length ?? 0 },
    lines: [`No chain of arguments to ${target} was found ${sayWithin(seconds)}.${sayStepsSoFar(soFar)}`],
    negative: true,
  };
}

/** The grid comes first, then the cell or candidate; with one operand the grid is read from stdin. */
export const run: Run = (invocation, surroundings) => {
  const { command, operands } = invocation;
  const text = operands[operands.length - 1];
  if (text === undefined) {
    const message = `'inkling trace' needs a grid and a cell or a candidate`;
    const next = `for instance: ${command.examples[0].line}\n${helpFor(command)}`;
    return complain({ message, next }, surroundings);
  }
  const unicode = printsUnicode(surroundings);
  let asked: Asked | null = null;
  let soFar: StepsSoFar | null = null;
  const watch = (steps: StepsSoFar) => {
    soFar = steps;
  };
  const answerOn = (layout: Layout) => {
    const read = parseAsked(layout, text);
    asked = read;
    if (read !== null) {
      return (named: NamedGrid) => {
        soFar = null;
        return traceGrid(named, read, unicode, watch);
      };
    }
    const message = `found ${quoteSafe(text, 24)}; expected a cell r7c3, a placement r7c3=5 or a strike r7c3<>5`;
    return { message, next: helpFor(command) };
  };
  return eachGridOn({ ...invocation, operands: operands.slice(0, -1) }, surroundings, answerOn, {
    unfinished: (named, seconds) =>
      traceUnfinished(named, asked ?? { kind: 'cell', cell: 0 }, soFar, seconds),
  });
};
