import { displayWidth } from '../text/width.ts';
import type { StyleTable } from './sgr.ts';

/**
 * What stands on a screen: row by row, each cell one grapheme and a style number. A wide grapheme stands in
 * its left cell; the cell to its right holds the empty string. Untouched cells are a plain space.
 */
export interface Frame {
  readonly columns: number;
  readonly rows: number;
  readonly graphemes: string[];
  readonly styles: Uint32Array;
}

export interface CellPlace {
  readonly x: number;
  readonly y: number;
}

/** One write of Ink's, read. */
export interface InkWrite {
  /** The frame, or undefined for a write that only erases or moves the cursor. */
  readonly frame: Frame | undefined;
  /** How many lines the frame has, also where they don't fit. */
  readonly lines: number;
  /** The cursor that a component asked for; undefined for none; `'same'` if the write does not say. */
  readonly cursor: CellPlace | undefined | 'same';
}

export function blankFrame(columns: number, rows: number): Frame {
  const size = columns * rows;
  return { columns, rows, graphemes: new Array<string>(size).fill(' '), styles: new Uint32Array(size) };
}

/** The frame cut to a size, or filled up to it with blanks. */
export function fitFrame(frame: Frame, columns: number, rows: number): Frame {
  if (frame.columns === columns && frame.rows === rows) return frame;
  const fitted = blankFrame(columns, rows);
  for (let y = 0; y < Math.min(rows, frame.rows); y++) {
    for (let x = 0; x < Math.min(columns, frame.columns); x++) {
      fitted.graphemes[y * columns + x] = frame.graphemes[y * frame.columns + x]!;
      fitted.styles[y * columns + x] = frame.styles[y * frame.columns + x]!;
    }
  }
  return fitted;
}

/** Whether nothing stands in a row; one outside the frame is blank. */
export function isBlankRow({ columns, rows, graphemes, styles }: Frame, y: number): boolean {
  if (y >= rows) return true;
  for (let at = y * columns; at < (y + 1) * columns; at++) {
    if (graphemes[at] !== ' ' || styles[at] !== 0) return false;
  }
  return true;
}

/** The frame with one row of another of the same size. */
export function withRow(frame: Frame, other: Frame, y: number): Frame {
  const { columns } = frame;
  const graphemes = [...frame.graphemes];
  const styles = frame.styles.slice();
  for (let at = y * columns; at < (y + 1) * columns; at++) {
    graphemes[at] = other.graphemes[at]!;
    styles[at] = other.styles[at]!;
  }
  return { ...frame, graphemes, styles };
}

/** Characters of one column that join with nothing: ASCII, Latin, punctuation, arrows, lines, symbols. */
const isSimple = (code: number): boolean =>
  (code >= 0x20 && code < 0x7f) ||
  (code >= 0xa0 && code < 0x300 && code !== 0xad) ||
  (code >= 0x2010 && code < 0x2028) ||
  (code >= 0x2030 && code < 0x2060) ||
  (code >= 0x2190 && code < 0x2300) ||
  (code >= 0x2500 && code < 0x25fd);

let segmenter: Intl.Segmenter | undefined;
const widths = new Map<string, number>();

function graphemeWidth(grapheme: string): number {
  let width = widths.get(grapheme);
  if (width === undefined) {
    width = displayWidth(grapheme);
    widths.set(grapheme, width);
  }
  return width;
}

/** The graphemes of a run of text without controls. */
function* graphemesOf(text: string): Generator<string> {
  segmenter ??= new Intl.Segmenter('en', { granularity: 'grapheme' });
  for (const { segment } of segmenter.segment(text)) yield segment;
}

const control = /[\x00-\x1f\x7f-\x9f]/g;
const controlSequence = /\x1b\[([\x30-\x3f]*)[\x20-\x2f]*([\x40-\x7e])/y;
/** Strings that a terminal would take as a command: OSC, DCS, SOS, PM, APC, to their end or to the text's. */
const commandString = /\x1b[\]PX^_][^\x07\x1b]*(?:\x07|\x1b\\|$)?/y;

/**
 * Reads what Ink 6.8 writes in one go: moves that erase its last frame, the frame's lines, and moves that put
 * the cursor in place (its log-update.js and cursor-helpers.js). Of everything else only text and SGR count;
 * other controls and commands are dropped, so that nothing that slipped into a text can reach the terminal.
 * What does not fit the size is cut off; `lastLines` are those of the frame before, for a write that only
 * moves the cursor.
 */
export function readInkWrite(
  input: string,
  size: { readonly columns: number; readonly rows: number },
  table: StyleTable,
  lastLines: number,
): InkWrite {
  const { columns, rows } = size;
  const frame = blankFrame(columns, rows);
  let hasText = false;
  let style = 0;
  let x = 0;
  let y = 0;
  let up = 0;
  let column = 0;
  let cursor: CellPlace | undefined | 'same' = 'same';

  const put = (grapheme: string, width: number): void => {
    hasText = true;
    if (width === 0) return;
    if (y < rows && x < columns) {
      const at = y * columns + x;
      const fits = x + width <= columns;
      frame.graphemes[at] = fits ? grapheme : ' ';
      frame.styles[at] = style;
      if (fits && width === 2) {
        frame.graphemes[at + 1] = '';
        frame.styles[at + 1] = style;
      }
    }
    x += width;
    up = 0;
    column = 0;
  };

  const move = (parameters: string, final: string): void => {
    if (final === 'm' && /^[\d:;]*$/.test(parameters)) style = table.apply(style, parameters);
    else if (final === 'A') up = Number(parameters) || 1;
    else if (final === 'G') column = (Number(parameters) || 1) - 1;
    else if (final === 'l' && parameters === '?25') cursor = undefined;
    else if (final === 'h' && parameters === '?25') {
      cursor = { x: column, y: Math.max(0, (hasText ? y : lastLines) - up) };
    }
  };

  let at = 0;
  while (at < input.length) {
    const code = input.charCodeAt(at);
    if (code === 0x1b) {
      controlSequence.lastIndex = at;
      const found = controlSequence.exec(input);
      if (found) {
        move(found[1]!, found[2]!);
        at = controlSequence.lastIndex;
        continue;
      }
      commandString.lastIndex = at;
      at = commandString.test(input) ? commandString.lastIndex : at + 1;
    } else if (code === 0x0a) {
      hasText = true;
      x = 0;
      y++;
      up = 0;
      column = 0;
      at++;
    } else if (code < 0x20 || (code >= 0x7f && code < 0xa0)) at++;
    else {
      const next = at + 1 < input.length ? input.charCodeAt(at + 1) : 0;
      if (isSimple(code) && (isSimple(next) || next < 0x20)) {
        put(input[at]!, 1);
        at++;
      } else {
        control.lastIndex = at;
        const end = control.exec(input)?.index ?? input.length;
        for (const grapheme of graphemesOf(input.slice(at, end))) put(grapheme, graphemeWidth(grapheme));
        at = end;
      }
    }
  }
  if (!hasText) return { frame: undefined, lines: lastLines, cursor };
  if (cursor === 'same') cursor = undefined;
  return { frame, lines: y, cursor };
}
