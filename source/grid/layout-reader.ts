import { failure, type LocatedError, type Result, success } from '../text/result.ts';
import { quoteSafe } from '../text/safe.ts';
import { type Cell, type Layout, type LayoutPlan, makeLayout, rectangularBoxes } from './layout.ts';
import { splitLines, withoutMark } from './source-lines.ts';

/** Why a text is no layout. The codes are stable. */
export type LayoutErrorCode =
  | 'too-long'
  | 'unknown-word'
  | 'bad-size'
  | 'bad-boxes'
  | 'bad-regions'
  | 'bad-extra'
  | 'twice'
  | 'missing';

export interface LayoutError extends LocatedError {
  readonly code: LayoutErrorCode;
}

/** Digits are written 1 to 9 and A to P. */
const sizes = { least: 2, most: 25 };
/** The most characters that the text of a layout may have. */
const limit = 20_000;

interface Line {
  readonly number: number;
  /** From 1: where the first word stands. */
  readonly column: number;
  readonly text: string;
}

/** Stops the reading; `readLayout` hands the error on as a value. */
class Refused extends Error {
  readonly error: LayoutError;
  constructor(error: LayoutError) {
    super(error.message);
    this.error = error;
  }
}

function refuse(
  code: LayoutErrorCode,
  { number, column }: Omit<Line, 'text'>,
  found: string,
  expected: string,
): never {
  const message = `Line ${number}, column ${column}: found ${found}; expected ${expected}.`;
  throw new Refused({ code, line: number, column, found, expected, message });
}

/** What a text says so far. */
interface Draft {
  size: number | null;
  boxOf: readonly number[] | null;
  diagonals: boolean;
  readonly extras: (readonly Cell[])[];
}

const needSize = ({ size }: Draft, line: Line): number =>
  size ?? refuse('missing', line, quoteSafe(line.text), "'size N' above it");

function readSize(draft: Draft, line: Line, word: string): void {
  if (draft.size !== null) refuse('twice', line, 'a second size', 'one');
  const size = /^\d{1,2}$/.test(word) ? Number(word) : 0;
  if (size < sizes.least || size > sizes.most) {
    refuse('bad-size', line, quoteSafe(word), `a number from ${sizes.least} to ${sizes.most}`);
  }
  draft.size = size;
}

function readBoxes(draft: Draft, line: Line, word: string): void {
  const size = needSize(draft, line);
  if (draft.boxOf) refuse('twice', line, 'boxes or regions again', 'them once');
  const [, rows, columns] = /^(\d{1,2})x(\d{1,2})$/i.exec(word) ?? [];
  if (rows === undefined || Number(rows) * Number(columns) !== size) {
    refuse(
      'bad-boxes',
      line,
      quoteSafe(word),
      `rows x columns of a box that make ${size}, such as 'boxes 3x3' for 9`,
    );
  }
  draft.boxOf = rectangularBoxes(Number(rows), Number(columns));
}

/** `size` rows of one sign a cell; the cells of a sign are a region, numbered as they are met. */
function readRegions(draft: Draft, line: Line, rows: readonly Line[]): void {
  const size = needSize(draft, line);
  if (draft.boxOf) refuse('twice', line, 'boxes or regions again', 'them once');
  const numbers = new Map<string, number>();
  const counts: number[] = [];
  const boxOf: number[] = [];
  for (let row = 0; row < size; row += 1) {
    const drawn = rows[row];
    if (drawn === undefined) refuse('bad-regions', line, `${row} rows of regions`, `${size}`);
    const signs = [...drawn.text.replaceAll(' ', '')];
    if (signs.length !== size) {
      refuse('bad-regions', drawn, `${signs.length} signs`, `${size}, one for each cell of the row`);
    }
    for (const sign of signs) {
      const number = numbers.get(sign) ?? numbers.size;
      numbers.set(sign, number);
      counts[number] = (counts[number] ?? 0) + 1;
      boxOf.push(number);
    }
  }
  for (const [sign, number] of numbers) {
    if (counts[number] !== size) {
      refuse('bad-regions', line, `${counts[number]} cells of region ${quoteSafe(sign)}`, `${size}`);
    }
  }
  draft.boxOf = boxOf;
}

/** Cells (`r2c2`) and rectangles of them (`r2c2-r4c4`), `size` different cells in all. */
function readExtra(draft: Draft, line: Line, words: readonly string[]): void {
  const size = needSize(draft, line);
  const cells = words.flatMap((word) => {
    const match = /^r(\d{1,2})c(\d{1,2})(?:-r(\d{1,2})c(\d{1,2}))?$/i.exec(word);
    const [top, left, bottom, right] = match
      ? [match[1], match[2], match[3] ?? match[1], match[4] ?? match[2]].map(Number)
      : [0, 0, 0, 0];
    if (top < 1 || left < 1 || bottom < top || right < left || bottom > size || right > size) {
      refuse('bad-extra', line, quoteSafe(word), 'cells of the grid, such as r2c2 or r2c2-r4c4');
    }
    const across = Array.from({ length: right - left + 1 }, (_, i) => left - 1 + i);
    return Array.from({ length: bottom - top + 1 }, (_, i) => top - 1 + i).flatMap((row) =>
      across.map((column) => row * size + column),
    );
  });
  const different = new Set(cells).size;
  if (different !== size || cells.length !== size) {
    const found = different < cells.length ? 'a cell twice' : `${cells.length} cells`;
    refuse('bad-extra', line, found, `${size} different cells`);
  }
  draft.extras.push(cells);
}

function readDraft(lines: readonly Line[]): Draft {
  const draft: Draft = { size: null, boxOf: null, diagonals: false, extras: [] };
  for (let at = 0; at < lines.length; at += 1) {
    const line = lines[at];
    const [keyword, ...words] = line.text.split(/\s+/);
    switch (keyword.toLowerCase()) {
      case 'size':
        readSize(draft, line, words.join(' '));
        break;
      case 'boxes':
        readBoxes(draft, line, words.join(' '));
        break;
      case 'regions': {
        if (words.length > 0)
          refuse('bad-regions', line, quoteSafe(words.join(' ')), 'nothing behind regions');
        const size = needSize(draft, line);
        readRegions(draft, line, lines.slice(at + 1, at + 1 + size));
        at += size;
        break;
      }
      case 'diagonals':
        if (words.length > 0)
          refuse('unknown-word', line, quoteSafe(words.join(' ')), 'nothing behind diagonals');
        if (draft.diagonals) refuse('twice', line, 'diagonals again', 'them once');
        needSize(draft, line);
        draft.diagonals = true;
        break;
      case 'extra':
        readExtra(draft, line, words);
        break;
      default:
        refuse('unknown-word', line, quoteSafe(keyword), 'size, boxes, regions, diagonals or extra');
    }
  }
  return draft;
}

/**
 * Reads a layout from text: a line `size N` first, then `boxes RxC` or `regions` with N rows of one sign a cell
 * below it, and if wanted `diagonals` (both) and `extra` with the N cells of a further house, one line each.
 * Blank lines and what stands behind `#` say nothing. `name` is how the layout is called.
 */
export function readLayout(text: string, name: string): Result<Layout, LayoutError> {
  try {
    if (text.length > limit) {
      refuse('too-long', { number: 1, column: 1 }, `${text.length} characters`, `at most ${limit}`);
    }
    const written = splitLines(withoutMark(text));
    const lines = written.flatMap((raw, index): Line[] => {
      const bare = raw.replace(/#.*$/, '');
      const line = bare.trim();
      return line === '' ? [] : [{ number: index + 1, column: bare.search(/\S/) + 1, text: line }];
    });
    const { size, boxOf, diagonals, extras } = readDraft(lines);
    const end = { number: written.length, column: 1 };
    if (size === null) refuse('missing', end, 'no size', "'size N'");
    if (boxOf === null) refuse('missing', end, 'neither boxes nor regions', "'boxes RxC' or 'regions'");
    const along = Array.from({ length: size }, (_, i) => i);
    const plan: LayoutPlan = {
      name,
      size,
      boxOf,
      extras: [
        ...(diagonals ? [along.map((i) => i * (size + 1)), along.map((i) => (i + 1) * (size - 1))] : []).map(
          (cells) => ({ kind: 'diagonal', cells }) as const,
        ),
        ...extras.map((cells) => ({ kind: 'extra', cells }) as const),
      ],
    };
    return success(makeLayout(plan));
  } catch (error) {
    if (error instanceof Refused) return failure(error.error);
    throw error;
  }
}
