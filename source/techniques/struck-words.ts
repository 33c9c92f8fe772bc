import { list, sayCell } from '../argument/words.ts';
import type { Candidate, Layout } from '../grid/layout.ts';
import { digitName } from '../grid/names.ts';

/** So many cells or candidates are named one by one; of more, the lines above the prose have them. */
const mostNamed = 4;

const digitOf = (layout: Layout, x: Candidate): string => digitName((x % layout.size) + 1);

/** `their 3`, `one of these`: what the cells lose. */
function whatIsLost(layout: Layout, struck: readonly Candidate[]): string {
  const digits = [...new Set(struck.map((x) => digitOf(layout, x)))];
  return digits.length === 1 ? `their ${digits[0]}` : 'a candidate';
}

/**
 * The cells of what is struck as the subject of `see`, with the verb: `r4c4 sees`, `r4c4 and r5c1 see`; of many
 * `the cells that lose their 3 see`.
 */
export function sayStruckSee(layout: Layout, struck: readonly Candidate[]): string {
  const cells = [...new Set(struck.map((x) => sayCell(layout, x)))];
  if (cells.length > mostNamed) return `the cells that lose ${whatIsLost(layout, struck)} see`;
  return `${list(cells)} ${cells.length === 1 ? 'sees' : 'see'}`;
}

/** Candidates of one digit supposed: `1 in r6c3 or r6c4`; of many `1 in any cell that loses it`. */
export function sayAnyOf(layout: Layout, struck: readonly Candidate[]): string {
  const cells = [...new Set(struck.map((x) => sayCell(layout, x)))];
  const where = cells.length > mostNamed ? 'any of the cells that lose it' : list(cells, 'or');
  return `${digitOf(layout, struck[0])} in ${where}`;
}

/** Candidates of any digits ruled out: `no 1 in r2c4 or 3 in r8c1`; of many `nothing of what is struck`. */
export function sayNoneOf(layout: Layout, struck: readonly Candidate[]): string {
  if (struck.length > mostNamed) return 'no place left for anything that goes';
  return `no ${list(
    struck.map((x) => `${digitOf(layout, x)} in ${sayCell(layout, x)}`),
    'or',
  )}`;
}

/** Candidates of any digits: `1 in r2c4 and 3 in r8c1`; of many `the others`. */
export const sayAll = (layout: Layout, struck: readonly Candidate[]): string =>
  struck.length > mostNamed
    ? 'the others'
    : list(struck.map((x) => `${digitOf(layout, x)} in ${sayCell(layout, x)}`));
