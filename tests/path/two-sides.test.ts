import { describe, expect, test } from 'vitest';
import { cellOf, plain } from '../../source/grid/layout.ts';
import type { Position } from '../../source/grid/position.ts';
import { sayArgued } from '../../source/hint/argue-words.ts';
import { showInstance } from '../../source/hint/find-words.ts';
import { hintFor } from '../../source/hint/ladder.ts';
import { tellStep } from '../../source/hint/path-words.ts';
import { argue } from '../../source/path/argue.ts';
import { instancesOf } from '../../source/path/find.ts';
import { take } from '../../source/path/next.ts';
import { pathOf } from '../../source/path/whole.ts';
import { Board } from '../../source/techniques/board.ts';
import { techniqueById } from '../../source/techniques/catalogue.ts';
import { hiddenSide, nakedSide, sidesOf } from '../../source/techniques/other-side.ts';
import { scene } from '../techniques/notation.ts';
import { expectHolds, factNames, stated, strikeNames } from './argue-notation.ts';
import { positionOf, sourcedGrids } from './grids.ts';
import { setsIn } from './told-twice.ts';

/** Where the steps of Crook's first example stand when he comes to his footnote 4, page 463: after r1c8=8. */
const crook = [
  'r2c3=1 by 1@b1',
  'r2c6=9 by 9@b2',
  'r1c8<>12 r2c7<>6 r3c8<>2 by r1c7 r1c9 r2c9',
  'r1c8=8 by r1c8',
].reduce(
  (position, text) => take(position, expectHolds(position, text).checked),
  positionOf(sourcedGrids[1]),
);
const quad = 'r5c9<>1 r5c9<>2 r5c9<>9 by r1c9 r2c9 r6c9 r7c9';

/**
 * J. F. Crook, A Pencil-and-Paper Algorithm for Solving Sudoku Puzzles, Notices of the AMS 56(4), April 2009,
 * footnote 4: the naked quad of column 9 and the hidden single that it leaves are the same finding.
 */
describe("Crook's footnote: a naked quad and the hidden single it leaves are one finding", () => {
  test('each is the other side of the other', () => {
    const [sides] = sidesOf(crook, stated(quad).facts);
    expect([sides.house.name, factNames(nakedSide(sides)), factNames(hiddenSide(crook, sides))]).toEqual([
      'c9',
      'r1c9 r2c9 r6c9 r7c9',
      '7@c9',
    ]);
    expect(sidesOf(crook, hiddenSide(crook, sides))).toEqual([sides]);
  });

  test('the path and the hint tell it once, from the side of one fact', () => {
    const { steps, solved } = pathOf(crook, { allNames: true });
    expect(solved).toBe(true);
    const about = steps.filter(({ argument: { conclusions } }) =>
      conclusions.kind === 'breaks' ? false : conclusions.candidates.some((x) => cellOf(plain, x) === 44),
    );
    expect(about.map(({ argument }) => [argument.technique, factNames(argument.facts)])).toEqual([
      ['hidden-single', '7@c9'],
    ]);
    for (let position: Position = crook; ; ) {
      const ladder = hintFor({ position, claims: [], kind: 'full' });
      if (ladder?.step.kind !== 'step') throw new Error('no step');
      const [{ argument }] = ladder.step.parts;
      expect(argument.technique).not.toBe('naked-quad');
      if (factNames(argument.facts) === '7@c9') break;
      position = ladder.step.parts.reduce(take, position);
    }
  });

  test('find shows the quad with nothing new in it, and says where it is told', () => {
    const technique = techniqueById('naked-quad');
    const instances = technique ? instancesOf(crook, technique) : [];
    const instance = instances.find(({ finding }) => factNames(finding.facts) === 'r1c9 r2c9 r6c9 r7c9');
    if (!instance) throw new Error('no quad');
    expect([strikeNames(instance.finding.conclusions.candidates), instance.fresh]).toEqual([
      'r5c9<>1 r5c9<>2 r5c9<>9',
      [],
    ]);
    expect(showInstance(crook, instance).does.map(({ text }) => text)).toContain(
      'The same finding from its easier side: 7@c9, one fact.',
    );
  });

  test('argue says so of the quad, and has nothing to say of the single', () => {
    const lines = (text: string) => {
      const argued = argue(crook, stated(text));
      return sayArgued(stated(text), argued).lines.map((line) => line.text);
    };
    expect(lines(quad)).toContain('The same finding from its easier side: 7@c9, one fact.');
    expect(lines('r5c9=7 by 7@c9').join(' ')).not.toContain('easier side');
  });
});

describe('a naked set and the hidden set that completes it in a house', () => {
  test('strike the same in that house, whichever side is argued, in any position', () => {
    let seen = 0;
    for (const line of sourcedGrids) {
      const heavy = pathOf(positionOf(line)).steps.filter(({ argument }) => argument.facts.length > 1);
      for (const { position } of heavy.filter((_, i) => i % 3 === 0)) {
        const board = Board.from(position);
        for (const id of [
          'naked-pair',
          'naked-triple',
          'naked-quad',
          'hidden-pair',
          'hidden-triple',
          'hidden-quad',
        ]) {
          for (const { facts, conclusions } of techniqueById(id)?.find(board) ?? []) {
            for (const sides of sidesOf(position, facts)) {
              const { house } = sides;
              const inHouse = conclusions.candidates.filter((x) => house.cells.includes(cellOf(plain, x)));
              if (inHouse.length === 0) continue;
              const strikes = { kind: 'strikes', candidates: inHouse } as const;
              for (const side of [nakedSide(sides), hiddenSide(position, sides)]) {
                expectHolds(position, { facts: side, conclusions: strikes });
              }
              seen += 1;
            }
          }
        }
      }
    }
    expect(seen).toBeGreaterThan(10);
  });

  test('is told once in a path: none of its steps strikes again in a house what its other side had struck', () => {
    let sets = 0;
    for (const line of sourcedGrids) {
      const told = setsIn(pathOf(positionOf(line), { allNames: true }).steps);
      expect(told.twice).toEqual([]);
      sets += told.sets;
    }
    expect(sets).toBeGreaterThan(10);
  });

  test('told from the side that is seen first: digits shut out of two cells fill the rest', () => {
    // Row 7 lacks 1, 3, 5, 7 and 9; 1, 5 and 9 stand in box 7. Common practice, no source.
    const position = scene('r7c3=2 r7c5=4 r7c7=6 r7c9=8 r8c1=1 r8c2=5 r9c3=9');
    const { checked } = expectHolds(position, 'r7c4<>37 r7c6<>37 r7c8<>37 by r7c1 r7c2');
    expect(checked.argument.technique).toBe('naked-pair');
    expect(tellStep(checked).prose).toEqual([
      '1, 5 and 9 are shut out of r7c1 and r7c2, so they fill the other three open cells of row 7, and nothing else fits there.',
    ]);
  });
});
