import { type IBufferCell, Terminal } from '@xterm/headless';

/** A colour as the emulator holds it: the default, an index (0-15 the sixteen, then the 256 palette), or RGB. */
export type CellColour =
  | { readonly kind: 'default' }
  | { readonly kind: 'palette'; readonly index: number }
  | { readonly kind: 'rgb'; readonly red: number; readonly green: number; readonly blue: number };

/** One cell of the screen. A wide character stands in its left cell (`width` 2); the right one has width 0. */
export interface ScreenCell {
  readonly text: string;
  readonly width: number;
  readonly foreground: CellColour;
  readonly background: CellColour;
  readonly bold: boolean;
  readonly dim: boolean;
  readonly italic: boolean;
  readonly underline: boolean;
  readonly strike: boolean;
  readonly inverse: boolean;
  readonly blink: boolean;
  readonly hidden: boolean;
  readonly overline: boolean;
}

/** What a person sees of a cell: a blank that nothing is drawn through shows its background alone. */
export function visible(cell: ScreenCell): ScreenCell {
  if (cell.text !== ' ' || cell.underline || cell.strike || cell.inverse || cell.overline) return cell;
  return { ...cell, foreground: { kind: 'default' }, bold: false, dim: false, italic: false };
}

/** The whole screen at one moment: `cells[y][x]`, counted from 0. */
export interface ScreenPicture {
  readonly columns: number;
  readonly rows: number;
  readonly cells: readonly (readonly ScreenCell[])[];
  readonly cursor: { readonly x: number; readonly y: number; readonly visible: boolean };
}

/** The modes that a program may leave behind. */
export interface TerminalModes {
  readonly alternateScreen: boolean;
  readonly cursorVisible: boolean;
  readonly bracketedPaste: boolean;
  readonly mouse: 'none' | 'x10' | 'vt200' | 'drag' | 'any';
  readonly focusEvents: boolean;
  readonly synchronizedOutput: boolean;
  readonly applicationCursorKeys: boolean;
  readonly applicationKeypad: boolean;
}

function colour(isRgb: boolean, isPalette: boolean, value: number): CellColour {
  if (isRgb) return { kind: 'rgb', red: (value >> 16) & 255, green: (value >> 8) & 255, blue: value & 255 };
  return isPalette ? { kind: 'palette', index: value } : { kind: 'default' };
}

function screenCell(cell: IBufferCell): ScreenCell {
  return {
    text: cell.getChars() || (cell.getWidth() === 0 ? '' : ' '),
    width: cell.getWidth(),
    foreground: colour(cell.isFgRGB(), cell.isFgPalette(), cell.getFgColor()),
    background: colour(cell.isBgRGB(), cell.isBgPalette(), cell.getBgColor()),
    bold: cell.isBold() !== 0,
    dim: cell.isDim() !== 0,
    italic: cell.isItalic() !== 0,
    underline: cell.isUnderline() !== 0,
    strike: cell.isStrikethrough() !== 0,
    inverse: cell.isInverse() !== 0,
    blink: cell.isBlink() !== 0,
    hidden: cell.isInvisible() !== 0,
    overline: cell.isOverline() !== 0,
  };
}

/**
 * A terminal emulator as the screen. Bytes go in with `write`; what a person would see comes out. It answers
 * the terminal's questions (`onReply`), so a program under test can be wired to it like to the real thing.
 */
export class Screen {
  readonly #terminal: Terminal;
  #cursorVisible = true;
  /** What programs must not touch: titles that were set, and other strings of theirs, such as for the clipboard. */
  readonly touched: string[] = [];

  constructor(columns: number, rows: number, scrollback = 1000) {
    this.#terminal = new Terminal({ cols: columns, rows, scrollback, allowProposedApi: true });
    const watch = (visible: boolean) => (params: readonly (number | number[])[]) => {
      if (params.includes(25)) this.#cursorVisible = visible;
      return false; // the emulator handles it as well
    };
    this.#terminal.onTitleChange((title) => this.touched.push(`title ${title}`));
    for (const number of [0, 1, 2, 4, 7, 8, 9, 10, 11, 12, 50, 52, 104, 110, 111, 112, 133, 633, 777, 1337]) {
      this.#terminal.parser.registerOscHandler(number, (data) => {
        this.touched.push(`OSC ${number} ${data}`);
        return false;
      });
    }
    this.#terminal.parser.registerCsiHandler({ prefix: '?', final: 'h' }, watch(true));
    this.#terminal.parser.registerCsiHandler({ prefix: '?', final: 'l' }, watch(false));
    this.#terminal.parser.registerEscHandler({ final: 'c' }, () => {
      this.#cursorVisible = true;
      return false;
    });
  }

  /** Feeds output; the promise settles when it has been drawn. */
  write(data: string | Uint8Array): Promise<void> {
    return new Promise((resolve) => this.#terminal.write(data, resolve));
  }

  onReply(listener: (data: string) => void): void {
    this.#terminal.onData(listener);
  }

  resize(columns: number, rows: number): void {
    this.#terminal.resize(columns, rows);
  }

  get columns(): number {
    return this.#terminal.cols;
  }

  get rows(): number {
    return this.#terminal.rows;
  }

  /** The visible lines, top to bottom, without trailing blanks. */
  lines(): string[] {
    const buffer = this.#terminal.buffer.active;
    return Array.from(
      { length: this.#terminal.rows },
      (_, y) => buffer.getLine(buffer.baseY + y)?.translateToString(true) ?? '',
    );
  }

  /** The lines that have scrolled off the top of the normal screen, oldest first. */
  scrollback(): string[] {
    const buffer = this.#terminal.buffer.normal;
    return Array.from({ length: buffer.baseY }, (_, y) => buffer.getLine(y)?.translateToString(true) ?? '');
  }

  /** One cell with its colours and attributes. Throws outside the screen. */
  cell(x: number, y: number): ScreenCell {
    const buffer = this.#terminal.buffer.active;
    const cell = buffer.getLine(buffer.baseY + y)?.getCell(x);
    if (!cell) throw new Error(`no cell at x ${x}, y ${y} of ${this.columns} x ${this.rows}`);
    return screenCell(cell);
  }

  picture(): ScreenPicture {
    const cells = Array.from({ length: this.rows }, (_, y) =>
      Array.from({ length: this.columns }, (_, x) => this.cell(x, y)),
    );
    return { columns: this.columns, rows: this.rows, cells, cursor: this.cursor() };
  }

  /** The cells as a person sees them: `cells[y][x]`. */
  visibleCells(): ScreenCell[][] {
    return this.picture().cells.map((row) => row.map(visible));
  }

  cursor(): { x: number; y: number; visible: boolean } {
    const { cursorX, cursorY } = this.#terminal.buffer.active;
    return { x: cursorX, y: cursorY, visible: this.#cursorVisible };
  }

  modes(): TerminalModes {
    const modes = this.#terminal.modes;
    return {
      alternateScreen: this.#terminal.buffer.active.type === 'alternate',
      cursorVisible: this.#cursorVisible,
      bracketedPaste: modes.bracketedPasteMode,
      mouse: modes.mouseTrackingMode,
      focusEvents: modes.sendFocusMode,
      synchronizedOutput: modes.synchronizedOutputMode,
      applicationCursorKeys: modes.applicationCursorKeysMode,
      applicationKeypad: modes.applicationKeypadMode,
    };
  }

  /** The screen with a frame round it, for messages of failing tests. */
  dump(): string {
    const edge = `+${'-'.repeat(this.columns)}+`;
    const rows = this.lines().map((line) => `|${line.padEnd(this.columns)}|`);
    const { x, y, visible } = this.cursor();
    return [edge, ...rows, edge, `cursor x ${x} y ${y} ${visible ? 'shown' : 'hidden'}`].join('\n');
  }
}
