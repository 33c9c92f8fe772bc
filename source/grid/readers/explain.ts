import { counted, type GridError, gridError, saySign, sayText } from '../grid-error.ts';
import type { Layout } from '../layout.ts';
import { parseDigit } from '../names.ts';
import { isBlankLine, type SourceLine } from '../source-lines.ts';
import { blanksSaid, digitsSaid, isBar, isBlankSign, isSpace, parseCellText } from './cells.ts';
import {
  type Delimiter,
  delimiterSaid,
  delimiters,
  fieldsOf,
  hasDelimiter,
  parseField,
} from './delimited.ts';
import { lineKind } from './rules.ts';
import { type Token, tokensOf } from './tables.ts';

const expectedCell = (layout: Layout): string =>
  `a digit from ${digitsSaid(layout)} or a blank (${blanksSaid})`;

const isKnownSign = (layout: Layout, sign: string): boolean =>
  isSpace(sign) ||
  isBar(sign) ||
  isBlankSign(sign) ||
  parseDigit(layout, sign) !== null ||
  '[]{}(),;"\''.includes(sign);

function unexpectedSign(layout: Layout, rows: readonly SourceLine[]): GridError | null {
  for (const row of rows) {
    const at = row.signs.findIndex((sign) => !isKnownSign(layout, sign));
    if (at < 0) continue;
    const place = { line: row.number, column: row.columns[at] };
    const before = row.signs.slice(0, at).filter((sign) => parseCellText(layout, sign) !== null).length;
    const full = before === layout.cellCount || (before === layout.size && rows.length >= layout.size);
    const expected = full ? 'the end of the row, or # before a remark' : expectedCell(layout);
    return gridError('unexpected-sign', place, saySign(row.signs[at]), expected);
  }
  return null;
}

/** What is wrong with the number of cells in rows that have one list of pieces each; null if nothing is. */
function wrongCount(
  layout: Layout,
  rows: readonly SourceLine[],
  pieces: readonly (readonly Token[])[],
  parted = '',
): GridError | null {
  const wanted = rows.length === 1 ? layout.cellCount : layout.size;
  const where = `${rows.length === 1 ? 'in all' : 'in each row'}${parted}`;
  for (const [index, row] of rows.entries()) {
    const found = pieces[index];
    if (found.length < wanted) {
      const place = { line: row.number, column: row.end };
      return gridError('too-few-cells', place, counted(found.length, 'cell'), `${wanted} ${where}`);
    }
    if (found.length > wanted) {
      const place = { line: row.number, column: found[wanted].column };
      return gridError('too-many-cells', place, counted(found.length, 'cell'), `${wanted} ${where}`);
    }
  }
  return wrongRows(layout, rows);
}

/** Whether there are too few or too many rows; null if there are as many as the layout has, or one. */
function wrongRows(layout: Layout, rows: readonly SourceLine[]): GridError | null {
  if (rows.length === layout.size || rows.length === 1) return null;
  const [code, row, column] =
    rows.length < layout.size
      ? (['too-few-rows', rows[rows.length - 1], rows[rows.length - 1].end] as const)
      : (['too-many-rows', rows[layout.size], rows[layout.size].columns[0]] as const);
  return gridError(code, { line: row.number, column }, counted(rows.length, 'row'), `${layout.size}`);
}

function badCell(layout: Layout, row: SourceLine, token: Token): GridError {
  const place = { line: row.number, column: token.column };
  const signs = [...token.text];
  const twice = signs.find((sign, at) => parseDigit(layout, sign) !== null && signs.indexOf(sign) < at);
  const plainly = `a digit from ${digitsSaid(layout)}, several as candidates, or a blank`;
  const expected = twice === undefined ? plainly : `each candidate once (${twice} is there twice)`;
  return gridError('bad-cell', place, sayText(token.text), expected);
}

function explainFields(layout: Layout, rows: readonly SourceLine[], delimiter: Delimiter): GridError | null {
  const fields = rows.map((row) => {
    const found = fieldsOf(row, delimiter);
    const wanted = rows.length === 1 ? layout.cellCount : layout.size;
    return found.length === wanted + 1 && found[wanted].text === '' ? found.slice(0, wanted) : found;
  });
  const count = wrongCount(layout, rows, fields, `, parted by ${delimiterSaid[delimiter]}`);
  if (count) return count;
  for (const [index, row] of rows.entries()) {
    const bad = fields[index].find((field) => parseField(layout, field.text) === null);
    if (bad) return badCell(layout, row, bad);
  }
  return null;
}

function explainTable(layout: Layout, rows: readonly SourceLine[]): GridError | null {
  const tokens = rows.map(tokensOf);
  for (const [index, row] of rows.entries()) {
    const bad = tokens[index].find((token) => parseCellText(layout, token.text) === null);
    if (bad) return badCell(layout, row, bad);
  }
  return wrongCount(layout, rows, tokens);
}

/** The cells of a row that has one sign for each, as tokens of one sign. */
function signTokens(layout: Layout, row: SourceLine): Token[] {
  return row.signs.flatMap((text, at) =>
    isBlankSign(text) || parseDigit(layout, text) !== null ? [{ text, column: row.columns[at] }] : [],
  );
}

function explainSigns(layout: Layout, rows: readonly SourceLine[]): GridError {
  const signs = rows.map((row) => signTokens(layout, row));
  const total = signs.reduce((sum, row) => sum + row.length, 0);
  const inRows = signs.filter((row) => row.length === layout.size).length * 2 >= rows.length;
  const count =
    rows.length === layout.size || inRows || rows.length === 1 ? wrongCount(layout, rows, signs) : null;
  if (count) return count;
  const last = rows[rows.length - 1];
  const expected = `${layout.cellCount} in all`;
  if (total < layout.cellCount) {
    const place = { line: last.number, column: last.end };
    return gridError('too-few-cells', place, counted(total, 'cell'), expected);
  }
  if (total > layout.cellCount) {
    let before = 0;
    const index = signs.findIndex((row) => {
      before += row.length;
      return before > layout.cellCount;
    });
    const surplus = signs[index][signs[index].length - (before - layout.cellCount)];
    const place = { line: rows[index].number, column: surplus.column };
    return gridError('too-many-cells', place, counted(total, 'cell'), expected);
  }
  const uneven = signs.findIndex((row) => row.length % layout.size !== 0);
  const row = rows[Math.max(0, uneven)];
  const found = counted(signs[Math.max(0, uneven)].length, 'cell');
  return gridError('bad-cell', { line: row.number, column: row.end }, found, `${layout.size} in each row`);
}

const most = (count: number, rows: readonly SourceLine[]): boolean => count * 2 > rows.length;

/**
 * Why some lines, not one of them being a grid in any form, are none: the first thing that is wrong in the
 * form that they come closest to.
 */
export function explain(layout: Layout, lines: readonly SourceLine[]): GridError {
  const filled = lines.filter((line) => !isBlankLine(line));
  const rows = filled.filter((line) => lineKind(layout, line) === 'row');
  const [first] = rows.length > 0 ? rows : filled;
  if (first === undefined || rows.length === 0) {
    const place = { line: first?.number ?? lines[0]?.number ?? 1, column: 1 };
    const found = first === undefined ? 'nothing' : 'no cells';
    return gridError('empty', place, found, `a grid of ${layout.cellCount} cells`);
  }
  const unexpected = unexpectedSign(layout, rows);
  if (unexpected) return unexpected;
  for (const delimiter of delimiters) {
    const having = rows.filter((row) => {
      if (!hasDelimiter(row, delimiter) || row.signs.includes('[')) return false;
      const count = fieldsOf(row, delimiter).length;
      if (rows.length === 1) return count > layout.size;
      return delimiter === '|' ? count === layout.size : true;
    });
    const error = most(having.length, rows) ? explainFields(layout, rows, delimiter) : null;
    if (error) return error;
  }
  const tokens = rows.map(tokensOf);
  const several = tokens.flat().filter((token) => token.text.length > 1).length;
  const fitting = tokens.filter((row) => row.length === layout.size).length;
  if (several > 0 && (most(fitting, rows) || rows.some((row) => row.signs.includes('(')))) {
    const error = explainTable(layout, rows);
    if (error) return error;
  }
  return explainSigns(layout, rows);
}
