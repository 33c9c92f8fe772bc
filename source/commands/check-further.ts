import { isMinimal, redundantGivens } from '../exact/redundant.ts';
import { settle } from '../exact/settle.ts';
import { countSolutions } from '../exact/solve.ts';
import { type Candidate, candidateOf } from '../grid/layout.ts';
import { cellName, placementName } from '../grid/names.ts';
import type { Grid } from '../grid/position.ts';
import { symmetriesOfGivens } from '../grid/symmetry.ts';
import { positionOf } from './grid-text.ts';
import { sayOutOfTime, withinSeconds } from './in-time.ts';

/** What is asked beyond the verdict: each costs more than that. */
export interface CheckQuestions {
  /** Which givens could be left out, each by itself. */
  readonly redundant: boolean;
  /** Whether every given is needed. */
  readonly minimal: boolean;
  /** How the cells of the givens mirror each other. */
  readonly symmetries: boolean;
  /** Where several solutions differ, and what would leave one. */
  readonly settle: boolean;
  /** How many solutions there are, counted up to so many. */
  readonly count?: number;
}

/** An answer to one of them: fields of the JSON, and lines. */
export interface FurtherAnswer {
  readonly json: Readonly<Record<string, unknown>>;
  readonly lines: readonly string[];
  /** Why not all of it was answered. */
  readonly notice?: string;
}

/** So many ways to settle a grid are listed at most. */
const setsListed = 20;
/** So many pairs of givens are decided by search: a few seconds at most. */
const pairsSearched = 100_000;

function redundantAnswer({ layout, givens }: Grid): FurtherAnswer {
  const names = Array.from(redundantGivens(layout, givens), (cell) =>
    placementName(layout, candidateOf(layout, cell, givens[cell])),
  );
  const line =
    names.length === 0
      ? 'No given is redundant.'
      : `Givens that could be left out, each by itself: ${names.join(' ')}`;
  return { json: { redundant: names }, lines: [line] };
}

function minimalAnswer({ layout, givens }: Grid): FurtherAnswer {
  const minimal = isMinimal(layout, givens);
  return { json: { minimal }, lines: [minimal ? 'Every given is needed.' : 'Not every given is needed.'] };
}

function symmetryAnswer({ layout, givens }: Grid): FurtherAnswer {
  const symmetries = symmetriesOfGivens(layout, givens);
  const line =
    symmetries.length === 0
      ? 'The cells of the givens have no symmetry.'
      : `Symmetries of the cells of the givens: ${symmetries.join(' ')}`;
  return { json: { symmetries }, lines: [line] };
}

/** Counts up to ten times as many each time, so that much is known when time runs out. */
function countAnswer(grid: Grid, most: number, seconds: number): FurtherAnswer {
  const position = positionOf(grid);
  let found = 0;
  const done = withinSeconds(seconds, () => {
    for (let limit = 1000; ; limit *= 10) {
      found = countSolutions(position, Math.min(limit, most + 1));
      if (found < limit || limit > most) return;
    }
  });
  if (!done) {
    const { json, notice } = cutShort(seconds);
    if (found === 0) return cutShort(seconds);
    const said = `At least ${found.toLocaleString('en-US')} solutions were counted in the time there was.`;
    return { json: { ...json, count: found - 1, more: true }, lines: [said], ...(notice && { notice }) };
  }
  const [count, more] = [Math.min(found, most), found > most];
  const said = `${count.toLocaleString('en-US')} ${count === 1 ? 'solution' : 'solutions'}`;
  return {
    json: { count, more },
    lines: [more ? `More than ${said}; --solutions N sets how far they are counted.` : `${said} in all.`],
  };
}

function settleAnswer(grid: Grid): FurtherAnswer {
  const { layout } = grid;
  const { differ, atLeast, sets } = settle(positionOf(grid), { sets: setsListed, pairs: pairsSearched });
  const cells = differ.map((cell) => cellName(layout, cell));
  const named = (set: readonly Candidate[]) => set.map((candidate) => placementName(layout, candidate));
  const listed = sets.map((set) => named(set).join(' + ')).join(', ');
  const more = sets.length === setsListed ? ' and perhaps others' : '';
  const said = (): string => {
    if (atLeast === 3) return 'It takes more than two further givens to leave one solution.';
    if (sets.length === 0) return 'One further given is not enough; not every pair was tried.';
    const how = atLeast === 1 ? 'One further given leaves' : 'Two further givens leave';
    return `${how} one solution: ${listed}${more}`;
  };
  return {
    json: { differ: cells, settle: { atLeast, sets: sets.map(named) } },
    lines: [`Cells that are not the same in all solutions: ${cells.join(' ')}`, said()],
  };
}

/**
 * The answers to what was asked, as far as it makes sense for the verdict: what can be left out of a grid is
 * answered where there is one solution and no list of candidates, what settles it where there are several. Each is
 * given so many seconds.
 */
export function furtherAnswers(
  grid: Grid,
  verdict: 'one' | 'none' | 'several' | 'clash',
  asked: CheckQuestions,
  seconds: number,
): FurtherAnswer[] {
  const wanted: (() => FurtherAnswer)[] = [];
  const inTime = (answer: (grid: Grid) => FurtherAnswer) => () =>
    withinSeconds(seconds, () => answer(grid))?.value ?? cutShort(seconds);
  const bare = verdict === 'one' && !grid.marks;
  if (asked.redundant && bare) wanted.push(inTime(redundantAnswer));
  if (asked.minimal && bare) wanted.push(inTime(minimalAnswer));
  const { count } = asked;
  if (count !== undefined) wanted.push(() => countAnswer(grid, count, seconds));
  if (asked.symmetries) wanted.push(inTime(symmetryAnswer));
  if (asked.settle && verdict === 'several') wanted.push(inTime(settleAnswer));
  return wanted.map((answer) => answer());
}

const cutShort = (seconds: number): FurtherAnswer => ({
  json: { stopped: seconds },
  lines: ['The rest of what was asked was not found out in the time there was.'],
  notice: sayOutOfTime(seconds),
});
