import type { CellPlace, Frame } from './frame.ts';
import type { StyleTable } from './sgr.ts';

/** What is known of the terminal: where its cursor stands and which style it writes in. */
export interface Pen {
  /** From 0; `columns` after the last column was written, where the cursor waits to wrap; -1 if unknown. */
  readonly x: number;
  readonly y: number;
  readonly style: number;
}

/** Longer gaps are never cheaper to write over than to jump. */
const longestGap = 16;

const byteLength = (text: string): number => Buffer.byteLength(text);

/**
 * The shortest absolute move to a cell. Rows are always certain, since nothing here ever wraps or scrolls;
 * columns are, unless the terminal takes another width for a character than we do.
 */
export function moveTo(pen: Pen, to: CellPlace, rows: number): string {
  if (pen.x === to.x && pen.y === to.y) return '';
  const row = to.y === 0 ? '' : String(to.y + 1);
  const home = to.x === 0 ? `\x1b[${row}H` : `\x1b[${row};${to.x + 1}H`;
  if (pen.x < 0) return home;
  if (pen.y === to.y) return to.x === 0 ? '\r' : `\x1b[${to.x + 1}G`;
  if (to.x === 0 && to.y === pen.y + 1 && to.y < rows) return '\r\n';
  if (pen.x !== to.x) return home;
  const down = `\x1b[${row}d`;
  return down.length < home.length ? down : home;
}

/** Whether terminals may differ about how wide this is; whatever follows is then addressed anew. */
const isUncertain = (grapheme: string): boolean =>
  grapheme.length > 1 && (grapheme.length > 2 || grapheme.codePointAt(0)! < 0x10000);

interface Drawn {
  readonly bytes: string;
  readonly pen: Pen;
}

class RowDrawer {
  readonly #before: Frame;
  readonly #after: Frame;
  readonly #table: StyleTable;
  readonly #y: number;
  readonly #start: number;

  constructor(before: Frame, after: Frame, table: StyleTable, y: number) {
    this.#before = before;
    this.#after = after;
    this.#table = table;
    this.#y = y;
    this.#start = y * after.columns;
  }

  draw(pen: Pen): Drawn {
    const { columns } = this.#after;
    const first = this.#nextDifference(0, columns);
    if (first === columns) return { bytes: '', pen };
    let tail = columns;
    while (tail > 0 && this.#isBlank(tail - 1)) tail--;
    const head = this.#drawCells(first, tail, pen);
    const erased = this.#nextDifference(tail, columns);
    if (erased === columns) return head;
    const spaces = this.#drawCells(erased, columns, head.pen);
    const place = { x: erased, y: this.#y };
    const erase = `${moveTo(head.pen, place, this.#after.rows)}${this.#table.between(head.pen.style, 0)}\x1b[K`;
    if (byteLength(spaces.bytes) <= byteLength(erase)) return { ...spaces, bytes: head.bytes + spaces.bytes };
    return { bytes: head.bytes + erase, pen: { ...place, style: 0 } };
  }

  /** The first column from `x` on that differs; `end` where none before it does. */
  #nextDifference(x: number, end: number): number {
    const { graphemes, styles } = this.#after;
    const { graphemes: graphemesBefore, styles: stylesBefore } = this.#before;
    // Most cells are the very same, and this is looked at before anything is compiled well.
    for (let at = this.#start + x; at < this.#start + end; at++) {
      const isSame = graphemes[at] === graphemesBefore[at] && styles[at] === stylesBefore[at];
      if (!isSame && this.#differs(at - this.#start)) return at - this.#start;
    }
    return end;
  }

  #differs(x: number): boolean {
    const at = this.#start + x;
    const grapheme = this.#after.graphemes[at]!;
    if (this.#before.graphemes[at] !== grapheme) return true;
    const before = this.#before.styles[at]!;
    const after = this.#after.styles[at]!;
    if (before === after) return false;
    return grapheme !== ' ' || this.#table.onBlank(before) !== this.#table.onBlank(after);
  }

  /**
   * The style in which a cell is written. A blank takes any that shows the same: the pen's own, else that of
   * the sign that is written behind it, if one is.
   */
  #styleFor(pen: number, x: number): number {
    const { graphemes, styles, columns } = this.#after;
    const style = styles[this.#start + x]!;
    if (graphemes[this.#start + x] !== ' ') return style;
    const shown = this.#table.onBlank(style);
    if (this.#table.onBlank(pen) === shown) return pen;
    let next = x + 1;
    while (next < columns && graphemes[this.#start + next] === ' ' && this.#differs(next)) next++;
    if (next === columns || graphemes[this.#start + next] === ' ' || !this.#differs(next)) return shown;
    const wanted = styles[this.#start + next]!;
    return this.#table.onBlank(wanted) === shown ? wanted : shown;
  }

  #graphemeAt(x: number): string {
    return this.#after.graphemes[this.#start + x]!;
  }

  #isBlank(x: number): boolean {
    const at = this.#start + x;
    if (this.#after.graphemes[at] !== ' ') return false;
    const style = this.#after.styles[at]!;
    return style === 0 || this.#table.onBlank(style) === 0;
  }

  /** How many columns the grapheme at `x` takes. */
  #width(x: number): number {
    return x + 1 < this.#after.columns && this.#after.graphemes[this.#start + x + 1] === '' ? 2 : 1;
  }

  #drawCells(from: number, to: number, start: Pen): Drawn {
    let bytes = '';
    let { x: penX, y: penY, style: penStyle } = start;
    for (let x = this.#nextDifference(from, to); x < to; x = this.#nextDifference(x, to)) {
      if (this.#graphemeAt(x) === '') x--;
      const style = this.#styleFor(penStyle, x);
      const change = this.#table.between(penStyle, style);
      if (penX === x && penY === this.#y) bytes += change;
      else {
        const pen = { x: penX, y: penY, style: penStyle };
        const jumped = moveTo(pen, { x, y: this.#y }, this.#after.rows) + change;
        // Each unchanged cell takes a byte at least.
        const filled = x - penX < jumped.length ? this.#fill(pen, x, style) : undefined;
        bytes += filled !== undefined && byteLength(filled) < jumped.length ? filled : jumped;
      }
      bytes += this.#graphemeAt(x);
      penX = this.#columnAfter(x);
      x += this.#width(x);
      while (x === penX && x < to && this.#goesOn(x, style)) {
        bytes += this.#graphemeAt(x);
        x++;
        penX++;
      }
      penY = this.#y;
      penStyle = style;
    }
    return { bytes, pen: { x: penX, y: penY, style: penStyle } };
  }

  /** Whether a cell is to be written behind the one before it and in the very same style; one column wide. */
  #goesOn(x: number, style: number): boolean {
    const at = this.#start + x;
    const { graphemes, styles, columns } = this.#after;
    if (styles[at] !== style || graphemes[at]!.length !== 1) return false;
    if (x + 1 < columns && graphemes[at + 1] === '') return false;
    return graphemes[at] !== this.#before.graphemes[at] || this.#differs(x);
  }

  /** Writes over the unchanged cells between the pen and `x`, up to a style; undefined if too far. */
  #fill(pen: Pen, x: number, style: number): string | undefined {
    if (pen.y !== this.#y || pen.x < 0 || pen.x >= x || x - pen.x > longestGap) return undefined;
    let bytes = '';
    let penStyle = pen.style;
    for (let at = pen.x; at < x; at = this.#columnAfter(at)) {
      const grapheme = this.#graphemeAt(at);
      if (grapheme === '' || isUncertain(grapheme)) return undefined;
      const next = this.#styleFor(penStyle, at);
      bytes += this.#table.between(penStyle, next) + grapheme;
      penStyle = next;
    }
    return bytes + this.#table.between(penStyle, style);
  }

  /** Where the pen stands when the grapheme at `x` has been written. */
  #columnAfter(x: number): number {
    return isUncertain(this.#graphemeAt(x)) ? -1 : x + this.#width(x);
  }
}

/**
 * The bytes that turn what stands on the screen into the next frame, and the pen after them. Only changed
 * cells are written, each run by the cheapest way to it: an absolute move, or over a few unchanged cells; a
 * tail that becomes blank is erased. Both frames must have the same size.
 */
export function drawChanges(before: Frame, after: Frame, table: StyleTable, pen: Pen): Drawn {
  let bytes = '';
  let at = pen;
  for (let y = 0; y < after.rows; y++) {
    const row = new RowDrawer(before, after, table, y).draw(at);
    bytes += row.bytes;
    at = row.pen;
  }
  return { bytes, pen: at };
}
