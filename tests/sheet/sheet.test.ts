import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Layout } from '../../source/grid/layout.ts';
import { plain } from '../../source/grid/layout.ts';
import { writeLayout } from '../../source/grid/layout-text.ts';
import { positionOf } from '../../source/sheet/marks.ts';
import { newSheet, redo, reduce, undo } from '../../source/sheet/sheet.ts';
import type { Sheet, SheetEvent, SheetState } from '../../source/sheet/state.ts';
import { act, anyAction, anyEvent, crook, empty, play, seed, sheetOf, small } from './fixture.ts';

console.log(`sheet.test.ts: seed ${seed}`);

/** All of a state as plain data, order included. */
const dataOf = (state: SheetState) => ({
  ...state,
  layout: state.layout.name,
  strikes: [...state.strikes],
  spots: [...state.spots].sort(([a], [b]) => a - b),
  claimed: [...state.claimed],
  tags: [...state.tags].sort(([a], [b]) => a - b),
});

const whole = (sheet: Sheet) => ({
  state: dataOf(sheet.state),
  past: sheet.past.map(({ before, event }) => ({ before: dataOf(before), event })),
  future: sheet.future.map(({ after, event }) => ({ after: dataOf(after), event })),
});

const grids: readonly { readonly layout: Layout; readonly line: string }[] = [
  { layout: small, line: '1...........2..3' },
  {
    layout: plain,
    line: crook,
  },
];

describe.each(grids)('laws on the $layout.name layout', ({ layout, line }) => {
  const start = sheetOf(line, layout);

  test('a walk of 500 events, written down as JSON and replayed, ends in the identical sheet', () => {
    fc.assert(
      fc.property(fc.array(anyAction(layout), { minLength: 500, maxLength: 500 }), (actions) => {
        const walked = actions.reduce(act, start);
        const replayed = (JSON.parse(JSON.stringify(actions)) as typeof actions).reduce(act, start);
        expect(whole(replayed)).toEqual(whole(walked));
      }),
      { numRuns: 4, seed },
    );
  });

  test('undo and redo with nothing to do answer the very same sheet', () => {
    const fresh = sheetOf(empty);
    for (const steps of [0, 1, 5]) {
      expect(undo(fresh, steps)).toBe(fresh);
      expect(redo(fresh, steps)).toBe(fresh);
    }
    const moved = play(fresh, 'r1c1=1');
    expect(redo(moved)).toBe(moved);
    expect(undo(undo(moved), 3)).toEqual(undo(moved));
    expect(undo(moved, 0)).toBe(moved);
  });

  test('steps back one by one can be done again one by one', () => {
    const last = play(start, 'r2c2=2 r2c2=3 r2c3=4 xr2c2');
    expect(last.past.length).toBeGreaterThan(3);
    let sheet = last;
    for (const _ of last.past) sheet = undo(sheet);
    expect(sheet.state).toBe(start.state);
    expect(sheet.future).toHaveLength(last.past.length);
    for (const _ of last.past) sheet = redo(sheet);
    expect(whole(sheet)).toEqual(whole(last));
  });

  test('undo after any event restores the state, redo the event; what changes nothing is the same sheet', () => {
    fc.assert(
      fc.property(fc.array(anyEvent(layout), { maxLength: 60 }), (events) => {
        let sheet = start;
        for (const event of events) {
          const before = dataOf(sheet.state);
          const next = reduce(sheet, event);
          expect(dataOf(sheet.state)).toEqual(before);
          if (next === sheet) continue;
          expect(dataOf(next.state)).not.toEqual(before);
          expect(next.past.length).toBe(sheet.past.length + 1);
          expect(undo(next).state).toBe(sheet.state);
          expect(redo(undo(next)).state).toBe(next.state);
          expect(reduce(undo(next), event).future).toEqual([]);
          sheet = next;
        }
        const steps = sheet.past.length;
        expect(undo(sheet, steps).state).toBe(start.state);
        expect(undo(sheet, steps + 5).state).toBe(start.state);
        expect(whole(redo(undo(sheet, steps), steps))).toEqual(whole(sheet));
      }),
      { numRuns: 40, seed },
    );
  });

  test('givens change by lock and open alone, and nothing else is ever written on one', () => {
    fc.assert(
      fc.property(fc.array(anyEvent(layout), { maxLength: 120 }), (events) => {
        let sheet = start;
        for (const event of events) {
          const next = reduce(sheet, event);
          if (event.kind !== 'lock' && event.kind !== 'open') {
            expect(next.state.givens).toEqual(sheet.state.givens);
          }
          next.state.givens.forEach((given, cell) => {
            if (given !== 0) expect(next.state.ink[cell]).toBe(0);
          });
          sheet = next;
        }
      }),
      { numRuns: 40, seed },
    );
  });

  test('events share what they do not touch', () => {
    const marked = play(start, 'r1c2:23 r1c2<>4');
    const inked = reduce(marked, { kind: 'ink', cell: 2, digit: 3 });
    expect(inked.state.notes).toBe(marked.state.notes);
    expect(inked.state.strikes).toBe(marked.state.strikes);
    expect(inked.state.spots).toBe(marked.state.spots);
    expect(inked.state.givens).toBe(marked.state.givens);
  });
});

describe('what each event does', () => {
  const start = sheetOf(`5${'.'.repeat(80)}`);
  const none: readonly { readonly is: string; readonly before: string; readonly event: SheetEvent }[] = [
    { is: 'ink on a given', before: '', event: { kind: 'ink', cell: 0, digit: 3 } },
    { is: 'the same ink again', before: 'r1c2=3', event: { kind: 'ink', cell: 1, digit: 3 } },
    { is: 'a note on a given', before: '', event: { kind: 'note', cell: 0, digits: 3 } },
    { is: 'a replaced note on a given', before: '', event: { kind: 'set-note', cell: 0, digits: 3 } },
    { is: 'a note on ink', before: 'r1c2=3', event: { kind: 'set-note', cell: 1, digits: 3 } },
    { is: 'the same note', before: 'r1c2:12', event: { kind: 'set-note', cell: 1, digits: 3 } },
    { is: 'a spot on a given', before: '', event: { kind: 'spot', fact: 81 + 2, cell: 0 } },
    { is: 'a spot outside the house', before: '', event: { kind: 'spot', fact: 81 + 2, cell: 30 } },
    { is: 'a strike of what a given excludes', before: '', event: { kind: 'strike', candidates: [9 + 4] } },
    { is: 'a strike on ink', before: 'r1c2=3', event: { kind: 'strike', candidates: [9 + 2] } },
    {
      is: 'a step taken twice',
      before: 'r1c2<>3 r5c5=1',
      event: { kind: 'take', placements: [40 * 9], strikes: [9 + 2] },
    },
    { is: 'erasing a given', before: '', event: { kind: 'erase', cell: 0 } },
    { is: 'erasing nothing', before: '', event: { kind: 'erase', cell: 1 } },
    { is: 'a tag on a given', before: '', event: { kind: 'tag', candidate: 4, tag: 'm' } },
    { is: 'a tag that is none', before: '', event: { kind: 'tag', candidate: 12, tag: 'A' as 'm' } },
    { is: 'clearing no tag', before: '', event: { kind: 'tag', candidate: 12, tag: null } },
    { is: 'restart of a bare grid', before: '', event: { kind: 'restart' } },
    { is: 'lock without ink', before: '', event: { kind: 'lock' } },
    { is: 'opening the same grid', before: '', event: { ...openEvent(), name: 'test' } },
    { is: 'opening a grid of another size', before: '', event: { ...openEvent(), givens: [1, 2] } },
    { is: 'a cell that is not there', before: '', event: { kind: 'ink', cell: 81, digit: 1 } },
    { is: 'a digit that is not there', before: '', event: { kind: 'ink', cell: 1, digit: 10 } },
    {
      is: 'a candidate that is not there',
      before: '',
      event: { kind: 'ink-all', candidates: [-1, 729, 0.5] },
    },
    { is: 'a fact that is not there', before: '', event: { kind: 'set-spots', fact: 324, cells: [1] } },
    { is: 'spots of a cell fact', before: '', event: { kind: 'set-spots', fact: 1, cells: [1] } },
  ];
  function openEvent() {
    return {
      kind: 'open' as const,
      layout: writeLayout(plain),
      name: 'x',
      givens: start.state.givens,
      notes: [],
    };
  }

  test.each(none)('nothing: $is', ({ before, event }) => {
    const sheet = play(start, before);
    expect(reduce(sheet, event)).toBe(sheet);
  });

  const inkOf = (sheet: Sheet): string =>
    sheet.state.ink.flatMap((digit, cell) => (digit === 0 ? [] : [`${cell}=${digit}`])).join(' ');

  test('ink replaces ink; several placements are one step', () => {
    expect(inkOf(play(start, 'r1c2=3 r1c2=4'))).toBe('1=4');
    const all = reduce(play(start, 'r1c2=3'), { kind: 'ink-all', candidates: [3, 9 + 5, 18 + 6] });
    expect(inkOf(all)).toBe('1=6 2=7');
    expect(inkOf(undo(all))).toBe('1=3');
  });

  test('strikes toggle as a whole; a step taken and a typed strike never bring back', () => {
    const one = play(start, 'r1c2<>3');
    expect([...play(one, '~r1c2<>34').state.strikes]).toEqual([11, 12]);
    expect([...play(one, '~r1c2<>34 ~r1c2<>34').state.strikes]).toEqual([]);
    expect([...play(one, 'r1c2<>3').state.strikes]).toEqual([11]);
  });

  test('erase takes the ink first, then note, spots, tags and strikes of the cell alone', () => {
    const marked = play(start, 'r2c2:12 r2c3:12 7@c2:r2,r8 r2c2<>9 r2c3<>9 r2c2=4');
    const once = play(marked, 'xr2c2');
    expect(once.state.ink[10]).toBe(0);
    expect(once.state.notes[10]).toBe(3);
    const { state } = play(once, 'xr2c2');
    expect([state.notes[10], state.notes[11]]).toEqual([0, 3]);
    expect([...state.spots.values()]).toEqual([[64]]);
    expect([...state.strikes]).toEqual([11 * 9 + 8]);
  });

  test('lock turns ink into givens and keeps the marks; restart then keeps them as well', () => {
    const locked = play(start, 'r1c2=3 r2c2:12 lock');
    expect(locked.state.givens.slice(0, 2)).toEqual([5, 3]);
    expect(inkOf(locked)).toBe('');
    expect(locked.state.notes[10]).toBe(3);
    expect(play(locked, 'restart').state.givens).toBe(locked.state.givens);
    expect(play(locked, 'undo').state.givens[1]).toBe(0);
  });

  test('opening another grid leaves nothing of the first, and is one undo step', () => {
    const busy = play(start, 'r1c2=3 r2c2:12 7@c2:r2,r8 r2c3<>9');
    const givens = Array.from({ length: 81 }, (_, cell) => (cell === 80 ? 9 : 0));
    const opened = reduce(busy, {
      kind: 'open',
      layout: writeLayout(plain),
      name: 'next',
      givens,
      notes: [],
    });
    expect(dataOf(opened.state)).toEqual(dataOf(newSheet(plain, givens, 'next').state));
    expect(undo(opened).state).toBe(busy.state);
  });

  test('opening a grid of another layout is one undo step too, and the sheet is on that layout then', () => {
    const busy = play(start, 'r1c2=3 r2c2:12 7@c2:r2,r8 r2c3<>9');
    const givens = Array.from({ length: 16 }, (_, cell) => (cell === 15 ? 4 : 0));
    const notes = [3, ...Array.from({ length: 15 }, () => 0)];
    const opened = reduce(busy, { kind: 'open', layout: writeLayout(small), name: 'small', givens, notes });
    expect(dataOf(opened.state)).toEqual(dataOf(newSheet(small, givens, 'small', notes).state));
    expect(opened.state.layout).toEqual(small);
    expect(positionOf(opened.state).layout).toBe(opened.state.layout);
    expect(play(opened, 'r4c3=1').state.ink[14]).toBe(1);
    expect(undo(opened).state).toBe(busy.state);
    const wrong = {
      kind: 'open',
      layout: writeLayout(small),
      name: 'long',
      givens: start.state.givens,
      notes: [],
    } as const;
    expect(reduce(busy, wrong)).toBe(busy);
    expect(reduce(busy, { ...wrong, layout: { name: 'plain', text: 'size 9' } })).toBe(busy);
  });

  test('givens that do not fit the layout are refused outright', () => {
    expect(() => newSheet(plain, [1, 2, 3], 'short')).toThrow(RangeError);
    expect(() =>
      newSheet(
        plain,
        Array.from(empty, () => 10),
        'ten',
      ),
    ).toThrow(RangeError);
  });
});
