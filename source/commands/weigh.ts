import { decide } from '../exact/solve.ts';
import type { NamedGrid } from '../grid/read.ts';
import { sayFacts, sentence } from '../hint/words.ts';
import { puzzleWeight, usualFacts } from '../path/weight.ts';
import type { Run } from './command.ts';
import { type Answer, eachGrid } from './each-grid.ts';
import { lineOf, positionOf } from './grid-text.ts';

const schema = 1;

/** What `weigh` says of a grid, searched with up to so many facts. */
export function weighGrid({ grid }: NamedGrid, upTo: number = usualFacts): Answer {
  const position = positionOf(grid);
  const weight = puzzleWeight(position, upTo);
  const said =
    weight === null
      ? 'the grid has no solution'
      : weight.atMost === weight.atLeast
        ? `arguments of at most ${sayFacts(weight.atMost)} solve it, and no fewer do`
        : `arguments of ${sayFacts(weight.atLeast - 1)} do not solve it`;
  const none =
    weight?.atMost === null && decide(position).verdict === 'several'
      ? ['The grid has several solutions, so no arguments do.']
      : [];
  return {
    json: { schema, puzzle: lineOf(grid.givens), weight },
    lines: [sentence(said), ...none],
    negative: weight === null || weight.atMost === null,
  };
}

export const run: Run = (invocation, surroundings) => {
  const upTo = Number(invocation.flags.get('up-to') ?? usualFacts);
  return eachGrid(invocation, surroundings, (named) => weighGrid(named, upTo));
};
