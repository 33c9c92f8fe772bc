import { decide } from '../exact/solve.ts';
import type { Position } from '../grid/position.ts';
import type { NamedGrid } from '../grid/read.ts';
import { hintFor } from '../hint/ladder.ts';
import { type Rung, rungs } from '../hint/rung.ts';
import type { Run } from './command.ts';
import { type Answer, eachGrid } from './each-grid.ts';
import { factsTried, sayTried } from './facts-tried.ts';
import { positionOf } from './grid-text.ts';
import { sayWithin } from './in-time.ts';
import { printsUnicode, signedText } from './signed-lines.ts';

/** What `hint` says of a grid at a rung; `unicode`: whether signs beyond ASCII can be shown. */
export function hintGrid({ grid }: NamedGrid, rung: Rung, unicode = true): Answer {
  const position = positionOf(grid);
  const ladder = hintFor({ position, claims: [], kind: 'full' });
  const found = ladder?.rungs.find((each) => each.rung === rung);
  if (!ladder || !found) {
    return { json: { schema: 1, step: null }, lines: [sayNothing(position)], negative: true };
  }
  return { json: found.json, lines: signedText(found.lines, unicode), negative: ladder.kind === 'broken' };
}

/** What `hint` says where time ran out: how light a step was looked for and not found. */
export function hintUnfinished({ grid }: NamedGrid, seconds: number): Answer {
  const tried = factsTried(positionOf(grid), seconds);
  const lines = [`No step found ${sayWithin(seconds)}.`, ...sayTried(tried)];
  return { json: { schema: 1, step: null, tried }, lines, negative: true };
}

/** Why there is no step to tell. */
function sayNothing(position: Position): string {
  if (position.isSolved) return 'The grid is solved.';
  const broken = decide(position).verdict === 'none';
  return broken ? 'This cannot be completed, but no argument short enough shows why.' : 'No step found.';
}

export const run: Run = (invocation, surroundings) => {
  const rung = rungs.find((each) => each === invocation.flags.get('rung')) ?? rungs[0];
  const unicode = printsUnicode(surroundings);
  return eachGrid(invocation, surroundings, (named) => hintGrid(named, rung, unicode), {
    unfinished: hintUnfinished,
  });
};
