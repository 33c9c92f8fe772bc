import {
  type Candidate,
  type Cell,
  candidateOf,
  cellOf,
  type Digit,
  digitOf,
  type House,
  type Layout,
} from './layout.ts';

const digitSigns = '123456789ABCDEFGHIJKLMNOP';

/** A digit as it is written: 1 to 9, then A for 10 and on. */
export const digitName = (digit: Digit): string => digitSigns[digit - 1];

/** Reads a digit of the layout; null if it is none. */
export function parseDigit(layout: Layout, sign: string): Digit | null {
  const digit = sign.length === 1 ? digitSigns.indexOf(sign.toUpperCase()) + 1 : 0;
  return digit >= 1 && digit <= layout.size ? digit : null;
}

/** `r4c7`. */
export const cellName = (layout: Layout, cell: Cell): string =>
  `r${Math.floor(cell / layout.size) + 1}c${(cell % layout.size) + 1}`;

/** Reads `r4c7`, in either case; null if it is no cell of the layout. */
export function parseCell(layout: Layout, text: string): Cell | null {
  const match = /^r(\d{1,2})c(\d{1,2})$/i.exec(text);
  if (!match) return null;
  const row = Number(match[1]);
  const column = Number(match[2]);
  const inside = row >= 1 && row <= layout.size && column >= 1 && column <= layout.size;
  return inside ? (row - 1) * layout.size + column - 1 : null;
}

/** Reads `r4`, `c7`, `b5`, `d1`, `x2`, in either case; null if the layout has no such house. */
export const parseHouse = (layout: Layout, text: string): House | null =>
  layout.houses.find((house) => house.name === text.toLowerCase()) ?? null;

/** `row`, `box`, `extra box`: a kind of house in words. */
export const sayHouseKind = (kind: House['kind']): string => (kind === 'extra' ? 'extra box' : kind);

/** `row 4`, `column 7`, `box 5`: a house in words. */
export const sayHouse = (house: House): string => `${sayHouseKind(house.kind)} ${house.number}`;

/** A placement: `r4c7=3`. */
export const placementName = (layout: Layout, candidate: Candidate): string =>
  `${cellName(layout, cellOf(layout, candidate))}=${digitName(digitOf(layout, candidate))}`;

/** An elimination: `r4c7<>3`. */
export const strikeName = (layout: Layout, candidate: Candidate): string =>
  `${cellName(layout, cellOf(layout, candidate))}<>${digitName(digitOf(layout, candidate))}`;

/** Reads `r4c7=3` or `r4c7<>3` (`!=` and `≠` too); null if it is neither. */
export function parseConclusion(
  layout: Layout,
  text: string,
): { readonly kind: 'placement' | 'strike'; readonly candidate: Candidate } | null {
  const match = /^(r\d{1,2}c\d{1,2})\s*(=|<>|!=|≠)\s*(\S)$/i.exec(text.trim());
  if (!match) return null;
  const cell = parseCell(layout, match[1]);
  const digit = parseDigit(layout, match[3]);
  if (cell === null || digit === null) return null;
  return { kind: match[2] === '=' ? 'placement' : 'strike', candidate: candidateOf(layout, cell, digit) };
}
