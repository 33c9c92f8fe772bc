import { findClashes } from '../clashes.ts';
import type { Layout } from '../layout.ts';
import { digitName } from '../names.ts';
import type { SourceLine } from '../source-lines.ts';
import { type CellText, gridOfCells, isBar, isSpace, parseCellText, type Reading } from './cells.ts';

/** Signs that may stand between cells that have one sign each: lists in program text have all of them. */
const betweenCells = /[\][{},;"'|]/;

const isBracket = (sign: string): boolean => '[]{}'.includes(sign);

/** The cells of a line that has one sign for each; null where a sign is no cell or the gaps are uneven. */
function lineCells(layout: Layout, line: SourceLine): CellText[] | null {
  const cells: CellText[] = [];
  const pieces: number[] = [];
  let piece = 0;
  let commas = 0;
  let afterComma = false;
  let inList = false;
  for (const sign of line.signs) {
    const cell = parseCellText(layout, sign);
    if (cell) {
      cells.push(cell);
      piece += 1;
      afterComma = false;
      continue;
    }
    if (!isSpace(sign) && !isBar(sign) && !betweenCells.test(sign)) return null;
    if (isBracket(sign)) {
      inList = true;
      afterComma = false;
    }
    if (sign === ',' || sign === ';') {
      if (afterComma || (cells.length === 0 && !inList)) return null;
      commas += 1;
      afterComma = true;
    }
    if (piece > 0 && !isSpace(sign)) {
      pieces.push(piece);
      piece = 0;
    }
  }
  if (piece > 0) pieces.push(piece);
  // With commas each cell stands alone or whole rows do; anything else is a list of fields.
  const even = pieces.every((n) => n === 1) || pieces.every((n) => n % layout.size === 0);
  return commas > 0 && !even ? null : cells;
}

/** Whether the lines' lengths make sense: whole rows, one cell a line, or one long line that was wrapped. */
function fitsRows(layout: Layout, counts: readonly number[]): boolean {
  if (counts.every((n) => n % layout.size === 0)) return true;
  if (counts.every((n) => n === 1)) return true;
  const [first] = counts;
  const last = counts[counts.length - 1];
  return first >= 2 * layout.size && counts.slice(0, -1).every((n) => n === first) && last <= first;
}

/** One sign a cell: a line of 81, nine lines of nine, with spaces and bars or without. */
export function readSigns(layout: Layout, rows: readonly SourceLine[]): Reading | null {
  const cells: CellText[] = [];
  const counts: number[] = [];
  for (const row of rows) {
    const found = lineCells(layout, row);
    if (found === null || cells.length + found.length > layout.cellCount) return null;
    if (found.length === 0) continue;
    cells.push(...found);
    counts.push(found.length);
  }
  if (cells.length !== layout.cellCount || !fitsRows(layout, counts)) return null;
  return { how: 'one sign for each cell', grid: gridOfCells(layout, cells) };
}

/**
 * One sign a cell with digits from 0 instead of from 1, as some write larger grids: only where there are
 * more than nine digits, 0 is used, the highest digit is not, and 0 is in no house twice.
 */
export function readFromZero(layout: Layout, rows: readonly SourceLine[]): Reading | null {
  if (layout.size <= 9 || !rows.some((row) => row.signs.includes('0'))) return null;
  const signs = rows.flatMap((row) => row.signs);
  const zeros = signs.flatMap((sign) =>
    sign === '0' ? [1] : parseCellText(layout, sign) === null ? [] : [0],
  );
  const reading = readSigns(layout, rows);
  if (reading === null || findClashes(layout, zeros).length > 0) return null;
  const givens = reading.grid.givens.map((digit, cell) => (digit === 0 ? zeros[cell] : digit + 1));
  if (givens.some((digit) => digit > layout.size)) return null;
  return { how: `digits from 0 to ${digitName(layout.size - 1)}`, grid: { layout, givens } };
}
