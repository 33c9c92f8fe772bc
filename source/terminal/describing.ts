import { factParts } from '../argument/fact.ts';
import { list } from '../argument/words.ts';
import { digitsIn } from '../grid/candidates.ts';
import type { Cell, Digit, House } from '../grid/layout.ts';
import { cellName, digitName, parseCell, sayHouse } from '../grid/names.ts';
import { liveNote, liveSpots, placedAt } from '../sheet/marks.ts';
import type { SheetState } from '../sheet/state.ts';
import { bivalueCells, placesOfDigit } from './grid-look.ts';
import { knownPosition } from './shown.ts';

const digitList = (digits: readonly Digit[]): string => digits.map(digitName).join(' ');

/** What is marked in an open cell: `note 3 6 8`, `spot 7 of box 5`; empty where nothing is. */
function marksIn(state: SheetState, cell: Cell): string[] {
  const { layout } = state;
  const note = digitsIn(liveNote(state, cell));
  const spots = [...state.spots.keys()].flatMap((fact) => {
    const parts = factParts(layout, fact);
    if (parts.kind !== 'house' || !liveSpots(state, fact).includes(cell)) return [];
    return [`spot ${digitName(parts.digit)} of ${sayHouse(parts.house)}`];
  });
  const struck = digitsIn(layout.allDigits).filter((d) => state.strikes.has(cell * layout.size + d - 1));
  const tags = digitsIn(layout.allDigits).flatMap((digit) => {
    const tag = state.tags.get(cell * layout.size + digit - 1);
    return tag === undefined ? [] : [`tag ${tag} on ${digitName(digit)}`];
  });
  return [
    ...(note.length > 0 ? [`note ${digitList(note)}`] : []),
    ...spots,
    ...(struck.length > 0 ? [`struck ${digitList(struck)}`] : []),
    ...tags,
  ];
}

/** A cell in a sentence: `r4c7 is open: note 3 6 8.` */
export function sayCellAt(state: SheetState, cell: Cell): string {
  const name = cellName(state.layout, cell);
  if (state.givens[cell] !== 0) return `${name} is ${digitName(state.givens[cell])}, a given.`;
  if (state.ink[cell] !== 0) return `${name} is ${digitName(state.ink[cell])}, in ink.`;
  const marks = marksIn(state, cell);
  return marks.length === 0 ? `${name} is open.` : `${name} is open: ${marks.join(', ')}.`;
}

/** The digits of a house in the order of its cells: `Row 3: 2, open, open, 5.` */
function sayHouseAt(state: SheetState, house: House): string {
  const name = sayHouse(house);
  const words = house.cells.map((cell) => {
    const digit = placedAt(state, cell);
    return digit === 0 ? 'open' : digitName(digit);
  });
  return `${name.charAt(0).toUpperCase()}${name.slice(1)}: ${words.join(', ')}.`;
}

/** How many cells are filled and how many are not. */
export function sayCounts(state: SheetState): string {
  const placed = state.givens.filter((_, cell) => placedAt(state, cell) !== 0).length;
  return `${placed} placed, ${state.layout.cellCount - placed} open.`;
}

/** Where a digit stands and where it can go, as far as the person knows. */
export function sayDigit(state: SheetState, digit: Digit): string[] {
  const { layout } = state;
  const name = digitName(digit);
  const cells = state.givens.flatMap((_, cell) => (placedAt(state, cell) === digit ? [cell] : []));
  const places = [...placesOfDigit(knownPosition(state), digit)].map((c) => Math.floor(c / layout.size));
  const names = list(cells.map((cell) => cellName(layout, cell)));
  const stands = cells.length === 0 ? `${name} stands nowhere yet.` : `${name} stands in ${names}.`;
  if (places.length === 0) return [stands];
  const rows = Array.from({ length: layout.size }, (_, row) => {
    const columns = places
      .filter((cell) => Math.floor(cell / layout.size) === row)
      .map((cell) => `${(cell % layout.size) + 1}`);
    if (columns.length === 0) return [];
    return [`In row ${row + 1}: ${columns.length === 1 ? 'column' : 'columns'} ${list(columns)}.`];
  });
  const count = `${places.length} ${places.length === 1 ? 'cell' : 'cells'}`;
  return [stands, `${name} can go in ${count}.`, ...rows.flat()];
}

/** The cells with two candidates, as far as the person knows. */
export function sayBivalue(state: SheetState): string {
  const { layout } = state;
  const position = knownPosition(state);
  const cells = [...bivalueCells(position)].map((cell) => {
    const [a, b] = digitsIn(position.candidates.digitsAt(cell));
    return `${cellName(layout, cell)}: ${digitName(a)} or ${digitName(b)}`;
  });
  return cells.length === 0 ? 'No cell has two candidates.' : `With two candidates, ${cells.join('; ')}.`;
}

/** Every cell with marks. */
function sayMarks(state: SheetState): string[] {
  const cells = state.givens.flatMap((_, cell) => {
    if (placedAt(state, cell) !== 0) return [];
    const marks = marksIn(state, cell);
    return marks.length === 0 ? [] : [`${cellName(state.layout, cell)}: ${marks.join(', ')}.`];
  });
  return cells.length === 0 ? ['No marks.'] : cells;
}

/** What can be typed to have the sheet told, and what comes of it. */
export const tellings: readonly (readonly [typed: string, does: string])[] = [
  ['show', 'the whole grid, row by row'],
  ['row 4', 'the digits of a row; column and box alike'],
  ['show r4c7', 'a cell with its marks; show alone tells the grid'],
  ['marks', 'every cell with marks'],
];

/**
 * What a line that asks to have the sheet told comes to: `show`, `show r4c7`, `row 4`, `column 7`, `box 5`,
 * `show row 4`, `marks`. Null where it asks nothing of the kind.
 */
export function describe(state: SheetState, line: string): readonly string[] | null {
  const text = line.trim().toLowerCase().replace(/\s+/g, ' ');
  const { layout } = state;
  if (text === 'show') {
    const rows = layout.houses.filter(({ kind }) => kind === 'row');
    return [...rows.map((row) => sayHouseAt(state, row)), sayCounts(state)];
  }
  if (text === 'marks') return sayMarks(state);
  const about = text.replace(/^show /, '');
  const cell = about === text ? null : parseCell(layout, about);
  if (cell !== null) return [sayCellAt(state, cell)];
  const house = layout.houses.find(
    (each) => about === sayHouse(each) || (about !== text && about === each.name),
  );
  return house ? [sayHouseAt(state, house)] : null;
}
