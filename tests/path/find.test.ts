import { describe, expect, test } from 'vitest';
import type { Candidate } from '../../source/grid/layout.ts';
import type { Position } from '../../source/grid/position.ts';
import { findOnSheet } from '../../source/hint/find.ts';
import { type Instance, instancesOf } from '../../source/path/find.ts';
import { Board } from '../../source/techniques/board.ts';
import { catalogue } from '../../source/techniques/catalogue.ts';
import { closeUnder } from '../../source/techniques/fact-search.ts';
import { judge } from '../judges/arguments.ts';
import { Random } from '../random.ts';
import { scene } from '../techniques/notation.ts';
import { slowFactSearch } from '../techniques/slow-fact-search.ts';
import { claimOf } from './argue-notation.ts';
import { positionOf, sourcedGrids } from './grids.ts';

const seed = 81;
console.log(`seed ${seed}`);

const light = catalogue.filter(({ assumes, weight }) => assumes === 'nothing' && weight <= 3);

/** Where singles and locked candidates end, and a few candidates later. */
function positions(): Position[] {
  const random = new Random(seed);
  return sourcedGrids.flatMap((line) => {
    const board = Board.from(positionOf(line));
    closeUnder(board, 1);
    if (board.toPosition().isSolved) return [positionOf(line)];
    const steps = random.below(6);
    const later = Board.from(board.toPosition());
    for (const { candidate, kind } of closeUnder(Board.from(board.toPosition()), 3).steps.slice(0, steps)) {
      if (kind === 'strike') later.strike(candidate);
    }
    return [board.toPosition(), later.toPosition()];
  });
}

describe('what is new in an instance', () => {
  test('is what no lighter argument makes, by a slow search over all sets of facts', () => {
    let compared = 0;
    for (const position of positions()) {
      const { fewest, broken } = slowFactSearch(position, 2);
      expect(broken).toBeNull();
      for (const technique of light) {
        for (const { finding, weight, fresh } of instancesOf(position, technique)) {
          const { candidates, kind } = finding.conclusions;
          const isNew = (x: Candidate) => (fewest.get(x) ?? 3) >= weight;
          const expected = kind === 'placements' ? candidates : candidates.filter(isNew);
          expect([technique.id, fresh]).toEqual([technique.id, expected]);
          compared += candidates.length;
        }
      }
    }
    expect(compared).toBeGreaterThan(100);
  });

  test('and the whole instance holds, by the judge', () => {
    for (const position of positions()) {
      for (const technique of light) {
        for (const { finding } of instancesOf(position, technique)) {
          expect(judge(position, { ...finding, assumes: 'nothing' }), technique.id).toBe('holds');
        }
      }
    }
  });

  test('what some of its own facts make without the others is not new, however many there are', () => {
    // A jellyfish with an X-wing inside: what the X-wing strikes is none of the jellyfish's doing.
    const position = scene('1@c1:r1c1,r2c1 1@c4:r1c4,r2c4 1@c5:r5c5,r8c5 1@c8:r5c8,r8c8');
    const technique = catalogue.find(({ id }) => id === 'jellyfish');
    const found: readonly Instance[] = technique ? instancesOf(position, technique) : [];
    expect(found.length).toBe(1);
    expect(found[0].finding.conclusions.candidates).toHaveLength(20);
    expect(found[0].fresh).toEqual([]);
  });

  test('instances are those of the technique, one by one', () => {
    for (const position of positions()) {
      for (const technique of light) {
        const found = instancesOf(position, technique).map(({ finding }) => finding);
        expect(found).toEqual(technique.find(Board.from(position)));
      }
    }
  });
});

describe('on a sheet', () => {
  test('what the claims leave out counts as struck', () => {
    const position = scene('1@c9:r2c9,r5c9');
    const claims = [claimOf('1@c1: r2c1=1 r5c1=1')];
    const count = (some: typeof claims) =>
      findOnSheet({ position, claims: some, kind: 'sparse' }, 'x-wing')?.instances.length;
    expect([count([]), count(claims)]).toEqual([0, 1]);
    expect(findOnSheet({ position, claims, kind: 'sparse' }, 'x-wings')).toBeNull();
  });
});
