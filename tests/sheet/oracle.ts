import { factParts } from '../../source/argument/fact.ts';
import { flawsOf } from '../../source/sheet/flaws.ts';
import { marksOf, placedAt } from '../../source/sheet/marks.ts';
import type { SheetState, Slip } from '../../source/sheet/state.ts';

/** All 288 full grids of the 4x4 layout, row by row: a number that A. Jarvis and E. Russell published. */
export function allSmall(): number[][] {
  const found: number[][] = [];
  const digits = Array.from({ length: 16 }, () => 0);
  const fill = (cell: number) => {
    if (cell === 16) {
      found.push([...digits]);
      return;
    }
    for (let digit = 1; digit <= 4; digit += 1) {
      const clash = digits.some((other, at) => at < cell && other === digit && together(at, cell));
      if (clash) continue;
      digits[cell] = digit;
      fill(cell + 1);
    }
    digits[cell] = 0;
  };
  const together = (a: number, b: number) =>
    a >> 2 === b >> 2 || a % 4 === b % 4 || (a >> 3 === b >> 3 && (a % 4) >> 1 === (b % 4) >> 1);
  fill(0);
  return found;
}

/** Whether a full grid agrees with all that a sheet says, judged from the marks as they were made. */
export function agrees(state: SheetState, grid: readonly number[]): boolean {
  const { layout } = state;
  const placed = grid.every((digit, cell) => [0, digit].includes(placedAt(state, cell)));
  const struck = grid.some((digit, cell) => state.strikes.has(cell * layout.size + digit - 1));
  const claimed = [...state.claimed].every((fact) => {
    const parts = factParts(layout, fact);
    const true_ =
      parts.kind === 'cell'
        ? parts.cell * layout.size + grid[parts.cell] - 1
        : parts.house.cells.find((cell) => grid[cell] === parts.digit)! * layout.size + parts.digit - 1;
    return marksOf(state, fact).includes(true_);
  });
  return placed && !struck && claimed;
}

/** Whether a state, its marks in hand taken as claimed, has the slip. */
export function hasSlip(state: SheetState, slip: Slip): boolean {
  const { cellCount, size } = state.layout;
  const cell = slip.cells[0] ?? -1;
  const fact = slip.house === null ? cell : cellCount + slip.house * size + (slip.digit ?? 0) - 1;
  return flawsOf(state, { asking: true }).some((flaw) => flaw.kind === slip.kind && flaw.fact === fact);
}
