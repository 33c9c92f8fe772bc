import { expect, it } from 'vitest';
import { parseFact } from '../../source/argument/fact.ts';
import { placesOf } from '../../source/argument/kernel.ts';
import {
  list,
  listDigits,
  sayCell,
  sayFactIn,
  sayHouses,
  sayPlace,
  sayTopic,
  sayWhichFact,
  startSentence,
} from '../../source/argument/words.ts';
import { candidateOf, makeLayout, plain, rectangularBoxes } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';

const empty = Position.from(plain, new Array(81).fill(0));
const fact = (name: string): number => parseFact(plain, name) ?? -1;
const keeping = (name: string, ...kept: number[]): Position =>
  empty.strike(placesOf(empty, fact(name)).filter((_, i) => !kept.includes(i)));

it('says a fact as it stands', () => {
  const rows: [name: string, kept: number[], said: string][] = [
    ['1@c1', [1, 4], '1 of column 1: r2 or r5'],
    ['3@r1', [0, 6], '3 of row 1: c1 or c7'],
    ['7@b5', [0, 1, 8], '7 of box 5: r4c4, r4c5 or r6c6'],
    ['r4c8', [0, 5], 'r4c8 is 1 or 6'],
    ['r4c8', [5], 'r4c8 is 6'],
    ['7@r3', [4], '7 of row 3: only c5'],
    ['7@r3', [], '7 of row 3: no place'],
    ['r4c8', [], 'r4c8 has nothing left'],
  ];
  for (const [name, kept, said] of rows) {
    const places = placesOf(keeping(name, ...kept), fact(name));
    expect(sayFactIn(plain, fact(name), places)).toBe(said);
  }
});

it('says which fact, lists and houses', () => {
  expect(sayWhichFact(plain, fact('7@c2'))).toBe('the 7 of column 2');
  expect(sayWhichFact(plain, fact('r4c8'))).toBe('r4c8');
  expect([list([]), list(['a']), list(['a', 'b']), list(['a', 'b', 'c'], 'or')]).toEqual([
    '',
    'a',
    'a and b',
    'a, b or c',
  ]);
  const houses = (...names: string[]) => plain.houses.filter(({ name }) => names.includes(name));
  expect(sayHouses(houses('r2', 'r5'))).toBe('rows 2 and 5');
  expect(sayHouses(houses('b1', 'b2', 'b9'))).toBe('boxes 1, 2 and 9');
  expect(sayHouses(houses('r2', 'b5'))).toBe('row 2 and box 5');
  expect(sayHouses(houses('c4'))).toBe('column 4');
  expect([startSentence('row 2 is full'), startSentence('r4c8 is 6')]).toEqual([
    'Row 2 is full',
    'r4c8 is 6',
  ]);
});

it('says digits, cells and the beginning of a sentence', () => {
  expect([listDigits(0), listDigits(0b100), listDigits(0b1101), listDigits(0b1100, 'or')]).toEqual([
    '',
    '3',
    '1, 3 and 4',
    '3 or 4',
  ]);
  expect([sayCell(plain, 0), sayCell(plain, 8), sayCell(plain, 9), sayCell(plain, 728)]).toEqual([
    'r1c1',
    'r1c1',
    'r1c2',
    'r9c9',
  ]);
  expect(['row 2: r4c8', 'rest', '', 'r12c3 is 1'].map(startSentence)).toEqual([
    'Row 2: r4c8',
    'Rest',
    '',
    'r12c3 is 1',
  ]);
});

it('says places and houses of other layouts as people write them there', () => {
  const six = makeLayout({
    name: 'six',
    size: 6,
    boxOf: rectangularBoxes(2, 3),
    extras: [
      { kind: 'diagonal', cells: [0, 7, 14, 21, 28, 35] },
      { kind: 'diagonal', cells: [5, 10, 15, 20, 25, 30] },
      { kind: 'extra', cells: [0, 5, 30, 35, 14, 21] },
      { kind: 'extra', cells: [1, 6, 11, 16, 26, 31] },
    ],
  });
  const houses = six.houses.slice(-4);
  expect(sayHouses([])).toBe('');
  expect(sayHouses(houses.slice(0, 2))).toBe('diagonals 1 and 2');
  expect(sayHouses(houses.slice(2))).toBe('extra boxes 1 and 2');
  expect(sayHouses(houses)).toBe('diagonal 1, diagonal 2, extra box 1 and extra box 2');
  expect(sayHouses(six.houses.slice(0, 3))).toBe('rows 1, 2 and 3');
  const sixteen = makeLayout({ name: 'sixteen', size: 16, boxOf: rectangularBoxes(4, 4) });
  expect(sayHouses(sixteen.houses.slice(9, 11))).toBe('rows 10 and 11');
  expect(sayHouses(sixteen.houses.slice(-2))).toBe('boxes 15 and 16');
  // r5c6 of 6x6, digit 4: named by column within its row, by row within its column, as a cell elsewhere.
  const place = candidateOf(six, 29, 4);
  const saidOf = (name: string) => sayPlace(six, parseFact(six, name) ?? -1, place);
  expect(['r5c6', '4@r5', '4@c6', '4@b6'].map(saidOf)).toEqual(['4', 'c6', 'r5', 'r5c6']);
  const extra = parseFact(six, `2@${houses[3].name}`) ?? -1;
  expect(sayPlace(six, extra, candidateOf(six, 31, 2))).toBe('r6c2');
  expect([sayTopic(six, extra), sayWhichFact(six, extra)]).toEqual([
    '2 of extra box 2',
    'the 2 of extra box 2',
  ]);
  expect(sayWhichFact(six, 35)).toBe('r6c6');
  expect(sayWhichFact(six, 36)).toBe('the 1 of row 1');
  expect(sayFactIn(six, 35, [])).toBe('r6c6 has nothing left');
  expect(sayFactIn(six, 36, [])).toBe('1 of row 1: no place');
});
