import { beforeEach, describe, expect, test, vi } from 'vitest';
import { type Change, changesBetween } from '../../source/journal/changes.ts';
import { makeBody, makeJournal, makeSnapshot, readJournal } from '../../source/journal/journal.ts';
import { Timeline } from '../../source/journal/timeline.ts';
import { redo, reduce, undo } from '../../source/sheet/sheet.ts';
import type { Sheet, SheetEvent } from '../../source/sheet/state.ts';
import { sheetOf, small } from '../sheet/fixture.ts';
import { tellSheet } from './fixture.ts';

const worked = vi.hoisted(() => ({ out: 0 }));

// Counts the moves that are worked out, and works them out.
vi.mock('../../source/sheet/sheet.ts', async (original) => {
  const sheet = await original<typeof import('../../source/sheet/sheet.ts')>();
  const apply: typeof sheet.apply = (state, event) => {
    worked.out += 1;
    return sheet.apply(state, event);
  };
  return { ...sheet, apply };
});
beforeEach(() => {
  worked.out = 0;
});

const begun = sheetOf('1...........2..3', small);
const ink = (cell: number, digit: number): SheetEvent => ({ kind: 'ink', cell, digit });
const moves = [ink(1, 2), ink(2, 3), ink(3, 4), ink(4, 3), ink(5, 4)];
const played = moves.reduce(reduce, begun);
/** The sheet after so many moves. */
const sheetAt = (count: number): Sheet => undo(played, moves.length - count);
const stateAfter = (count: number): Change => ({ kind: 'state', state: sheetAt(count).state });

const kindsOf = (timeline: Timeline): string =>
  timeline
    .shortest()
    .map((change) => (change.kind === 'undo' ? `undo ${change.steps}` : change.kind))
    .join(' ');

function timelineOf(...changes: readonly Change[]): Timeline {
  const timeline = new Timeline(begun.state);
  for (const change of changes) expect(timeline.play(change)).toBe(true);
  return timeline;
}

describe('what is worked out, and when', () => {
  test('nothing, until a state is asked for; then each move once', () => {
    const timeline = timelineOf(...moves);
    expect([worked.out, timeline.moves]).toEqual([0, 5]);
    expect(timeline.state.ink).toEqual(played.state.ink);
    expect(worked.out).toBe(5);
    expect(tellSheet(timeline.sheet)).toBe(tellSheet(played));
    expect(worked.out).toBe(5);
  });

  test('nothing of what is known: a state that is handed over, or was written down', () => {
    const timeline = new Timeline(begun.state);
    timeline.play(moves[0], { after: sheetAt(1).state });
    expect(timeline.state).toBe(sheetAt(1).state);
    timeline.play(moves[1]);
    timeline.play(stateAfter(2));
    expect(timeline.state.spots).toBe(sheetAt(2).state.spots);
    expect(timeline.state).toEqual(sheetAt(2).state);
    expect(worked.out).toBe(0);
    timeline.play(moves[2]);
    expect(timeline.state).toEqual(sheetAt(3).state);
    expect(worked.out).toBe(1);
  });

  test('of a journal what comes after its last written state; what is before, when somebody undoes that far', () => {
    const changes = [...moves.slice(0, 2), stateAfter(2), ...moves.slice(2, 4), stateAfter(4), moves[4]];
    const bodies = makeSnapshot(new Timeline(begun.state), begun.state.name);
    const { text } = makeJournal([...bodies, ...changes.map(makeBody)]);
    worked.out = 0;
    const read = readJournal(text);
    if (!read.ok) throw new Error(read.error.message);
    expect(worked.out).toBe(1);
    const { timeline } = read.value;
    expect(timeline.state.ink).toEqual(played.state.ink);
    timeline.play({ kind: 'undo', steps: 1 });
    timeline.state;
    expect(worked.out).toBe(1);
    timeline.play({ kind: 'undo', steps: 1 });
    expect(timeline.state.ink).toEqual(sheetAt(3).state.ink);
    expect(worked.out).toBe(2);
    expect(tellSheet(timeline.sheet)).toBe(tellSheet(undo(played, 2)));
    expect(worked.out).toBe(3);
  });

  test('a move that changes nothing is found out where it is looked for', () => {
    const timeline = timelineOf(moves[0]);
    expect(timeline.play(moves[0], { check: true })).toBe(false);
    expect(timeline.moves).toBe(1);
    expect(timeline.play(moves[1], { check: true })).toBe(true);
    expect(timeline.moves).toBe(2);
  });
});

describe('the shortest way to where it stands', () => {
  test('has each move once and the state of now', () => {
    expect(kindsOf(timelineOf())).toBe('');
    expect(kindsOf(timelineOf(...moves.slice(0, 3)))).toBe('ink ink ink state');
    expect(kindsOf(timelineOf(moves[0], moves[1], { kind: 'undo', steps: 1 }, moves[1]))).toBe(
      'ink ink state',
    );
  });

  test('has the states that were written down, the one of now only once and last', () => {
    const written = [moves[0], moves[1], stateAfter(2), moves[2]];
    expect(kindsOf(timelineOf(...written))).toBe('ink ink state ink state');
    expect(kindsOf(timelineOf(...written, stateAfter(3)))).toBe('ink ink state ink state');
    expect(kindsOf(timelineOf(...written, stateAfter(3), moves[3]))).toBe(
      'ink ink state ink state ink state',
    );
  });

  test('has what can be redone, and goes back over it', () => {
    const back = (steps: number): Change => ({ kind: 'undo', steps });
    expect(kindsOf(timelineOf(...moves, back(2)))).toBe('ink ink ink ink ink undo 2 state');
    expect(kindsOf(timelineOf(moves[0], moves[1], stateAfter(2), moves[2], back(1)))).toBe(
      'ink ink ink undo 1 state',
    );
    expect(kindsOf(timelineOf(moves[0], moves[1], stateAfter(2), moves[2], back(2)))).toBe(
      'ink ink state ink undo 2 state',
    );
    // Back at the beginning, the opening says what is there.
    expect(kindsOf(timelineOf(moves[0], moves[1], back(2)))).toBe('ink ink undo 2');
  });

  test('begins where everything began, however far it was undone', () => {
    const timeline = timelineOf(...moves);
    for (let left = moves.length; left >= 0; left -= 1) {
      expect(timeline.beginning).toBe(begun.state);
      if (left > 0) expect(timeline.play({ kind: 'undo', steps: 1 })).toBe(true);
    }
    expect(timeline.play({ kind: 'undo', steps: 1 })).toBe(false);
    expect(timeline.play({ kind: 'redo', steps: 6 })).toBe(false);
    expect(timeline.moves).toBe(0);
    expect(timeline.play({ kind: 'redo', steps: 5 })).toBe(true);
    expect(timeline.moves).toBe(5);
  });
});

describe('what leads from one sheet to another', () => {
  const other = ink(6, 1);

  test('that can be reached through the history, is a step through it', () => {
    expect(changesBetween(sheetAt(4), sheetAt(2))).toEqual([{ kind: 'undo', steps: 2 }]);
    expect(changesBetween(sheetAt(2), sheetAt(4))).toEqual([{ kind: 'redo', steps: 2 }]);
    expect(changesBetween(sheetAt(2), sheetAt(3))).toEqual([{ kind: 'redo', steps: 1 }]);
    expect(changesBetween(sheetAt(3), sheetAt(3))).toEqual([]);
    expect(changesBetween(sheetAt(3), redo(undo(sheetAt(3), 2), 2))).toEqual([]);
    expect(changesBetween(sheetAt(2), redo(sheetAt(2), 9))).toEqual([{ kind: 'redo', steps: 3 }]);
  });

  test('that goes on from an earlier point is a step back and the new moves', () => {
    expect(changesBetween(sheetAt(4), reduce(sheetAt(2), other))).toEqual([
      { kind: 'undo', steps: 2 },
      other,
    ]);
  });

  test('with other moves to redo has these done and taken back', () => {
    // As many moves can be redone on both, though others.
    const branch = undo(reduce(sheetAt(4), other));
    expect(changesBetween(sheetAt(4), branch)).toEqual([other, { kind: 'undo', steps: 1 }]);
    expect(branch.future).toHaveLength(sheetAt(4).future.length);
    for (const [from, to] of [
      [sheetAt(4), branch],
      [branch, reduce(sheetAt(4), other)],
      [sheetAt(1), undo(reduce(sheetAt(3), other), 2)],
      [played, undo(reduce(sheetAt(0), other))],
    ]) {
      const timeline = new Timeline(begun.state);
      for (const change of [...changesBetween(begun, from), ...changesBetween(from, to)])
        timeline.play(change);
      expect(tellSheet(timeline.sheet)).toBe(tellSheet(to));
    }
  });
});
