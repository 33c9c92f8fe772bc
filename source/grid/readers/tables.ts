import type { Layout } from '../layout.ts';
import type { SourceLine } from '../source-lines.ts';
import {
  type CellText,
  gridOfCells,
  isBar,
  isBlankSign,
  isSpace,
  parseCellText,
  type Reading,
} from './cells.ts';

/** What stands between two gaps, with the column it begins in. */
export interface Token {
  readonly text: string;
  readonly column: number;
}

/** The tokens of a line, parted by spaces and bars. Digits in one pair of parentheses stay together. */
export function tokensOf(line: SourceLine): Token[] {
  const tokens: Token[] = [];
  let text = '';
  let column = 0;
  line.signs.forEach((sign, index) => {
    if (isSpace(sign) || isBar(sign)) {
      if (text !== '') tokens.push({ text, column });
      text = '';
      return;
    }
    if (text === '') column = line.columns[index];
    text += sign;
  });
  if (text !== '') tokens.push({ text, column });
  return tokens;
}

/** Rows of tokens, if they are as many as the layout needs: row by row, or all on one line. */
function cellTokens(layout: Layout, rows: readonly SourceLine[]): Token[] | null {
  if (rows.length !== layout.size && rows.length !== 1) return null;
  const wanted = rows.length === 1 ? layout.cellCount : layout.size;
  const lines = rows.map(tokensOf);
  return lines.every((tokens) => tokens.length === wanted) ? lines.flat() : null;
}

/** A table of candidates: nine rows of nine cells, a lone digit being placed, several digits candidates. */
export function readTable(layout: Layout, rows: readonly SourceLine[]): Reading | null {
  const tokens = cellTokens(layout, rows);
  if (tokens === null) return null;
  const cells: CellText[] = [];
  for (const token of tokens) {
    const cell = parseCellText(layout, token.text);
    if (cell === null) return null;
    cells.push(cell);
  }
  return { how: 'cells parted by spaces, several digits being candidates', grid: gridOfCells(layout, cells) };
}

/** Digits as decimal numbers, parted by spaces or commas: only where the layout has more than nine. */
export function readNumbers(layout: Layout, rows: readonly SourceLine[]): Reading | null {
  if (layout.size <= 9) return null;
  const parted = rows.map((row) => ({
    ...row,
    signs: row.signs.map((sign) => (sign === ',' || sign === ';' ? ' ' : sign)),
  }));
  const tokens = cellTokens(layout, parted);
  if (tokens === null || tokens.every((token) => token.text.length < 2)) return null;
  const cells: CellText[] = [];
  for (const { text } of tokens) {
    const value = isBlankSign(text) ? 0 : /^\d{1,2}$/.test(text) ? Number(text) : -1;
    if (value < 0 || value > layout.size || (value === 0 && text.length > 1)) return null;
    cells.push({ given: value, marks: 0 });
  }
  return { how: `numbers from 1 to ${layout.size}, one for each cell`, grid: gridOfCells(layout, cells) };
}
