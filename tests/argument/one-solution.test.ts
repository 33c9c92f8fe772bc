import { describe, expect, it } from 'vitest';
import { weightOf } from '../../source/argument/fact.ts';
import { type Argument, check, type OneSolutionToken, type Verdict } from '../../source/argument/kernel.ts';
import { mintToken } from '../../source/exact/token.ts';
import { candidateOf, plain } from '../../source/grid/layout.ts';
import { parseCell } from '../../source/grid/names.ts';
import { Position } from '../../source/grid/position.ts';
import { satSolutions } from '../judges/sat.ts';
import { boardOf, close, singlesAndLocked } from '../techniques/closure.ts';

/** Lines 3, 89, 7 and 25 of random-minimal-2000 (published set, own construction), one solution each. */
const two = '2...9...6691......3..7......2............5.811..2.8.3.....7...9.......65..5.83...';
const four = '6....1..9.3...8..51..5...38...9.32.........5.7.8...4....4....7..9..4......72.9...';
const others = [
  '..6...4.3..1.3......4..75..2.7....91.5...92..3...1...4....6......59.8....8.7...4.',
  '.6...5...9..13..4...4.2......93.1..63.7....92..........4......9....8.37..2.61..5.',
];

const givensOf = (line: string): number[] => Array.from(line, (sign) => Number(sign) || 0);
const tokenOf = (line: string): OneSolutionToken => {
  const token = mintToken(plain, givensOf(line));
  if (!token) throw new Error(`no token for ${line}`);
  return token;
};
/** Vouches for anything: the kernel's own conditions are what is tested with it. */
const blind = { vouchesFor: () => true } as unknown as OneSolutionToken;

const place = (cell: string, digit: number): number =>
  candidateOf(plain, parseCell(plain, cell) ?? -1, digit);
const pattern = (cells: string, digits: readonly number[]): number[] =>
  cells.split(' ').flatMap((cell) => digits.map((digit) => place(cell, digit)));
const argue = (
  deadly: readonly number[],
  strikes: readonly number[],
  facts: readonly number[] = [],
): Argument => ({
  technique: 'unique-rectangle',
  facts,
  conclusions: { kind: 'strikes', candidates: strikes },
  assumes: 'one-solution',
  pattern: deadly,
});
const answer = (verdict: Verdict): string =>
  verdict.verdict === 'refused' ? verdict.reason : verdict.verdict;

describe('an argument that assumes one solution', () => {
  /** After singles and locked candidates three of the cells are 4 or 6, and r5c2 is 3, 4, 6 or 7. */
  const position = close(boardOf(two), singlesAndLocked).toPosition();
  const rectangle = pattern('r5c2 r5c5 r6c2 r6c5', [4, 6]);
  const strikes = [place('r5c2', 4), place('r5c2', 6)];
  const cells = ['r5c5', 'r6c2', 'r6c5'].map((cell) => parseCell(plain, cell) ?? -1);

  it('holds with the token of its puzzle, and is true', () => {
    expect(check(position, argue(rectangle, strikes), tokenOf(two)).verdict).toBe('holds');
    expect(check(position, argue(rectangle, strikes, cells), tokenOf(two)).verdict).toBe('holds');
    const [solution] = satSolutions(position, 2);
    expect([4, 6]).not.toContain(solution[parseCell(plain, 'r5c2') ?? -1]);
  });

  it('counts the axiom and the four cells it leans on', () => {
    expect(weightOf(plain, argue(rectangle, strikes))).toBe(5);
    expect(weightOf(plain, argue(rectangle, strikes, cells))).toBe(5);
    expect(weightOf(plain, argue(rectangle, strikes, [...cells, 80]))).toBe(6);
  });

  it('is refused without a token, with that of another puzzle, and with no pattern', () => {
    for (const token of [undefined, tokenOf(four)]) {
      expect(answer(check(position, argue(rectangle, strikes), token))).toBe('not-one-solution');
    }
    expect(answer(check(position, argue([], strikes), tokenOf(two)))).toBe('not-one-solution');
    const bare: Argument = { ...argue([], strikes) };
    Reflect.deleteProperty(bare, 'pattern');
    expect(answer(check(position, bare, tokenOf(two)))).toBe('not-one-solution');
  });

  it('gets no token where the puzzle has several solutions or none', () => {
    const loose = two.replace('2', '.');
    expect(satSolutions(Position.from(plain, givensOf(loose)), 2)).toHaveLength(2);
    expect(mintToken(plain, givensOf(loose))).toBeNull();
    expect(mintToken(plain, givensOf(two.replace('2', '9')))).toBeNull();
  });

  it('is refused where a cell of the pattern is given, also where it could be a placed digit', () => {
    const givens = givensOf(two);
    const corner = parseCell(plain, 'r5c5') ?? -1;
    const withGiven = Position.from(plain, givens.with(corner, 4));
    const withInk = Position.from(plain, givens, givens.with(corner, 4));
    expect(answer(check(withGiven, argue(rectangle, strikes), blind))).toBe('not-one-solution');
    expect(answer(check(withInk, argue(rectangle, [place('r6c2', 4)]), blind))).toBe('open');
  });

  it('is refused where the pattern is not deadly', () => {
    const free = Position.from(plain, new Array(81).fill(0));
    const x = [place('r9c9', 1)];
    const deadly = (candidates: readonly number[]) =>
      answer(check(free, argue(candidates, x), blind)) !== 'not-one-solution';
    expect(deadly(rectangle)).toBe(true);
    // Four boxes: another digit may stand in each of them.
    expect(deadly(pattern('r1c1 r1c4 r4c1 r4c4', [1, 2]))).toBe(false);
    expect(deadly(pattern('r1c1 r1c2 r2c1 r2c2', [1, 2]))).toBe(false);
    expect(deadly(rectangle.slice(0, 6))).toBe(false);
    expect(deadly(rectangle.slice(1))).toBe(false);
    expect(deadly([...rectangle.slice(0, 7), place('r6c5', 9)])).toBe(false);
    expect(deadly([...rectangle, place('r5c2', 9)])).toBe(false);
    // Six cells, three digits, two of them in each column: every digit twice in each house that has it.
    const six = [
      ...pattern('r1c1 r2c1', [1, 2]),
      ...pattern('r1c4 r2c4', [2, 3]),
      ...pattern('r1c7 r2c7', [3, 1]),
    ];
    expect(deadly(six)).toBe(true);
    expect(deadly([...six.slice(0, 11), place('r2c7', 2)])).toBe(false);
  });

  it('is refused for a rectangle over four boxes with the token of its puzzle', () => {
    const board = close(boardOf(four), singlesAndLocked);
    const spread = pattern('r4c3 r4c8 r8c3 r8c8', [1, 6]);
    expect(spread.every((candidate) => board.live[candidate] === 1)).toBe(true);
    const verdict = check(board.toPosition(), argue(spread, [place('r8c8', 1)]), tokenOf(four));
    expect(answer(verdict)).toBe('not-one-solution');
  });

  it('says nothing false: every rectangle that the kernel takes holds another digit in the solution', () => {
    let taken = 0;
    for (const line of [two, four, ...others]) {
      const start = Position.from(plain, givensOf(line));
      const token = tokenOf(line);
      const [solution] = satSolutions(start, 2);
      for (let a = 0; a < 81; a += 1) {
        for (let b = a + 1; b < 81; b += 1) {
          const [top, left, bottom, right] = [Math.floor(a / 9), a % 9, Math.floor(b / 9), b % 9];
          if (bottom === top || right <= left) continue;
          const corners = [a, top * 9 + right, bottom * 9 + left, b];
          const digits = [solution[a], solution[top * 9 + right]];
          const deadly = corners.flatMap((cell) => digits.map((digit) => candidateOf(plain, cell, digit)));
          const [x] = start.candidates;
          if (answer(check(start, argue(deadly, [x]), token)) === 'not-one-solution') continue;
          taken += 1;
          expect(corners.some((cell) => !digits.includes(solution[cell]))).toBe(true);
        }
      }
    }
    expect(taken).toBeGreaterThan(100);
  });
});
