import { maskOf } from '../candidates.ts';
import type { Digit, DigitMask, Layout } from '../layout.ts';
import { digitName, parseDigit } from '../names.ts';
import type { Grid } from '../position.ts';

/** What is written for one cell: a digit, or candidates, or neither. */
export interface CellText {
  readonly given: Digit;
  readonly marks: DigitMask;
}

/** A way in which a text is a whole grid. `how` completes "as …" in a sentence for people. */
export interface Reading {
  readonly how: string;
  readonly grid: Grid;
}

/** Signs that stand for a cell with nothing in it. */
export const blankSigns = '.0*_-?';

/** How the blanks are named in messages; the question mark is read but not advertised. */
export const blanksSaid = '. 0 * _ -';

export const isBlankSign = (sign: string): boolean => sign.length === 1 && blankSigns.includes(sign);

/** A vertical line between cells: `|` or a box-drawing sign that is not a plain horizontal. */
export const isBar = (sign: string): boolean => sign === '|' || sign === '¦' || /[│┃┆┇┊┋║╎╏╽╿]/.test(sign);

export const isSpace = (sign: string): boolean => sign === ' ' || sign === '\t';

const openCell: CellText = { given: 0, marks: 0 };

/** `1 to 9`, or `1 to 9 and A to G`: the digits of a layout in words. */
export function digitsSaid(layout: Layout): string {
  if (layout.size <= 9) return `1 to ${layout.size}`;
  return layout.size === 10 ? '1 to 9 and A' : `1 to 9 and A to ${digitName(layout.size)}`;
}

/**
 * Reads what stands for one cell: a blank sign, a digit (the cell is placed), several digits (candidates),
 * or digits in parentheses (candidates, also when there is one). Null if it is none of these.
 */
export function parseCellText(layout: Layout, text: string): CellText | null {
  if (text.length === 1) {
    if (isBlankSign(text)) return openCell;
    const digit = parseDigit(layout, text);
    return digit === null ? null : { given: digit, marks: 0 };
  }
  const inner = text.startsWith('(') && text.endsWith(')') ? text.slice(1, -1) : text;
  let marks = 0;
  for (const sign of inner) {
    const digit = parseDigit(layout, sign);
    if (digit === null || (marks & maskOf(digit)) !== 0) return null;
    marks |= maskOf(digit);
  }
  return marks === 0 ? null : { given: 0, marks };
}

/** A grid of cells in reading order; it has marks only if some cell lists candidates. */
export function gridOfCells(layout: Layout, cells: readonly CellText[]): Grid {
  const givens = cells.map((cell) => cell.given);
  const marks = cells.map((cell) => cell.marks);
  return marks.some((mask) => mask !== 0) ? { layout, givens, marks } : { layout, givens };
}

/** Whether two grids say the same of every cell. */
export function sameGrid(a: Grid, b: Grid): boolean {
  if (a.layout !== b.layout) return false;
  return a.givens.every(
    (given, cell) => given === b.givens[cell] && (a.marks?.[cell] ?? 0) === (b.marks?.[cell] ?? 0),
  );
}
