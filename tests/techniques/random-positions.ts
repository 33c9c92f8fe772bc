import { decide } from '../../source/exact/solve.ts';
import type { Layout } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';
import { Board } from '../../source/techniques/board.ts';
import { closeUnder } from '../../source/techniques/fact-search.ts';
import type { Random } from '../random.ts';

/** The solution of a position that has exactly one; throws where it has not. */
export function solutionOf(position: Position): ArrayLike<number> {
  const decision = decide(position);
  if (decision.verdict !== 'one') throw new Error('the grid does not have exactly one solution');
  return decision.solution;
}

/** A full grid of a layout, from the empty one by random placements that leave it solvable. */
export function randomSolution(layout: Layout, random: Random): ArrayLike<number> {
  let position = Position.from(layout, new Uint8Array(layout.cellCount));
  for (let tries = 0; tries < layout.size * 3; tries += 1) {
    const open = [...position.candidates].filter((c) => position.placed[Math.floor(c / layout.size)] === 0);
    if (open.length === 0) break;
    const candidate = random.pick(open);
    const next = position.place(Math.floor(candidate / layout.size), (candidate % layout.size) + 1);
    if (decide(next).verdict !== 'none') position = next;
  }
  const decision = decide(position);
  switch (decision.verdict) {
    case 'one':
      return decision.solution;
    case 'several':
      return decision.witnesses[0];
    case 'none':
      throw new Error('the placements were said to leave the grid solvable');
  }
}

/**
 * A position around a full solution: `open` cells are emptied, then each candidate that is not in the
 * solution is struck with chance `struck`, and each one that is with chance `wrong`.
 */
export function positionAround(
  layout: Layout,
  solution: ArrayLike<number>,
  random: Random,
  { open, struck, wrong = 0 }: { open: number; struck: number; wrong?: number },
): Position {
  const { size } = layout;
  const cells = Array.from(solution, (_, cell) => cell);
  const emptied = new Set(random.shuffle(cells).slice(0, open));
  const givens = Array.from(solution, (digit, cell) => (emptied.has(cell) ? 0 : digit));
  const position = Position.from(layout, givens);
  const gone = [...position.candidates].filter((candidate) => {
    const cell = Math.floor(candidate / size);
    const isTrue = solution[cell] === (candidate % size) + 1;
    return emptied.has(cell) && random.unit() < (isTrue ? wrong : struck);
  });
  return position.strike(gone);
}

/**
 * A grid, with up to `extra` true placements more, closed under k facts without being solved and with at most
 * `open` open cells; null if that is not what comes out. With k = 0 it is left as it is.
 */
export function stuckPosition(
  grid: Position,
  random: Random,
  { k, open, extra }: { k: number; open: number; extra: number },
): Position | null {
  const solution = solutionOf(grid);
  let position = grid;
  for (let left = random.below(extra + 1); left > 0; left -= 1) {
    const cell = random.below(grid.layout.cellCount);
    if (position.placed[cell] === 0) position = position.place(cell, solution[cell]);
  }
  if (k === 0) return position;
  const board = Board.from(position);
  const { end } = closeUnder(board, k);
  const openCells = board.placed.filter((digit) => digit === 0).length;
  return end === 'stuck' && openCells <= open ? board.toPosition() : null;
}
