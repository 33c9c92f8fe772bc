import { findClashes } from '../clashes.ts';
import type { Layout } from '../layout.ts';
import { digitName } from '../names.ts';
import type { SourceLine } from '../source-lines.ts';
import { type CellText, gridOfCells, isBar, isSpace, parseCellText, type Reading } from './cells.ts';

/** Signs that may stand between cells that have one sign each: lists in program text have all of them. */
const betweenCells = /[\][{},;"'|]/;

const isBracket = (sign: string): boolean => '[]{}'.includes(sign);

const partsFields = (sign: string): boolean => sign === ',' || sign === ';' || sign === '\t';

/**
 * The cells of a line that has one sign for each; null where a sign is no cell. Where commas or tabs part
 * them, each cell stands alone, or all pieces are equally long, or they are whole rows, and no piece is
 * empty: anything else is a list of fields. Tabs before the first cell are an indent if there are no others.
 */
function lineCells(layout: Layout, line: SourceLine): CellText[] | null {
  const cells: CellText[] = [];
  const pieces: number[] = [];
  let piece = 0;
  let indent = 0;
  let parting = 0;
  let afterParting = false;
  let inList = false;
  for (const sign of line.signs) {
    const cell = parseCellText(layout, sign);
    if (cell) {
      cells.push(cell);
      piece += 1;
      afterParting = false;
      continue;
    }
    if (!isSpace(sign) && !isBar(sign) && !betweenCells.test(sign)) return null;
    if (isBracket(sign)) {
      inList = true;
      afterParting = false;
    } else if (partsFields(sign)) {
      if (sign === '\t' && cells.length === 0) indent += 1;
      else if (afterParting || (cells.length === 0 && !inList)) return null;
      else {
        parting += 1;
        afterParting = true;
      }
    }
    if (piece > 0 && sign !== ' ') {
      pieces.push(piece);
      piece = 0;
    }
  }
  if (piece > 0) pieces.push(piece);
  if (parting === 0) return cells;
  const even = pieces.every((n) => n === pieces[0]) || pieces.every((n) => n % layout.size === 0);
  return even && (indent === 0 || inList) ? cells : null;
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
