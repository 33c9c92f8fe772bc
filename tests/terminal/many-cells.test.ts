import { describe, expect, test } from 'vitest';
import { houseFact } from '../../source/argument/fact.ts';
import { digitsIn } from '../../source/grid/candidates.ts';
import { plain } from '../../source/grid/layout.ts';
import { cellName, parseCell, parseHouse } from '../../source/grid/names.ts';
import { liveNote } from '../../source/sheet/marks.ts';
import { type Bench, grid1333, openBench, sheetOf } from './bench.ts';

const cell = (name: string): number => parseCell(plain, name) ?? -1;
const note = (bench: Bench, name: string): string =>
  digitsIn(liveNote(bench.app().sheet.state, cell(name))).join('');
const picked = (bench: Bench): string =>
  [...bench.app().picked]
    .sort((a, b) => a - b)
    .map((each) => cellName(plain, each))
    .join(' ');
const steps = (bench: Bench) => bench.app().sheet.past.length;
const fresh = () => openBench(sheetOf(grid1333));

describe('picking cells', () => {
  test.each([
    ['g 5 5 , right , right ,', 'r5c5 r5c6 r5c7'],
    ['g 5 5 shift+right shift+right shift+down', 'r5c5 r5c6 r5c7 r6c7'],
    ['g 5 5 L L J', 'r5c5 r5c6 r5c7 r6c7'],
    ['g 5 5 , , right ,', 'r5c6'],
    ['g 5 5 - 3 L', 'r5c5 r5c6 r5c7 r5c8'],
  ])('%s picks %s', (keys, cells) => {
    const bench = fresh();
    bench.press(keys);
    expect(picked(bench)).toBe(cells);
  });

  test('the places of the shown digit are picked at once; without one it says so', () => {
    const bench = fresh();
    bench.type('pick-places');
    expect(bench.app().message).toEqual(['No digit is shown. Find one first.']);
    bench.press('f 1');
    bench.type('pick-places');
    const places = [...bench.app().picked];
    expect(places.length).toBeGreaterThan(5);
    bench.press('n 1');
    for (const each of places) expect(digitsIn(liveNote(bench.app().sheet.state, each))).toContain(1);
    expect(steps(bench)).toBe(1);
  });

  test('escape lets them go and touches nothing', () => {
    const bench = fresh();
    bench.press('g 5 5 L escape');
    expect(picked(bench)).toBe('');
    expect(steps(bench)).toBe(0);
  });
});

describe('all picked cells are written with one key, as one undo step', () => {
  test('notes: those that lack the digit get it, and only where it can go; where all have it, it goes', () => {
    const bench = fresh();
    bench.press('g 5 3 , g 5 5 , g 5 7 , g 1 2 , n 1');
    // r1c2 is a given, and box 5 has its 1.
    expect([note(bench, 'r5c3'), note(bench, 'r5c5'), note(bench, 'r5c7')]).toEqual(['1', '', '1']);
    expect(steps(bench)).toBe(1);
    bench.press('escape g 5 5 , right , 6 escape g 5 5 7 g 5 5 , right , 7');
    expect([note(bench, 'r5c5'), note(bench, 'r5c6')]).toEqual(['67', '67']);
    bench.press('7');
    expect([note(bench, 'r5c5'), note(bench, 'r5c6')]).toEqual(['6', '6']);
    bench.press('- 4 u');
    expect(note(bench, 'r5c5')).toBe('');
    bench.press('r');
    expect([note(bench, 'r5c5'), note(bench, 'r5c6')]).toEqual(['6', '6']);
  });

  test('spots: one fact claimed by its two places, each in its own house where they are several', () => {
    const bench = fresh();
    bench.press('g 6 5 , right , s 7');
    const fact = houseFact(plain, parseHouse(plain, 'b5') ?? plain.houses[0], 7);
    expect(bench.app().sheet.state.spots.get(fact)).toEqual([cell('r6c5'), cell('r6c6')]);
    bench.press('escape g 9 2 , i 6');
    expect(bench.app().sheet.state.claimed.has(fact)).toBe(true);
  });

  test('strikes and erasing', () => {
    const bench = fresh();
    bench.press('g 6 5 , right , o 7');
    expect(bench.app().sheet.state.strikes.size).toBe(2);
    expect(steps(bench)).toBe(1);
    bench.press('n 6 0');
    expect(note(bench, 'r6c5')).toBe('');
    expect(bench.app().sheet.state.strikes.size).toBe(0);
    expect(steps(bench)).toBe(3);
  });

  test('the undone step is told in few words', () => {
    const bench = fresh();
    bench.press('g 6 5 , right , n 7 u');
    expect(bench.app().message).toEqual(['Took back note r6c5 7, note r6c6 7.']);
  });

  test('where none is open it says so', () => {
    const bench = fresh();
    bench.press('g 1 2 L n 5');
    expect(bench.app().message).toEqual(['None of the picked cells is open.']);
    bench.press('0');
    expect(bench.app().message).toEqual(['The picked cells are all givens.']);
  });
});

test('once more: the same pen and digit in another cell, whatever the pen in use', () => {
  const bench = fresh();
  bench.press('ctrl+o');
  expect(bench.app().message).toEqual(['Nothing was written yet.']);
  bench.press('g 6 5 n 7 i right ctrl+o');
  expect(note(bench, 'r6c6')).toBe('7');
  expect(bench.app().pen).toBe('ink');
});

describe('counts', () => {
  test.each([
    ['- 3 l', 'r5c8'],
    ['- 3 down', 'r8c5'],
    ['- 1 2 j', 'r8c5'],
    ['- l', 'r5c6'],
    ['- 2 escape l', 'r5c6'],
    ['- 2 tab', 'r5c7'],
  ])('%s leads from r5c5 to %s', (keys, there) => {
    const bench = fresh();
    bench.press(keys);
    expect(cellName(plain, bench.app().cursor)).toBe(there);
    expect(bench.app().mode.kind).toBe('work');
  });

  test('undo and redo take one, typed as well', () => {
    const bench = fresh();
    bench.press('n 6 7 right 6 7');
    bench.press('- 3 u');
    expect(bench.app().message).toEqual(['Took back 3 moves, to before note r5c5 7.']);
    bench.press('- 2 r');
    expect(note(bench, 'r5c6')).toBe('6');
    expect(bench.app().message).toEqual(['Did 2 moves again, up to note r5c6 6.']);
    bench.type('undo 99');
    expect(steps(bench)).toBe(0);
    bench.type('redo 9');
    expect(steps(bench)).toBe(4);
    expect(bench.app().message).toEqual(['Did 4 moves again, up to note r5c6 7.']);
    bench.type('redo 9');
    expect(bench.app().message).toEqual(['Nothing to redo.']);
  });

  test('what is done once says so, and is not done', () => {
    const bench = fresh();
    bench.press('- 3 x');
    expect(bench.app().message).toEqual(['x is done once, not 3 times.']);
    expect(steps(bench)).toBe(0);
    bench.type('fill 3');
    expect(bench.app().message).toEqual(['fill takes no number.']);
  });
});
