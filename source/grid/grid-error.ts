import type { LocatedError } from '../text/result.ts';
import { quoteSafe, safeText } from '../text/safe.ts';

/** Why a text is no grid. The codes are stable. */
export type GridErrorCode =
  | 'empty'
  | 'too-long'
  | 'unexpected-sign'
  | 'bad-cell'
  | 'too-few-cells'
  | 'too-many-cells'
  | 'too-few-rows'
  | 'too-many-rows'
  | 'many-grids'
  | 'ambiguous';

/** An error of the grid readers. `readings` names every reading of a text that has more than one. */
export interface GridError extends LocatedError {
  readonly code: GridErrorCode;
  readonly readings?: readonly string[];
}

/** A place in a text: both count from 1, columns in code points. */
export interface Place {
  readonly line: number;
  readonly column: number;
}

/** An error whose sentence is `Line 3, column 5: found …; expected ….` `found` and `expected` must be safe. */
export function gridError(code: GridErrorCode, place: Place, found: string, expected: string): GridError {
  const { line, column } = place;
  const message = `Line ${line}, column ${column}: found ${found}; expected ${expected}.`;
  return { code, line, column, found, expected, message };
}

/** The error of a text with more than one reading; `advice` says how to write it so that it has one. */
export function ambiguous(
  place: Place,
  found: string,
  readings: readonly string[],
  advice: string,
): GridError {
  const { line, column } = place;
  const ways = readings.length === 2 ? 'two' : 'more than one';
  const listed = readings.map((reading) => `as ${reading}`).join(', or ');
  return {
    code: 'ambiguous',
    line,
    column,
    found,
    expected: 'a text that can be read in one way only',
    message: `Line ${line}, column ${column}: this can be read in ${ways === 'two' ? 'two ways' : `${ways} way`}: ${listed}. ${advice}`,
    readings,
  };
}

const named: Readonly<Record<string, string>> = {
  '\t': 'a tab',
  '"': 'a quotation mark',
  ' ': 'a space',
};

/** One sign, named or quoted, safe to show. */
export const saySign = (sign: string): string => named[sign] ?? quoteSafe(sign, 12);

/** A piece of the text, quoted, short and safe to show. */
export const sayText = (text: string): string => quoteSafe(text, 24);

/** `1 cell`, `7 cells`. */
export const counted = (count: number, thing: string): string =>
  safeText(`${count} ${thing}${count === 1 ? '' : 's'}`);
