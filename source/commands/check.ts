import { availableParallelism } from 'node:os';
import { type Decision, decide, decideDigits, firstCompletion } from '../exact/solve.ts';
import { type Clash, findClashes } from '../grid/clashes.ts';
import { type Cell, type Digit, type Layout, plain } from '../grid/layout.ts';
import { type WrittenLayout, writeLayout } from '../grid/layout-text.ts';
import { cellName, digitName, sayHouse } from '../grid/names.ts';
import type { Grid } from '../grid/position.ts';
import type { NamedGrid } from '../grid/read.ts';
import { type CheckQuestions, type FurtherAnswer, furtherAnswers } from './check-further.ts';
import type { Run } from './command.ts';
import { type Answer, eachGrid } from './each-grid.ts';
import { lineOf, positionOf } from './grid-text.ts';
import { lastLook, sayOutOfTime, withinSeconds } from './in-time.ts';

const schema = 1;
/** Up to so many cells in which two solutions differ are named one by one. */
const cellsNamed = 20;

/** How many digits are given. */
function countGivens(givens: readonly Digit[]): number {
  let count = 0;
  for (const digit of givens) if (digit !== 0) count += 1;
  return count;
}

const cellsText = (layout: Layout, cells: readonly Cell[]): string =>
  cells.map((cell) => cellName(layout, cell)).join(' ');

function clashAnswer(grid: Grid, clashes: readonly Clash[], head: Head): Answer {
  const { layout } = grid;
  return {
    json: {
      ...head,
      verdict: 'clash',
      clashes: clashes.map(({ house, digit, cells }) => ({
        house: house.name,
        digit,
        cells: cells.map((cell) => cellName(layout, cell)),
      })),
    },
    lines: [
      'The givens clash.',
      ...clashes.map(
        ({ house, digit, cells }) =>
          `${digitName(digit)} stands ${cells.length === 2 ? 'twice' : `${cells.length} times`} in ` +
          `${sayHouse(house)}: ${cellsText(layout, cells)}`,
      ),
    ],
    negative: true,
  };
}

function sayDifference(layout: Layout, [a, b]: readonly [Uint8Array, Uint8Array]): string {
  const cells = Array.from(a.keys()).filter((cell) => a[cell] !== b[cell]);
  if (cells.length > cellsNamed) return `They differ in ${cells.length} cells.`;
  return `They differ in ${cells.length} cells: ${cellsText(layout, cells)}`;
}

function decisionLines(grid: Grid, decision: Decision): string[] {
  switch (decision.verdict) {
    case 'one':
      return ['One solution.', lineOf(decision.solution)];
    case 'several':
      return [
        'Several solutions. Two of them:',
        ...decision.witnesses.map((witness) => lineOf(witness)),
        sayDifference(grid.layout, decision.witnesses),
      ];
    case 'none': {
      if (!grid.marks) return ['No solution.'];
      const alone = { none: 'none', one: 'one', several: 'several' }[
        decideDigits(grid.layout, grid.givens).verdict
      ];
      return [
        'No solution with these candidates.',
        `The digits that are placed, by themselves, have ${alone}.`,
      ];
    }
  }
}

/** What the JSON of every verdict begins with. */
interface Head {
  readonly schema: number;
  readonly puzzle: string;
  readonly givens: number;
}

/** Written out for each verdict: objects put together from others with `...` fill memory faster than all else. */
function decisionJson({ schema, puzzle, givens }: Head, decision: Decision): Record<string, unknown> {
  const { verdict } = decision;
  switch (verdict) {
    case 'one':
      return { schema, puzzle, givens, verdict, solution: lineOf(decision.solution) };
    case 'several': {
      const [a, b] = decision.witnesses;
      return { schema, puzzle, givens, verdict, witnesses: [lineOf(a), lineOf(b)] };
    }
    case 'none':
      return { schema, puzzle, givens, verdict };
  }
}

/** Where the time that there was did not decide it. `found`: a solution, if one was found. */
function undecidedAnswer(head: Head, found: Uint8Array | null, seconds: number): Answer {
  return {
    json: { ...head, verdict: 'undecided', ...(found && { found: lineOf(found) }), stopped: seconds },
    lines: found
      ? ['There is a solution at least. Whether it is the only one was not decided.', lineOf(found)]
      : ['Whether there is a solution was not decided.'],
    negative: true,
    notice: sayOutOfTime(seconds),
  };
}

/** Decides a grid within some seconds; null where they are not enough. Plain grids never take a second. */
function decideGrid(grid: Grid, seconds: number): Decision | null {
  const { layout, givens } = grid;
  if (!grid.marks && layout === plain) return decideDigits(layout, givens);
  const done = withinSeconds(seconds, () =>
    grid.marks ? decide(positionOf(grid)) : decideDigits(layout, givens),
  );
  return done?.value ?? null;
}

/** What `check` says of a grid, within some seconds for each thing that is asked. */
export function checkGrid({ grid }: NamedGrid, asked: CheckQuestions, seconds = 60): Answer {
  const { layout, givens } = grid;
  const head: Head = { schema, puzzle: lineOf(givens), givens: countGivens(givens) };
  const decision = decideGrid(grid, seconds);
  if (!decision) {
    const look = () => (grid.marks ? null : firstCompletion(layout, givens));
    return undecidedAnswer(head, withinSeconds(lastLook(seconds), look)?.value ?? null, seconds);
  }
  // Givens that clash have no solution: they need be looked for only then.
  const clashes = decision.verdict === 'none' ? findClashes(layout, givens) : [];
  const more = furtherAnswers(grid, clashes.length > 0 ? 'clash' : decision.verdict, asked, seconds);
  if (clashes.length > 0) return withMore(clashAnswer(grid, clashes, head), more);
  return withMore(new DecisionAnswer(grid, decision, head), more);
}

/**
 * A decision as an answer; what it says in lines is put together when it is asked for. A class: a getter in an
 * object of its own takes a hidden class each time, which over many grids fills memory faster than all else.
 */
class DecisionAnswer implements Answer {
  readonly json: Readonly<Record<string, unknown>>;
  readonly negative: boolean;
  readonly #grid: Grid;
  readonly #decision: Decision;

  constructor(grid: Grid, decision: Decision, head: Head) {
    this.json = decisionJson(head, decision);
    this.negative = decision.verdict !== 'one';
    this.#grid = grid;
    this.#decision = decision;
  }

  get lines(): string[] {
    return decisionLines(this.#grid, this.#decision);
  }
}

/** An answer and what else was asked. */
const withMore = (answer: Answer, more: readonly FurtherAnswer[]): Answer =>
  more.length === 0
    ? answer
    : {
        ...answer,
        json: Object.assign({}, answer.json, ...more.map(({ json }) => json)),
        lines: [...answer.lines, ...more.flatMap(({ lines }) => lines)],
        negative: answer.negative || more.some(({ notice }) => notice !== undefined),
        ...more.reduce<Pick<Answer, 'notice'>>(
          (told, { notice }) => (notice === undefined ? told : { notice }),
          {},
        ),
      };

/** What a worker thread is told at its start. `name`: of the input, for messages. */
export interface CheckTask {
  readonly name: string;
  readonly layout: WrittenLayout;
  readonly asked: CheckQuestions;
  /** How long each thing may take. */
  readonly seconds: number;
}

export const run: Run = (invocation, surroundings) => {
  const { flags } = invocation;
  const asked: CheckQuestions = {
    redundant: flags.has('redundant'),
    minimal: flags.has('minimal'),
    symmetries: flags.has('symmetries'),
    settle: flags.has('settle'),
    ...(flags.has('solutions') && { count: Number(flags.get('solutions')) }),
  };
  const seconds = Number(flags.get('seconds'));
  return eachGrid(invocation, surroundings, (named) => checkGrid(named, asked, seconds), {
    threads: {
      jobs: Number(flags.get('jobs') ?? availableParallelism()),
      startCrew: async (name, layout, size) => {
        const task: CheckTask = { name, layout: writeLayout(layout), asked, seconds };
        const { Crew } = await import('./crew.ts');
        return new Crew(new URL('dist/check-worker.js', surroundings.packageRoot), task, size);
      },
    },
  });
};
