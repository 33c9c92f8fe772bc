import { digitsIn } from '../grid/candidates.ts';
import type { Candidate, DigitMask, House, Layout } from '../grid/layout.ts';
import { cellName, digitName, sayHouse } from '../grid/names.ts';
import { factParts } from './fact.ts';
import type { Fact } from './kernel.ts';

/** `a`, `a and b`, `a, b and c`; with another last word `a, b or c`. */
export const list = (items: readonly string[], last: 'and' | 'or' = 'and'): string =>
  items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} ${last} ${items[items.length - 1]}`;

/** The digits of a mask: `3, 4 and 8`. */
export const listDigits = (digits: DigitMask, last: 'and' | 'or' = 'and'): string =>
  list(digitsIn(digits).map(digitName), last);

/** With a capital letter, unless it starts with a cell's name. */
export const startSentence = (text: string): string =>
  /^r\d/.test(text) ? text : text.charAt(0).toUpperCase() + text.slice(1);

/** The cell of a candidate: `r4c7`. */
export const sayCell = (layout: Layout, candidate: Candidate): string =>
  cellName(layout, Math.floor(candidate / layout.size));

/**
 * A candidate as one says it of a fact: a digit for a cell's fact, `c4` for a row's, `r4` for a column's,
 * the cell for any other house's.
 */
export function sayPlace(layout: Layout, fact: Fact, place: Candidate): string {
  const parts = factParts(layout, fact);
  if (parts.kind === 'cell') return digitName((place % layout.size) + 1);
  const cell = Math.floor(place / layout.size);
  if (parts.house.kind === 'row') return `c${(cell % layout.size) + 1}`;
  if (parts.house.kind === 'column') return `r${Math.floor(cell / layout.size) + 1}`;
  return cellName(layout, cell);
}

/** `7 of column 2`, or `r4c8`: which fact, without its places. */
export function sayTopic(layout: Layout, fact: Fact): string {
  const parts = factParts(layout, fact);
  return parts.kind === 'cell'
    ? cellName(layout, parts.cell)
    : `${digitName(parts.digit)} of ${sayHouse(parts.house)}`;
}

/** The same within a sentence: `the 7 of column 2`, or `r4c8`. */
export const sayWhichFact = (layout: Layout, fact: Fact): string =>
  fact < layout.cellCount ? sayTopic(layout, fact) : `the ${sayTopic(layout, fact)}`;

/**
 * A fact with the places given, without a full stop: `1 of column 1: r2 or r5`, `r4c8 is 1 or 6`. With one
 * place left `7 of row 3: only c5`, `r4c8 is 6`; with none `7 of row 3: no place`, `r4c8 has nothing left`.
 */
export function sayFactIn(layout: Layout, fact: Fact, candidates: readonly Candidate[]): string {
  const topic = sayTopic(layout, fact);
  const places = candidates.map((place) => sayPlace(layout, fact, place));
  if (fact < layout.cellCount) {
    return places.length === 0 ? `${topic} has nothing left` : `${topic} is ${list(places, 'or')}`;
  }
  if (places.length === 0) return `${topic}: no place`;
  return `${topic}: ${places.length === 1 ? 'only ' : ''}${list(places, 'or')}`;
}

/** Houses of one kind together, `rows 2 and 5`; others one by one, `row 2 and box 5`. */
export function sayHouses(houses: readonly House[]): string {
  const [first] = houses;
  if (houses.length < 2 || houses.some((house) => house.kind !== first.kind))
    return list(houses.map(sayHouse));
  const kind = sayHouse(first).replace(/ \d+$/, first.kind === 'box' || first.kind === 'extra' ? 'es' : 's');
  return `${kind} ${list(houses.map((house) => `${house.number}`))}`;
}
