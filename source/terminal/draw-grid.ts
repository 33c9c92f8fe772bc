import { digitName } from '../grid/names.ts';
import { drawLines } from './draw-lines.ts';
import type { CellLook, GridLook, MarkLook, Sign } from './grid-look.ts';
import { largeDigit } from './large-digits.ts';
import { markColumns, type ScreenPlan } from './layout-sizes.ts';
import type { Canvas, Role } from './screen.ts';

export interface GridOptions {
  readonly ascii: boolean;
  /** Whether the theme tints grounds; otherwise signs stand for a named house. */
  readonly tints: boolean;
  /** How placed digits are drawn where there is room. */
  readonly digits: 'large' | 'plain';
}

/** Where a mark stands in its cell. */
export function markPlace(plan: ScreenPlan, digit: number): { readonly x: number; readonly y: number } {
  if (plan.isRoomy) {
    const columns = markColumns(plan.size);
    return { x: 1 + 2 * ((digit - 1) % columns), y: Math.floor((digit - 1) / columns) };
  }
  // The middle of the upper line stays free.
  const half = plan.digitColumn;
  if (digit > 2 * half) return { x: digit - 1 - 2 * half, y: 1 };
  return { x: digit <= half ? digit - 1 : digit, y: 0 };
}

/** Draws labels, rules, cells and signs. Later layers cover earlier ones: a sign beats a cursor's bar. */
export function drawGrid(canvas: Canvas, plan: ScreenPlan, look: GridLook, options: GridOptions): void {
  drawLabels(canvas, plan, look);
  for (const cell of look.cells) drawGround(canvas, plan, cell, options);
  drawLines(canvas, plan, look);
  for (const cell of look.cells) if (cell.hasCursor) drawCursor(canvas, plan, cell);
  drawHouseNames(canvas, plan, look);
  if (plan.name === 'tiny') {
    for (const cell of look.cells) drawTinyCell(canvas, plan, cell, options);
    return;
  }
  const signs = new SignPlaces(canvas, plan);
  for (const cell of look.cells) {
    if (cell.placed) drawPlaced(canvas, plan, cell, options);
    else drawOpen(canvas, plan, cell, options, signs);
  }
  for (const cell of look.cells) {
    if (plan.isRoomy) drawRoomySigns(canvas, plan, cell);
    else signs.draw(cell);
  }
}

function drawLabels(canvas: Canvas, plan: ScreenPlan, look: GridLook): void {
  const label = (x: number, y: number, text: string, role: Role) => {
    if (role === 'labelHouse') canvas.lay(x, y, text.length, 1, 'house');
    canvas.text(x, y, text, role);
  };
  look.columnLabels.forEach((role, column) => {
    const name = `c${column + 1}`;
    // Three characters leave no blank before the next label where cells are three wide.
    const text = name.length < plan.cellWidth ? name : String(column + 1);
    label(plan.cellX(column) + plan.digitColumn - 1, 0, text, role);
  });
  look.rowLabels.forEach((role, row) => {
    label(0, plan.cellY(row) + plan.digitLine, `r${row + 1}`, role);
  });
}

/**
 * ` b9 ` on the line above the box, or on the one below for boxes at the top; diagonals beside the ends that
 * they have at the top. A house without such a place has no name here.
 */
function drawHouseNames(canvas: Canvas, plan: ScreenPlan, look: GridLook): void {
  for (const { kind, name, role, cells } of look.named) {
    const put = (x: number, y: number, text: string) => {
      if (role === 'labelHouse') canvas.lay(x, y, text.length, 1, 'house');
      canvas.text(x, y, text, role);
    };
    if (kind === 'diagonal') {
      if (cells.includes(0)) put(0, 0, name);
      else if (plan.name !== 'tiny') put(plan.right, 0, name);
      continue;
    }
    const rowOf = (cell: number) => Math.floor(cell / look.size);
    const top = rowOf(Math.min(...cells));
    const bottom = rowOf(Math.max(...cells));
    const above = top > 0 ? plan.gapY(top - 1) : null;
    const below = bottom < look.size - 1 ? plan.gapY(bottom) : null;
    const y = above ?? below;
    if (y === null) continue;
    const row = above === null ? bottom : top;
    const columns = cells.filter((cell) => rowOf(cell) === row).map((cell) => cell % look.size);
    const first = plan.cellX(Math.min(...columns));
    const last = plan.cellX(Math.max(...columns)) + plan.cellWidth - 1;
    put(Math.floor((first + last) / 2) - 2, y, ` ${name} `);
  }
}

function drawGround(canvas: Canvas, plan: ScreenPlan, cell: CellLook, options: GridOptions): void {
  const x = plan.cellX(cell.column);
  const y = plan.cellY(cell.row);
  // Grounds that part cells or regions give way where there are gaps and lines enough.
  const isShade = cell.ground === 'tile' || (cell.ground === 'extra' && cell.extraSign === null);
  const ground = isShade && !plan.tiles ? 'plain' : cell.ground;
  if (ground !== 'plain') canvas.lay(x, y, plan.cellWidth, plan.cellHeight, ground);
  if (cell.extraSign !== null && !options.tints) {
    // Where no mark ever stands: beside a placed digit below it, else where the cursor stands.
    const place = extraPlace(plan, cell);
    canvas.put(x + place.x, y + place.y, cell.extraSign, 'houseSign');
  }
  if (plan.name === 'tiny') return;
  const crownX = plan.isRoomy ? x : x + plan.digitColumn;
  if (cell.isBivalue) canvas.put(crownX, y + plan.digitLine, '"', 'foundMark');
  if (cell.inHouse && !options.tints && !cell.placed) {
    canvas.put(crownX, y + plan.digitLine, ':', 'houseSign');
  }
}

function extraPlace(plan: ScreenPlan, { placed }: CellLook): { readonly x: number; readonly y: number } {
  if (plan.isRoomy || plan.name === 'tiny') return { x: 0, y: plan.digitLine };
  return { x: plan.digitColumn, y: placed ? 1 : 0 };
}

function drawCursor(canvas: Canvas, plan: ScreenPlan, cell: CellLook): void {
  const outside = plan.name === 'tiny' ? 0 : 1;
  const left = plan.cellX(cell.column) - outside;
  const right = plan.cellX(cell.column) + plan.cellWidth - 1 + outside;
  for (let line = 0; line < plan.cellHeight; line += 1) {
    canvas.put(left, plan.cellY(cell.row) + line, '▐', 'cursorBar');
    canvas.put(right, plan.cellY(cell.row) + line, '▌', 'cursorBar');
  }
}

function drawPlaced(canvas: Canvas, plan: ScreenPlan, cell: CellLook, options: GridOptions): void {
  const { placed } = cell;
  if (!placed) return;
  const x = plan.cellX(cell.column);
  const y = plan.cellY(cell.row);
  const signY = y + plan.digitLine;
  if (plan.isRoomy && plan.size <= 9 && options.digits === 'large' && !options.ascii) {
    const role: Role = placed.role === 'ink' ? 'inkLarge' : placed.role;
    largeDigit(placed.digit, placed.kind).forEach((line, index) => {
      canvas.text(x + 2, y + index, line, role);
    });
    if (placed.sign) canvas.put(x + 5, signY, placed.sign.char, placed.sign.role);
    return;
  }
  drawSmallDigit(canvas, x + plan.digitColumn, signY, cell, options);
}

/** A placed digit in one character: ink underlined over three columns, a found one on three. */
function drawSmallDigit(canvas: Canvas, x: number, y: number, cell: CellLook, options: GridOptions): void {
  const { placed } = cell;
  if (!placed) return;
  const { role } = placed;
  if (role === 'ink' || role === 'foundPlaced') {
    const side = placed.kind === 'ink' && options.ascii ? '_' : ' ';
    canvas.put(x - 1, y, side, role);
    canvas.put(x + 1, y, side, role);
  }
  canvas.put(x, y, digitName(placed.digit), role);
  if (placed.sign) canvas.put(x + 1, y, placed.sign.char, placed.sign.role);
}

function drawOpen(
  canvas: Canvas,
  plan: ScreenPlan,
  cell: CellLook,
  options: GridOptions,
  signs: SignPlaces,
): void {
  const x = plan.cellX(cell.column);
  const y = plan.cellY(cell.row);
  if (cell.nothingLeft) {
    canvas.text(x + plan.digitColumn - 2, y + plan.digitLine, 'none!', 'slip');
    return;
  }
  for (const mark of cell.marks) {
    const place = markPlace(plan, mark.digit);
    // Without tiles no weave is needed: all notes are equally faint.
    const role = mark.role === 'noteWoven' && (!plan.tiles || options.tints) ? 'note' : mark.role;
    canvas.put(x + place.x, y + place.y, mark.char, role);
    signs.take(x + place.x, y + place.y, mark.weight);
  }
}

/** Roomy: each mark has the place after it for a sign. */
function drawRoomySigns(canvas: Canvas, plan: ScreenPlan, cell: CellLook): void {
  const x = plan.cellX(cell.column);
  const y = plan.cellY(cell.row);
  for (const mark of cell.marks) {
    const place = markPlace(plan, mark.digit);
    mark.signs.slice(0, 2).forEach(({ char, role }, index) => {
      canvas.put(x + place.x + (index === 0 ? 1 : -1), y + place.y, char, role);
    });
  }
}

/** Finds places for signs in compact cells: right of the digit, else left, else a gap or over a plain mark. */
class SignPlaces {
  readonly #canvas: Canvas;
  readonly #plan: ScreenPlan;
  readonly #taken = new Map<number, 'dot' | 'plain' | 'signed'>();

  constructor(canvas: Canvas, plan: ScreenPlan) {
    this.#canvas = canvas;
    this.#plan = plan;
  }

  take(x: number, y: number, weight: 'dot' | 'plain' | 'signed'): void {
    this.#taken.set(y * this.#canvas.width + x, weight);
  }

  #weightAt(x: number, y: number) {
    return this.#taken.get(y * this.#canvas.width + x);
  }

  draw(cell: CellLook): void {
    const groups: MarkLook[][] = [];
    for (const mark of cell.marks) {
      if (mark.signs.length === 0 || mark.weight !== 'signed') continue;
      const last = groups.at(-1)?.at(-1);
      if (last && last.key === mark.key && this.#touches(last, mark)) groups.at(-1)?.push(mark);
      else groups.push([mark]);
    }
    for (const group of groups) {
      for (const sign of group[0].signs.slice(0, 2)) this.#place(cell, group, sign);
    }
  }

  #touches(a: MarkLook, b: MarkLook): boolean {
    const first = markPlace(this.#plan, a.digit);
    const second = markPlace(this.#plan, b.digit);
    return first.y === second.y && second.x === first.x + 1;
  }

  #place(cell: CellLook, group: readonly MarkLook[], sign: Sign): void {
    const plan = this.#plan;
    const start = plan.cellX(cell.column);
    const end = start + plan.cellWidth - 1;
    const first = markPlace(plan, group[0].digit);
    const last = markPlace(plan, group[group.length - 1].digit);
    const y = plan.cellY(cell.row) + first.y;
    const right = start + last.x + 1;
    const left = start + first.x - 1;
    const inside = [right, left].filter((x) => x >= start && x <= end);
    const gaps = [right, left].filter((x) => x < start || x > end);
    const free = (x: number) => (this.#weightAt(x, y) ?? 'dot') === 'dot';
    const x =
      inside.find(free) ?? gaps.find(free) ?? inside.find((each) => this.#weightAt(each, y) === 'plain');
    if (x === undefined) return;
    this.#canvas.put(x, y, sign.char, sign.role);
    this.take(x, y, 'signed');
  }
}

/** How much a sign says, where a tiny cell has room for one. */
const tinyOrder: readonly Role[] = [
  'slip',
  'overlooked',
  'placement',
  'strikeSign',
  'factA',
  'factB',
  'factC',
];

function drawTinyCell(canvas: Canvas, plan: ScreenPlan, cell: CellLook, options: GridOptions): void {
  const x = plan.cellX(cell.column);
  const y = plan.cellY(cell.row);
  if (cell.placed) {
    const { placed } = cell;
    const role = placed.role;
    if (role === 'foundPlaced' && !cell.hasCursor) {
      canvas.put(x, y, ' ', role);
      canvas.put(x + 2, y, ' ', role);
    }
    if (role === 'ink' && options.ascii && !cell.hasCursor) {
      canvas.put(x, y, '_', role);
      canvas.put(x + 2, y, '_', role);
    }
    canvas.put(x + 1, y, digitName(placed.digit), role);
    if (placed.sign) canvas.put(x + 2, y, placed.sign.char, placed.sign.role);
    return;
  }
  if (cell.nothingLeft) {
    canvas.put(x + 1, y, '!', 'slip');
    return;
  }
  if (cell.inHouse && !options.tints) canvas.put(x, y, ':', 'houseSign');
  const found = cell.marks.find((mark) => mark.role === 'foundMark');
  const marked = cell.marks.some((mark) => mark.weight !== 'dot');
  if (found) canvas.put(x + 1, y, found.char, 'foundMark');
  else if (cell.isBivalue) canvas.put(x + 1, y, '"', 'foundMark');
  else canvas.put(x + 1, y, marked ? ':' : '·', 'label');
  const signs = cell.marks
    .filter((mark) => mark.role !== 'spot' && mark.role !== 'pending' && mark.role !== 'note')
    .flatMap((mark) => mark.signs);
  const rank = (sign: Sign) => {
    const index = tinyOrder.indexOf(sign.role);
    return index < 0 ? tinyOrder.length : index;
  };
  const sign = signs.toSorted((a, b) => rank(a) - rank(b))[0];
  if (sign) canvas.put(x + 2, y, sign.char, sign.role);
}
