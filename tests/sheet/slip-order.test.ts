import { expect, test } from 'vitest';
import { houseFact } from '../../source/argument/fact.ts';
import { candidateOf, type Layout, makeLayout, plain, rectangularBoxes } from '../../source/grid/layout.ts';
import { writeLayout } from '../../source/grid/layout-text.ts';
import { parseCell } from '../../source/grid/names.ts';
import { reduce, undo } from '../../source/sheet/sheet.ts';
import { slipsOf } from '../../source/sheet/slips.ts';
import { empty, play, sheetOf } from './fixture.ts';

// Of what goes wrong by one and the same move, one thing is told: boxes are seen best, then rows, then columns.

const told = (sheet: ReturnType<typeof play>): string[] =>
  slipsOf(sheet).map(({ text, undoSteps }) => `${undoSteps} ${text}`);

/** Strikes a digit from all cells of houses but these, a move a cell, and then from these by one move. */
function strikeLast(layout: Layout, houses: readonly string[], digit: number, last: readonly string[]) {
  const at = (name: string) => parseCell(layout, name)!;
  const strike = (cells: readonly number[]) =>
    ({
      kind: 'take',
      placements: [],
      strikes: cells.map((cell) => candidateOf(layout, cell, digit)),
    }) as const;
  const cells = layout.houses.filter(({ name }) => houses.includes(name)).flatMap((house) => house.cells);
  const rest = [...new Set(cells)].filter((cell) => !last.map(at).includes(cell));
  const sheet = rest.reduce(
    (now, cell) => reduce(now, strike([cell])),
    sheetOf('.'.repeat(layout.cellCount), layout),
  );
  expect(slipsOf(sheet)).toEqual([]);
  return reduce(sheet, strike(last.map(at)));
}

test.each<[houses: string[], last: string[], slips: string[]]>([
  [['r4', 'b6', 'c9'], ['r4c9'], ['1 Box 6 has no place for 3.']],
  [['r4', 'b6'], ['r4c9'], ['1 Box 6 has no place for 3.']],
  [['c9', 'b6'], ['r4c9'], ['1 Box 6 has no place for 3.']],
  [['r4', 'c9'], ['r4c9'], ['1 Row 4 has no place for 3.']],
  [['c9'], ['r4c9'], ['1 Column 9 has no place for 3.']],
  // Two of a kind: the one with the lower number.
  [['r4', 'r5'], ['r4c9', 'r5c1'], ['1 Row 4 has no place for 3.']],
  [['r5', 'r4'], ['r5c1', 'r4c9'], ['1 Row 4 has no place for 3.']],
  [['c1', 'c2'], ['r4c1', 'r5c2'], ['1 Column 1 has no place for 3.']],
  [['b8', 'r1'], ['r8c5', 'r1c1'], ['1 Box 8 has no place for 3.']],
])('%j lose their last places %j at once: %j', (houses, last, slips) => {
  expect(told(strikeLast(plain, houses, 3, last))).toEqual(slips);
});

test('diagonals and extra houses come after boxes, rows and columns', () => {
  const crossed = makeLayout({
    name: 'crossed',
    size: 4,
    boxOf: rectangularBoxes(2, 2),
    extras: [
      { kind: 'diagonal', cells: [0, 5, 10, 15] },
      { kind: 'diagonal', cells: [3, 6, 9, 12] },
      { kind: 'extra', cells: [0, 3, 12, 15] },
    ],
  });
  const [falling, rising, corners] = crossed.houses.slice(-3).map(({ name }) => name);
  const only = (houses: string[], last: string[]) => told(strikeLast(crossed, houses, 2, last));
  expect(only([falling, corners], ['r4c4'])[0]).toMatch(/diagonal/i);
  expect(only([falling, corners], ['r4c4'])).toHaveLength(1);
  expect(only([rising, 'c4'], ['r1c4'])).toEqual(['1 Column 4 has no place for 2.']);
  expect(only([corners, 'r4'], ['r4c1'])).toEqual(['1 Row 4 has no place for 2.']);
  expect(only([corners], ['r4c1'])).toHaveLength(1);
});

test('two digits without a place are two things, in one house or in two', () => {
  const line = 'r4c1 r4c2 r4c3 r4c4 r4c5 r4c6 r4c7 r4c8'.split(' ').map((cell) => `${cell}<>34`);
  expect(told(play(sheetOf(empty), [...line, 'r4c9<>34'].join(' ')))).toEqual([
    '1 Row 4 has no place for 3.',
    '1 Row 4 has no place for 4.',
  ]);
});

test('a digit that stands four times or more is counted', () => {
  expect(told(play(sheetOf(empty), 'r1c1=1 r1c4=1 r1c7=1 r1c9=1'))[0]).toMatch(
    /^3 Row 1 has 1 4 times: r1c1, r1c4, r1c7 and r1c9\.$/,
  );
});

test.each([
  ['a note of two', 'r4c8:36 r4c8=5', '1 r4c8 was noted 3 or 6; both are gone.'],
  ['spots of three', '7@c2:r3,r5,r8 r9c2=7', '1 7 of column 2 was marked in r3, r5 and r8; all are gone.'],
])('%s that has gone is told by how much of it there was', (_, moves, slip) => {
  expect(told(play(sheetOf(empty), moves))).toEqual([slip]);
});

test('what the claims take away is blamed on those that are needed, in the order they were written', () => {
  // Either of two claims would do for the cell: the one written first is named.
  const moves = '1@r5:c1,c2 1@c5:r1,r2 2@r5:c1,c2 r5c5:12 r9c9=9';
  expect(told(play(sheetOf(empty), moves))).toEqual([
    '2 r5c5 has nothing left, with 1@r5, 2@r5 and r5c5 as marked.',
  ]);
  const [slip] = slipsOf(play(sheetOf(empty), moves));
  expect(slip).toMatchObject({
    kind: 'no-digit',
    cells: [40],
    house: null,
    digit: null,
    move: 'note r5c5 1 2',
  });
});

test('while nobody asks, marks in hand are not blamed; for one who asks they are', () => {
  const sheet = play(sheetOf(empty), '1@r5:c1,c2 2@r5:c1,c2 r5c5:12');
  expect(slipsOf(sheet)).toEqual([]);
  expect(slipsOf(sheet, { asking: false })).toEqual([]);
  expect(slipsOf(sheet, { asking: true }).map(({ text, undoSteps }) => [text, undoSteps])).toEqual([
    ['r5c5 has nothing left, with 1@r5, 2@r5 and r5c5 as marked.', 1],
  ]);
});

test('the facts of a slip are those of the layout', () => {
  const fact = houseFact(plain, plain.houses[10], 7);
  const sheet = reduce(sheetOf(empty), { kind: 'set-spots', fact, cells: [19, 64] });
  const [slip] = slipsOf(play(sheet, 'r5c2=7'));
  expect(slip).toMatchObject({ house: 10, digit: 7, cells: [19, 64], undoSteps: 1, move: 'r5c2=7' });
});

test('a claim that is gone by other digits than those that clash is told beside the clash of its digit', () => {
  const placements = ['r1c2', 'r5c2', 'r8c5'].map((name) => candidateOf(plain, parseCell(plain, name)!, 7));
  const sheet = reduce(play(sheetOf(empty), '7@c2:r3,r8 r3c9=7'), {
    kind: 'ink-all',
    candidates: placements,
  });
  expect(told(sheet)).toEqual([
    '1 Column 2 has 7 twice: r1c2 and r5c2.',
    '1 7 of column 2 was marked in r3 and r8; both are gone.',
  ]);
});

test('a cell and a digit, or a claim and another house, are two things though one move brought them in', () => {
  const cells = Array.from({ length: 9 }, (_, column) => candidateOf(plain, column, 3));
  const r9c3 = parseCell(plain, 'r9c3')!;
  const digits = Array.from({ length: 9 }, (_, i) => candidateOf(plain, r9c3, i + 1));
  const both = { kind: 'take', placements: [], strikes: [...cells, ...digits] } as const;
  expect(told(reduce(sheetOf(empty), both))).toEqual([
    '1 r9c3 has nothing left.',
    '1 Row 1 has no place for 3.',
  ]);
  const strikes = [
    ...cells,
    ...['r7c7', 'r8c8'].map((name) => candidateOf(plain, parseCell(plain, name)!, 3)),
  ];
  const marked = play(sheetOf(empty), '3@b9:r7c7,r8c8 r5c5=1');
  expect(told(reduce(marked, { kind: 'take', placements: [], strikes }))).toEqual([
    '1 Row 1 has no place for 3.',
    '1 3 of box 9 was marked in r7c7 and r8c8; both are gone.',
  ]);
});

test('a row without a place by strikes is told, and not the box that lost the digit through marks by the same move', () => {
  const before = undo(strikeLast(plain, ['r1', 'b9'], 3, ['r1c1', 'r9c9']));
  const sheet = reduce(before, {
    kind: 'several',
    events: [
      { kind: 'set-note', cell: 80, digits: 0b11 },
      { kind: 'take', placements: [], strikes: [candidateOf(plain, 0, 3)] },
    ],
  });
  expect(told(sheet)).toEqual(['1 Row 1 has no place for 3.']);
});

test('a claim that is gone is told beside its house or cell, where that had lost its places before', () => {
  // 7 has no place since the note of r8c2, beside what column 2 is marked with and r3c2; then digits take both
  // that were marked, and the note of r5c2 still leaves it none.
  const moves =
    'r1c2<>7 r2c2<>7 r4c2<>7 r6c2<>7 r7c2<>7 r9c2<>7 7@c2:r3,r8 r3c2:12 r8c2:34 r5c2:89 r3c5=7 r8c9=7';
  expect(told(play(sheetOf(empty), moves))).toEqual([
    '1 7 of column 2 was marked in r3 and r8; both are gone.',
    '4 Column 2 has no place for 7, with r5c2 as marked.',
  ]);
  // The givens leave r1c9 nothing, which no move brought in; its note came with the grid.
  const line = `12345678.${'.'.repeat(9)}........9${'.'.repeat(54)}`;
  const opened = reduce(sheetOf(empty), {
    kind: 'open',
    layout: writeLayout(plain),
    name: 'b',
    givens: Array.from(line, (sign) => Number(sign) || 0),
    notes: Array.from({ length: 81 }, (_, cell) => (cell === 8 ? 0b11 : 0)),
  });
  expect(told(opened)).toContain('1 r1c9 was noted 1 or 2; both are gone.');
  expect(told(opened)).toContain('0 r1c9 has nothing left.');
});
