import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { withClaims } from '../../source/argument/claim.ts';
import { decide } from '../../source/exact/solve.ts';
import { type Layout, plain } from '../../source/grid/layout.ts';
import { writeLayout } from '../../source/grid/layout-text.ts';
import { flawsOf } from '../../source/sheet/flaws.ts';
import { placedAt, positionOf } from '../../source/sheet/marks.ts';
import { newSheet, reduce, undo } from '../../source/sheet/sheet.ts';
import { slipsOf } from '../../source/sheet/slips.ts';
import type { Sheet } from '../../source/sheet/state.ts';
import { claimsOf } from '../../source/sheet/view.ts';
import { coverSolutions } from '../judges/exact-cover.ts';
import { act, anyAction, crook, empty, play, seed, sheetOf, small } from './fixture.ts';
import { agrees, allSmall, hasSlip } from './oracle.ts';

console.log(`slips.test.ts: seed ${seed}`);

/** Played on an empty grid: what is said, and the way back. */
const rows: readonly {
  readonly is: string;
  readonly moves: string;
  readonly slips: readonly string[];
}[] = [
  { is: 'nothing wrong', moves: 'r7c4=4 r8c8=4 r1c1:12 r1c2=1', slips: [] },
  {
    is: 'the same digit twice in a row',
    moves: 'r7c4=4 r1c1=1 r7c8=4 r1c2=2',
    slips: ['Row 7 has 4 twice: r7c4 and r7c8. | 2 r7c8=4'],
  },
  {
    is: 'in a column',
    moves: 'r1c4=4 r7c4=4',
    slips: ['Column 4 has 4 twice: r1c4 and r7c4. | 1 r7c4=4'],
  },
  { is: 'in a box', moves: 'r1c4=4 r2c5=4', slips: ['Box 2 has 4 twice: r1c4 and r2c5. | 1 r2c5=4'] },
  {
    is: 'in a row and a box at once, told once',
    moves: 'r1c4=4 r1c5=4',
    slips: ['Row 1 has 4 twice: r1c4 and r1c5. | 1 r1c5=4'],
  },
  {
    is: 'three times, brought in by the second',
    moves: 'r7c4=4 r7c8=4 r1c1=1 r7c1=4',
    slips: ['Row 7 has 4 three times: r7c1, r7c4 and r7c8. | 3 r7c8=4'],
  },
  {
    is: 'two clashes of one digit by one move',
    moves: 'r7c4=4 r1c8=4 r7c8=4',
    slips: [
      'Row 7 has 4 twice: r7c4 and r7c8. | 1 r7c8=4',
      'Column 8 has 4 twice: r1c8 and r7c8. | 1 r7c8=4',
    ],
  },
  {
    is: 'a cell with nothing left',
    moves: 'r9c1=1 r9c2=2 r9c3=3 r9c4=4 r9c5=5 r1c8=6 r2c8=7 r3c8=8 r5c5=1 r7c9=9',
    slips: ['r9c8 has nothing left. | 1 r7c9=9'],
  },
  {
    is: 'a cell with nothing left, by strikes',
    moves: 'r5c5<>1234 r5c5<>56789 r1c1=1',
    slips: ['r5c5 has nothing left. | 2 5 strikes'],
  },
  {
    is: 'a digit with no place in a box',
    moves: 'r4c1=8 r7c2=8 r1c7=8 r2c3=1 r3c3=2',
    slips: ['Box 1 has no place for 8. | 1 r3c3=2'],
  },
  {
    is: 'a digit with no place in a row, by strikes',
    moves: 'r4c1<>3 r4c2<>3 r4c3<>3 r4c4<>3 r4c5<>3 r4c6<>3 r1c7=3 r4c8<>3 r4c9<>3',
    slips: ['Row 4 has no place for 3. | 1 r4c9<>3'],
  },
  {
    is: 'a claim whose last place has gone',
    moves: '7@c2:r3,r8 r3c5=7 r1c1=1 r8c5<>7 r8c9=7',
    slips: ['7 of column 2 was marked in r3 and r8; both are gone. | 1 r8c9=7'],
  },
  {
    is: 'a claim whose digit has gone elsewhere in the house',
    moves: '7@c2:r3,r8 r5c2=7',
    slips: ['7 of column 2 was marked in r3 and r8; both are gone. | 1 r5c2=7'],
  },
  {
    is: 'a note of three that its cell does not keep to',
    moves: 'r4c8:136 r4c8=5 r1c1=1',
    slips: ['r4c8 was noted 1, 3 or 6; all are gone. | 2 r4c8=5'],
  },
  {
    is: 'spots of a box and of a row named as they are typed',
    moves: '5@b2:r1c4,r2c4 5@r9:c1,c2 r5c4=5 r9c9=5',
    slips: [
      '5 of box 2 was marked in r1c4 and r2c4; both are gone. | 2 r5c4=5',
      '5 of row 9 was marked in c1 and c2; both are gone. | 1 r9c9=5',
    ],
  },
  {
    is: 'two notes and a digit that can go in neither',
    moves: 'r5c4:12 r5c6:12 r5c5:12 r1c1=9',
    slips: [],
  },
  {
    is: 'claims that leave a cell nothing: the mark is blamed, not the move after it',
    moves: '1@r5:c1,c2 2@r5:c1,c2 r5c5:12 r9c9=9',
    slips: ['r5c5 has nothing left, with 1@r5, 2@r5 and r5c5 as marked. | 2 note r5c5 1 2'],
  },
  {
    is: 'claims that leave a digit no place: only those that are needed are named',
    moves: '7@c2:r3,r8 r3c2:12 r8c2:34 r1c1:56 r9c9=9',
    slips: ['Column 2 has no place for 7, with 7@c2, r3c2 and r8c2 as marked. | 3 note r8c2 3 4'],
  },
  {
    is: 'of two claims that would do, the one written first is named',
    moves: '7@c2:r3,r8 r3c2:12 r8c2:34 7@r8:c5,c6 r9c9=9',
    slips: ['Column 2 has no place for 7, with 7@c2, r3c2 and r8c2 as marked. | 3 note r8c2 3 4'],
  },
  {
    is: 'what only the marks exclude waits for what has gone by the same move without them',
    moves: 'r4c8:16 6@c5:r4,r7 r7c5:23 r4c2=1 r4c1=6',
    slips: ['r4c8 was noted 1 or 6; both are gone. | 1 r4c1=6'],
  },
  {
    is: 'what has gone by digits comes before what the marks exclude, though it came later',
    moves: '1@r5:c1,c2 2@r5:c1,c2 r5c5:12 7@c2:r3,r8 r9c2=7',
    slips: [
      '7 of column 2 was marked in r3 and r8; both are gone. | 1 r9c2=7',
      'r5c5 has nothing left, with 1@r5, 2@r5 and r5c5 as marked. | 3 note r5c5 1 2',
    ],
  },
  {
    is: 'two digits that lose their last place by one move are both told',
    moves: 'r4c1<>38 r4c2<>38 r4c3<>38 r4c4<>38 r4c5<>38 r4c6<>38 r4c7<>38 r4c8<>38 r4c9<>38',
    slips: ['Row 4 has no place for 3. | 1 r4c9<>3 r4c9<>8', 'Row 4 has no place for 8. | 1 r4c9<>3 r4c9<>8'],
  },
  {
    is: 'in different houses too',
    moves:
      'r4c1<>3 r4c2<>3 r4c3<>3 r4c4<>3 r4c5<>3 r4c6<>3 r4c7<>38 r4c8<>38 r5c7<>8 r5c8<>8 r5c9<>8 r6c7<>8 r6c8<>8 r6c9<>8 r4c9=5',
    slips: ['Row 4 has no place for 3. | 1 r4c9=5', 'Box 6 has no place for 8. | 1 r4c9=5'],
  },
  {
    is: 'marks in hand are not yet claimed',
    moves: '7@c2:r3,r8 r3c2:12 r8c2:34',
    slips: [],
  },
  {
    is: 'ink on a struck candidate',
    moves: 'r4c7<>3 r1c1=1 r4c7=3',
    slips: ['r4c7 is 3, and 3 was struck there. | 1 r4c7=3'],
  },
  {
    is: 'a clash brings empty cells and homeless digits with it; they wait for it to be dealt with',
    moves: 'r9c1=1 r9c2=2 r9c3=3 r9c4=4 r9c5=5 r1c8=6 r2c8=7 r3c8=8 r5c9=9 r7c9=9',
    slips: ['Column 9 has 9 twice: r5c9 and r7c9. | 1 r7c9=9'],
  },
  {
    is: 'what was wrong before the clash is told with it, the clash first',
    moves: 'r9c1=1 r9c2=2 r9c3=3 r9c4=4 r9c5=5 r1c8=6 r2c8=7 r3c8=8 r7c9=9 r5c9=9',
    slips: ['Column 9 has 9 twice: r5c9 and r7c9. | 1 r5c9=9', 'r9c8 has nothing left. | 2 r7c9=9'],
  },
  {
    is: 'the clash dealt with at its other end, what came with it is told',
    moves: 'r9c1=1 r9c2=2 r9c3=3 r9c4=4 r9c5=5 r1c8=6 r2c8=7 r3c8=8 r5c9=9 r7c9=9 r5c9=1',
    slips: ['r9c8 has nothing left. | 2 r7c9=9'],
  },
  {
    is: 'what comes after a clash through its digits waits as well',
    moves: 'r9c1=1 r9c2=2 r9c3=3 r9c4=4 r5c9=9 r7c9=9 r1c8=6 r2c8=7 r3c8=8 r9c5=5',
    slips: ['Column 9 has 9 twice: r5c9 and r7c9. | 5 r7c9=9'],
  },
  {
    is: 'what comes with or after a clash and has nothing to do with it is told',
    moves: 'r7c4=4 r7c8=4 r1c1:123 r1c1=7',
    slips: [
      'Row 7 has 4 twice: r7c4 and r7c8. | 3 r7c8=4',
      'r1c1 was noted 1, 2 or 3; all are gone. | 1 r1c1=7',
    ],
  },
  {
    is: 'a given that ink clashes with goes on counting',
    moves: 'r1c1=1 lock r4c2<>1 r2c2=1 r4c3<>1 r4c4<>1 r4c5<>1 r4c6<>1 r4c7<>1 r4c8<>1 r4c9<>1',
    slips: ['Box 1 has 1 twice: r1c1 and r2c2. | 8 r2c2=1', 'Row 4 has no place for 1. | 1 r4c9<>1'],
  },
  {
    is: 'a claim that goes with the last place of its house is told as the house',
    moves: '8@b1:r1c1,r2c3 r4c1=8 r7c2=8 r3c3=2 r1c7=8 r2c3=1',
    slips: ['Box 1 has no place for 8. | 1 r2c3=1'],
  },
  {
    is: 'a claim that goes before its house has no place is told as the claim',
    moves: '8@b1:r1c1,r2c2 r4c1=8 r7c2=8 r1c7=8 r2c3=1 r3c3=2',
    slips: ['8 of box 1 was marked in r1c1 and r2c2; both are gone. | 4 r7c2=8'],
  },
];

const told = (sheet: Sheet): string[] =>
  slipsOf(sheet).map(({ text, undoSteps, move }) => `${text} | ${undoSteps} ${move}`);

test.each(rows)('$is', ({ moves, slips }) => {
  const sheet = play(sheetOf(empty), moves);
  expect(told(sheet)).toEqual(slips);
});

describe('where it came in', () => {
  const clashing = `55${'.'.repeat(79)}`;

  test('a clash of the givens has no move to take back, whatever is played', () => {
    expect(told(sheetOf(clashing))).toEqual(['Row 1 has 5 twice: r1c1 and r1c2. | 0 ']);
    expect(told(play(sheetOf(clashing), 'r9c9=1 r8c8=2'))).toEqual([
      'Row 1 has 5 twice: r1c1 and r1c2. | 0 ',
    ]);
  });

  test('what later rests on the givens that clash waits for them; what does not is told', () => {
    expect(told(play(sheetOf(clashing), 'r1c5<>1234 r1c5<>6789'))).toEqual([
      'Row 1 has 5 twice: r1c1 and r1c2. | 0 ',
    ]);
    expect(told(play(sheetOf(clashing), 'r9c9<>1234 r9c9<>56789'))).toEqual([
      'Row 1 has 5 twice: r1c1 and r1c2. | 0 ',
      'r9c9 has nothing left. | 1 5 strikes',
    ]);
  });

  test('nor has one of the givens of a grid that was pasted, though another had it too', () => {
    const givens = Array.from({ length: 81 }, (_, cell) => (cell < 2 ? 5 : 0));
    const pasted = reduce(play(sheetOf(empty), 'r1c1=5 r1c2=5'), {
      kind: 'open',
      layout: writeLayout(plain),
      name: 'b',
      givens,
      notes: [],
    });
    expect(told(play(pasted, 'r9c9=1'))).toEqual(['Row 1 has 5 twice: r1c1 and r1c2. | 0 ']);
  });

  test('notes that came with a pasted grid lead back to before the paste', () => {
    const givens = Array.from({ length: 81 }, (_, cell) => (cell === 0 ? 5 : 0));
    const notes = Array.from({ length: 81 }, (_, cell) => (cell === 1 ? 0b10000 : 0));
    const pasted = reduce(sheetOf(empty), {
      kind: 'open',
      layout: writeLayout(plain),
      name: 'b',
      givens,
      notes,
    });
    expect(told(play(pasted, 'r9c9=1'))).toEqual(['r1c2 was noted 5; it is gone. | 2 opening another grid']);
    expect(slipsOf(newSheet(plain, givens, 'b', notes))[0].undoSteps).toBe(0);
  });

  test('ink that was locked leads back to the move that wrote it', () => {
    expect(told(play(sheetOf(empty), 'r1c1=5 r1c2=5 lock r9c9=1'))).toEqual([
      'Row 1 has 5 twice: r1c1 and r1c2. | 3 r1c2=5',
    ]);
  });

  test('a slip mended and made again counts from the second time', () => {
    expect(told(play(sheetOf(empty), 'r1c1=5 r1c2=5 xr1c2 r9c9=1 r1c2=5 r9c8=2'))).toEqual([
      'Row 1 has 5 twice: r1c1 and r1c2. | 2 r1c2=5',
    ]);
  });

  test('house, digit and cells are given as data', () => {
    const [clash] = slipsOf(play(sheetOf(empty), 'r7c4=4 r7c8=4'));
    expect(clash).toMatchObject({ kind: 'twice', house: 6, digit: 4, cells: [57, 61] });
    const [emptied] = slipsOf(play(sheetOf(empty), 'r5c5<>1234 r5c5<>56789'));
    expect(emptied).toMatchObject({ kind: 'no-digit', house: null, digit: null, cells: [40] });
    const [homeless] = slipsOf(play(sheetOf(empty), 'r4c1=8 r7c2=8 r1c7=8 r2c3=1 r3c3=2'));
    expect(homeless).toMatchObject({ kind: 'no-place', house: 18, digit: 8, cells: [] });
    const [gone] = slipsOf(play(sheetOf(empty), '7@c2:r3,r8 r5c2=7'));
    expect(gone).toMatchObject({ kind: 'empty-claim', house: 10, digit: 7, cells: [19, 64] });
  });
});

const walks = (layout: Layout, length: number) =>
  fc.array(anyAction(layout), { minLength: length, maxLength: length });

describe('every slip is one', () => {
  test('4x4: whatever is reported, none of the 288 grids agrees with the sheet', () => {
    const grids = allSmall();
    expect(grids.length).toBe(288);
    const kinds = new Map<string, number>();
    let clean = 0;
    fc.assert(
      fc.property(walks(small, 25), (actions) => {
        let sheet = sheetOf('1...........2..3', small);
        for (const action of actions) {
          sheet = act(sheet, action);
          const slips = slipsOf(sheet);
          for (const slip of slips) kinds.set(slip.kind, (kinds.get(slip.kind) ?? 0) + 1);
          if (slips.length === 0) clean += 1;
          else if (grids.some((grid) => agrees(sheet.state, grid))) throw new Error(slips[0].text);
          if (slips.length > 0 !== flawsOf(sheet.state).length > 0) throw new Error('nothing is told');
        }
      }),
      { numRuns: 60, seed },
    );
    // The walks must have met each kind, and sheets without any slip.
    for (const kind of ['twice', 'no-digit', 'no-place', 'empty-claim']) {
      expect(kinds.get(kind) ?? 0, kind).toBeGreaterThan(10);
    }
    expect(clean).toBeGreaterThan(100);
  });

  test('9x9: whatever is reported, the exact solver and the exact-cover judge find no completion', () => {
    let met = 0;
    fc.assert(
      fc.property(walks(plain, 30), (actions) => {
        let sheet = sheetOf(crook);
        for (const action of actions) {
          sheet = act(sheet, action);
          if (slipsOf(sheet).length === 0) continue;
          met += 1;
          const position = withClaims(positionOf(sheet.state), claimsOf(sheet.state));
          expect(decide(position).verdict).toBe('none');
          expect(coverSolutions(position, 1)).toEqual([]);
        }
      }),
      { numRuns: 20, seed },
    );
    expect(met).toBeGreaterThan(50);
  });

  test('4x4: a digit twice in a house, an open cell or digit shut out by its peers never goes unreported', () => {
    fc.assert(
      fc.property(walks(small, 25), (actions) => {
        const { state } = actions.reduce(act, sheetOf('1...........2..3', small));
        const placed = state.givens.map((_, cell) => placedAt(state, cell));
        const digits = [1, 2, 3, 4];
        const twice = small.houses.some(({ cells }) =>
          digits.some((digit) => cells.filter((cell) => placed[cell] === digit).length > 1),
        );
        const shut = (cell: number, digit: number) =>
          placed[cell] !== 0 ||
          state.strikes.has(cell * 4 + digit - 1) ||
          small.peers[cell].some((peer) => placed[peer] === digit);
        const nothing = placed.some(
          (digit, cell) => digit === 0 && digits.every((other) => shut(cell, other)),
        );
        const homeless = small.houses.some(({ cells }) =>
          digits.some(
            (digit) =>
              cells.every((cell) => placed[cell] !== digit) && cells.every((cell) => shut(cell, digit)),
          ),
        );
        const slips = slipsOf({ state, past: [], future: [] });
        expect(slips.some((slip) => slip.kind === 'twice')).toBe(twice);
        if (!twice && (nothing || homeless)) {
          expect(slips.some((slip) => slip.kind === 'no-digit' || slip.kind === 'no-place')).toBe(true);
        }
      }),
      { numRuns: 200, seed },
    );
  });
});

test('undoing the steps named leads to a sheet without the slip; one step less has it still', () => {
  let checked = 0;
  fc.assert(
    fc.property(walks(small, 40), (actions) => {
      let sheet = sheetOf('1...........2..3', small);
      for (const action of actions) {
        sheet = act(sheet, action);
        for (const slip of slipsOf(sheet)) {
          if (slip.undoSteps === 0) continue;
          checked += 1;
          const after = undo(sheet, slip.undoSteps - 1).state;
          const { event } = sheet.past[sheet.past.length - slip.undoSteps];
          const before = undo(sheet, slip.undoSteps).state;
          // What another grid was like does not count.
          const gone = event.kind === 'open' || !hasSlip(before, slip);
          if (!hasSlip(after, slip) || !gone) throw new Error(`${slip.text} ${slip.undoSteps}`);
        }
      }
    }),
    { numRuns: 30, seed },
  );
  expect(checked).toBeGreaterThan(200);
});
