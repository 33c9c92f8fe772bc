import { expect, it } from 'vitest';
import { parseFact } from '../../source/argument/fact.ts';
import { placesOf } from '../../source/argument/kernel.ts';
import { list, sayFact, sayHouses, sayWhichFact, startSentence } from '../../source/argument/words.ts';
import { plain } from '../../source/grid/layout.ts';
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
  for (const [name, kept, said] of rows) expect(sayFact(keeping(name, ...kept), fact(name))).toBe(said);
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
