import type { NamedGrid } from '../grid/read.ts';
import { hintFor } from '../hint/ladder.ts';
import { type HintLine, type Rung, rungs } from '../hint/rung.ts';
import { decideCapabilities } from '../platform/capabilities.ts';
import type { Run } from './command.ts';
import { type Answer, eachGrid } from './each-grid.ts';
import { positionOf } from './grid-text.ts';

/** The lines of a rung, with their signs in a column of their own where there are any. */
function rungText(lines: readonly HintLine[], unicode: boolean): string[] {
  const signed = lines.some(({ sign }) => sign !== '');
  const plainSign = (sign: string): string => (sign === '×' && !unicode ? 'x' : sign);
  return lines.map(({ sign, text }) => (signed ? `${plainSign(sign).padEnd(3)}${text}` : text));
}

/** What `hint` says of a grid at a rung; `unicode`: whether signs beyond ASCII can be shown. */
export function hintGrid({ grid }: NamedGrid, rung: Rung, unicode = true): Answer {
  const position = positionOf(grid);
  const ladder = hintFor({ position, claims: [], kind: 'full' });
  const found = ladder?.rungs.find((each) => each.rung === rung);
  if (!ladder || !found) {
    const text = position.isSolved ? 'The grid is solved.' : 'No step found.';
    return { json: { schema: 1, step: null }, lines: [text], negative: true };
  }
  return { json: found.json, lines: rungText(found.lines, unicode), negative: ladder.kind === 'broken' };
}

export const run: Run = (invocation, surroundings) => {
  const rung = rungs.find((each) => each === invocation.flags.get('rung')) ?? rungs[0];
  const { unicode } = decideCapabilities({
    env: surroundings.environment,
    flags: {},
    isTTY: { keys: false, stdout: false, stderr: false },
  });
  return eachGrid(invocation, surroundings, (named) => hintGrid(named, rung, unicode));
};
