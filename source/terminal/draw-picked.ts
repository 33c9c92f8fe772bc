import type { Cell } from '../grid/layout.ts';
import type { ScreenPlan } from './layout-sizes.ts';
import type { Canvas } from './screen.ts';

/**
 * Shows the picked cells: on the cursor's ground, and between round brackets wherever nothing else stands, so
 * that they are seen without colours too.
 */
export function drawPicked(canvas: Canvas, plan: ScreenPlan, size: number, picked: ReadonlySet<Cell>): void {
  const outside = plan.name === 'tiny' ? 0 : 1;
  for (const cell of picked) {
    const x = plan.cellX(cell % size);
    const y = plan.cellY(Math.floor(cell / size));
    canvas.lay(x, y, plan.cellWidth, plan.cellHeight, 'cursor');
    for (let line = 0; line < plan.cellHeight; line += 1) {
      bracket(canvas, x - outside, y + line, '(');
      bracket(canvas, x + plan.cellWidth - 1 + outside, y + line, ')');
    }
  }
}

function bracket(canvas: Canvas, x: number, y: number, char: string): void {
  const there = canvas.at(x, y);
  // Between two picked cells one gap serves both.
  if (there.char === ')' && char === '(' && there.role === 'cursorBar') canvas.put(x, y, '|', 'cursorBar');
  else if (there.char === ' ' || there.role === 'rule') canvas.put(x, y, char, 'cursorBar');
}
