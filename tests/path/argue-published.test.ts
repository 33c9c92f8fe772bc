import { describe, expect, test } from 'vitest';
import { plain } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';
import { take } from '../../source/path/next.ts';
import { expectHolds, factNames } from './argue-notation.ts';
import { sourcedGrids } from './grids.ts';

const digits = (line: string): number[] => Array.from(line, (sign) => Number(sign) || 0);

/**
 * The first worked example of J. F. Crook, A Pencil-and-Paper Algorithm for Solving Sudoku Puzzles, Notices of
 * the AMS 56(4), April 2009, pp. 462-464, step by step, with the facts that he names for each: what it strikes
 * or places, then the name of the pattern.
 */
const crookSteps: readonly (readonly [text: string, technique: string])[] = [
  ['r2c3=1 by 1@b1', 'hidden-single'],
  ['r2c6=9 by 9@b2', 'hidden-single'],
  ['r1c8<>12 r2c7<>6 r3c8<>2 by r1c7 r1c9 r2c9', 'naked-triple'],
  ['r1c8=8 by r1c8', 'naked-single'],
  ['r5c9=7 by 7@c9', 'hidden-single'],
  ['r4c7=5 by r4c7', 'naked-single'],
  ['r2c7=3 by r2c7', 'naked-single'],
  ['r3c8=5 by r3c8', 'naked-single'],
  ['r5c4<>236 r6c4<>23 by r3c4 r8c4 r9c4', 'naked-triple'],
  ['r5c3<>28 r8c3<>28 r9c3<>2 by r3c3 r4c3', 'naked-pair'],
  ['r8c1<>34 r9c1<>3459 r9c2<>459 by r7c1 r7c2 r8c3 r9c3', 'naked-quad'],
  ['r8c4<>3 r8c6<>34 r8c7<>4 by r8c3 r8c8', 'naked-pair'],
  ['r9c4<>2 r9c5<>2 r9c7<>7 by r9c1 r9c2', 'naked-pair'],
  ['r8c1<>2 r8c7<>6 r9c4<>6 r9c5<>6 by r8c4 r8c6', 'naked-pair'],
  ['r8c7=7 by r8c7', 'naked-single'],
  ['r8c1=8 by r8c1', 'naked-single'],
  ['r9c4=3 by r9c4', 'naked-single'],
];

describe("Crook's worked example", () => {
  test('every step holds on the facts that he gives, all of them needed, and goes by his name', () => {
    let position = Position.from(plain, digits(sourcedGrids[1]));
    for (const [text, technique] of crookSteps) {
      const { checked, notNeeded, alreadyStruck } = expectHolds(position, text);
      expect([text, checked.argument.technique]).toEqual([text, technique]);
      expect([text, factNames(notNeeded), alreadyStruck]).toEqual([text, '', []]);
      position = take(position, checked);
    }
  });

  test('his footnote: the naked quad of column 9 is the other side of its hidden single', () => {
    let position = Position.from(plain, digits(sourcedGrids[1]));
    for (const [text] of crookSteps.slice(0, 4))
      position = take(position, expectHolds(position, text).checked);
    const quad = expectHolds(position, 'r5c9<>1 r5c9<>2 r5c9<>9 by r1c9 r2c9 r6c9 r7c9');
    expect(quad.checked.argument.technique).toBe('naked-quad');
    // By the one fact of its other side the same strikes follow, and one fact is enough.
    const single = expectHolds(position, 'r5c9<>1 r5c9<>2 r5c9<>9 by r1c9 r2c9 r6c9 r7c9 7@c9');
    expect(factNames(single.needed)).toBe('7@c9');
  });
});
