import { CandidateSet } from '../grid/candidates.ts';
import type { Digit } from '../grid/layout.ts';
import { digitName } from '../grid/names.ts';
import { type Grid, Position } from '../grid/position.ts';

/** The position that a grid describes: where a cell lists candidates, all others of it are struck. */
export function positionOf(grid: Grid): Position {
  const { layout, givens, marks } = grid;
  if (!marks) return Position.from(layout, givens);
  const listed = CandidateSet.fromMasks(
    layout,
    marks.map((mask) => (mask === 0 ? layout.allDigits : mask)),
  );
  return Position.from(layout, givens, givens, CandidateSet.full(layout).without(listed));
}

const signs = Buffer.from(
  Array.from({ length: 26 }, (_, digit) => (digit === 0 ? '.' : digitName(digit))).join(''),
);
let line = Buffer.alloc(81);

/**
 * Digits as one sign a cell, `.` for 0: how grids stand in JSON. Written into bytes first: put together sign by
 * sign, a line is a chain of 81 strings, most of the garbage of checking many grids.
 */
export function lineOf(digits: ArrayLike<Digit>): string {
  if (line.length < digits.length) line = Buffer.alloc(digits.length);
  for (let cell = 0; cell < digits.length; cell += 1) line[cell] = signs[digits[cell]];
  return line.toString('latin1', 0, digits.length);
}
