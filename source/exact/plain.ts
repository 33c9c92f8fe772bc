import type { Cell, Digit, DigitMask } from '../grid/layout.ts';
import { bitCount, highest, lowest } from './plain-bits.ts';
import { makePlainChoice } from './plain-choice.ts';
import {
  clearLevel,
  copyLevel,
  digitsOf,
  exclude,
  give,
  Level,
  loadMasks,
  type Places,
  rowsOf,
} from './plain-level.ts';
import { makeShapeTables } from './plain-tables.ts';
import type { Search, SearchLimits, SearchOutcome } from './search.ts';

/** The search for the plain layout, which also takes bare digits and text. */
export interface PlainSearch extends Search {
  /** Searches from one digit a cell, 0 for an open one; `except` rules a digit out in an open cell. */
  runDigits(givens: ArrayLike<Digit>, limits: SearchLimits, except?: Exception): SearchOutcome;
  /** Searches from 81 characters of a text, beginning at `from`; all but `1` to `9` are open cells. */
  runText(text: string, limits: SearchLimits, from?: number): SearchOutcome;
  /** The same search choosing with more care where to branch: for what the other way of choosing leads astray. */
  readonly thorough: Search;
}

export interface Exception {
  readonly cell: Cell;
  readonly digit: Digit;
}

/**
 * Exact search on the plain layout, by digits rather than by cells.
 *
 * Closing a digit closes the row segments of its three bands and then the columns of its three stacks by
 * look-up (see plain-tables.ts) until neither moves. What is then alone in its row is settled: the closure
 * leaves nothing else in its column and box. Settled cells leave the other digits lazily: a digit is closed
 * again when it still has a settled cell. When all digits are closed, one pass over them finds the cells with
 * no digit, with one (settled next) and with two (for branching), in bits, 27 cells at a time.
 *
 * All state lives in this function's scope and every constant is local: the compiler then folds them, which
 * it cannot do with what a bundler turns into module-level variables.
 */
export function makePlainSearch(): PlainSearch {
  const ROW = 0o777;
  /** The first column, box, and cell of each row. */
  const COLUMN = 0o001001001;
  const BOX = 0o007007007;
  /** The first bit of each row segment. */
  const SEGMENT = 0o111111111;
  const { closed, kept, spread } = makeShapeTables();
  const choose = makePlainChoice();
  const manySolutions = 100;
  const levels = Array.from({ length: 82 }, () => new Level());
  /** For each level the digits to close once its first branch is done; 0: there is no second branch. */
  const pending = new Int32Array(82);
  const witnesses: readonly [Level, Level] = [new Level(), new Level()];
  /** The cells with two digits of the level closed last, by band. */
  let twosTop = 0;
  let twosMiddle = 0;
  let twosBottom = 0;
  let thoroughly = false;

  /** Which row segments of a band hold a digit, as a shape. */
  const shapeOf = (band: number): number => {
    const first = (band | (band >> 1) | (band >> 2)) & SEGMENT;
    const joined = (first | (first >> 2) | (first >> 4)) & BOX;
    return (joined | (joined >> 6) | (joined >> 12)) & ROW;
  };
  // Tables are read through functions, not in place: only so does the compiler take them for the constants they are.
  /** What is left of a digit in a band once its row segments are closed. */
  const closeRows = (band: number): number => band & kept[shapeOf(band)];
  /** The shape of a stack closed; bits above it do not matter. */
  const closeStack = (shape: number): number => closed[shape & ROW];
  /** Nine bits spread three by three, nine bits apart. */
  const apart = (bits: number): number => spread[bits & ROW];
  /** Which columns of a band hold a digit: three bits a stack, nine bits apart. */
  const columnsOf = (band: number): number => apart(band | (band >> 9) | (band >> 18));
  /** All cells of some columns of a band. */
  const inColumns = (columns: number): number => Math.imul(columns & ROW, COLUMN);

  /** The cells that are alone in their row, in a band that has a cell in each row. */
  const alone = (band: number): number => {
    const others = band & (band - COLUMN);
    const more = (((others & 0o377377377) + 0o377377377) | others) & 0o400400400;
    return band & ~((more << 1) - (more >>> 8));
  };

  /** Closes a level; `changed` are the digits that may have lost a place since. False: a contradiction. */
  function close(level: Level, changed: number): boolean {
    const { digits } = level;
    let dirty = changed | 0;
    let openTop = level.top;
    let openMiddle = level.middle;
    let openBottom = level.bottom;
    for (;;) {
      // Round and round, until all nine have been seen since a cell was settled last: a digit then takes in
      // what several others have settled, which halves the closings of a stack of dirty digits.
      let digit = digits[lowest(dirty)];
      for (let left = 9; left > 0; left -= 1, digit = digit.next) {
        let a = digit.top;
        let b = digit.middle;
        let c = digit.bottom;
        if (((a & ~openTop) | (b & ~openMiddle) | (c & ~openBottom) | (dirty & digit.bit)) === 0) continue;
        dirty &= ~digit.bit;
        a = (a & openTop) | digit.ownTop;
        b = (b & openMiddle) | digit.ownMiddle;
        c = (c & openBottom) | digit.ownBottom;
        for (;;) {
          a = closeRows(a);
          b = closeRows(b);
          c = closeRows(c);
          const columns = columnsOf(a) | (columnsOf(b) << 3) | (columnsOf(c) << 6);
          const left = closeStack(columns);
          const centre = closeStack(columns >> 9);
          const right = closeStack(columns >> 18);
          if ((left | (centre << 9) | (right << 18)) === columns) {
            // A stack without the digit leaves no band a whole shape, so then there is none anywhere.
            if (columns === 0) return false;
            break;
          }
          if (left === 0 || centre === 0 || right === 0) return false;
          const remaining = apart(left) | (apart(centre) << 3) | (apart(right) << 6);
          a &= inColumns(remaining);
          b &= inColumns(remaining >> 9);
          c &= inColumns(remaining >> 18);
        }
        const ownTop = alone(a);
        const ownMiddle = alone(b);
        const ownBottom = alone(c);
        digit.top = a ^ ownTop;
        digit.middle = b ^ ownMiddle;
        digit.bottom = c ^ ownBottom;
        digit.ownTop = ownTop;
        digit.ownMiddle = ownMiddle;
        digit.ownBottom = ownBottom;
        if (((ownTop & openTop) | (ownMiddle & openMiddle) | (ownBottom & openBottom)) !== 0) left = 9;
        openTop &= ~ownTop;
        openMiddle &= ~ownMiddle;
        openBottom &= ~ownBottom;
      }
      if ((openTop | openMiddle | openBottom) === 0) {
        twosTop = twosMiddle = twosBottom = 0;
        break;
      }
      let onceTop = 0;
      let onceMiddle = 0;
      let onceBottom = 0;
      let twiceTop = 0;
      let twiceMiddle = 0;
      let twiceBottom = 0;
      let moreTop = 0;
      let moreMiddle = 0;
      let moreBottom = 0;
      for (let d = 0; d < 9; d += 1) {
        const { top, middle, bottom } = digits[d];
        moreTop |= twiceTop & top;
        moreMiddle |= twiceMiddle & middle;
        moreBottom |= twiceBottom & bottom;
        twiceTop |= onceTop & top;
        twiceMiddle |= onceMiddle & middle;
        twiceBottom |= onceBottom & bottom;
        onceTop |= top;
        onceMiddle |= middle;
        onceBottom |= bottom;
      }
      if (((onceTop ^ openTop) | (onceMiddle ^ openMiddle) | (onceBottom ^ openBottom)) !== 0) return false;
      const soleTop = openTop & ~twiceTop;
      const soleMiddle = openMiddle & ~twiceMiddle;
      const soleBottom = openBottom & ~twiceBottom;
      if ((soleTop | soleMiddle | soleBottom) === 0) {
        twosTop = twiceTop & ~moreTop;
        twosMiddle = twiceMiddle & ~moreMiddle;
        twosBottom = twiceBottom & ~moreBottom;
        break;
      }
      for (let d = 0; d < 9; d += 1) {
        const digit = digits[d];
        const top = digit.top & soleTop;
        const middle = digit.middle & soleMiddle;
        const bottom = digit.bottom & soleBottom;
        if ((top | middle | bottom) === 0) continue;
        // Left alone in its row, the cell is settled when the digit is closed. Two in a row would never be.
        const rowsTop = rowsOf(top);
        const rowsMiddle = rowsOf(middle);
        const rowsBottom = rowsOf(bottom);
        if ((rowsTop | rowsMiddle | rowsBottom) < 0) return false;
        digit.top = (digit.top & ~rowsTop) | top;
        digit.middle = (digit.middle & ~rowsMiddle) | middle;
        digit.bottom = (digit.bottom & ~rowsBottom) | bottom;
        dirty |= 1 << d;
      }
    }
    level.top = openTop;
    level.middle = openMiddle;
    level.bottom = openBottom;
    return true;
  }

  /** Puts a digit into a cell of a band (0 to 2): its row is left with that cell only. */
  function put(digit: Places, band: number, cell: number): void {
    const row = ~(ROW << (cell - (cell % 9)));
    if (band === 0) digit.top = (digit.top & row) | (1 << cell);
    else if (band === 1) digit.middle = (digit.middle & row) | (1 << cell);
    else digit.bottom = (digit.bottom & row) | (1 << cell);
  }

  function remove(digit: Places, band: number, cell: number): void {
    if (band === 0) digit.top &= ~(1 << cell);
    else if (band === 1) digit.middle &= ~(1 << cell);
    else digit.bottom &= ~(1 << cell);
  }

  /** The first cell with two digits, in the form of `choose`; there must be one. */
  function firstTwo(level: Level): number {
    const band = twosTop !== 0 ? 0 : twosMiddle !== 0 ? 1 : 2;
    const cell = lowest(band === 0 ? twosTop : band === 1 ? twosMiddle : twosBottom);
    let both = 0;
    for (let d = 0; d < 9; d += 1) {
      const { top, middle, bottom } = level.digits[d];
      both |= (((band === 0 ? top : band === 1 ? middle : bottom) >> cell) & 1) << d;
    }
    return (27 * band + cell) | (both << 7);
  }

  /**
   * Splits a level in two: `next`, a copy of it, takes one choice, and the level itself the other. Answers
   * the digits to close, the same for both. `quickly`: the first cell with two digits will do.
   */
  function split(level: Level, next: Level, quickly: boolean): number {
    const choice =
      quickly && (twosTop | twosMiddle | twosBottom) !== 0
        ? firstTwo(level)
        : choose(level, twosTop, twosMiddle, twosBottom, thoroughly);
    if (choice < 0) return splitRow(level, next);
    const place = choice & 127;
    const digits = choice >> 7;
    const band = Math.floor(place / 27);
    const cell = place - 27 * band;
    const a = highest(digits);
    const b = lowest(digits);
    put(next.digits[a], band, cell);
    remove(level.digits[a], band, cell);
    if (a !== b) {
      remove(next.digits[b], band, cell);
      put(level.digits[b], band, cell);
    }
    return digits;
  }

  /** Splits on a digit with fewest places in a row: in the first of them, or not there. */
  function splitRow(level: Level, next: Level): number {
    let fewest = 10;
    let digit = 0;
    let band = 0;
    let cell = 0;
    for (let d = 0; d < 9; d += 1) {
      const { top, middle, bottom } = level.digits[d];
      for (let row = 0; row < 9; row += 1) {
        const cells = ((row < 3 ? top : row < 6 ? middle : bottom) >> (9 * (row % 3))) & ROW;
        const count = bitCount(cells);
        if (count === 0 || count >= fewest) continue;
        fewest = count;
        digit = d;
        band = Math.floor(row / 3);
        cell = 9 * (row % 3) + lowest(cells);
      }
    }
    put(next.digits[digit], band, cell);
    remove(level.digits[digit], band, cell);
    return 1 << digit;
  }

  /** Whether some cells are open and each has two digits left; of the level closed last. */
  const onlyTwos = (level: Level): boolean =>
    (twosTop | twosMiddle | twosBottom) !== 0 &&
    ((level.top ^ twosTop) | (level.middle ^ twosMiddle) | (level.bottom ^ twosBottom)) === 0;

  /**
   * Where each open cell has two digits, each open digit has two places in each house (there are as many as
   * cells, and none has one), so changing every cell of a solution to its other digit gives another one. This
   * settles one cell: each solution from here stands for two. Answers the digits to close. Counting is two to
   * three times as fast for it.
   */
  function settleOne(level: Level): number {
    const choice = firstTwo(level);
    const digits = choice >> 7;
    const band = Math.floor((choice & 127) / 27);
    const cell = (choice & 127) - 27 * band;
    put(level.digits[highest(digits)], band, cell);
    remove(level.digits[lowest(digits)], band, cell);
    return digits;
  }

  /** Searches below the first level, depth first. */
  function search(limits: SearchLimits): SearchOutcome {
    let found = 0;
    let nodes = 0;
    let depth = 0;
    let alive = limits.solutions > 0 && close(levels[0], ROW);
    pending[0] = 0;
    for (;;) {
      const level = levels[depth];
      let ways = 1;
      while (alive && found >= 2 && onlyTwos(level)) {
        alive = close(level, settleOne(level));
        ways *= 2;
      }
      if (alive) {
        if ((level.top | level.middle | level.bottom) === 0) {
          if (found < 2) copyLevel(level, witnesses[found]);
          found = Math.min(found + ways, limits.solutions);
          if (found === limits.solutions) return { found, nodes, finished: true };
        } else {
          if (nodes >= limits.nodes) return { found, nodes, finished: false };
          nodes += 1;
          const next = levels[depth + 1];
          copyLevel(level, next);
          // Where solutions are many, a quick choice is worth more than a good one.
          const dirty = split(level, next, found > manySolutions);
          pending[depth] = dirty;
          depth += 1;
          pending[depth] = 0;
          alive = close(next, dirty);
          continue;
        }
      }
      while (depth >= 0 && pending[depth] === 0) depth -= 1;
      if (depth < 0) return { found, nodes, finished: true };
      const dirty = pending[depth];
      pending[depth] = 0;
      alive = close(levels[depth], dirty);
    }
  }

  function runDigits(givens: ArrayLike<Digit>, limits: SearchLimits, except?: Exception): SearchOutcome {
    const level = levels[0];
    clearLevel(level);
    for (let cell = 0; cell < 81; cell += 1) {
      const digit = givens[cell];
      if (digit !== 0 && !give(level, cell, digit)) return nothing;
    }
    if (except) exclude(level, except.cell, except.digit);
    return search(limits);
  }

  function runText(text: string, limits: SearchLimits, from = 0): SearchOutcome {
    const level = levels[0];
    clearLevel(level);
    for (let cell = 0; cell < 81; cell += 1) {
      const digit = text.charCodeAt(from + cell) - 48;
      if ((digit - 1) >>> 0 < 9 && !give(level, cell, digit)) return nothing;
    }
    return search(limits);
  }

  const run = (masks: ArrayLike<DigitMask>, limits: SearchLimits): SearchOutcome =>
    loadMasks(levels[0], masks) ? search(limits) : nothing;
  const witness = (which: 0 | 1): Uint8Array => digitsOf(witnesses[which]);
  const runThoroughly = (masks: ArrayLike<DigitMask>, limits: SearchLimits): SearchOutcome => {
    thoroughly = true;
    const outcome = run(masks, limits);
    thoroughly = false;
    return outcome;
  };
  return { run, runDigits, runText, witness, thorough: { run: runThoroughly, witness } };
}

/** What there is to find where two givens clash in a row. */
const nothing: SearchOutcome = { found: 0, nodes: 0, finished: true };
