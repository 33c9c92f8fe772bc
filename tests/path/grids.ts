import { plain } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';

/**
 * Grids with their sources: P. Norvig, Solving Every Sudoku Puzzle (2006), grid2; J. F. Crook, Notices of the
 * AMS 56(4), 2009, first worked example and Figure 2; SageMath reference doctests (R. Beezer, T. Boothby).
 */
export const sourcedGrids = [
  '4.....8.5.3..........7......2.....6.....8.4......1.......6.3.7.5..2.....1.4......',
  '.395........8...7.....1.9.41..4....3...........7...86...67.82...1..9...5.....1..8',
  '..19....86...85.3...7.6.1...34.9.......5.4.......1.42...5.7.9...1.84...77....92..',
  '1....7.9..3..2...8..96..5....53..9...1..8...26....4...3......1..4......7..7...3..',
] as const;

/** The position of a line of 81 characters, dots for open cells. */
export const positionOf = (line: string): Position =>
  Position.from(
    plain,
    [...line].map((sign) => (sign === '.' ? 0 : Number(sign))),
  );

/** A seeded generator of numbers from 0 up to, not including, 1 (mulberry32; public domain, from memory). */
export function seededRandom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}
