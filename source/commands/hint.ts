import type { NamedGrid } from '../grid/read.ts';
import { hintFor } from '../hint/ladder.ts';
import { type Rung, rungs } from '../hint/rung.ts';
import type { Run } from './command.ts';
import { type Answer, eachGrid } from './each-grid.ts';
import { positionOf } from './grid-text.ts';
import { printsUnicode, signedText } from './signed-lines.ts';

/** What `hint` says of a grid at a rung; `unicode`: whether signs beyond ASCII can be shown. */
export function hintGrid({ grid }: NamedGrid, rung: Rung, unicode = true): Answer {
  const position = positionOf(grid);
  const ladder = hintFor({ position, claims: [], kind: 'full' });
  const found = ladder?.rungs.find((each) => each.rung === rung);
  if (!ladder || !found) {
    const text = position.isSolved ? 'The grid is solved.' : 'No step found.';
    return { json: { schema: 1, step: null }, lines: [text], negative: true };
  }
  return { json: found.json, lines: signedText(found.lines, unicode), negative: ladder.kind === 'broken' };
}

export const run: Run = (invocation, surroundings) => {
  const rung = rungs.find((each) => each === invocation.flags.get('rung')) ?? rungs[0];
  const unicode = printsUnicode(surroundings);
  return eachGrid(invocation, surroundings, (named) => hintGrid(named, rung, unicode));
};
