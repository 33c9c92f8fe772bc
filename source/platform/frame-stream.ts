import { EventEmitter } from 'node:events';
import {
  blankFrame,
  type CellPlace,
  type Frame,
  fitFrame,
  isBlankRow,
  readInkWrite,
  withRow,
} from './frame.ts';
import { drawChanges, moveTo, type Pen } from './frame-changes.ts';
import { StyleTable } from './sgr.ts';

export interface FrameStreamOptions {
  readonly columns: number;
  readonly rows: number;
  /** Takes each update whole, in one call. */
  readonly write: (bytes: string) => void;
}

/**
 * A screen that is painted without Ink, cell by cell, in style numbers of the stream (`styleOf`). One row can
 * be left to Ink: there Ink's frame shows, once something of it stands in that row.
 */
export interface Layer {
  readonly frame: Frame;
  readonly inkRow?: number | undefined;
}

const beginUpdate = '\x1b[?2026h';
const endUpdate = '\x1b[?2026l';
const unknownPen: Pen = { x: -1, y: 0, style: 0 };

/**
 * The screen. Ink gets it as its stdout and believes that it is no terminal and has endless rows, so it never
 * wipes, synchronises or shows the cursor by itself. Each frame that comes is compared with what stands on
 * the real screen, and only the difference goes out, in one write between "begin" and "end of synchronised
 * update" (DEC private mode 2026). Nothing goes out when nothing changed.
 *
 * Changes are gathered until the current task has ended, then written once: a frame and a cursor placed
 * beside it, or ten frames in one task, make one update.
 *
 * It holds the methods that Ink 6.8 calls, and is no stream of Node's, which would take long to load.
 *
 * What costs Ink much is laid under it with `showLayer`, cells instead of styled text; so the first frame can
 * be on the screen before Ink is loaded. `paint` does the same with a frame of styled lines; when Ink then
 * brings the same frame, nothing is written.
 */
export class FrameStream extends EventEmitter {
  /** For Ink: not a terminal, and no frame is too tall. The true height is `height`. */
  readonly isTTY = false;
  readonly rows = Number.POSITIVE_INFINITY;
  columns: number;
  #height: number;
  readonly #send: (bytes: string) => void;
  readonly #table = new StyleTable();
  /** What stands on the screen; undefined when that is not known. */
  #shown: Frame | undefined;
  #pen: Pen = unknownPen;
  #cursorShown: boolean | undefined;
  /** Ink's last frame as it came, for drawing it anew at another size. */
  #source = '';
  #ink: Frame;
  /** A screen with nothing on it. */
  #blank: Frame;
  #layer: Layer | undefined;
  /** What is to stand on the screen; undefined when it is still to be put together. */
  #next: Frame | undefined;
  #lines = 0;
  #inkCursor: CellPlace | undefined;
  #placedCursor: CellPlace | undefined;
  #scheduled = false;
  #running = true;
  #bytes = 0;

  constructor(options: FrameStreamOptions) {
    super();
    this.columns = Math.max(1, options.columns);
    this.#height = Math.max(1, options.rows);
    this.#send = options.write;
    this.#blank = blankFrame(this.columns, this.#height);
    this.#ink = this.#blank;
  }

  /** The true number of rows. */
  get height(): number {
    return this.#height;
  }

  /** How many bytes have been sent so far. */
  get bytesSent(): number {
    return this.#bytes;
  }

  /** The number of the style that these SGR parameters make, for the cells of a layer. */
  styleOf(parameters: string): number {
    return this.#table.apply(0, parameters);
  }

  /** Shows a layer until the next; undefined for Ink's frame alone. The frame must not change afterwards. */
  showLayer(layer: Layer | undefined): void {
    this.#layer = layer;
    this.#next = undefined;
    this.#schedule();
  }

  /** Shows a frame of styled lines (text, SGR and newlines) without Ink. */
  paint(frame: string): void {
    this.#take(frame.endsWith('\n') ? frame : `${frame}\n`);
  }

  /**
   * Puts the real, visible cursor on a cell, counted from 0, and keeps it there until it is placed elsewhere;
   * undefined leaves it to Ink's `useCursor`, or hides it. Call it from `useInsertionEffect`, which runs just
   * before the frame is written, or from `useLayoutEffect`: both make one update with the frame.
   */
  placeCursor(at: CellPlace | undefined): void {
    this.#placedCursor = at && { x: at.x, y: at.y };
    this.#schedule();
  }

  /** Takes a new size. The last frame is drawn anew, cut to it, unless Ink brings another in this task. */
  resize(columns: number, rows: number): void {
    this.columns = Math.max(1, columns);
    this.#height = Math.max(1, rows);
    this.#blank = blankFrame(this.columns, this.#height);
    this.#ink = this.#read(this.#source).frame ?? this.#blank;
    this.#next = undefined;
    this.repaint();
    this.emit('resize');
  }

  /** Forgets what stands on the screen and draws everything anew. */
  repaint(): void {
    this.#shown = undefined;
    this.#pen = unknownPen;
    this.#cursorShown = undefined;
    this.#schedule();
  }

  /** Writes nothing any more, until `start`; frames are still taken in. */
  stop(): void {
    this.#running = false;
  }

  /** Writes again, beginning with everything. */
  start(): void {
    this.#running = true;
    this.repaint();
  }

  /** Writes at once what is not on the screen yet. */
  flush(): void {
    this.#scheduled = false;
    if (!this.#running) return;
    const { bytes, cells } = this.#update();
    if (bytes === '') return;
    const update = cells ? beginUpdate + bytes + endUpdate : bytes;
    this.#bytes += Buffer.byteLength(update);
    this.#send(update);
  }

  /** For Ink: takes what it writes, whole. */
  write(text: string, done?: () => void): boolean {
    if (text !== '') this.#take(text);
    if (done) queueMicrotask(done);
    return true;
  }

  #read(text: string) {
    return readInkWrite(text, { columns: this.columns, rows: this.#height }, this.#table, this.#lines);
  }

  #take(text: string): void {
    const { frame, lines, cursor } = this.#read(text);
    if (frame) {
      this.#ink = frame;
      this.#next = undefined;
      this.#lines = lines;
      this.#source = text;
    }
    if (cursor !== 'same') this.#inkCursor = cursor;
    this.#schedule();
  }

  #schedule(): void {
    if (this.#scheduled) return;
    this.#scheduled = true;
    queueMicrotask(() => {
      if (this.#scheduled) this.flush();
    });
  }

  #compose(): Frame {
    if (!this.#layer) return this.#ink;
    const { frame, inkRow } = this.#layer;
    const fitted = fitFrame(frame, this.columns, this.#height);
    if (inkRow === undefined || isBlankRow(this.#ink, inkRow)) return fitted;
    return withRow(fitted, this.#ink, inkRow);
  }

  #update(): { bytes: string; cells: boolean } {
    let bytes = '';
    if (!this.#shown) {
      bytes += '\x1b[m\x1b[H\x1b[2J';
      this.#shown = this.#blank;
      this.#pen = { x: 0, y: 0, style: 0 };
    }
    this.#next ??= this.#compose();
    if (this.#shown !== this.#next) {
      const drawn = drawChanges(this.#shown, this.#next, this.#table, this.#pen);
      bytes += drawn.bytes;
      this.#pen = drawn.pen;
      this.#shown = this.#next;
    }
    const cells = bytes !== '';
    return { bytes: bytes + this.#updateCursor(), cells };
  }

  #updateCursor(): string {
    const wanted = this.#placedCursor ?? this.#inkCursor;
    const fits =
      wanted && wanted.x >= 0 && wanted.y >= 0 && wanted.x < this.columns && wanted.y < this.#height;
    if (!fits) {
      const hide = this.#cursorShown === false ? '' : '\x1b[?25l';
      this.#cursorShown = false;
      return hide;
    }
    const move = moveTo(this.#pen, wanted, this.#height);
    const show = this.#cursorShown === true ? '' : '\x1b[?25h';
    this.#pen = { ...this.#pen, x: wanted.x, y: wanted.y };
    this.#cursorShown = true;
    return move + show;
  }
}
