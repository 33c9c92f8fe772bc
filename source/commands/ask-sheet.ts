import { withClaims } from '../argument/claim.ts';
import type { CheckedArgument, OneSolutionToken } from '../argument/kernel.ts';
import { decide } from '../exact/solve.ts';
import { cellOf, digitOf } from '../grid/layout.ts';
import { cellName, digitName } from '../grid/names.ts';
import { findOnSheet } from '../hint/find.ts';
import { showInstance } from '../hint/find-words.ts';
import { tellStep } from '../hint/path-words.ts';
import { sayFacts, sentence } from '../hint/words.ts';
import { drawContour } from '../path/contour.ts';
import type { View } from '../path/step.ts';
import { type Target, trace } from '../path/trace.ts';
import { catalogue, techniqueById } from '../techniques/catalogue.ts';
import type { Answer, Question, Shown } from '../terminal/series.ts';
import { quoteSafe } from '../text/safe.ts';
import { nearest } from './nearest.ts';
import { nothingSoFar, type SoFar } from './so-far.ts';
import { parseAsked, sayCandidate, targetIn } from './trace.ts';

const said = (...lines: readonly string[]): Answer => ({ kind: 'said', lines });

/**
 * What the workbench is asked about its sheet: the instances of a technique, or the way to a digit. With a
 * token there are techniques that build on there being one solution. What there is so far is written into `soFar`.
 */
export function askSheet(
  view: View,
  about: Question,
  text: string,
  token?: OneSolutionToken,
  soFar: SoFar = nothingSoFar(),
): Answer {
  switch (about) {
    case 'find':
      return findTechnique(view, text.toLowerCase().split(/\s+/).join('-'), soFar, token);
    case 'trace':
      return traceTo(view, text, soFar);
  }
}

function findTechnique(view: View, id: string, soFar: SoFar, token?: OneSolutionToken): Answer {
  const technique = techniqueById(id);
  const found = findOnSheet(view, id, token, (known) => {
    soFar.found = known;
  });
  if (!technique || !found) {
    const ids = catalogue.map((each) => each.id);
    const near = nearest(id, ids);
    const unknown = `No technique is called ${quoteSafe(id, 24)}.`;
    if (near !== null) return { kind: 'unreadable', lines: [`${unknown} Did you mean ${near}?`] };
    return said(unknown, `The names are: ${ids.join(', ')}.`);
  }
  const { name, instances } = found;
  if (technique.assumes === 'one-solution' && !token) {
    return said(
      `${name} builds on there being one solution, which the workbench does not take for granted.`,
      'inkling --assume one-solution does.',
    );
  }
  if (instances.length === 0) return said(`${name}: none on the sheet.`);
  const shown = instances.map(
    ({ headline, facts, does, drawing }): Shown => ({
      headline: sentence(headline),
      lines: [...facts, ...does],
      drawing,
      before: { placements: [], strikes: [] },
    }),
  );
  return { kind: 'series', title: name, shown };
}

function traceTo(view: View, text: string, soFar: SoFar): Answer {
  const { layout } = view.position;
  const asked = parseAsked(layout, text);
  if (asked === null) {
    const expected = 'expected a cell r7c3, a placement r7c3=5 or a strike r7c3<>5';
    return { kind: 'unreadable', lines: [`Found ${quoteSafe(text, 24)}; ${expected}.`] };
  }
  const position = withClaims(view.position, view.claims);
  const cell = asked.kind === 'cell' ? asked.cell : cellOf(layout, asked.candidate);
  if (position.placed[cell] !== 0) {
    return said(`${cellName(layout, cell)} holds ${digitName(position.placed[cell])}.`);
  }
  const broken = 'The sheet cannot be completed as it stands, so nothing leads to a digit.';
  if (decide(position).verdict === 'none') return said(broken);
  const target = asked.kind === 'cell' ? targetIn(position, asked.cell) : asked;
  if (target === null) {
    return said(
      `${cellName(layout, cell)} has different digits in different solutions, so nothing leads to one.`,
    );
  }
  const traced = trace(position, target, (steps) => {
    soFar.steps = steps;
  });
  const name = sayCandidate(layout, target);
  switch (traced.kind) {
    case 'chain':
      return {
        kind: 'series',
        title: name,
        shown: shownSteps(traced.steps),
        contour: drawContour(
          traced.steps.map(({ argument }) => argument.facts.length),
          true,
        ),
      };
    case 'already':
      return said(sayAlready(target, position.layout));
    case 'not-so':
      return said(`It cannot be shown that ${name}: the sheet has a solution in which it is otherwise.`);
    case 'broken':
      return said(broken);
    case 'not-found':
      return said(`No chain of arguments to ${name} was found.`);
  }
}

/** A strike that the sheet has made already. */
const sayAlready = ({ candidate }: Target, layout: View['position']['layout']): string =>
  `${digitName(digitOf(layout, candidate))} is out of ${cellName(layout, cellOf(layout, candidate))} already.`;

/** Steps as they are shown, each on the sheet that those before it leave. */
function shownSteps(steps: readonly CheckedArgument[]): Shown[] {
  const concluded = (kind: 'placements' | 'strikes', count: number) =>
    steps
      .slice(0, count)
      .flatMap(({ argument: { conclusions } }) => (conclusions.kind === kind ? conclusions.candidates : []));
  return steps.map((checked, index) => ({
    ...toldStep(checked),
    before: { placements: concluded('placements', index), strikes: concluded('strikes', index) },
  }));
}

/** The cases of more facts than this can run to thousands of sentences. */
const mostTold = 12;

/** What is said and drawn of a step; of very many facts without the cases one by one. */
function toldStep(checked: CheckedArgument): Omit<Shown, 'before'> {
  const { position, argument } = checked;
  const { technique, facts, conclusions } = argument;
  const weight = facts.length;
  if (weight <= mostTold || conclusions.kind === 'breaks') {
    const { by, lines, drawing } = tellStep(checked);
    return { headline: sentence(by), lines, drawing };
  }
  const finding = { technique, facts, conclusions };
  const whole = showInstance(position, { finding, weight, fresh: conclusions.candidates });
  const name = techniqueById(technique)?.name;
  const cases = { sign: '', text: 'The cases are too many to be told one by one here.' };
  return {
    headline: sentence(name ? `${name}, ${sayFacts(weight)}` : `${sayFacts(weight)}, no name`),
    lines: [...whole.facts, ...whole.does, cases],
    drawing: whole.drawing,
  };
}
