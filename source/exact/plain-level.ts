import type { Cell, Digit, DigitMask } from '../grid/layout.ts';
import { lowest } from './plain-bits.ts';

/**
 * Where one digit can still go on the plain layout: 27 bits a band, bit `9 * row + column`. `own` are the
 * cells it has been given; the others are open ones. Fields of small integers, not one long typed array: an
 * access is then a single load without a bounds check, worth 5 to 10 per cent over all sets.
 */
export class Places {
  top = 0;
  middle = 0;
  bottom = 0;
  ownTop = 0;
  ownMiddle = 0;
  ownBottom = 0;
  /** The digit as a bit, and the next one round: going round costs less than looking up by number. */
  bit = 0;
  next: Places = this;
}

function makeDigits(): readonly Places[] {
  const digits = Array.from({ length: 9 }, () => new Places());
  digits.forEach((digit, d) => {
    digit.bit = 1 << d;
    digit.next = digits[(d + 1) % 9];
  });
  return digits;
}

/** A node of the search: all nine digits, and the cells that no digit has been given yet. */
export class Level {
  readonly digits: readonly Places[] = makeDigits();
  top = 0;
  middle = 0;
  bottom = 0;
}

/** Makes one level like another. */
export function copyLevel(from: Level, to: Level): void {
  for (let d = 0; d < 9; d += 1) {
    const source = from.digits[d];
    const target = to.digits[d];
    target.top = source.top;
    target.middle = source.middle;
    target.bottom = source.bottom;
    target.ownTop = source.ownTop;
    target.ownMiddle = source.ownMiddle;
    target.ownBottom = source.ownBottom;
  }
  to.top = from.top;
  to.middle = from.middle;
  to.bottom = from.bottom;
}

/** All cells of the rows of a band that hold a cell; -1 where a row holds two. */
export function rowsOf(cells: number): number {
  const first = cells & 0o777;
  const second = cells & 0o777000;
  const third = cells & 0o777000000;
  if (((first & (first - 1)) | (second & (second - 1)) | (third & (third - 1))) !== 0) return -1;
  return (first !== 0 ? 0o777 : 0) | (second !== 0 ? 0o777000 : 0) | (third !== 0 ? 0o777000000 : 0);
}

/** Makes a level of open cells only, in which every digit can go anywhere. */
export function clearLevel(level: Level): void {
  for (let d = 0; d < 9; d += 1) {
    const digit = level.digits[d];
    digit.top = digit.middle = digit.bottom = 0o777777777;
    digit.ownTop = digit.ownMiddle = digit.ownBottom = 0;
  }
  level.top = level.middle = level.bottom = 0o777777777;
}

/**
 * Gives a cell its digit; false where the row has the digit already. Nothing else is cleared yet: closing the
 * level does that.
 */
export function give(level: Level, cell: Cell, given: Digit): boolean {
  const digit = level.digits[given - 1];
  if (cell < 27) {
    const bit = 1 << cell;
    if ((digit.top & bit) === 0) return false;
    digit.top &= ~(0o777 << (cell - (cell % 9)));
    digit.ownTop |= bit;
    level.top ^= bit;
  } else if (cell < 54) {
    const bit = 1 << (cell - 27);
    if ((digit.middle & bit) === 0) return false;
    digit.middle &= ~(0o777 << (cell - 27 - (cell % 9)));
    digit.ownMiddle |= bit;
    level.middle ^= bit;
  } else {
    const bit = 1 << (cell - 54);
    if ((digit.bottom & bit) === 0) return false;
    digit.bottom &= ~(0o777 << (cell - 54 - (cell % 9)));
    digit.ownBottom |= bit;
    level.bottom ^= bit;
  }
  return true;
}

/** Rules a digit out in a cell that it has not been given. */
export function exclude(level: Level, cell: Cell, digit: Digit): void {
  const places = level.digits[digit - 1];
  if (cell < 27) places.top &= ~(1 << cell);
  else if (cell < 54) places.middle &= ~(1 << (cell - 27));
  else places.bottom &= ~(1 << (cell - 54));
}

/**
 * Sets a level up from one digit mask a cell. False where a row has two cells with the same one digit. A
 * cell without any digit stays open, and closing the level finds it.
 */
export function loadMasks(level: Level, masks: ArrayLike<DigitMask>): boolean {
  level.top = level.middle = level.bottom = 0o777777777;
  for (let d = 0; d < 9; d += 1) {
    const bands = [0, 0, 0];
    const own = [0, 0, 0];
    for (let band = 0; band < 3; band += 1) {
      for (let cell = 0; cell < 27; cell += 1) {
        const mask = masks[27 * band + cell] & 0o777;
        if (((mask >> d) & 1) === 0) continue;
        if (mask === 1 << d) own[band] |= 1 << cell;
        else bands[band] |= 1 << cell;
      }
    }
    const [rowsTop, rowsMiddle, rowsBottom] = [rowsOf(own[0]), rowsOf(own[1]), rowsOf(own[2])];
    if ((rowsTop | rowsMiddle | rowsBottom) < 0) return false;
    const digit = level.digits[d];
    digit.top = bands[0] & ~rowsTop;
    digit.middle = bands[1] & ~rowsMiddle;
    digit.bottom = bands[2] & ~rowsBottom;
    digit.ownTop = own[0];
    digit.ownMiddle = own[1];
    digit.ownBottom = own[2];
    level.top &= ~own[0];
    level.middle &= ~own[1];
    level.bottom &= ~own[2];
  }
  return true;
}

/** Room for so many grids is asked for at once: a typed array of its own costs ten times as much as its place in one. */
const gridsAtOnce = 16;
let room = new ArrayBuffer(0);
let taken = 0;

/** The digits of a level that is settled everywhere, one a cell; in a buffer that others share. */
export function digitsOf({ digits }: Level): Uint8Array {
  if (taken === room.byteLength) {
    room = new ArrayBuffer(81 * gridsAtOnce);
    taken = 0;
  }
  const found = new Uint8Array(room, taken, 81);
  taken += 81;
  for (let d = 0; d < 9; d += 1) {
    const { ownTop, ownMiddle, ownBottom } = digits[d];
    for (let cells = ownTop; cells !== 0; cells &= cells - 1) found[lowest(cells)] = d + 1;
    for (let cells = ownMiddle; cells !== 0; cells &= cells - 1) found[27 + lowest(cells)] = d + 1;
    for (let cells = ownBottom; cells !== 0; cells &= cells - 1) found[54 + lowest(cells)] = d + 1;
  }
  return found;
}
