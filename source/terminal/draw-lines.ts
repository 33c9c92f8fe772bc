import type { GridLook } from './grid-look.ts';
import type { ScreenPlan } from './layout-sizes.ts';
import type { Canvas } from './screen.ts';

/** By bits: 1 upwards, 2 downwards, 4 to the left, 8 to the right. */
const crossings = [' ', '│', '│', '│', '─', '┘', '┐', '┤', '─', '└', '┌', '├', '─', '┴', '┬', '┼'];

/**
 * Draws the lines between boxes, wherever neighbouring cells lie in different ones. Where rows touch, a line
 * runs along the foot of the upper cells, behind whatever stands there.
 */
export function drawLines(canvas: Canvas, plan: ScreenPlan, look: GridLook): void {
  const { size, boxOf } = look;
  const parts = (row: number, column: number, down: 0 | 1) => {
    if (row < 0 || column < 0 || row + down >= size || column + 1 - down >= size) return false;
    const cell = row * size + column;
    return boxOf[cell] !== boxOf[down === 1 ? cell + size : cell + 1];
  };
  const line = (x: number, y: number, char: string) => canvas.put(x, y, char, 'rule');
  for (let row = 0; row < size; row += 1) {
    const below = row < size - 1 ? plan.gapY(row) : null;
    const foot = plan.cellY(row) + plan.cellHeight - 1;
    for (let column = 0; column < size; column += 1) {
      const x = plan.cellX(column);
      const after = column < size - 1 ? plan.gapX(column) : null;
      if (after !== null && parts(row, column, 0)) {
        for (let y = plan.cellY(row); y <= foot; y += 1) line(after, y, '│');
      }
      if (parts(row, column, 1)) {
        for (let i = 0; i < plan.cellWidth; i += 1) line(x + i, below ?? foot, below === null ? '▁' : '─');
      }
      if (after === null) continue;
      const sides = [parts(row, column, 1), parts(row, column + 1, 1)] as const;
      if (below !== null) {
        const bits =
          (parts(row, column, 0) ? 1 : 0) +
          (parts(row + 1, column, 0) ? 2 : 0) +
          (sides[0] ? 4 : 0) +
          (sides[1] ? 8 : 0);
        line(after, below, crossings[bits]);
      } else if (sides[0] && sides[1] && !parts(row, column, 0)) line(after, foot, '▁');
    }
  }
}
