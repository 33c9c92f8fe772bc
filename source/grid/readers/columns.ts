import type { Layout } from '../layout.ts';
import { isBlankLine, type SourceLine } from '../source-lines.ts';
import {
  type CellText,
  gridOfCells,
  isBar,
  isBlankSign,
  isSpace,
  parseCellText,
  type Reading,
} from './cells.ts';

/** Where cells stand in a piece of a row: in every `step`-th column, the first one after `lead` columns. */
interface Spacing {
  readonly lead: 0 | 1;
  readonly step: 1 | 2;
}

const everyColumn: Spacing = { lead: 0, step: 1 };
const everySecond: Spacing = { lead: 0, step: 2 };
const paddedSecond: Spacing = { lead: 1, step: 2 };

/** The columns that `count` cells take up, padding on both sides included. */
const widthOf = (count: number, { lead, step }: Spacing): number => (count - 1) * step + 1 + 2 * lead;

/** The cells of a piece of a row, as wide as it must be; null where something stands beside a cell. */
function pieceCells(
  layout: Layout,
  piece: readonly string[],
  count: number,
  spacing: Spacing,
): CellText[] | null {
  const cells: CellText[] = [];
  const width = widthOf(count, spacing);
  for (let at = 0; at < width; at += 1) {
    const sign = piece[at] ?? ' ';
    const inCell =
      at >= spacing.lead && at < width - spacing.lead && (at - spacing.lead) % spacing.step === 0;
    if (!inCell) {
      if (sign !== ' ') return null;
      continue;
    }
    const cell = sign === ' ' ? { given: 0, marks: 0 } : parseCellText(layout, sign);
    if (cell === null) return null;
    cells.push(cell);
  }
  return piece.slice(width).every(isSpace) ? cells : null;
}

/** Rows of `pieces` pieces each that are read alike. */
function readPieces(
  layout: Layout,
  rows: readonly (readonly (readonly string[])[])[],
  spacing: Spacing,
): Reading | null {
  const cells: CellText[] = [];
  for (const row of rows) {
    for (const piece of row) {
      const found = pieceCells(layout, piece, layout.size / row.length, spacing);
      if (found === null) return null;
      cells.push(...found);
    }
  }
  const where = spacing.step === 1 ? 'a cell in every column' : 'a cell in every second column';
  return { how: `spaces as blanks, ${where}`, grid: gridOfCells(layout, cells) };
}

/** The pieces of a row between bars; a bar at either edge opens no piece. */
function piecesOf(line: SourceLine): string[][] {
  const pieces: string[][] = [[]];
  for (const sign of line.signs) {
    if (isBar(sign)) pieces.push([]);
    else pieces[pieces.length - 1].push(sign);
  }
  if (pieces[0].every(isSpace)) pieces.shift();
  if (pieces.length > 0 && pieces[pieces.length - 1].every(isSpace) && isBar(line.signs.at(-1) ?? ''))
    pieces.pop();
  return pieces;
}

function readBoxed(layout: Layout, rows: readonly SourceLine[]): Reading[] {
  const pieces = rows.map(piecesOf);
  const count = pieces[0].length;
  if (count < 2 || layout.size % count !== 0 || pieces.some((row) => row.length !== count)) return [];
  const width = pieces[0][0].length;
  const last = count - 1;
  const even = pieces.every((row) =>
    row.every((piece, i) => piece.length === width || (i === last && piece.length < width)),
  );
  if (!even) return [];
  const spacings = [everyColumn, everySecond, paddedSecond];
  return spacings
    .filter((spacing) => widthOf(layout.size / count, spacing) === width)
    .flatMap((spacing) => readPieces(layout, pieces, spacing) ?? []);
}

function readOpen(layout: Layout, rows: readonly SourceLine[]): Reading[] {
  const trimmed = rows.map((row) => row.signs.join('').trimEnd());
  const filled = trimmed.filter((row) => row !== '');
  const margin = Math.min(...filled.map((row) => row.length - row.trimStart().length));
  // The widest row must reach the last column: otherwise nothing says where the columns begin.
  const widths = new Set([
    Math.max(...trimmed.map((row) => row.length)),
    Math.max(...rows.map((row) => row.signs.length)),
  ]);
  return [...widths].flatMap((width) =>
    [everyColumn, everySecond].flatMap((spacing) => {
      const indent = width - widthOf(layout.size, spacing);
      if (indent < 0 || indent > margin) return [];
      const pieces = trimmed.map((row) => [[...row].slice(indent)]);
      return readPieces(layout, pieces, spacing) ?? [];
    }),
  );
}

/**
 * Rows in which a space is a blank: each digit stands in a column of its own. `lines` are all lines from the
 * first to the last row, blank ones too. Nothing is read so where another blank sign or a tab is used.
 */
export function readColumns(layout: Layout, lines: readonly SourceLine[]): Reading[] {
  const filled = lines.filter((line) => !isBlankLine(line));
  const rows = filled.length === layout.size ? filled : lines;
  if (rows.length !== layout.size || filled.length === 0) return [];
  const foreign = (sign: string) => isBlankSign(sign) || sign === '\t';
  if (rows.some((row) => row.signs.length > 8 * layout.size || row.signs.some(foreign))) return [];
  if (filled.every((row) => row.signs.some(isBar)))
    return rows.length === filled.length ? readBoxed(layout, rows) : [];
  return readOpen(layout, rows);
}
