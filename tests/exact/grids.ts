import type { Layout } from '../../source/grid/layout.ts';
import { makeLayout, plain, rectangularBoxes } from '../../source/grid/layout.ts';
import { parseDigit } from '../../source/grid/names.ts';
import { Position } from '../../source/grid/position.ts';

/** One digit a cell from a line of signs; whatever is no digit of the layout is an open cell. */
export const digitsOf = (text: string, layout: Layout = plain): number[] =>
  Array.from(text, (sign) => parseDigit(layout, sign) ?? 0);

export const positionOf = (text: string, layout: Layout = plain): Position =>
  Position.from(layout, digitsOf(text, layout));

export const lineOf = (digits: ArrayLike<number>): string => Array.from(digits).join('');

/** Whether digits are a full solution that keeps to a position's candidates, judged from the houses alone. */
export function isCompletion(position: Position, digits: ArrayLike<number>): boolean {
  const { layout, candidates } = position;
  return (
    digits.length === layout.cellCount &&
    Array.from(digits).every((digit, cell) => (candidates.digitsAt(cell) & (1 << (digit - 1))) !== 0) &&
    layout.houses.every((house) => new Set(house.cells.map((cell) => digits[cell])).size === layout.size)
  );
}

/** 4x4 with 2x2 boxes. */
export const small = makeLayout({ name: 'small', size: 4, boxOf: rectangularBoxes(2, 2) });
/** 6x6 with boxes of two rows and three columns. */
export const six = makeLayout({ name: 'six', size: 6, boxOf: rectangularBoxes(2, 3) });
/** 9x9 whose two diagonals are houses too. */
export const diagonal = makeLayout({
  name: 'diagonal',
  size: 9,
  boxOf: rectangularBoxes(3, 3),
  extras: [
    { kind: 'diagonal', cells: Array.from({ length: 9 }, (_, i) => i * 10) },
    { kind: 'diagonal', cells: Array.from({ length: 9 }, (_, i) => (i + 1) * 8) },
  ],
});
/** 9x9 with irregular regions: boxes that have traded corners with their neighbours. */
export const jagged = makeLayout({
  name: 'jagged',
  size: 9,
  boxOf: Array.from(
    [
      '000011222',
      '000111222',
      '001111222',
      '333344455',
      '333444555',
      '334445555',
      '666777788',
      '666777888',
      '666778888',
    ].join(''),
    Number,
  ),
});
/** 16x16 with 4x4 boxes. */
export const sixteen = makeLayout({ name: 'sixteen', size: 16, boxOf: rectangularBoxes(4, 4) });
