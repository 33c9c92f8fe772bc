import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { digitsIn } from '../../source/grid/candidates.ts';
import type { Position } from '../../source/grid/position.ts';
import { tellStep } from '../../source/hint/path-words.ts';
import { instancesOf } from '../../source/path/find.ts';
import { take } from '../../source/path/next.ts';
import { techniqueById } from '../../source/techniques/catalogue.ts';
import { hasPublished, publishedFolder, publishedNote } from '../published.ts';
import { expectHolds, factNames } from './argue-notation.ts';
import { positionOf } from './grids.ts';

/** One grid of crook-states.json: COMP9021 (UNSW) 2017, assignment 2, built on Crook, Notices of the AMS 56(4), 2009. */
interface States {
  readonly n: number;
  readonly grid: string;
  /** After box hidden singles, seen by the digits on the grid alone, as long as there are any. */
  readonly forced: string;
  /** The digits that each cell can have, then those left when naked sets of any size have struck all they can. */
  readonly marked: readonly string[];
  readonly worked: readonly string[];
}

const grids: readonly States[] = hasPublished
  ? JSON.parse(readFileSync(`${publishedFolder}/crook-states.json`, 'utf8'))
  : [];

const marksOf = ({ candidates }: Position): string[] =>
  Array.from({ length: 81 }, (_, cell) => digitsIn(candidates.digitsAt(cell)).join(''));
const lineOf = ({ placed }: Position): string =>
  Array.from(placed, (digit) => (digit === 0 ? '.' : digit)).join('');

/** The first instance of the techniques in turn, argued as it stands: it holds, and is taken. */
function nextBy(
  position: Position,
  ids: readonly string[],
  fact: (name: string) => boolean,
): Position | null {
  for (const id of ids) {
    const technique = techniqueById(id);
    for (const { finding } of technique ? instancesOf(position, technique) : []) {
      if (!fact(factNames(finding.facts))) continue;
      const { checked, parts } = expectHolds(position, finding);
      if (parts.length === 1 && checked.argument.facts.length === finding.facts.length) {
        expect(checked.argument.technique).toBe(id);
      }
      expect(tellStep(checked).prose.join('')).not.toBe('');
      return take(position, checked);
    }
  }
  return null;
}

/** Naked sets of five to eight cells are hidden sets of the digits that they leave. */
const sets = ['naked-single', 'naked-pair', 'naked-triple', 'naked-quad'].concat([
  'full-house',
  'hidden-single',
  'hidden-pair',
  'hidden-triple',
  'hidden-quad',
]);

describe.skipIf(!hasPublished)(`the two grids of the assignment, step by step${publishedNote}`, () => {
  test('there are two', () => {
    expect(grids.map(({ n }) => n)).toEqual([3, 4]);
  });

  test.each(grids)('grid $n', ({ grid, forced, marked, worked }) => {
    let position = positionOf(grid);
    let steps = 0;
    const goOn = (ids: readonly string[], fact: (name: string) => boolean) => {
      for (let next = nextBy(position, ids, fact); next; next = nextBy(position, ids, fact)) {
        position = next;
        steps += 1;
      }
    };
    goOn(['full-house', 'hidden-single'], (name) => /^\d@b\d$/.test(name));
    expect(lineOf(position)).toBe(forced);
    expect(marksOf(position)).toEqual(marked);
    const before = steps;
    goOn(sets, () => true);
    expect(marksOf(position)).toEqual(worked);
    expect([steps > 0, steps > before]).toEqual([true, marked.join() !== worked.join()]);
  });
});
