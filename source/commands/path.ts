import { weightOf } from '../argument/fact.ts';
import { decide } from '../exact/solve.ts';
import type { Position } from '../grid/position.ts';
import type { NamedGrid } from '../grid/read.ts';
import { sayAnalysis } from '../hint/path-words.ts';
import { type Analysis, analyse } from '../path/analysis.ts';
import { drawContour } from '../path/contour.ts';
import { makePathJson } from '../path/path-json.ts';
import { type Path, pathOf } from '../path/whole.ts';
import { assumesOneSolution, tokenFor } from './assume.ts';
import type { Run } from './command.ts';
import { type Answer, eachGrid } from './each-grid.ts';
import { lineOf, positionOf } from './grid-text.ts';
import { lastLook, sayWithin, withinSeconds } from './in-time.ts';
import { type PathForm, pathForms } from './path-forms.ts';
import { printsUnicode } from './signed-lines.ts';
import { eachStepText, stepsMarkdown, stepsText } from './told-steps.ts';

export interface PathCommandOptions {
  readonly proved?: boolean;
  readonly oneSolution?: boolean;
  readonly form?: PathForm;
  readonly unicode?: boolean;
  /** Told what there is so far before each step. */
  readonly watch?: (soFar: PathSoFar) => void;
}

/** A path that is being looked for: its steps up to now. */
export type PathSoFar = Pick<Path, 'steps'> & { readonly position: Path['end']; readonly isSolved: boolean };

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
  { proved = false, oneSolution = false, form = 'text', unicode = true, watch }: PathCommandOptions = {},
): Answer {
  const position = positionOf(grid);
  const token = oneSolution ? tokenFor(grid) : null;
  const enough = (working: PathSoFar) => {
    watch?.(working);
    return false;
  };
  const path = pathOf(position, {
    proved,
    allNames: true,
    ...(watch && { enough }),
    ...(token && { token }),
  });
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

/** What `path` says where time ran out: the steps that there are, what they are like not looked at. */
export function pathUnfinished(
  { grid }: NamedGrid,
  soFar: PathSoFar | null,
  seconds: number,
  unicode = true,
): Answer {
  const start = positionOf(grid);
  const steps = soFar?.steps.slice() ?? [];
  const end = soFar?.position ?? start;
  const path: Path = { start, steps, end, solved: soFar?.isSolved ?? false };
  const weights = steps.map(({ argument }) => weightOf(grid.layout, argument));
  const analysis: Analysis = {
    weights,
    heaviest: Math.max(0, ...weights),
    essential: steps.map(() => true),
    available: steps.map(() => ({ candidates: 0, releases: 0, exact: false })),
    bottlenecks: [],
    meetings: [],
  };
  const many = `${steps.length} ${steps.length === 1 ? 'step' : 'steps'}`;
  const told: string[][] = [];
  withinSeconds(lastLook(seconds), () => {
    for (const lines of eachStepText(steps, unicode)) told.push(lines);
  });
  const said = path.solved
    ? `Solved in ${many}; what they are like was not found out ${sayWithin(seconds)}.`
    : `${many} found ${sayWithin(seconds)}, and no end.`;
  return { json: makePathJson(path, analysis), lines: [said, '', ...told.flat()], negative: true };
}

export const run: Run = (invocation, surroundings) => {
  const { flags } = invocation;
  const options: PathCommandOptions = {
    proved: flags.has('proved'),
    oneSolution: assumesOneSolution(invocation),
    form: pathForms.find((form) => form === flags.get('format')) ?? 'text',
    unicode: printsUnicode(surroundings),
  };
  let soFar: PathSoFar | null = null;
  const watch = (working: PathSoFar) => {
    soFar = working;
  };
  const answer = (named: NamedGrid) => {
    soFar = null;
    return pathOfGrid(named, { ...options, watch });
  };
  return eachGrid(invocation, surroundings, answer, {
    unfinished: (named, seconds) => pathUnfinished(named, soFar, seconds, options.unicode),
  });
};
