import { describe, expect, test } from 'vitest';
import { maskOf } from '../../source/grid/candidates.ts';
import { plain } from '../../source/grid/layout.ts';
import { sayEvent } from '../../source/sheet/say.ts';
import { redo, reduce, undo } from '../../source/sheet/sheet.ts';
import type { SheetEvent } from '../../source/sheet/state.ts';
import { crook, sheetOf } from './fixture.ts';

const notes = (digit: number, ...cells: number[]): SheetEvent => ({
  kind: 'several',
  events: cells.map((cell) => ({ kind: 'note', cell, digits: maskOf(digit) })),
});

describe('several events as one step', () => {
  // Open cells of the first row that can take 5.
  const start = sheetOf(crook);
  const event = notes(3, 0, 1, 4);

  test('come to what they come to one by one, marks claimed and all', () => {
    const at = event.kind === 'several' ? event.events : [];
    const oneByOne = at.reduce(reduce, start);
    const atOnce = reduce(start, event);
    expect(atOnce.state).toEqual(oneByOne.state);
    expect(atOnce.past).toHaveLength(1);
    expect(undo(atOnce).state).toBe(start.state);
    expect(redo(undo(atOnce)).state).toEqual(atOnce.state);
  });

  test('that change nothing are no step', () => {
    expect(reduce(start, { kind: 'several', events: [] })).toBe(start);
    expect(reduce(start, notes(1, 2))).toBe(start);
  });

  test('are said one by one while they are few', () => {
    expect(sayEvent(plain, notes(3, 0, 1))).toBe('note r1c1 3, note r1c2 3');
    expect(sayEvent(plain, notes(3, 0, 1, 3, 4))).toBe('4 changes at once');
  });
});
