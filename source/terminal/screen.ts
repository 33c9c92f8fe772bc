import { inColumns, isAscii } from '../text/columns.ts';

/** What a character on the screen is there for. Themes turn a role into colours and attributes. */
export type Role =
  | 'text'
  | 'strong'
  | 'dim'
  | 'rule'
  | 'label'
  | 'labelCursor'
  | 'labelHouse'
  | 'labelSlip'
  | 'given'
  | 'ink'
  | 'inkLarge'
  | 'note'
  | 'noteWoven'
  | 'spot'
  | 'pending'
  | 'struck'
  | 'factA'
  | 'factB'
  | 'factC'
  | 'factMore'
  | 'factAOther'
  | 'factBOther'
  | 'factOther'
  | 'strike'
  | 'strikeSign'
  | 'outAlready'
  | 'placement'
  | 'overlooked'
  | 'slip'
  | 'foundPlaced'
  | 'foundMark'
  | 'tagFirst'
  | 'tagSecond'
  | 'cursorBar'
  | 'houseSign';

/** What a character stands on. A role with a background of its own covers it. */
export type Ground = 'plain' | 'tile' | 'extra' | 'cursor' | 'house';

/** One character of the screen. Always one column wide. */
export interface Glyph {
  readonly char: string;
  readonly role: Role;
  readonly ground: Ground;
}

/** The whole screen as data: what the terminal, the pictures and the tests show. `rows[y][x]`. */
export interface Screen {
  readonly width: number;
  readonly height: number;
  readonly rows: readonly (readonly Glyph[])[];
  /** Where the terminal's own cursor belongs: on the selected cell; null where there is none. */
  readonly cursor: { readonly x: number; readonly y: number } | null;
  /** While a line is typed: where its prompt stands, and how many columns its text and the cursor have. */
  readonly typedLine?: { readonly x: number; readonly y: number; readonly room: number };
}

/** What stands where nothing was put. */
export const blank: Glyph = { char: ' ', role: 'text', ground: 'plain' };

/** A screen in the making. What falls outside is dropped; what is put later covers what was put before. */
export class Canvas {
  readonly width: number;
  readonly height: number;
  readonly #rows: Glyph[][];

  constructor(width: number, height: number) {
    this.width = width;
    this.height = height;
    this.#rows = Array.from({ length: height }, () => new Array<Glyph>(width).fill(blank));
  }

  #inside(x: number, y: number): boolean {
    return x >= 0 && x < this.width && y >= 0 && y < this.height;
  }

  at(x: number, y: number): Glyph {
    return this.#inside(x, y) ? this.#rows[y][x] : blank;
  }

  /** Puts one character. Without a ground it keeps the one that it falls on. */
  put(x: number, y: number, char: string, role: Role, ground?: Ground): void {
    if (!this.#inside(x, y)) return;
    this.#rows[y][x] = { char, role, ground: ground ?? this.#rows[y][x].ground };
  }

  /**
   * Puts a text, one column a code point, from `x` on; returns the column after it. The one way for text from
   * outside onto the screen: what a terminal would not show as one sign a column is made harmless here.
   */
  text(x: number, y: number, text: string, role: Role): number {
    const columns = inColumns(text);
    const signs = isAscii(columns) ? columns : [...columns];
    for (let at = 0; at < signs.length; at += 1) this.put(x + at, y, signs[at], role);
    return x + signs.length;
  }

  /** Lays a ground under a rectangle. */
  lay(x: number, y: number, width: number, height: number, ground: Ground): void {
    for (let row = y; row < y + height; row += 1) {
      for (let column = x; column < x + width; column += 1) {
        if (this.#inside(column, row)) {
          const { char, role } = this.#rows[row][column];
          this.#rows[row][column] = { char, role, ground };
        }
      }
    }
  }

  finish(cursor: Screen['cursor'], convert?: (char: string) => string): Screen {
    const rows = convert
      ? this.#rows.map((row) => row.map((glyph) => ({ ...glyph, char: convert(glyph.char) })))
      : this.#rows;
    return { width: this.width, height: this.height, rows, cursor };
  }
}

/** Neighbouring characters of one look, as one piece. */
export interface Run {
  readonly text: string;
  readonly role: Role;
  readonly ground: Ground;
}

/** Roles that look the same on a blank as no role at all: neither underlined nor reversed nor on a chip. */
const blankRoles: ReadonlySet<Role> = new Set<Role>([
  'text',
  'strong',
  'dim',
  'label',
  'labelCursor',
  'given',
  'note',
  'noteWoven',
  'struck',
  'cursorBar',
  'houseSign',
]);

/** Whether a glyph is a blank that shows nothing but its ground. */
export const isPlainBlank = (glyph: Glyph): boolean => glyph.char === ' ' && blankRoles.has(glyph.role);

/**
 * A row as runs, without the blanks at its end that nothing can be seen of. Plain blanks go with a neighbour
 * on the same ground, so that a row takes few changes of look.
 */
export function runsOf(row: readonly Glyph[]): Run[] {
  let end = row.length;
  while (end > 0 && row[end - 1].ground === 'plain' && isPlainBlank(row[end - 1])) {
    end -= 1;
  }
  const runs: { text: string; role: Role; ground: Ground }[] = [];
  for (const glyph of row.slice(0, end)) {
    const { char, role, ground } = glyph;
    const last = runs.at(-1);
    const joins =
      last !== undefined &&
      last.ground === ground &&
      (last.role === role || (isPlainBlank(glyph) && blankRoles.has(last.role)));
    if (joins) last.text += char;
    else if (
      last &&
      last.ground === ground &&
      blankRoles.has(role) &&
      last.text.trim() === '' &&
      blankRoles.has(last.role)
    ) {
      last.text += char;
      last.role = role;
    } else runs.push({ text: char, role, ground });
  }
  return runs;
}

/** The characters alone, without trailing blanks: for tests and for reading aloud. */
export const plainRows = (screen: Screen): string[] =>
  screen.rows.map((row) =>
    row
      .map((glyph) => glyph.char)
      .join('')
      .trimEnd(),
  );

const asciiOf: Readonly<Record<string, string>> = {
  '─': '-',
  '│': '|',
  '┼': '+',
  '├': '+',
  '┤': '+',
  '┬': '+',
  '┴': '+',
  '┌': '+',
  '┐': '+',
  '└': '+',
  '┘': '+',
  '▁': '_',
  '×': 'x',
  '·': '.',
  '▐': '[',
  '▌': ']',
  '▸': '>',
  '…': '~',
  '≠': '#',
  '’': "'",
  '–': '-',
  // A contour's higher blocks: how many facts.
  '▂': '2',
  '▃': '3',
  '▄': '4',
  '▅': '5',
  '▆': '6',
  '▇': '7',
  '█': '8',
};

/** The character that stands for another below 0x80. */
export const toAscii = (char: string): string => (char >= ' ' && char <= '~' ? char : (asciiOf[char] ?? '?'));
