import { decide } from '../exact/solve.ts';
import type { Position } from '../grid/position.ts';
import type { NamedGrid } from '../grid/read.ts';
import { sayAnalysis } from '../hint/path-words.ts';
import { analyse } from '../path/analysis.ts';
import { drawContour } from '../path/contour.ts';
import { makePathJson } from '../path/path-json.ts';
import { pathOf } from '../path/whole.ts';
import { assumesOneSolution, tokenFor } from './assume.ts';
import type { Run } from './command.ts';
import { type Answer, eachGrid } from './each-grid.ts';
import { lineOf, positionOf } from './grid-text.ts';
import { type PathForm, pathForms } from './path-forms.ts';
import { printsUnicode } from './signed-lines.ts';
import { stepsMarkdown, stepsText } from './told-steps.ts';

export interface PathCommandOptions {
  readonly proved?: boolean;
  readonly oneSolution?: boolean;
  readonly form?: PathForm;
  readonly unicode?: boolean;
}

/** Where no steps could lead to a solution, since there is none or more than one, in a sentence. */
function sayWhyUnsolved(position: Position): string[] {
  switch (decide(position).verdict) {
    case 'none':
      return ['The grid has no solution.'];
    case 'several':
      return ['The grid has several solutions, so no argument leads to one of them.'];
    case 'one':
      return [];
  }
}

/** What `path` says of a grid. */
export function pathOfGrid(
  { grid }: NamedGrid,
  { proved = false, oneSolution = false, form = 'text', unicode = true }: PathCommandOptions = {},
): Answer {
  const position = positionOf(grid);
  const token = oneSolution ? tokenFor(grid) : null;
  const path = pathOf(position, { proved, allNames: true, ...(token && { token }) });
  const analysis = analyse(path, token ?? undefined);
  const [outcome, ...more] = sayAnalysis(path, analysis);
  const said = [outcome, ...(path.solved ? [] : sayWhyUnsolved(position)), ...more];
  const contour = drawContour(analysis.weights, unicode);
  const puzzle = lineOf(grid.givens);
  return {
    json: makePathJson(path, analysis),
    get lines() {
      return form === 'text'
        ? [...said, ...(contour === '' ? [] : [contour, '']), ...stepsText(path.steps, unicode)]
        : [
            ...['# A path', '', '```', puzzle, '```', ''],
            ...said.map((line) => `- ${line}`),
            ...(contour === '' ? [] : ['', '```', contour, '```', '']),
            ...stepsMarkdown(path.steps),
          ];
    },
    negative: !path.solved,
    ...(oneSolution && token === null
      ? { notice: 'the grid does not have exactly one solution, so nothing may be built on that' }
      : {}),
  };
}

export const run: Run = (invocation, surroundings) => {
  const { flags } = invocation;
  const options: PathCommandOptions = {
    proved: flags.has('proved'),
    oneSolution: assumesOneSolution(invocation),
    form: pathForms.find((form) => form === flags.get('format')) ?? 'text',
    unicode: printsUnicode(surroundings),
  };
  return eachGrid(invocation, surroundings, (named) => pathOfGrid(named, options));
};
