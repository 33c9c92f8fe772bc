import { describe, expect, test } from 'vitest';
import { decide } from '../../source/exact/solve.ts';
import { candidateOf, cellOf, plain } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';
import { flawNumber, flawsOf } from '../../source/sheet/flaws.ts';
import { isRight, lookOver } from '../../source/sheet/look-over.ts';
import {
  isSolved,
  liveMarks,
  liveNote,
  liveTags,
  pendingFacts,
  positionOf,
} from '../../source/sheet/marks.ts';
import { originsOf } from '../../source/sheet/origins.ts';
import { sayEvent } from '../../source/sheet/say.ts';
import { reduce } from '../../source/sheet/sheet.ts';
import { singlesOf } from '../../source/sheet/singles.ts';
import { slipsOf } from '../../source/sheet/slips.ts';
import type { SheetEvent } from '../../source/sheet/state.ts';
import { claimsOf, viewOf } from '../../source/sheet/view.ts';
import { coverSolutions } from '../judges/exact-cover.ts';
import { crook, empty, play, sheetOf } from './fixture.ts';

const blank = sheetOf(empty);
const rowOneStrikes = (digit: number, but: number): SheetEvent => ({
  kind: 'take',
  placements: [],
  strikes: Array.from({ length: 9 }, (_, cell) => candidateOf(plain, cell, digit)).filter(
    (_, cell) => cell !== but,
  ),
});

describe('what is wrong on a state', () => {
  test.each([
    ['a clash', 'r7c4=4 r7c8=4', { kind: 'twice', fact: 81 + 6 * 9 + 3, cells: [57, 61], byMarks: false }],
    ['ink that is struck', 'r4c7<>3 r4c7=3', { kind: 'no-digit', fact: 33, cells: [33], byMarks: false }],
    [
      'a cell emptied by strikes',
      'r9c9<>1234 r9c9<>56789',
      { kind: 'no-digit', fact: 80, cells: [80], byMarks: false },
    ],
    [
      'a claim that is gone',
      'r4c8:16 r4c8=5',
      { kind: 'empty-claim', fact: 34, cells: [34], byMarks: false },
    ],
  ])('%s, as data', (_, moves, flaw) => {
    expect(flawsOf(play(blank, moves).state)).toContainEqual(flaw);
  });

  test('the first house and digit are a house and a digit: row 1 without its 1', () => {
    const sheet = reduce(blank, rowOneStrikes(1, -1));
    expect(flawsOf(sheet.state)).toEqual([{ kind: 'no-place', fact: 81, cells: [], byMarks: false }]);
    expect(slipsOf(sheet)).toMatchObject([
      { kind: 'no-place', house: 0, digit: 1, text: 'Row 1 has no place for 1.' },
    ]);
  });

  test('marks in hand are no claims unless one asks', () => {
    const { state } = play(blank, '7@c2:r3,r8');
    expect(claimsOf(state)).toEqual([]);
    expect(claimsOf(state, { asking: true })).toHaveLength(1);
    expect(viewOf(state).claims).toHaveLength(1);
    expect(viewOf(state, { asking: false }).claims).toEqual([]);
  });

  test('what is not wrong has no move to take back', () => {
    const sheet = play(blank, 'r1c1=1 r1c2=1 r9c9=2');
    expect(originsOf(sheet)(flawNumber(plain, 'twice', 81))).toBe(1);
    expect(originsOf(sheet)(flawNumber(plain, 'twice', 82))).toBeNull();
    expect(originsOf(blank)(0)).toBeNull();
  });
});

describe('which marks are blamed', () => {
  test('none whose places have all gone, though it would leave out more than those that stand', () => {
    const moves = '7@c2:r3,r8 r3c9=7 r8c5=7 r5c2<>1234 r5c2<>569 7@r5:c4,c6 8@r5:c4,c6 r9c9=9';
    expect(slipsOf(play(blank, moves)).map(({ text }) => text)).toEqual([
      '7 of column 2 was marked in r3 and r8; both are gone.',
      'r5c2 has nothing left, with 7@r5 and 8@r5 as marked.',
    ]);
  });

  test('none that is not needed, also where digits have taken some of the places', () => {
    const moves = 'r5c5<>89 1@r5:c1,c2 1@c5:r1,r2 2@r5:c1,c2 9@r9:c1,c2 r5c5:12 r9c9=8';
    expect(slipsOf(play(blank, moves)).map(({ text }) => text)).toEqual([
      'r5c5 has nothing left, with 1@r5, 2@r5 and r5c5 as marked.',
    ]);
  });
});

describe('what is shown of marks', () => {
  test('nothing in a placed cell, not even of the digit that stands there', () => {
    const tagged = reduce(play(blank, 'r4c8:16'), {
      kind: 'tag',
      candidate: candidateOf(plain, 34, 6),
      tag: 't',
    });
    expect([liveMarks(tagged.state, 34).length, liveTags(tagged.state).size]).toEqual([2, 1]);
    const { state } = play(tagged, 'r4c8=6');
    expect([liveMarks(state, 34), liveTags(state).size, liveNote(state, 34)]).toEqual([[], 0, 0]);
  });

  test('is told from one position, worked out once for a state', () => {
    const { state } = play(blank, 'r4c8:16 r1c1=1');
    expect(positionOf(state)).toBe(positionOf(state));
    expect(positionOf(blank.state)).not.toBe(positionOf(state));
  });

  test('pending facts come in their own order, whichever was written first', () => {
    const { state } = play(blank, '~9@c9:r1 ~1@r1:c1 ~r9c9:3 ~r1c1:3');
    expect(pendingFacts(state)).toEqual([0, 80, 81, 81 + 17 * 9 + 8]);
    expect(isSolved(state)).toBe(false);
  });

  test('remarks on the first house fact are those of a house', () => {
    const { state } = play(blank, '1@r1:c1,c2 r9c9=9 ~2@r1:c3');
    expect(lookOver(state).map(({ text }) => text)).toEqual([
      '1 of row 1 could also go in c3, c4, c5, c6, c7, c8 or c9.',
      '2 of row 1 is marked in c3 alone.',
    ]);
  });
});

describe('singles', () => {
  test('come in the order of candidates, however they are found', () => {
    const sheet = [rowOneStrikes(1, 8), rowOneStrikes(9, 0)].reduce(reduce, blank);
    expect(singlesOf(sheet.state)).toEqual([candidateOf(plain, 0, 9), candidateOf(plain, 8, 1)]);
  });
});

describe('am I right so far, with little time', () => {
  const budget = { nodes: 0 };
  // A grid that the exact solver does not decide without a guess.
  const hard = '2...9...6691......3..7......2............5.811..2.8.3.....7...9.......65..5.83...';
  const [hardSolution] = coverSolutions(positionOf(sheetOf(hard).state), 2);
  const ink = (digits: readonly number[], givens: string): SheetEvent => ({
    kind: 'ink-all',
    candidates: digits.flatMap((digit, cell) =>
      givens[cell] === '.' ? [candidateOf(plain, cell, digit)] : [],
    ),
  });

  test('nothing is said of a sheet while the puzzle itself is not decided', () => {
    expect(decide(Position.from(plain, sheetOf(hard).state.givens), budget).verdict).toBe('undecided');
    const full = reduce(sheetOf(hard), ink([...hardSolution], hard));
    const wrong = play(sheetOf(hard), 'r1c2=2');
    expect([isRight(full.state, budget), isRight(wrong.state, budget)]).toEqual(['undecided', 'undecided']);
    expect([isRight(full.state), isRight(wrong.state)]).toEqual(['right', 'wrong']);
  });
});

describe('am I right so far, where the puzzle is easier to decide than the sheet', () => {
  test('nothing is said of the sheet', () => {
    // Crook's grid without its last 7: it has several solutions, and they are found soon.
    const line = `${crook.slice(0, 72)}.${crook.slice(73)}`;
    const puzzle = sheetOf(line);
    const verdictOf = (sheet: typeof puzzle, nodes: number) =>
      decide(positionOf(sheet.state), { nodes }).verdict;
    let nodes = 0;
    while (verdictOf(puzzle, nodes) === 'undecided') nodes += 1;
    const inked = [...positionOf(puzzle.state).candidates]
      .filter((candidate) => line[cellOf(plain, candidate)] === '.')
      .map((candidate) => reduce(puzzle, { kind: 'ink-all', candidates: [candidate] }))
      .filter((sheet) => verdictOf(sheet, nodes) === 'undecided');
    expect(inked.length, `with ${nodes} nodes`).toBeGreaterThan(0);
    for (const { state } of inked) expect(isRight(state, { nodes })).toBe('undecided');
    expect(isRight(puzzle.state, { nodes })).toBe('can-be-completed');
  });
});

describe('what moves are called', () => {
  test.each<[SheetEvent, string]>([
    [{ kind: 'set-note', cell: 34, digits: 0 }, 'no note r4c8'],
    [{ kind: 'set-note', cell: 34, digits: 5 }, 'note r4c8 1 3'],
    [
      { kind: 'take', placements: [0, 10, 20], strikes: [30, 40, 50] },
      'r1c1=1 r1c2=2 r1c3=3, r1c4<>4 r1c5<>5 r1c6<>6',
    ],
    [{ kind: 'take', placements: [], strikes: [30] }, 'r1c4<>4'],
    [{ kind: 'take', placements: [0], strikes: [] }, 'r1c1=1'],
    [{ kind: 'take', placements: [0, 10, 20, 30], strikes: [40, 50, 60, 70] }, '4 placements, 4 strikes'],
    [{ kind: 'ink-all', candidates: [0, 10, 20] }, 'r1c1=1 r1c2=2 r1c3=3'],
    [{ kind: 'strike', candidates: [0, 10, 20] }, 'r1c1<>1 r1c2<>2 r1c3<>3'],
    [
      { kind: 'several', events: [{ kind: 'fill' }, { kind: 'lock' }, { kind: 'restart' }] },
      'all candidates, locking the givens, restart',
    ],
  ])('%j is called %s', (event, words) => {
    expect(sayEvent(plain, event)).toBe(words);
  });
});
