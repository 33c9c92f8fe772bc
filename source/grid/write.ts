import { safeText } from '../text/safe.ts';
import { countDigits, digitsIn } from './candidates.ts';
import type { Cell, Layout } from './layout.ts';
import { digitName } from './names.ts';
import type { Grid, Position } from './position.ts';

/** A form in which a grid can be written. Each is read back to the same grid. */
export interface GridForm {
  /** As it is asked for on the command line. */
  readonly name: GridFormName;
  /** One line for the help. */
  readonly description: string;
  /** Whether candidates are written. Where not, a grid with marks is written without them. */
  readonly carriesMarks: boolean;
  /** The text; every line ends with a newline. */
  readonly make: (grid: Grid) => string;
}

export type GridFormName = 'line' | 'rows' | 'boxes' | 'boxes-ascii' | 'candidates' | 'csv' | 'tsv';

/** The signs that boxes are drawn with: across, down, and the corners and crossings row by row. */
interface Frame {
  readonly across: string;
  readonly down: string;
  readonly top: readonly [string, string, string];
  readonly middle: readonly [string, string, string];
  readonly bottom: readonly [string, string, string];
}

const asciiFrame: Frame = {
  across: '-',
  down: '|',
  top: ['+', '+', '+'],
  middle: ['+', '+', '+'],
  bottom: ['+', '+', '+'],
};
const unicodeFrame: Frame = {
  across: '─',
  down: '│',
  top: ['┌', '┬', '┐'],
  middle: ['├', '┼', '┤'],
  bottom: ['└', '┴', '┘'],
};

const rowsOf = (layout: Layout): Cell[][] =>
  Array.from({ length: layout.size }, (_, row) =>
    Array.from({ length: layout.size }, (_, column) => row * layout.size + column),
  );

const signOf = (grid: Grid, cell: Cell): string =>
  grid.givens[cell] === 0 ? '.' : digitName(grid.givens[cell]);

/**
 * A cell with its candidates: a lone digit is placed, so one that is only the last candidate stands in
 * parentheses. So do all candidates where digits go beyond nine: `12` could be the number twelve there.
 */
function cellText(grid: Grid, cell: Cell, blank: string): string {
  const marks = grid.givens[cell] === 0 ? (grid.marks?.[cell] ?? 0) : 0;
  if (marks === 0) return grid.givens[cell] === 0 ? blank : digitName(grid.givens[cell]);
  const digits = digitsIn(marks).map(digitName).join('');
  return countDigits(marks) === 1 || grid.layout.size > 9 ? `(${digits})` : digits;
}

/** Where a box ends in every row: the columns, from 0, after which a line is drawn down. */
function boxEdges(layout: Layout, step: 1 | 'row'): number[] {
  const along = Array.from({ length: layout.size }, (_, i) => i);
  const at = (i: number, k: number) => layout.boxOf[step === 1 ? k * layout.size + i : i * layout.size + k];
  return along.slice(0, -1).filter((i) => along.every((k) => at(i, k) !== at(i + 1, k)));
}

/** Cuts the row's texts where boxes end. */
function cut(texts: readonly string[], edges: readonly number[]): string[][] {
  const pieces: string[][] = [[]];
  texts.forEach((text, column) => {
    pieces[pieces.length - 1].push(text);
    if (edges.includes(column)) pieces.push([]);
  });
  return pieces;
}

function makeLine(grid: Grid): string {
  return `${grid.givens.map((_, cell) => signOf(grid, cell)).join('')}\n`;
}

function makeRows(grid: Grid): string {
  return rowsOf(grid.layout)
    .map((row) => `${row.map((cell) => signOf(grid, cell)).join('')}\n`)
    .join('');
}

/** Rows with every box in a frame; `texts` are the cells' texts, all of a column equally wide. */
function drawFrame(layout: Layout, texts: readonly string[], frame: Frame): string {
  const edges = boxEdges(layout, 1);
  const bands = boxEdges(layout, 'row');
  const rows = rowsOf(layout).map((row) =>
    cut(
      row.map((cell) => texts[cell]),
      edges,
    ),
  );
  const widths = rows[0].map((piece) => piece.join(' ').length + 2);
  const rule = ([left, crossing, right]: readonly [string, string, string]) =>
    `${left}${widths.map((width) => frame.across.repeat(width)).join(crossing)}${right}\n`;
  const drawn = rows.map((pieces, row) => {
    const inside = pieces.map((piece) => ` ${piece.join(' ')} `).join(frame.down);
    const below = bands.includes(row) ? rule(frame.middle) : '';
    return `${frame.down}${inside}${frame.down}\n${below}`;
  });
  return `${rule(frame.top)}${drawn.join('')}${rule(frame.bottom)}`;
}

const makeBoxes = (grid: Grid, frame: Frame): string =>
  drawFrame(
    grid.layout,
    grid.givens.map((_, cell) => signOf(grid, cell)),
    frame,
  );

/** Every cell of a column as wide as its widest. */
function aligned(layout: Layout, texts: readonly string[]): string[] {
  const widths = Array.from({ length: layout.size }, (_, column) =>
    Math.max(...texts.filter((_, cell) => cell % layout.size === column).map((text) => text.length)),
  );
  return texts.map((text, cell) => text.padEnd(widths[cell % layout.size]));
}

function makeCandidates(grid: Grid): string {
  const { layout } = grid;
  const texts = grid.givens.map((_, cell) => cellText(grid, cell, '.'));
  return drawFrame(layout, aligned(layout, texts), asciiFrame);
}

/** A cell as a field: a list of all digits is in parentheses, since a row of them could be a whole grid. */
function fieldText(grid: Grid, cell: Cell): string {
  const text = cellText(grid, cell, '');
  return grid.marks?.[cell] === grid.layout.allDigits && !text.startsWith('(') ? `(${text})` : text;
}

const makeFields = (grid: Grid, delimiter: ',' | '\t'): string =>
  rowsOf(grid.layout)
    .map((row) => `${row.map((cell) => fieldText(grid, cell)).join(delimiter)}\n`)
    .join('');

/** All written forms, in the order in which help lists them. */
export const gridForms: readonly GridForm[] = [
  {
    name: 'line',
    description: 'one line of one sign a cell, blanks as .',
    carriesMarks: false,
    make: makeLine,
  },
  { name: 'rows', description: 'one line a row, blanks as .', carriesMarks: false, make: makeRows },
  {
    name: 'boxes',
    description: 'boxes drawn with Unicode lines',
    carriesMarks: false,
    make: (grid) => makeBoxes(grid, unicodeFrame),
  },
  {
    name: 'boxes-ascii',
    description: 'boxes drawn with | - +',
    carriesMarks: false,
    make: (grid) => makeBoxes(grid, asciiFrame),
  },
  {
    name: 'candidates',
    description: 'a table of candidates; a lone digit is placed, (5) is open with one candidate left',
    carriesMarks: true,
    make: makeCandidates,
  },
  {
    name: 'csv',
    description: 'comma-separated fields, blanks empty, candidates as in a table of candidates',
    carriesMarks: true,
    make: (grid) => makeFields(grid, ','),
  },
  {
    name: 'tsv',
    description: 'the same with tabs',
    carriesMarks: true,
    make: (grid) => makeFields(grid, '\t'),
  },
];

/** The form of a name; null if there is none. */
export const findGridForm = (name: string): GridForm | null =>
  gridForms.find((form) => form.name === name) ?? null;

/**
 * A grid in a form, its name and remarks with it as `# …`: behind the grid where it is one line, above it
 * elsewhere. They are made safe to show; names that read back differ only in what was unsafe or a newline.
 */
export function writeGrid(form: GridForm, grid: Grid, remarks: readonly string[] = []): string {
  const text = form.make(grid);
  const safe = remarks.map((remark) => safeText(remark.replaceAll('\n', ' ')).trim()).filter((r) => r !== '');
  if (safe.length === 0) return text;
  if (form.name !== 'line') return `${safe.map((remark) => `# ${remark}\n`).join('')}${text}`;
  return `${text.trimEnd()} # ${safe[0]}\n${safe
    .slice(1)
    .map((remark) => `# ${remark}\n`)
    .join('')}`;
}

/**
 * A position as a grid that can be written: placed digits (givens and ink alike), and the candidates of every
 * open cell as marks. A cell without any candidate is written as a blank, which says nothing about it.
 */
export function gridOf(position: Position): Grid {
  const { layout, placed, candidates } = position;
  const givens = Array.from(placed);
  return {
    layout,
    givens,
    marks: givens.map((given, cell) => (given === 0 ? candidates.digitsAt(cell) : 0)),
  };
}
