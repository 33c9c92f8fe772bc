import { failure, type Result, success } from '../text/result.ts';
import { bareLine } from './bare-line.ts';
import { ambiguous, counted, type GridError, gridError, sayText } from './grid-error.ts';
import { type Layout, plain } from './layout.ts';
import type { Grid } from './position.ts';
import { isBar, isSpace, type Reading, sameGrid } from './readers/cells.ts';
import { readColumns } from './readers/columns.ts';
import { delimiters, readFields } from './readers/delimited.ts';
import { explain } from './readers/explain.ts';
import { lineKind, rowChoices } from './readers/rules.ts';
import { readFromZero, readSigns } from './readers/signs.ts';
import { readNumbers, readTable } from './readers/tables.ts';
import { isBlankLine, type SourceLine, sourceText, splitLines, withoutMark } from './source-lines.ts';

export type { GridError, GridErrorCode } from './grid-error.ts';

/** A grid with what the text says about it. Names and remarks are outside text: make them safe to show. */
export interface NamedGrid {
  readonly grid: Grid;
  /** The remark behind the grid on its own line, otherwise the first one written with it. */
  readonly name?: string;
  /** All remarks (`# …`) that came with the grid, in order, the name among them. */
  readonly remarks: readonly string[];
  /** The line of the text on which the grid's first row stands, from 1. */
  readonly line: number;
}

export interface ReadOptions {
  /** The layout that the grid is on. Default `plain`. */
  readonly layout?: Layout;
  /** The most characters (UTF-16 units) that the text of one grid may have. Default 20,000, more beyond 16x16. */
  readonly limit?: number;
  /** The most characters that a text of many grids may have. Default 100,000,000. */
  readonly textLimit?: number;
}

const defaultLimit = (layout: Layout): number => Math.max(20_000, 4 * layout.cellCount * layout.size);
const defaultTextLimit = 100_000_000;

const said = (count: number): string => count.toLocaleString('en-US');

/** Whether a text is over a limit, with the place where it goes over. */
function overLimit(text: string, limit: number, what: string, firstLine = 1): GridError | null {
  if (text.length <= limit) return null;
  const before = splitLines(text.slice(0, limit));
  const line = firstLine + before.length - 1;
  const column = [...before[before.length - 1]].length + 1;
  const found = `${said(text.length)} characters`;
  return gridError('too-long', { line, column }, found, `at most ${said(limit)} ${what}`);
}

/** How many signs some lines have. */
const sizeOf = (lines: readonly SourceLine[]): number =>
  lines.reduce((sum, line) => sum + line.signs.length, 0);

/** The remarks of some lines and the name among them: `own` are the lines that hold cells. */
function remarksOf(lines: readonly SourceLine[]): Pick<NamedGrid, 'name' | 'remarks'> {
  const remarks = lines.flatMap((line) => line.remark ?? []);
  const own = lines.find((line) => !isBlankLine(line) && line.remark !== undefined)?.remark;
  const name = own ?? remarks[0];
  return name === undefined ? { remarks } : { name, remarks };
}

/** Lines from the first to the last that is not blank. */
function trimmed(lines: readonly SourceLine[]): readonly SourceLine[] {
  const first = lines.findIndex((line) => !isBlankLine(line));
  const last = lines.findLastIndex((line) => !isBlankLine(line));
  return lines.slice(first, last + 1);
}

/** Every way in which some lines are one grid, the same grid only once. */
function readingsOf(layout: Layout, lines: readonly SourceLine[]): Reading[] {
  const found: Reading[] = [];
  const add = (reading: Reading | null, how = '') => {
    if (reading === null || found.some((other) => sameGrid(other.grid, reading.grid))) return;
    found.push(how === '' ? reading : { ...reading, how });
  };
  for (const { rows, how } of rowChoices(layout, lines)) {
    if (rows.length === 0) continue;
    add(readSigns(layout, rows), how);
    add(readFromZero(layout, rows), how);
    add(readTable(layout, rows), how);
    add(readNumbers(layout, rows), how);
    for (const delimiter of delimiters) add(readFields(layout, rows, delimiter), how);
    for (const reading of readColumns(layout, rows)) add(reading, how);
  }
  const inner = trimmed(lines.filter((line) => !isBlankLine(line) || line.remark === undefined));
  if (inner.length === layout.size) for (const reading of readColumns(layout, inner)) add(reading);
  // A line of tabs alone is a row of empty fields among rows parted by tabs.
  const tabbed = lines.filter((line) => line.signs.includes('\t'));
  if (tabbed.length === layout.size) add(readFields(layout, tabbed, '\t'));
  return found;
}

const advice = 'Write blanks as "." and candidates in parentheses to settle it.';

/** Where two readings part: at dashes that one takes for a row and another does not, or at the first row. */
function partingLine(layout: Layout, lines: readonly SourceLine[]): SourceLine {
  const filled = lines.filter((line) => !isBlankLine(line));
  return filled.find((line) => lineKind(layout, line) === 'row-or-rule') ?? filled[0];
}

/** The one reading of some lines, or why there is none or more than one. */
function settle(
  layout: Layout,
  lines: readonly SourceLine[],
  readings: readonly Reading[],
): Result<NamedGrid, GridError> {
  if (readings.length === 0) return failure(explain(layout, lines));
  if (readings.length > 1) {
    const parting = partingLine(layout, lines);
    const place = { line: parting.number, column: parting.columns[0] };
    const ways = readings.map((reading) => reading.how);
    return failure(ambiguous(place, sayText(parting.signs.join('').trim()), ways, advice));
  }
  const first = lines.find((line) => !isBlankLine(line)) ?? lines[0];
  return success({ grid: readings[0].grid, ...remarksOf(lines), line: first.number });
}

/** Reads lines as one grid. */
const readLines = (layout: Layout, lines: readonly SourceLine[]): Result<NamedGrid, GridError> =>
  settle(layout, lines, readingsOf(layout, lines));

/** Lines in blocks, parted by blank lines that have no remark; blocks of remarks go with what follows. */
function blocksOf(layout: Layout, lines: readonly SourceLine[]): SourceLine[][] {
  const blocks: SourceLine[][] = [];
  let block: SourceLine[] = [];
  for (const line of lines) {
    const fields = line.signs.filter((sign) => sign === '\t').length + 1;
    const parting = isBlankLine(line) && line.remark === undefined && fields !== layout.size;
    if (!parting) block.push(line);
    else if (block.some((other) => !isBlankLine(other))) {
      blocks.push(block);
      block = [];
    }
  }
  if (block.some((other) => !isBlankLine(other))) blocks.push(block);
  return blocks;
}

/** Where the first and the second grid of a text with several begin, and how many there are. */
interface Several {
  readonly count: number;
  readonly first: number;
  readonly second: number;
}

/** Whether a text is more than one grid: one a line, or one a block. Null if it is not. */
function findSeveral(layout: Layout, lines: readonly SourceLine[]): Several | null {
  const filled = lines.filter((line) => !isBlankLine(line));
  const allGrids = (parts: readonly (readonly SourceLine[])[]): Several | null => {
    if (parts.length < 2 || !parts.every((part) => readingsOf(layout, part).length === 1)) return null;
    const [first, second] = parts.map((part) => part.find((line) => !isBlankLine(line))!.number);
    return { count: parts.length, first, second };
  };
  const long = filled.every((line) => line.signs.length >= layout.cellCount);
  return (long ? allGrids(filled.map((line) => [line])) : null) ?? allGrids(blocksOf(layout, lines));
}

/** Reads lines as one grid and no more. */
function readOne(layout: Layout, lines: readonly SourceLine[]): Result<NamedGrid, GridError> {
  const readings = readingsOf(layout, lines);
  const several = findSeveral(layout, lines);
  if (several === null) return settle(layout, lines, readings);
  if (readings.length === 0) {
    const place = { line: several.second, column: 1 };
    return failure(gridError('many-grids', place, counted(several.count, 'grid'), 'one'));
  }
  const ways = ['one table of candidates', `${several.count} grids, one a line`];
  return failure(ambiguous({ line: several.first, column: 1 }, 'a table', ways, advice));
}

/**
 * Reads one grid from what people paste: 81 signs on a line, nine lines, boxes drawn around the cells, a
 * table of candidates, CSV, TSV; with remarks, in a code fence, quoted. A text that can be read in two ways
 * is refused with both named. In a table a lone digit is placed; candidates in parentheses are open.
 */
export function readGrid(text: string, options: ReadOptions = {}): Result<NamedGrid, GridError> {
  const { layout = plain, limit = defaultLimit(layout) } = options;
  const tooLong = overLimit(text, limit, 'for one grid');
  return tooLong ? failure(tooLong) : readOne(layout, sourceText(text).lines);
}

/**
 * Reads one line of a text that has one grid a line; `lineNumber` counts from 1 and goes into errors. Null
 * where the line holds no grid: it is blank, a remark, or the edge of a code fence. A grid's name is the
 * remark behind it.
 */
export function readGridLine(
  line: string,
  lineNumber: number,
  options: ReadOptions = {},
): Result<NamedGrid | null, GridError> {
  const { layout = plain, limit = defaultLimit(layout) } = options;
  const bare = bareLine(layout, line);
  if (bare) return success({ grid: bare, remarks: [], line: lineNumber });
  const tooLong = overLimit(line, limit, 'on one line', lineNumber);
  if (tooLong) return failure(tooLong);
  const { lines } = sourceText(line, lineNumber);
  return lines.every(isBlankLine) ? success(null) : readLines(layout, lines);
}

/** How many pieces a line falls into at spaces, bars and commas. */
const pieceCount = (line: SourceLine): number =>
  line.signs
    .map((sign) => (isBar(sign) || isSpace(sign) || sign === ',' || sign === ';' ? ' ' : sign))
    .join('')
    .split(' ')
    .filter((piece) => piece !== '').length;

/**
 * Whether a text has one grid a line, by its first nine lines that are neither blank nor remarks.
 * The beginning of a longer text will do (20,000 characters or more), so that a stream can be told apart
 * before it has been read to its end. A row of a table whose lists are all full looks like a grid: it counts
 * only where most lines look so, and never beside drawn lines or where the whole text is one grid.
 */
export function isGridPerLine(text: string, layout: Layout = plain): boolean {
  const limit = defaultLimit(layout);
  const { lines } = sourceText(text.slice(0, limit));
  if (text.length <= limit && readingsOf(layout, lines).length > 0) {
    return lines.filter((line) => !isBlankLine(line)).length === 1;
  }
  const rows = lines.filter((line) => !isBlankLine(line)).slice(0, 9);
  if (rows.some((line) => lineKind(layout, line) === 'rule')) return false;
  const grids = rows.filter((line) => readingsOf(layout, [line]).length > 0);
  const sure = grids.some((line) => pieceCount(line) !== layout.size);
  return sure || (grids.length > 0 && grids.length * 2 >= rows.length);
}

/**
 * Reads every grid of a text: one grid in any form, many with one a line, or many with blank lines between
 * them. One result for each grid or bad line, in the text's order; a bad one does not stop the rest. Never
 * empty: a text without a grid gives one error.
 */
export function readGrids(text: string, options: ReadOptions = {}): Result<NamedGrid, GridError>[] {
  const { layout = plain, limit = defaultLimit(layout), textLimit = defaultTextLimit } = options;
  const tooLong = overLimit(text, textLimit, 'in all');
  if (tooLong) return [failure(tooLong)];
  let whole: Result<NamedGrid, GridError> | null = null;
  if (text.length <= limit) {
    whole = readOne(layout, sourceText(text).lines);
    if (whole.ok || whole.error.code === 'ambiguous') return [whole];
  }
  if (isGridPerLine(text, layout)) {
    const results = splitLines(withoutMark(text)).flatMap((line, index): Result<NamedGrid, GridError>[] => {
      const result = readGridLine(line, index + 1, options);
      if (!result.ok) return [result];
      return result.value === null ? [] : [success(result.value)];
    });
    if (whole === null || results.some((result) => result.ok)) return results;
  }
  const { lines } = sourceText(text);
  const blocks = blocksOf(layout, lines).map((block) => ({ block, size: sizeOf(block) }));
  const readings = blocks.map(({ block, size }) => (size > limit ? [] : readingsOf(layout, block)));
  if (whole !== null && readings.every((each) => each.length === 0)) return [whole];
  return blocks.map(({ block, size }, index) => {
    if (size <= limit) return settle(layout, block, readings[index]);
    const place = { line: block[0].number, column: 1 };
    const expected = `at most ${said(limit)} for one grid`;
    return failure(gridError('too-long', place, `${said(size)} characters`, expected));
  });
}
