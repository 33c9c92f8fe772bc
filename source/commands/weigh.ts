import { decide } from '../exact/solve.ts';
import type { NamedGrid } from '../grid/read.ts';
import { sayFacts, sentence } from '../hint/words.ts';
import { puzzleWeight, usualFacts } from '../path/weight.ts';
import type { Run } from './command.ts';
import { type Answer, eachGrid } from './each-grid.ts';
import { lineOf, positionOf } from './grid-text.ts';
import { lastLook, sayWithin, withinSeconds } from './in-time.ts';

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

/** What `weigh` says where time ran out: how many facts are too few. */
export function weighUnfinished({ grid }: NamedGrid, seconds: number): Answer {
  const position = positionOf(grid);
  let atLeast = 0;
  withinSeconds(lastLook(seconds), () => {
    for (let upTo = 1; upTo <= usualFacts; upTo += 1) {
      const bound = puzzleWeight(position, upTo);
      if (bound === null || bound.atMost !== null) return;
      atLeast = bound.atLeast;
    }
  });
  const lines = [
    `Not weighed ${sayWithin(seconds)}.`,
    ...(atLeast > 1 ? [sentence(`arguments of ${sayFacts(atLeast - 1)} do not solve it`)] : []),
  ];
  return {
    json: { schema, puzzle: lineOf(grid.givens), weight: { atLeast, atMost: null } },
    lines,
    negative: true,
  };
}

export const run: Run = (invocation, surroundings) => {
  const upTo = Number(invocation.flags.get('up-to') ?? usualFacts);
  return eachGrid(invocation, surroundings, (named) => weighGrid(named, upTo), {
    unfinished: weighUnfinished,
  });
};
