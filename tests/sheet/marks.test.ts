import { describe, expect, test } from 'vitest';
import { plain } from '../../source/grid/layout.ts';
import { isSolved, liveNote, liveSpots, liveTags } from '../../source/sheet/marks.ts';
import { newSheet, reduce } from '../../source/sheet/sheet.ts';
import { viewOf } from '../../source/sheet/view.ts';
import { claims, empty, pending, play, sheetOf } from './fixture.ts';

/** Played on an empty grid: what is claimed, what is pending, and what is claimed by one who asks. */
const rows: readonly {
  readonly is: string;
  readonly moves: string;
  readonly claimed: string;
  readonly pending: string;
  readonly asked: string;
}[] = [
  {
    is: 'one mark is pending, whatever comes after',
    moves: '~7@c2:r3 r9c9=1',
    claimed: '',
    pending: '7@c2:r3',
    asked: '',
  },
  {
    is: 'two marks in hand are not claimed until the person goes on or asks',
    moves: '~7@c2:r3 ~7@c2:r8',
    claimed: '',
    pending: '7@c2:r3,r8',
    asked: '7@c2:r3,r8',
  },
  {
    is: 'a third mark of the same fact is no going on',
    moves: '~7@c2:r3 ~7@c2:r8 ~7@c2:r9',
    claimed: '',
    pending: '7@c2:r3,r8,r9',
    asked: '7@c2:r3,r8,r9',
  },
  {
    is: 'placing a digit elsewhere is going on',
    moves: '7@c2:r3,r8 r9c9=1',
    claimed: '7@c2:r3,r8',
    pending: '',
    asked: '7@c2:r3,r8',
  },
  {
    is: 'so is a mark of another fact',
    moves: '7@c2:r3,r8 ~r5c5:3',
    claimed: '7@c2:r3,r8',
    pending: 'r5c5:3',
    asked: '7@c2:r3,r8',
  },
  {
    is: 'a move that changes nothing is no going on',
    moves: 'r9c9=1 7@c2:r3,r8 r9c9=1',
    claimed: '',
    pending: '7@c2:r3,r8',
    asked: '7@c2:r3,r8',
  },
  {
    is: 'a note is a claim of its cell',
    moves: 'r4c8:16 r9c9=1',
    claimed: 'r4c8:1,6',
    pending: '',
    asked: 'r4c8:1,6',
  },
  {
    is: 'the digit that makes the person go on may take one of the marks',
    moves: '7@c2:r3,r8 r3c5=7',
    claimed: '7@c2:r8',
    pending: '',
    asked: '7@c2:r8',
  },
  {
    is: 'a placement leaves a lone survivor, which stays claimed',
    moves: 'r4c8:16 r9c9=2 r4c1=1',
    claimed: 'r4c8:6',
    pending: '',
    asked: 'r4c8:6',
  },
  {
    is: 'a strike does so too',
    moves: 'r4c8:16 r4c8<>1',
    claimed: 'r4c8:6',
    pending: '',
    asked: 'r4c8:6',
  },
  {
    is: 'a claim without a place is a claim still',
    moves: '7@c2:r3,r8 r3c5=7 r8c5=7',
    claimed: '7@c2:',
    pending: '',
    asked: '7@c2:',
  },
  {
    is: 'taking the digit back brings the mark back',
    moves: 'r4c8:16 r9c9=2 r4c1=1 xr4c1',
    claimed: 'r4c8:1,6',
    pending: '',
    asked: 'r4c8:1,6',
  },
  {
    is: 'lifting the strike brings the mark back',
    moves: 'r4c8:16 r4c8<>1 ~r4c8<>1',
    claimed: 'r4c8:1,6',
    pending: '',
    asked: 'r4c8:1,6',
  },
  {
    is: 'a digit in a marked place settles the claim',
    moves: '7@c2:r3,r8 r3c2=7',
    claimed: '',
    pending: '',
    asked: '',
  },
  {
    is: 'a digit in a marked place settles a pending mark',
    moves: '7@c2:r3 r3c2=7',
    claimed: '',
    pending: '',
    asked: '',
  },
  {
    is: 'taken out again, the claim stands as it stood',
    moves: '7@c2:r3,r8 r3c2=7 xr3c2',
    claimed: '7@c2:r3,r8',
    pending: '',
    asked: '7@c2:r3,r8',
  },
  {
    is: 'a note is settled by one of its digits and by no other',
    moves: 'r4c8:16 r5c5:23 r4c8=6 r5c5=9',
    claimed: 'r5c5:',
    pending: '',
    asked: 'r5c5:',
  },
  {
    is: 'erasing by hand below two ends the claim',
    moves: '7@c2:r3,r8 r9c9=1 ~7@c2:r8',
    claimed: '',
    pending: '7@c2:r3',
    asked: '',
  },
  {
    is: 'and going on does not bring it back',
    moves: '7@c2:r3,r8 r9c9=1 ~7@c2:r8 r9c8=2',
    claimed: '',
    pending: '7@c2:r3',
    asked: '',
  },
  {
    is: 'erasing one of three does not end it',
    moves: 'r4c8:168 r9c9=2 ~r4c8:1',
    claimed: 'r4c8:6,8',
    pending: '',
    asked: 'r4c8:6,8',
  },
  {
    is: 'a further mark on a lone survivor keeps it claimed',
    moves: 'r4c8:16 r4c1=1 ~r4c8:8',
    claimed: 'r4c8:6,8',
    pending: '',
    asked: 'r4c8:6,8',
  },
  {
    is: 'erasing the lone survivor ends it',
    moves: 'r4c8:16 r4c1=1 ~r4c8:6',
    claimed: '',
    pending: '',
    asked: '',
  },
  {
    is: 'erasing a cell takes its spots away and ends what is then below two',
    moves: '7@c2:r3,r8 8@c2:r1,r3,r8 r9c9=1 xr3c2',
    claimed: '8@c2:r1,r8',
    pending: '7@c2:r8',
    asked: '8@c2:r1,r8',
  },
  {
    is: 'erasing a cell whose mark has gone leaves the lone survivor claimed',
    moves: '7@c2:r3,r8 r3c5=7 xr3c2',
    claimed: '7@c2:r8',
    pending: '',
    asked: '7@c2:r8',
  },
  {
    is: 'erasing ink erases no marks',
    moves: '7@c2:r3,r8 r3c2=5 xr3c2',
    claimed: '7@c2:r3,r8',
    pending: '',
    asked: '7@c2:r3,r8',
  },
  {
    is: 'erased marks claim nothing',
    moves: '7@c2:r3,r8 r9c9=1 7@c2:- r4c8:16 r9c8=2 r4c8:-',
    claimed: '',
    pending: '',
    asked: '',
  },
  {
    is: 'a toggle of a mark that cannot be shown changes nothing',
    moves: 'r4c1=1 ~r4c8:1 ~1@r4:c5 ~r4c1:3 ~3@r4:c1',
    claimed: '',
    pending: '',
    asked: '',
  },
  {
    is: 'a rewritten claim counts as written last',
    moves: '7@c2:r3,r8 r4c8:16 ~7@c2:r9 r9c9=1',
    claimed: 'r4c8:1,6 7@c2:r3,r8,r9',
    pending: '',
    asked: 'r4c8:1,6 7@c2:r3,r8,r9',
  },
  {
    is: 'so does one that is replaced by as many other marks',
    moves: 'r4c8:16 7@c2:r3,r8 r4c8:18 r9c9=1',
    claimed: '7@c2:r3,r8 r4c8:1,8',
    pending: '',
    asked: '7@c2:r3,r8 r4c8:1,8',
  },
  {
    is: 'a claim that has lost its last place can be erased by hand',
    moves: 'r4c8:16 r4c1=1 r4c2=6 r4c8:-',
    claimed: '',
    pending: '',
    asked: '',
  },
  {
    is: 'marks of which one alone was shown are claimed when a second comes back',
    moves: 'r4c1=1 r4c8:16 r9c9=2 xr4c1',
    claimed: 'r4c8:1,6',
    pending: '',
    asked: 'r4c8:1,6',
  },
  {
    is: 'restart leaves nothing',
    moves: '7@c2:r3,r8 r4c8:16 r9c9=1 r1c1<>3 restart',
    claimed: '',
    pending: '',
    asked: '',
  },
  {
    is: 'undo brings back what was claimed and what was in hand',
    moves: '7@c2:r3,r8 r4c8:16 undo',
    claimed: '',
    pending: '7@c2:r3,r8',
    asked: '7@c2:r3,r8',
  },
];

test.each(rows)('$is: $moves', (row) => {
  const { state } = play(sheetOf(empty), row.moves);
  expect({ claimed: claims(state), pending: pending(state), asked: claims(state, true) }).toEqual({
    claimed: row.claimed,
    pending: row.pending,
    asked: row.asked,
  });
});

describe('what is shown', () => {
  test('a placed cell shows no note, no spot and no tag; they come back with the open cell', () => {
    const tagged = reduce(play(sheetOf(empty), 'r4c8:16 5@c8:r4,r6'), {
      kind: 'tag',
      candidate: 34 * 9 + 5,
      tag: 't',
    });
    const fact = [...tagged.state.spots.keys()][0];
    const shows = ({ state }: typeof tagged) => [
      liveNote(state, 34),
      liveSpots(state, fact),
      liveTags(state).size,
    ];
    expect(shows(tagged)).toEqual([0b100001, [34, 52], 1]);
    expect(shows(play(tagged, 'r4c8=2'))).toEqual([0, [52], 0]);
    expect(shows(play(tagged, 'r4c8=2 xr4c8'))).toEqual(shows(tagged));
    expect(shows(play(tagged, 'r4c8<>6'))).toEqual([0b1, [34, 52], 0]);
  });

  test('filling in all candidates lists what is live, and keeps up when ink is taken back', () => {
    const sheet = play(sheetOf(`12${'.'.repeat(79)}`), 'r1c9=9 r2c9:34 fill');
    expect(liveNote(sheet.state, 2)).toBe(0b011111100);
    expect(liveNote(sheet.state, 17)).toBe(0b1100);
    expect(claims(sheet.state)).toContain('r1c3:3,4,5,6,7,8 ');
    expect(viewOf(sheet.state).kind).toBe('full');
    expect(liveNote(play(sheet, 'xr1c9').state, 2)).toBe(0b111111100);
    expect(play(sheet, 'fill')).toBe(sheet);
  });

  test('filling in does not write over a note, nor over a claim that has lost its last place', () => {
    const { state } = play(sheetOf(empty), 'r4c8:16 r9c9:3 r4c1=1 r4c8<>6 fill');
    expect(state.notes[34]).toBe(0b100001);
    expect(state.notes[80]).toBe(0b100);
    expect(claims(state)).toMatch(/^r4c8: /);
  });

  test('filling in claims the notes that it writes, and no mark that was pending', () => {
    const { state } = play(sheetOf(empty), '~7@c2:r3 r9c9:3 r1c1=1 fill');
    expect(pending(state)).toBe('r9c9:3 7@c2:r3');
    expect(state.claimed.size).toBe(79);
  });

  test('a sheet is full when each open cell lists something, sparse when one does not', () => {
    const full = play(sheetOf(empty), 'fill');
    expect(viewOf(full.state).kind).toBe('full');
    expect(viewOf(play(full, 'r5c5:-').state).kind).toBe('sparse');
    expect(viewOf(play(full, 'r5c5:- r5c5=1').state).kind).toBe('full');
    expect(viewOf(play(full, 'r5c5<>123456789').state).kind).toBe('full');
    expect(viewOf(sheetOf(empty).state).kind).toBe('sparse');
  });

  test('notes that come with a grid are claimed at once, lone ones too', () => {
    const notes = Array.from({ length: 81 }, (_, cell) => (cell === 1 ? 0b110 : cell === 2 ? 0b1000 : 0));
    const { state } = newSheet(plain, [1, ...Array.from({ length: 80 }, () => 0)], 'table', notes);
    expect(claims(state)).toBe('r1c2:2,3 r1c3:4');
  });
});

test('the solved grid is recognised, whatever is marked; a full one with a clash is not solved', () => {
  // A cyclic grid: each row is the one above, shifted by three, and by one more from band to band.
  const solved = Array.from({ length: 81 }, (_, cell) => {
    const row = Math.floor(cell / 9);
    return ((row % 3) * 3 + Math.floor(row / 3) + (cell % 9)) % 9;
  })
    .map((digit) => digit + 1)
    .join('');
  const sheet = sheetOf(`.${solved.slice(1)}`);
  expect(isSolved(sheet.state)).toBe(false);
  expect(isSolved(play(sheet, `r1c1=${solved[0]}`).state)).toBe(true);
  expect(isSolved(play(sheet, `r1c1<>${solved[0]} r1c1=${solved[0]}`).state)).toBe(true);
  expect(isSolved(play(sheet, `r1c1=${solved[0] === '9' ? 1 : 9}`).state)).toBe(false);
});
