import { expect, test } from 'vitest';
import { mintToken } from '../../source/exact/token.ts';
import { makeLayout, plain, rectangularBoxes } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';
import { diagonal, digitsOf } from './grids.ts';

/** P. Norvig, Solving Any Sudoku Puzzle (repository norvig/pytudes), grid 1. */
const one = digitsOf('53..7....6..195....98....6.8...6...34..8.3..17...2...6.6....28....419..5....8..79');

test('a token is minted for one solution only', () => {
  expect(mintToken(plain, one)).not.toBeNull();
  const fewer = one.slice();
  for (let cell = 0; cell < 40; cell += 1) fewer[cell] = 0;
  expect(mintToken(plain, fewer)).toBeNull();
  const clash = one.slice();
  clash[2] = 5;
  expect(mintToken(plain, clash)).toBeNull();
});

test('it vouches for the givens, whatever was placed or struck since, and for no other givens', () => {
  const token = mintToken(plain, one);
  if (!token) throw new Error('no token');
  const start = Position.from(plain, one);
  expect(token.vouchesFor(start)).toBe(true);
  expect(token.vouchesFor(start.place(40, 5).strike([2]))).toBe(true);
  const changed = one.slice();
  changed[0] = 0;
  // The digit is there as ink, but not as a given.
  expect(token.vouchesFor(Position.from(plain, changed, one))).toBe(false);
  expect(token.vouchesFor(Position.from(plain, changed))).toBe(false);
});

test('it tells layouts apart by their houses, not by identity', () => {
  const token = mintToken(plain, one);
  if (!token) throw new Error('no token');
  const twin = makeLayout({ name: 'twin', size: 9, boxOf: rectangularBoxes(3, 3) });
  expect(token.vouchesFor(Position.from(twin, one))).toBe(true);
  expect(token.vouchesFor(Position.from(diagonal, one))).toBe(false);
});

test('later changes to the array of givens do not change what a token vouches for', () => {
  const givens = one.slice();
  const token = mintToken(plain, givens);
  if (!token) throw new Error('no token');
  givens[0] = 0;
  expect(token.vouchesFor(Position.from(plain, one))).toBe(true);
});
