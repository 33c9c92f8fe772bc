import { check } from '../../source/argument/kernel.ts';
import { hintGrid } from '../../source/commands/hint.ts';
import { plain } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';
import { readGrid } from '../../source/grid/read.ts';
import { findGridForm, gridOf } from '../../source/grid/write.ts';
import { take } from '../../source/path/next.ts';
import { satSolutions } from '../judges/sat.ts';
import { faultOf, type PrintedHint, readArgument } from './judge-hint.ts';

export interface Followed {
  /** What was wrong with a step; null where all were sound. */
  readonly fault: string | null;
  readonly solved: boolean;
  readonly weights: readonly number[];
}

/** A grid of 81 signs as the position of its givens. */
export const positionFrom = (grid: string): Position =>
  Position.from(
    plain,
    Array.from(grid, (sign) => (sign === '.' ? 0 : Number(sign))),
  );

/**
 * Does what the hints say, one after the other, each asked for with the table of candidates that the last
 * one left; judges every one by the kernel, by a SAT solver, and by the solution that a SAT solver found.
 */
export function followHints(grid: string, most: number = Infinity): Followed {
  const table = findGridForm('candidates');
  const [solution] = satSolutions(positionFrom(grid), 1);
  let position = positionFrom(grid);
  const weights: number[] = [];
  const stop = (fault: string | null): Followed => ({ fault, solved: position.isSolved, weights });
  if (!table || !solution) return stop('no form or no solution');
  while (!position.isSolved && weights.length < most) {
    const read = readGrid(table.make(gridOf(position)));
    if (!read.ok) return stop(read.error.message);
    const { json, negative } = hintGrid(read.value, 'why');
    if ('step' in json) break;
    const { argument } = json as unknown as PrintedHint;
    const fault = negative ? 'a negative answer' : faultOf(position, argument);
    if (fault !== null) return stop(`${fault}: ${JSON.stringify(argument)}`);
    const verdict = check(position, readArgument(position, argument));
    if (verdict.verdict !== 'holds') return stop(verdict.verdict);
    weights.push(argument.weight);
    position = take(position, verdict.checked);
    const lost = solution.findIndex(
      (digit, cell) => (position.candidates.digitsAt(cell) & (1 << (digit - 1))) === 0,
    );
    if (lost >= 0) return stop(`the solution's digit of cell ${lost} is gone: ${JSON.stringify(argument)}`);
  }
  return stop(null);
}
