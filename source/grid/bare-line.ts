import type { Layout } from './layout.ts';
import { parseDigit } from './names.ts';
import type { Grid } from './position.ts';
import { isBlankSign } from './readers/cells.ts';

/** The givens of a line that is nothing but one sign a cell; null otherwise. The shape of most lines. */
export function bareLine(layout: Layout, line: string): Grid | null {
  if (line.length !== layout.cellCount) return null;
  const givens: number[] = new Array(line.length);
  for (let cell = 0; cell < line.length; cell += 1) {
    const digit = isBlankSign(line[cell]) ? 0 : parseDigit(layout, line[cell]);
    if (digit === null) return null;
    givens[cell] = digit;
  }
  return { layout, givens };
}
