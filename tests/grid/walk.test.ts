import { describe, expect, test } from 'vitest';
import {
  type Candidate,
  cellOf,
  digitOf,
  makeLayout,
  plain,
  rectangularBoxes,
} from '../../source/grid/layout.ts';
import { Position, Walk } from '../../source/grid/position.ts';
import { Random } from '../random.ts';

const seed = 5;

/** What is told apart of two positions: everything that they say of themselves. */
const told = ({ givens, placed, candidates, isSolved }: Position) => ({
  givens: [...givens],
  placed: [...placed],
  candidates: [...candidates],
  masks: [...candidates.toMasks()],
  size: candidates.size,
  isSolved,
});

describe(`a walk, seed ${seed}`, () => {
  const six = makeLayout({ name: 'six', size: 6, boxOf: rectangularBoxes(2, 3) });
  test.each([plain, six])('stands where place and strike of a position lead, on $name', (layout) => {
    const random = new Random(seed);
    for (let round = 0; round < 20; round += 1) {
      let here = Position.from(layout, new Uint8Array(layout.cellCount));
      const walk = new Walk(here);
      const pairs: [Position, Position][] = [];
      for (let step = 0; step < 40; step += 1) {
        const open: Candidate[] = [...here.candidates];
        if (open.length === 0) break;
        if (random.below(3) === 0) {
          const candidate = random.pick(open);
          const [cell, digit] = [cellOf(layout, candidate), digitOf(layout, candidate)];
          here = here.place(cell, digit);
          walk.place(cell, digit);
        } else {
          const struck = Array.from({ length: 1 + random.below(4) }, () => random.pick(open));
          here = here.strike(struck);
          walk.strike(struck);
        }
        pairs.push([here, walk.position]);
        // Some are looked at while the walk stands in them, others only after it has gone on.
        if (random.below(2) === 0) expect(told(walk.position)).toEqual(told(here));
        expect(walk.position.candidates.has(open[0])).toBe(here.candidates.has(open[0]));
      }
      for (const [expected, walked] of random.shuffle(pairs)) {
        const open = [...walked.candidates];
        expect(open.every((candidate) => walked.candidates.has(candidate))).toBe(true);
        expect(told(walked)).toEqual(told(expected));
        expect(walked.candidates.equals(expected.candidates)).toBe(true);
      }
    }
  });

  test('leaves its start and what is derived from its positions alone', () => {
    const start = Position.from(plain, new Uint8Array(81));
    const walk = new Walk(start);
    walk.place(0, 1);
    const first = walk.position;
    const branch = first.strike([20]);
    const before = told(branch);
    walk.strike([21, 22, 100]);
    walk.place(40, 5);
    expect(told(branch)).toEqual(before);
    expect(told(first)).toEqual(told(start.place(0, 1)));
    expect(told(start)).toEqual(told(Position.from(plain, new Uint8Array(81))));
    expect(walk.position).toBe(walk.position);
  });
});
