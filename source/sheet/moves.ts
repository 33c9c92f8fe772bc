import { factName, houseFact } from '../argument/fact.ts';
import type { Fact } from '../argument/kernel.ts';
import { digitsIn, maskOf } from '../grid/candidates.ts';
import {
  type Cell,
  candidateOf,
  type Digit,
  type DigitMask,
  type House,
  type Layout,
} from '../grid/layout.ts';
import { cellName, digitName, parseCell, parseDigit, parseHouse, sayHouse } from '../grid/names.ts';
import { failure, type LocatedError, type Result, success } from '../text/result.ts';
import { quoteSafe } from '../text/safe.ts';
import type { SheetEvent } from './state.ts';

/** What a typed line asks for: something written on the sheet, or the cursor on a cell. */
export type Move =
  | { readonly kind: 'event'; readonly event: SheetEvent }
  | { readonly kind: 'go'; readonly cell: Cell };

/** Why a typed line cannot be read. The codes are stable. */
export type MoveErrorCode =
  | 'no-move'
  | 'no-cell'
  | 'no-house'
  | 'no-digit'
  | 'not-in-house'
  | 'unexpected'
  | 'two-readings';

/** An error of the typed line; `column` is where the trouble starts. */
export interface MoveError extends LocatedError {
  readonly code: MoveErrorCode;
}

/** Carries an error out of the parser's depths; never leaves this file. */
class Stop extends Error {
  readonly error: MoveError;
  constructor(error: MoveError) {
    super(error.message);
    this.error = error;
  }
}

const address = /r\d+c\d+/iy;
const part = /r\d+c\d+|[rc]\d+/iy;
const word = /[^\s,;]+/y;
const operator = /\s*(=|<>|!=|≠|:)\s*/y;

/** Reads one line from left to right. */
class LineReader {
  readonly text: string;
  readonly layout: Layout;
  at = 0;

  constructor(text: string, layout: Layout) {
    this.text = text;
    this.layout = layout;
  }

  /** What the pattern (sticky) matches here, stepping over it; null where it does not. */
  take(pattern: RegExp): RegExpExecArray | null {
    const match = this.look(pattern, this.at);
    if (match) this.at += match[0].length;
    return match;
  }

  look(pattern: RegExp, at: number): RegExpExecArray | null {
    pattern.lastIndex = at;
    return pattern.exec(this.text);
  }

  stop(code: MoveErrorCode, at: number, expected: string, found?: string): never {
    const lines = this.text.slice(0, at).split('\n');
    const line = lines.length;
    const column = [...lines[line - 1]].length + 1;
    const there = this.look(word, at)?.[0];
    const shown = found ?? (there === undefined ? 'nothing more' : quoteSafe(there, 24));
    const place = line === 1 ? `Column ${column}` : `Line ${line}, column ${column}`;
    const message = `${place}: found ${shown}; expected ${expected}.`;
    throw new Stop({ code, line, column, found: shown, expected, message });
  }

  /** Fails unless a separator or the end comes next. */
  end(expected: string): void {
    if (this.at < this.text.length && !/[\s,;]/.test(this.text[this.at])) {
      this.stop('unexpected', this.at, expected);
    }
  }

  anyDigit(): string {
    return `a digit from ${digitName(1)} to ${digitName(this.layout.size)}`;
  }

  cell(written: string, at: number): Cell {
    const { layout } = this;
    const cell = parseCell(layout, written);
    const range = `a cell from r1c1 to ${cellName(layout, layout.cellCount - 1)}`;
    return cell ?? this.stop('no-cell', at, range, quoteSafe(written, 24));
  }

  digit(): Digit {
    const digit = parseDigit(this.layout, this.text[this.at] ?? '');
    if (digit === null) this.stop('no-digit', this.at, this.anyDigit());
    this.at += 1;
    return digit;
  }

  /** One digit or more, up to a separator. */
  digits(): DigitMask {
    let mask = maskOf(this.digit());
    while (this.at < this.text.length && !/[\s,;]/.test(this.text[this.at])) mask |= maskOf(this.digit());
    return mask;
  }

  cellMove(): Move {
    const start = this.at;
    const cell = this.cell(this.take(address)![0], start);
    const sign = this.take(operator)?.[1];
    switch (sign) {
      case undefined:
        this.end('=, <>, : or a space after the cell');
        return { kind: 'go', cell };
      case '=': {
        const digit = this.digit();
        this.end('a space after the digit');
        return { kind: 'event', event: { kind: 'ink', cell, digit } };
      }
      case ':': {
        const digits = this.take(/-/y) ? 0 : this.digits();
        this.end('a space after the note');
        return { kind: 'event', event: { kind: 'set-note', cell, digits } };
      }
      default: {
        const strikes = digitsIn(this.digits()).map((digit) => candidateOf(this.layout, cell, digit));
        return { kind: 'event', event: { kind: 'take', placements: [], strikes } };
      }
    }
  }

  spotsMove(): Move {
    const digit = this.digit();
    this.take(/@/y);
    const written = this.look(word, this.at)?.[0].split(':')[0] ?? '';
    const house = parseHouse(this.layout, written);
    if (house === null) {
      const found = written === '' ? undefined : quoteSafe(written, 24);
      this.stop('no-house', this.at, 'a house such as r4, c2 or b5', found);
    }
    this.at += written.length;
    if (!this.take(/\s*:\s*/y)) {
      this.stop('unexpected', this.at, `a colon and the cells, such as ${this.example(digit, house)}`);
    }
    const fact = houseFact(this.layout, house, digit);
    const cells = this.take(/-/y) ? [] : this.places(fact, house);
    this.end('a comma or a space');
    return { kind: 'event', event: { kind: 'set-spots', fact, cells } };
  }

  example(digit: Digit, house: House): string {
    const { layout } = this;
    const [a, b] = house.cells;
    const name = `${digitName(digit)}@${house.name}`;
    if (house.kind === 'row') return `${name}:c1,c2`;
    if (house.kind === 'column') return `${name}:r1,r2`;
    return `${name}:${cellName(layout, a)},${cellName(layout, b)}`;
  }

  places(fact: Fact, house: House): Cell[] {
    const cells = new Set([this.place(house)]);
    for (;;) {
      const comma = this.look(/,\s*/y, this.at)?.[0];
      const next = comma === undefined ? null : this.look(part, this.at + comma.length);
      if (comma === undefined || !next || this.look(operator, next.index + next[0].length)) break;
      if (comma.length > 1 && /c/i.test(next[0]) && /r/i.test(next[0])) {
        const cell = parseCell(this.layout, next[0]);
        if (cell === null || !house.cells.includes(cell)) break;
        const name = factName(this.layout, fact);
        this.stop(
          'two-readings',
          next.index,
          `one reading: ${next[0]} can be one more place of ${name}, or a move of the cursor; write a comma without a space for the place, a semicolon for the move`,
        );
      }
      this.at += comma.length;
      cells.add(this.place(house));
    }
    return [...cells].sort((a, b) => a - b);
  }

  /** A cell of a house: `r1c4`, or `r3` within a column, `c5` within a row. */
  place(house: House): Cell {
    const { layout } = this;
    const start = this.at;
    const written = this.take(part)?.[0].toLowerCase();
    const which =
      house.kind === 'row' ? ', such as c5' : house.kind === 'column' ? ', such as r3' : ', such as r1c4';
    const expected = `a cell of ${sayHouse(house)}${which}`;
    if (written === undefined) this.stop('no-cell', start, expected);
    const whole =
      house.kind === 'row' && written.startsWith('c')
        ? `${house.name}${written}`
        : house.kind === 'column' && !written.includes('c')
          ? `${written}${house.name}`
          : written;
    const cell = parseCell(layout, whole);
    if (cell === null || !house.cells.includes(cell)) {
      this.stop('not-in-house', start, expected, quoteSafe(written, 24));
    }
    return cell;
  }

  move(): Move {
    if (this.look(address, this.at)) return this.cellMove();
    if (this.look(/[^\s,;]@|[1-9a-p](?=[rcbdx]\d)/iy, this.at)) return this.spotsMove();
    return this.stop('no-move', this.at, 'a move such as r4c7=3, r4c7<>3, r4c8:16 or 5@b2:r1c4,r2c4');
  }

  moves(): Move[] {
    const moves: Move[] = [];
    for (this.take(/[\s,;]+/y); this.at < this.text.length; this.take(/[\s,;]+/y)) moves.push(this.move());
    return moves;
  }
}

/**
 * Reads a typed line of moves, separated by spaces, commas or semicolons; none where it is empty.
 * - `r4c7=3` writes the digit; `r4c7<>3` (`!=`, `≠`; several digits too) strikes, never brings back
 * - `r4c8:16` replaces the note; `r4c8:-` erases it
 * - `5@b2:r1c4,r2c4` replaces the spots of a digit in a house; in a row or column `5@r4:c1,c2`, `7@c2:r3,r8`
 *   will do; `5@b2:-` erases them; the @ may be left out, `5b2:r1c4,r2c4`
 * - `r4c7` moves the cursor
 *
 * Letters may be capital. A comma without a space goes on with the list of spots; with a space it does so only
 * before what is no move by itself, and a cell that could be either is refused with both readings named.
 */
export function parseMoves(text: string, layout: Layout): Result<Move[], MoveError> {
  try {
    return success(new LineReader(text, layout).moves());
  } catch (error) {
    if (error instanceof Stop) return failure(error.error);
    throw error;
  }
}
