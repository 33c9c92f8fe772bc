import { type Layout, plain } from '../grid/layout.ts';

/** The sizes that the workbench knows, largest first. */
export type SizeName = 'roomy' | 'tight' | 'compact' | 'tiny';

export interface TerminalSize {
  readonly columns: number;
  readonly rows: number;
}

export interface Panel {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Where everything stands at one size of the terminal. All numbers count characters from 0. */
export interface ScreenPlan {
  readonly name: SizeName;
  /** How many digits there are, and cells in a row. */
  readonly size: number;
  readonly width: number;
  readonly height: number;
  readonly cellWidth: number;
  readonly cellHeight: number;
  /** Whether marks stand in a square, each with room for a sign beside it. */
  readonly isRoomy: boolean;
  /** The line of a cell on which a placed digit in one character and the row's label stand. */
  readonly digitLine: number;
  /** The column of a cell in which a placed digit in one character stands. */
  readonly digitColumn: number;
  readonly tiles: boolean;
  readonly cellX: (column: number) => number;
  readonly cellY: (row: number) => number;
  /** Where a line can be drawn to the right of a column; null where the next cell touches. */
  readonly gapX: (column: number) => number | null;
  /** Where a line can be drawn below a row; null where the next cell touches. */
  readonly gapY: (row: number) => number | null;
  /** First and last column of the grid, and its last line. */
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly panel: Panel | null;
  /** Whether the panel has room for sentences. */
  readonly isPanelWide: boolean;
  readonly messageY: number;
  readonly footerY: number;
  /** Where message and footer start. */
  readonly textX: number;
  /** How wide message and footer may be. */
  readonly textWidth: number;
}

/** The shape of a cell at one size. */
interface CellShape {
  readonly name: SizeName;
  readonly width: number;
  readonly height: number;
  /** Columns between any two cells, or only where a line must be drawn. */
  readonly gapsAcross: 'all' | 'lines';
  readonly gapsDown: 'all' | 'lines';
}

/** The least that the plain layout is drawn in; text needs as much on any layout. */
const least = { columns: 40, rows: 15 };
const widestPanel = 32;
const narrowestPanel = 22;
/** Message and footer keep this distance from the top where there is room, however small the grid. */
const usualFooter = { wide: 22, tiny: 13 };

/** In how many columns the marks of a roomy cell stand. */
export const markColumns = (size: number): number => Math.max(size > 4 ? 3 : 2, Math.ceil(Math.sqrt(size)));

function shapesOf(size: number): CellShape[] {
  const columns = markColumns(size);
  const roomy = {
    width: Math.max(7, 1 + 2 * columns),
    height: Math.max(3, Math.ceil(size / columns)),
    gapsAcross: 'all',
  } as const;
  // Two lines of marks, with the middle of the upper one kept free.
  const half = Math.max(2, Math.ceil((size - 1) / 4));
  return [
    { name: 'roomy', ...roomy, gapsDown: 'all' },
    { name: 'tight', ...roomy, gapsDown: 'lines' },
    { name: 'compact', width: 2 * half + 1, height: 2, gapsAcross: 'all', gapsDown: 'lines' },
  ];
}

const tinyShape: CellShape = { name: 'tiny', width: 3, height: 1, gapsAcross: 'lines', gapsDown: 'lines' };

/** For each line between two rows (or columns) how many pairs of cells it parts that lie in different boxes. */
function partings({ size, boxOf }: Layout, down: boolean): number[] {
  const along = Array.from({ length: size }, (_, i) => i);
  const box = (i: number, k: number) => boxOf[down ? i * size + k : k * size + i];
  return along.slice(0, -1).map((i) => along.filter((k) => box(i, k) !== box(i + 1, k)).length);
}

interface Gaps {
  readonly after: readonly boolean[];
  /** Whether there is one wherever a line has to be drawn. */
  readonly areAll: boolean;
}

/**
 * Where rows are parted: by every line that goes right across, and by as many others as there is room for,
 * those first that part the most cells. Null where there is no room for the former.
 */
function gapsDown(layout: Layout, shape: CellShape, room: number): Gaps | null {
  const { size } = layout;
  const counts = partings(layout, true);
  if (shape.gapsDown === 'all')
    return room >= size - 1 ? { after: counts.map(() => true), areAll: true } : null;
  const wanted = counts.map((count, row) => ({ count, row })).filter(({ count }) => count > 0);
  const whole = wanted.filter(({ count }) => count === size).length;
  if (room < whole) return null;
  const taken = wanted.sort((a, b) => b.count - a.count || a.row - b.row).slice(0, room);
  const rows = new Set(taken.map(({ row }) => row));
  return { after: counts.map((_, row) => rows.has(row)), areAll: taken.length === wanted.length };
}

/** Where each of some cells starts, with gaps after some of them. */
function starts(first: number, length: number, gaps: readonly boolean[]): number[] {
  const found = [first];
  for (const gap of gaps) found.push(found[found.length - 1] + length + (gap ? 1 : 0));
  return found;
}

/** The plan with cells of a shape; null where they do not fit. */
function planWith(layout: Layout, shape: CellShape, { columns, rows }: TerminalSize) {
  const { size } = layout;
  const isTiny = shape.name === 'tiny';
  const isRoomy = shape.height > 2;
  const left = size > 9 ? 4 : 3;
  // Labels above; message, footer and, below roomy cells, a blank line; the last line of the terminal stays free.
  const around = 1 + (shape.name === 'roomy' ? 1 : 0) + 2 + 1;
  const gaps = gapsDown(layout, shape, rows - around - size * shape.height);
  if (gaps === null) return null;
  const across = partings(layout, false).map((count) => shape.gapsAcross === 'all' || count > 0);
  const xs = starts(left, shape.width, across);
  const ys = starts(1, shape.height, gaps.after);
  const right = xs[size - 1] + shape.width - 1;
  const bottom = ys[size - 1] + shape.height - 1;
  const natural = bottom + around - 2;
  const footerY = Math.max(natural, Math.min(rows - 2, isTiny ? usualFooter.tiny : usualFooter.wide));
  if (right + (isTiny ? 9 : 2) > columns) return null;
  const panel = isTiny
    ? tinyPanel(columns, right + 2, footerY - 1, size)
    : isRoomy
      ? sidePanel(columns, right + 5, 1, footerY - 2)
      : sidePanel(columns, right + 3, 0, footerY - 1);
  const widest = isRoomy ? 110 : isTiny ? Math.max(57, right + 3) : Math.max(80, right + 1);
  const textX = isTiny ? 0 : 3;
  const plan: ScreenPlan = {
    name: shape.name,
    size,
    width: columns,
    height: footerY + 1,
    cellWidth: shape.width,
    cellHeight: shape.height,
    isRoomy,
    digitLine: Math.floor((shape.height - 1) / 2),
    digitColumn: Math.floor(shape.width / 2),
    tiles: shape.name === 'tight' || shape.name === 'compact',
    cellX: (column) => xs[column],
    cellY: (row) => ys[row],
    gapX: (column) => (across[column] ? xs[column] + shape.width : null),
    gapY: (row) => (gaps.after[row] ? ys[row] + shape.height : null),
    left,
    right,
    bottom,
    panel,
    isPanelWide: panel !== null && (!isTiny || size > 9) && panel.width >= narrowestPanel,
    messageY: footerY - 1,
    footerY,
    textX,
    textWidth: Math.min(columns, widest) - textX,
  };
  return { plan, areAll: gaps.areAll };
}

function sidePanel(columns: number, x: number, y: number, height: number): Panel | null {
  const width = Math.min(widestPanel, columns - x);
  return width >= narrowestPanel ? { x, y, width, height: height - y } : null;
}

/** Beside tiny cells: a few words; on layouts that most terminals show tiny, sentences where there is room. */
function tinyPanel(columns: number, x: number, height: number, size: number): Panel {
  const widest = size > 9 ? widestPanel : narrowestPanel;
  return { x, y: 0, width: Math.min(columns - x, widest), height };
}

/**
 * The plan for a terminal of this size; null where it is smaller than the least. At most `rows - 1` lines
 * are used, so that no terminal scrolls. Of those that fit the one with the largest cells beside a panel; of
 * those without a panel the largest; and one that can draw every line between regions before one that can't.
 */
export function planScreen(size: TerminalSize, layout: Layout = plain): ScreenPlan | null {
  if (size.columns < least.columns || size.rows < least.rows) return null;
  const fitting = shapesOf(layout.size).flatMap((shape) => planWith(layout, shape, size) ?? []);
  const ranked = [...fitting.filter(({ areAll }) => areAll), ...fitting.filter(({ areAll }) => !areAll)];
  const best = ranked.find(({ plan }) => plan.panel !== null) ?? ranked[0];
  return (best ?? planWith(layout, tinyShape, size))?.plan ?? null;
}

/** What it takes to show marks, the least of all columns first. */
export function sizeForMarks(layout: Layout): TerminalSize {
  const { columns, rows } = leastSize(layout);
  const isTiny = (size: TerminalSize) => (planScreen(size, layout)?.name ?? 'tiny') === 'tiny';
  let [wide, high] = [columns, rows];
  while (isTiny({ columns: wide, rows: 200 })) wide += 1;
  while (isTiny({ columns: wide, rows: high })) high += 1;
  return { columns: wide, rows: high };
}

/** What a layout needs at least, said where the terminal is smaller. */
export function leastSize(layout: Layout): TerminalSize {
  let { columns, rows } = least;
  while (planScreen({ columns, rows: 200 }, layout) === null) columns += 1;
  while (planScreen({ columns, rows }, layout) === null) rows += 1;
  return { columns, rows };
}
