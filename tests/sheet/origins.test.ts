import { expect, test } from 'vitest';
import { plain } from '../../source/grid/layout.ts';
import { flawNumber } from '../../source/sheet/flaws.ts';
import { originsOf } from '../../source/sheet/origins.ts';
import { slipsOf } from '../../source/sheet/slips.ts';
import type { Sheet } from '../../source/sheet/state.ts';
import { empty, play, sheetOf } from './fixture.ts';

// How far back is looked for the move that brought something in: slips are told after every key, and the states
// of a long history are only worked out where somebody looks at them.

/** A sheet that counts how often a state of its history is looked at. */
function watch(sheet: Sheet): { readonly sheet: Sheet; readonly looks: () => number } {
  let looks = 0;
  const past = sheet.past.map(({ before, event }) => ({
    event,
    get before() {
      looks += 1;
      return before;
    },
  }));
  return { sheet: { ...sheet, past }, looks: () => looks };
}

const twice = (digit: number) => flawNumber(plain, 'twice', 81 + digit - 1);

test('asked after every move, the state before it is enough, however long something has been wrong', () => {
  // Row 1 has 5 twice by the givens, and 7 by the first move.
  let sheet = sheetOf(`55.7${'.'.repeat(77)}`);
  expect(originsOf(sheet)(twice(5))).toBeNull();
  for (let move = 0; move < 30; move += 1) {
    sheet = play(sheet, move === 0 ? 'r1c9=7' : `r9c9=${(move % 2) + 1}`);
    const watched = watch(sheet);
    const originOf = originsOf(watched.sheet);
    expect([originOf(twice(5)), originOf(twice(7)), watched.looks()]).toEqual([null, 0, 1]);
    // Asked again, not even that.
    expect([originsOf(watched.sheet)(twice(7)), watched.looks()]).toEqual([0, 1]);
  }
  expect(sheet.past).toHaveLength(30);
});

test('asked for the first time, no further back than something has been wrong', () => {
  const quiet = Array.from({ length: 20 }, (_, i) => `r9c9=${(i % 2) + 1}`).join(' ');
  const watched = watch(play(sheetOf(empty), `${quiet} r1c1=5 r1c2=5 r5c5=3`));
  expect([originsOf(watched.sheet)(twice(5)), watched.looks()]).toEqual([21, 2]);
});

test('marks in hand that would be wrong are followed though nothing is told yet', () => {
  const claimed = '1@r5:c1,c2,c3 2@r5:c1,c2,c3 3@r5:c1,c2,c3';
  let sheet = play(sheetOf(empty), claimed);
  for (let move = 0; move < 20; move += 1) {
    sheet = play(sheet, move % 2 === 0 ? 'r5c5:12' : 'r5c5:13');
    expect(slipsOf(sheet)).toEqual([]);
  }
  const watched = watch(play(sheet, 'r9c9=9'));
  expect(slipsOf(watched.sheet)).toMatchObject([{ kind: 'no-digit', cells: [40], undoSteps: 21 }]);
  expect(watched.looks()).toBe(1);
});

test('what is wrong with a state is looked for once', () => {
  let looks = 0;
  const { state } = play(sheetOf(empty), 'r1c1=5 r1c2=5');
  const watched = {
    ...state,
    get givens() {
      looks += 1;
      return state.givens;
    },
  };
  const sheet: Sheet = { state: watched, past: [], future: [] };
  expect(originsOf(sheet)(twice(5))).toBeNull();
  const first = looks;
  expect(first).toBeGreaterThan(0);
  expect(originsOf(sheet)(twice(5))).toBeNull();
  expect(looks).toBe(first);
});
