import { describe, expect, test } from 'vitest';
import { candidateOf, plain } from '../../source/grid/layout.ts';
import { placementName } from '../../source/grid/names.ts';
import { readGrid } from '../../source/grid/read.ts';
import { gridForms } from '../../source/grid/write.ts';
import { givensOf, gridOf } from '../../source/sheet/copy.ts';
import { isRight, lookOver } from '../../source/sheet/look-over.ts';
import { positionOf } from '../../source/sheet/marks.ts';
import { reduce } from '../../source/sheet/sheet.ts';
import { singlesOf } from '../../source/sheet/singles.ts';
import { slipsOf } from '../../source/sheet/slips.ts';
import { coverSolutions } from '../judges/exact-cover.ts';
import { crook, empty, play, sheetOf } from './fixture.ts';

describe('the marks looked over', () => {
  test.each([
    ['nothing', '', []],
    ['a pending mark', '~7@c2:r3 r9c9=1', ['pending 7 of column 2 is marked in r3 alone.']],
    ['a lone note', 'r5c5:3', ['pending r5c5 is noted 3 alone.']],
    [
      'a claim that leaves out what nothing rules out',
      '7@c2:r3,r8 r1c5=7 r5c1=7 r9c5=1',
      ['left-out 7 of column 2 could also go in r2, r7 or r9.'],
    ],
    ['one that leaves out nothing', '7@c2:r3,r8 r1c5=7 r5c1=7 r7c9=7 r9c2=1 r2c2<>7', []],
    [
      'a note that leaves out what nothing rules out',
      'r9c9<>1234 r9c9<>56 r9c9:78',
      ['left-out r9c9 could also be 9.'],
    ],
    [
      'a claim excused by one written before it, not by one written after it',
      'r1c1<>12345 r1c1<>67 1@r9:c1,c2 r9c9<>23456 r9c9<>7 r9c9:89',
      ['left-out 1 of row 9 could also go in c3, c4, c5, c6, c7, c8 or c9.'],
    ],
    [
      'marks that a digit has taken',
      '~7@c2:r3 r3c9=7',
      ['contradicted 7 of column 2 was marked in r3; nothing of it is left.'],
    ],
    [
      'a claim that has lost its last place',
      'r4c8:16 r4c8=5',
      ['contradicted r4c8 was noted 1 or 6; nothing of it is left.'],
    ],
    ['a mark that its digit has settled', '~7@c2:r3 r3c2=7', []],
  ])('%s', (_, moves, remarks) => {
    const { state } = play(sheetOf(empty), moves);
    expect(lookOver(state).map(({ kind, text }) => `${kind} ${text}`)).toEqual(remarks);
  });

  test('a remark names candidates and cells; a sheet with all candidates filled in calls for none', () => {
    const [remark] = lookOver(play(sheetOf(empty), 'r5c5:3').state);
    expect(remark).toMatchObject({ fact: 40, candidates: [candidateOf(plain, 40, 3)], cells: [40] });
    expect(lookOver(play(sheetOf(crook), 'fill').state)).toEqual([]);
  });
});

describe('am I right so far', () => {
  // The one solution of Crook's grid, by the exact-cover judge.
  const [solution] = coverSolutions(positionOf(sheetOf(crook).state), 2);
  const cell = crook.indexOf('.');
  const address = (at: number) => `r${Math.floor(at / 9) + 1}c${(at % 9) + 1}`;
  const wrong = (solution[cell] % 9) + 1;
  const third = (wrong % 9) + 1;

  test.each([
    ['an untouched sheet', crook, '', 'right'],
    ['a right digit', crook, `${address(cell)}=${solution[cell]}`, 'right'],
    ['a wrong digit', crook, `${address(cell)}=${wrong}`, 'wrong'],
    ['a right strike', crook, `~${address(cell)}<>${wrong}`, 'right'],
    ['a wrong strike', crook, `~${address(cell)}<>${solution[cell]}`, 'wrong'],
    ['a note that has it', crook, `${address(cell)}:${solution[cell]}${wrong}`, 'right'],
    ['a lone wrong mark claims nothing', crook, `${address(cell)}:${wrong}`, 'right'],
    ['a grid with several solutions', empty, 'r1c1=5', 'can-be-completed'],
    ['a clash on it', empty, 'r1c1=5 r1c2=5', 'wrong'],
    ['givens without a solution', `55${'.'.repeat(79)}`, '', 'no-solution'],
  ])('%s', (_, grid, moves, standing) => {
    expect(isRight(play(sheetOf(grid), moves).state)).toBe(standing);
  });

  test('a note without the right digit is wrong, in hand or not', () => {
    const open = [...positionOf(sheetOf(crook).state).candidates]
      .filter((c) => Math.floor(c / 9) === cell)
      .map((c) => (c % 9) + 1);
    expect(open.length, `${wrong} ${third}`).toBeGreaterThan(2);
    const others = open.filter((digit) => digit !== solution[cell]).join('');
    expect(isRight(play(sheetOf(crook), `${address(cell)}:${others}`).state)).toBe('wrong');
  });

  test('where the budget is too small nothing is claimed', () => {
    expect(isRight(sheetOf(crook).state, { nodes: 0 })).toBe('undecided');
  });
});

describe('singles', () => {
  const names = (moves: string, grid = empty) =>
    singlesOf(play(sheetOf(grid), moves).state).map((candidate) => placementName(plain, candidate));

  test.each([
    ['none on an empty grid', '', []],
    ['the last cell of a row', 'r1c1=1 r1c2=2 r1c3=3 r1c4=4 r1c5=5 r1c6=6 r1c7=7 r1c8=8', ['r1c9=9']],
    ['the lone survivor of a claim', '7@c2:r3,r8 r3c5=7', ['r8c2=7']],
    ['of a note as well', 'r4c8:16 r4c1=1', ['r4c8=6']],
    ['what two claims leave', 'r1c1:12 1@c1:r5,r6 r9c9=9', ['r1c1=2']],
    ['a lone pending mark forces nothing', 'r4c8:6 r4c1=1', []],
    ['of two that exclude each other neither', 'r4c8:16 r4c2:26 r4c1=1 r4c3=2', []],
  ])('%s', (_, moves, singles) => {
    expect(names(moves)).toEqual(singles);
  });

  test('taken together they are one event and one step, and right where the sheet was', () => {
    let sheet = sheetOf(crook);
    const [solution] = coverSolutions(positionOf(sheet.state), 2);
    let steps = 0;
    for (let found = singlesOf(sheet.state); found.length > 0; found = singlesOf(sheet.state)) {
      sheet = reduce(sheet, { kind: 'ink-all', candidates: found });
      steps += 1;
    }
    expect(sheet.past.length).toBe(steps);
    expect(steps).toBeGreaterThan(1);
    expect(slipsOf(sheet)).toEqual([]);
    sheet.state.ink.forEach((digit, at) => {
      if (digit !== 0) expect(digit).toBe(solution[at]);
    });
  });
});

describe('copying out', () => {
  const { state } = play(sheetOf(`5${'.'.repeat(80)}`), 'r1c2=3 r2c2:124 r2c2<>4 7@c5:r8,r9 r9c9=1');

  test('givens and ink together, givens alone', () => {
    expect(gridOf(state).givens.slice(0, 3)).toEqual([5, 3, 0]);
    expect(gridOf(state).marks).toBeUndefined();
    expect(givensOf(state).givens.slice(0, 3)).toEqual([5, 0, 0]);
  });

  test('notes as they are shown, or all that is left by digits, strikes and claims', () => {
    const notes = gridOf(state, 'notes').marks!;
    expect([notes[1], notes[10], notes[11]]).toEqual([0, 0b11, 0]);
    const candidates = gridOf(state, 'candidates').marks!;
    expect(candidates[0]).toBe(0);
    expect(candidates[10]).toBe(0b11);
    expect(candidates[11]).toBe(0b111101011);
    expect(candidates[40] & (1 << 6)).toBe(0);
  });

  test('the candidates read back as they were written', () => {
    const grid = gridOf(play(sheetOf(crook), 'fill').state, 'candidates');
    const form = gridForms.find((each) => each.name === 'candidates')!;
    const read = readGrid(form.make(grid));
    if (!read.ok) throw new Error(read.error.message);
    expect(read.value.grid.givens).toEqual(grid.givens);
    expect(read.value.grid.marks).toEqual(grid.marks);
  });
});
