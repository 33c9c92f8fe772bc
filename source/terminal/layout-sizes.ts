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
  readonly width: number;
  readonly height: number;
  readonly cellWidth: number;
  readonly cellHeight: number;
  /** The line of a cell on which a placed digit in one character and the row's label stand. */
  readonly digitLine: number;
  /** The column of a cell in which a placed digit in one character stands. */
  readonly digitColumn: number;
  readonly tiles: boolean;
  readonly cellX: (column: number) => number;
  readonly cellY: (row: number) => number;
  readonly ruleRows: readonly number[];
  readonly ruleColumns: readonly number[];
  /** First and last column of the grid. */
  readonly left: number;
  readonly right: number;
  readonly panel: Panel | null;
  readonly messageY: number;
  readonly footerY: number;
  /** Where message and footer start. */
  readonly textX: number;
  /** How wide message and footer may be. */
  readonly textWidth: number;
}

const band = (index: number) => Math.floor(index / 3);

/** What the plain layout needs at least, said where the terminal is smaller. */
export const leastSize = { columns: 40, rows: 15 } as const;

/**
 * The plan for a terminal of this size; null where it is smaller than the least. At most `rows - 1` lines
 * are used, so that no terminal scrolls.
 */
export function planScreen({ columns, rows }: TerminalSize): ScreenPlan | null {
  const wide = columns >= 100;
  const room = columns >= 75 && (wide || columns < 80);
  if (room && rows >= 40) return roomy(columns, 4);
  if (room && rows >= 33) return roomy(columns, 3);
  if (columns >= 57 && rows >= 24) return compact(columns);
  if (columns >= leastSize.columns && rows >= leastSize.rows) return tiny(columns);
  return null;
}

function sidePanel(columns: number, x: number, y: number, height: number): Panel | null {
  const width = Math.min(32, columns - x);
  return width >= 22 ? { x, y, width, height: height - y } : null;
}

function roomy(columns: number, pitch: 3 | 4): ScreenPlan {
  const open = pitch === 4;
  const cellY = open ? (row: number) => 1 + 4 * row : (row: number) => 1 + 3 * row + band(row);
  const footerY = open ? 38 : 31;
  return {
    name: open ? 'roomy' : 'tight',
    width: columns,
    height: footerY + 1,
    cellWidth: 7,
    cellHeight: 3,
    digitLine: 1,
    digitColumn: 3,
    tiles: !open,
    cellX: (column) => 3 + 8 * column,
    cellY,
    ruleRows: open ? [12, 24] : [10, 20],
    ruleColumns: [26, 50],
    left: 3,
    right: 73,
    panel: sidePanel(columns, 78, 1, footerY - 2),
    messageY: footerY - 1,
    footerY,
    textX: 3,
    textWidth: Math.min(columns, 110) - 3,
  };
}

function compact(columns: number): ScreenPlan {
  return {
    name: 'compact',
    width: columns,
    height: 23,
    cellWidth: 5,
    cellHeight: 2,
    digitLine: 0,
    digitColumn: 2,
    tiles: true,
    cellX: (column) => 3 + 6 * column,
    cellY: (row) => 1 + 2 * row + band(row),
    ruleRows: [7, 14],
    ruleColumns: [20, 38],
    left: 3,
    right: 55,
    panel: sidePanel(columns, 58, 0, 21),
    messageY: 21,
    footerY: 22,
    textX: 3,
    textWidth: Math.min(columns, 80) - 3,
  };
}

function tiny(columns: number): ScreenPlan {
  return {
    name: 'tiny',
    width: columns,
    height: 14,
    cellWidth: 3,
    cellHeight: 1,
    digitLine: 0,
    digitColumn: 1,
    tiles: false,
    cellX: (column) => 3 + 3 * column + band(column),
    cellY: (row) => 1 + row + band(row),
    ruleRows: [4, 8],
    ruleColumns: [12, 22],
    left: 3,
    right: 31,
    panel: { x: 33, y: 0, width: Math.min(columns - 33, 22), height: 12 },
    messageY: 12,
    footerY: 13,
    textX: 0,
    textWidth: Math.min(columns, 57),
  };
}
