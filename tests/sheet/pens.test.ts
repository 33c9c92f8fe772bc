import { describe, expect, test } from 'vitest';
import { houseFact } from '../../source/argument/fact.ts';
import { candidateOf, makeLayout, plain, rectangularBoxes } from '../../source/grid/layout.ts';
import { writeLayout } from '../../source/grid/layout-text.ts';
import { newSheet, reduce } from '../../source/sheet/sheet.ts';
import type { Sheet, SheetEvent, SheetState } from '../../source/sheet/state.ts';
import { empty, play, sheetOf, small } from './fixture.ts';

// What each pen writes and leaves alone, as source/sheet/state.ts describes the events.

const start = sheetOf(`5${'.'.repeat(80)}`);
const fact = (house: number, digit: number) => houseFact(plain, plain.houses[house], digit);

describe('what the layout does not have is not written', () => {
  const cells = [-1, 81, 0.5, Number.NaN];
  const digits = [-1, 0, 10, 1.5, Number.NaN];
  const candidates = [-1, 729, 0.5, 100.5, Number.NaN];
  const facts = [-1, 0, 80, 324, 81.5, Number.NaN];
  const events: SheetEvent[] = [
    ...cells.flatMap((cell): SheetEvent[] => [
      { kind: 'ink', cell, digit: 1 },
      { kind: 'note', cell, digits: 1 },
      { kind: 'set-note', cell, digits: 1 },
      { kind: 'spot', fact: 81, cell },
      { kind: 'set-spots', fact: 81, cells: [cell] },
      { kind: 'erase', cell },
    ]),
    ...digits.map((digit): SheetEvent => ({ kind: 'ink', cell: 1, digit })),
    ...candidates.flatMap((candidate): SheetEvent[] => [
      { kind: 'ink-all', candidates: [candidate] },
      { kind: 'strike', candidates: [candidate] },
      { kind: 'take', placements: [candidate], strikes: [candidate] },
      { kind: 'tag', candidate, tag: 'm' },
    ]),
    ...facts.flatMap((each): SheetEvent[] => [
      { kind: 'spot', fact: each, cell: 1 },
      { kind: 'set-spots', fact: each, cells: [1, 2] },
    ]),
  ];

  test('nor does it take away anything that is there', () => {
    const busy = play(start, 'r1c2=3 r2c2:12 7@c2:r2,r8 r2c3<>9 ~r2c3<>8');
    for (const sheet of [start, busy]) {
      for (const event of events) expect(reduce(sheet, event), JSON.stringify(event)).toBe(sheet);
    }
  });

  test('half a cell is none either where its candidates would be whole numbers', () => {
    // On 4x4 the first digit of cell 0.5 would be candidate 2.
    const sheet = sheetOf('.'.repeat(16), small);
    for (const cell of [-1, -0.5, 0.25, 0.5, 15.5, 16]) {
      for (const digit of [1, 2, 4]) expect(reduce(sheet, { kind: 'ink', cell, digit })).toBe(sheet);
      expect(reduce(sheet, { kind: 'set-note', cell, digits: 3 })).toBe(sheet);
      expect(reduce(sheet, { kind: 'erase', cell })).toBe(sheet);
    }
  });

  test('beside what it has, that alone is written', () => {
    const placed = reduce(start, { kind: 'ink-all', candidates: [-1, 9, 729] });
    expect(placed.state.ink.filter((digit) => digit !== 0)).toEqual([1]);
    const struck = reduce(start, { kind: 'strike', candidates: [-1, 9, 729] });
    expect([...struck.state.strikes]).toEqual([9]);
    expect(reduce(struck, { kind: 'strike', candidates: [-1, 9, 729] }).state.strikes.isEmpty).toBe(true);
    const marked = reduce(start, { kind: 'set-spots', fact: 81, cells: [80, 3, -1, 1, 0] });
    expect(marked.state.spots.get(81)).toEqual([1, 3]);
  });

  test('the outermost that it has is', () => {
    const last = fact(26, 9);
    const sheet = [
      { kind: 'ink', cell: 80, digit: 9 },
      { kind: 'ink', cell: 79, digit: 1 },
      { kind: 'set-note', cell: 78, digits: 511 },
      { kind: 'set-spots', fact: last, cells: [60, 61] },
      { kind: 'set-spots', fact: 81, cells: [1, 8] },
    ].reduce<Sheet>((now, event) => reduce(now, event as SheetEvent), sheetOf(empty));
    expect(last).toBe(323);
    expect(sheet.state.ink.slice(78)).toEqual([0, 1, 9]);
    expect(sheet.state.notes[78]).toBe(511);
    expect([...sheet.state.spots]).toEqual([
      [323, [60, 61]],
      [81, [1, 8]],
    ]);
    const blank = sheetOf(empty);
    expect([...reduce(blank, { kind: 'strike', candidates: [0, 728] }).state.strikes]).toEqual([0, 728]);
    expect([...reduce(blank, { kind: 'tag', candidate: 728, tag: 'y' }).state.tags]).toEqual([[728, 'y']]);
    expect([...reduce(blank, { kind: 'tag', candidate: 0, tag: 'm' }).state.tags]).toEqual([[0, 'm']]);
    expect(reduce(blank, { kind: 'spot', fact: 323, cell: 80 }).state.spots.get(323)).toEqual([80]);
    expect(
      reduce(reduce(blank, { kind: 'ink', cell: 0, digit: 1 }), { kind: 'erase', cell: 0 }).state.ink[0],
    ).toBe(0);
    expect(reduce(blank, { kind: 'note', cell: 0, digits: 3 }).state.notes[0]).toBe(3);
  });

  test('a note has no digit that the layout has not', () => {
    const { state } = reduce(sheetOf('.'.repeat(16), small), { kind: 'set-note', cell: 3, digits: 0b11110 });
    expect(state.notes[3]).toBe(0b1110);
  });
});

describe('marks and strikes go where something can stand', () => {
  const placed = play(start, 'r1c2=3 r9c9<>7');

  test.each<[string, SheetEvent]>([
    ['a note toggled on ink', { kind: 'note', cell: 1, digits: 6 }],
    ['a digit toggled that a given excludes', { kind: 'note', cell: 2, digits: 0b10000 }],
    ['a digit toggled that is struck', { kind: 'note', cell: 80, digits: 0b1000000 }],
    ['a spot on ink', { kind: 'spot', fact: fact(0, 4), cell: 1 }],
    ['a spot that ink excludes', { kind: 'spot', fact: fact(0, 3), cell: 2 }],
    ['a spot that is struck', { kind: 'spot', fact: fact(8, 7), cell: 80 }],
    ['spots on a given', { kind: 'set-spots', fact: fact(0, 4), cells: [0] }],
    ['a tag on ink', { kind: 'tag', candidate: candidateOf(plain, 1, 4), tag: 't' }],
    ['a tag that is struck', { kind: 'tag', candidate: candidateOf(plain, 80, 7), tag: 't' }],
    ['a letter that is none on a live candidate', { kind: 'tag', candidate: 700, tag: 'M' as 'm' }],
    ['a strike of what ink excludes', { kind: 'take', placements: [], strikes: [candidateOf(plain, 2, 3)] }],
  ])('%s changes nothing', (_, event) => {
    expect(reduce(placed, event)).toBe(placed);
  });

  test('of several digits toggled those that can be shown are', () => {
    expect(reduce(placed, { kind: 'note', cell: 2, digits: 0b11111 }).state.notes[2]).toBe(0b1011);
    // What is listed already goes, what is not comes.
    const noted = play(placed, 'r1c3:12');
    expect(reduce(noted, { kind: 'note', cell: 2, digits: 0b1010 }).state.notes[2]).toBe(0b1001);
  });

  test('a spot is put and taken away, the cells in order; the last one leaves nothing', () => {
    const spot = (sheet: Sheet, cell: number) => reduce(sheet, { kind: 'spot', fact: fact(0, 7), cell });
    const one = spot(start, 8);
    const two = spot(one, 2);
    expect(two.state.spots.get(fact(0, 7))).toEqual([2, 8]);
    expect(spot(spot(two, 5), 2).state.spots.get(fact(0, 7))).toEqual([5, 8]);
    expect(spot(one, 8).state.spots.size).toBe(0);
    expect(one.state.spots.get(fact(0, 7))).toEqual([8]);
  });

  test('spots are kept in the order of the grid, whatever order a further house was written in', () => {
    const layout = makeLayout({
      name: 'corners',
      size: 4,
      boxOf: rectangularBoxes(2, 2),
      extras: [{ kind: 'extra', cells: [15, 3, 12, 0] }],
    });
    const corners = houseFact(layout, layout.houses.at(-1)!, 2);
    const sheet = sheetOf('.'.repeat(16), layout);
    for (const cells of [
      [0, 12, 15],
      [15, 12, 0],
      [12, 3],
    ]) {
      const { state } = reduce(sheet, { kind: 'set-spots', fact: corners, cells });
      expect(state.spots.get(corners)).toEqual([...cells].sort((a, b) => a - b));
    }
  });

  test('tags are set, changed and cleared; the same again changes nothing', () => {
    const tag = (sheet: Sheet, letter: 'm' | 't' | null) =>
      reduce(sheet, { kind: 'tag', candidate: 100, tag: letter });
    const one = tag(start, 'm');
    expect([...one.state.tags]).toEqual([[100, 'm']]);
    expect(tag(one, 'm')).toBe(one);
    expect([...tag(one, 't').state.tags]).toEqual([[100, 't']]);
    expect([...tag(one, null).state.tags]).toEqual([]);
    expect(tag(start, null)).toBe(start);
    // One that is not shown any more can be cleared.
    const hidden = play(one, 'r2c3=1');
    expect([...tag(hidden, null).state.tags]).toEqual([]);
  });

  test('a step taken strikes and places at once, whichever there is', () => {
    const both = reduce(start, { kind: 'take', placements: [10], strikes: [100] });
    expect([both.state.ink[1], [...both.state.strikes]]).toEqual([2, [100]]);
    const again = reduce(both, { kind: 'take', placements: [10], strikes: [101] });
    expect([...again.state.strikes]).toEqual([100, 101]);
    expect(again.state.ink).toBe(both.state.ink);
  });

  test('strikes toggled come back where all are struck; what ink hides is left as it is', () => {
    const struck = play(start, 'r9c9<>7 r9c8<>7 r9c8=1');
    const back = reduce(struck, { kind: 'strike', candidates: [80 * 9 + 6] });
    expect([...back.state.strikes]).toEqual([79 * 9 + 6]);
    expect([...struck.state.strikes]).toEqual([79 * 9 + 6, 80 * 9 + 6]);
  });
});

describe('erasing, filling in, starting over', () => {
  test('erasing ink leaves the marks; with no ink they go, each by itself', () => {
    const at = { kind: 'erase', cell: 10 } as const;
    for (const moves of ['r2c2:12', '7@c2:r2', 'r2c2<>9']) {
      const marked = play(start, moves);
      const { state } = reduce(marked, at);
      expect([state.notes[10], state.spots.size, state.strikes.isEmpty], moves).toEqual([0, 0, true]);
    }
    const tagged = reduce(start, { kind: 'tag', candidate: 95, tag: 'v' });
    expect(reduce(tagged, at).state.tags.size).toBe(0);
    // What belongs to other cells stays the very same.
    const busy = play(tagged, 'r5c5:12 7@c5:r4,r5 r5c5<>9 r2c2:34');
    const { state } = reduce(busy, at);
    expect(state.spots).toBe(busy.state.spots);
    expect(state.strikes).toBe(busy.state.strikes);
    const other = reduce(play(start, 'r2c2:34'), { kind: 'tag', candidate: 500, tag: 'v' });
    expect(reduce(other, at).state.tags).toBe(other.state.tags);
    expect(reduce(other, { kind: 'erase', cell: 20 })).toBe(other);
  });

  test('filling in leaves placed cells, notes that show something, and claims alone', () => {
    const sheet = play(start, 'r1c2:12 r1c2=3 r1c3:5 r2c2:12 r3c3=9 r9c9:12 r9c9<>12 fill');
    const { notes } = sheet.state;
    // Under ink; of a given nothing is left to show; as it was; nothing under ink; claimed, though nothing of it is left.
    expect([notes[1], notes[2], notes[10], notes[20], notes[80]]).toEqual([3, 511, 3, 0, 3]);
    expect(notes[0]).toBe(0);
    expect(notes[40]).toBe(511);
    expect(play(sheet, 'fill')).toBe(sheet);
  });

  test('erasing a locked digit leaves the marks that are hidden under it', () => {
    const locked = play(start, 'r1c2:12 r1c2<>9 r1c2=3 lock');
    expect(reduce(locked, { kind: 'erase', cell: 1 })).toBe(locked);
  });

  const bare = sheetOf(`5${'.'.repeat(80)}`).state;
  const whole = (state: SheetState) => [
    state.ink,
    state.notes,
    [...state.strikes],
    [...state.spots],
    [...state.tags],
    [...state.claimed],
    state.inHand,
  ];
  const busy: [string, (sheet: Sheet) => Sheet][] = [
    ['ink', (sheet) => play(sheet, 'r1c2=3')],
    ['a note', (sheet) => play(sheet, 'r1c2:12')],
    ['a strike', (sheet) => play(sheet, 'r1c2<>3')],
    ['a spot', (sheet) => play(sheet, '~7@c2:r2')],
    ['a tag', (sheet) => reduce(sheet, { kind: 'tag', candidate: 95, tag: 'v' })],
  ];

  test.each(busy)('restarting with %s alone leaves the givens and what was blank', (_, write) => {
    const sheet = write(start);
    const { state } = reduce(sheet, { kind: 'restart' });
    expect(whole(state)).toEqual(whole(bare));
    expect(state.givens).toBe(start.state.givens);
    if (sheet.state.ink === start.state.ink) expect(state.ink).toBe(start.state.ink);
    if (sheet.state.notes === start.state.notes) expect(state.notes).toBe(start.state.notes);
  });

  const opening = {
    kind: 'open',
    layout: writeLayout(plain),
    name: 'test',
    givens: start.state.givens,
    notes: [],
  } as const;
  test.each(busy)('so does opening the same grid again', (_, write) => {
    const sheet = write(start);
    const opened = reduce(sheet, opening);
    expect(opened).not.toBe(sheet);
    expect(whole(opened.state)).toEqual(whole(bare));
  });

  test('opening the same grid is a change where its name, a digit or a note is another', () => {
    const notes = [0, 3, ...new Array(79).fill(0)];
    const noted = reduce(start, { ...opening, notes });
    expect(noted.state.notes[1]).toBe(3);
    expect([...noted.state.claimed]).toEqual([1]);
    expect(reduce(noted, { ...opening, notes })).toBe(noted);
    expect(reduce(start, { ...opening, name: 'other' }).state.name).toBe('other');
    const givens = [...start.state.givens.slice(0, 80), 9];
    expect(reduce(start, { ...opening, givens }).state.givens[80]).toBe(9);
    expect(reduce(start, opening)).toBe(start);
  });

  test('notes that come with a grid keep to its open cells and digits', () => {
    const notes = [3, 1023, ...new Array(79).fill(0)];
    const { state } = reduce(start, { ...opening, notes });
    expect(state.notes.slice(0, 3)).toEqual([0, 511, 0]);
    // A list that is too short says nothing of the rest.
    expect(reduce(start, { ...opening, notes: [0, 3] }).state.notes.slice(0, 4)).toEqual([0, 3, 0, 0]);
    const onSmall = reduce(start, {
      kind: 'open',
      layout: writeLayout(small),
      name: 'x',
      givens: [1, ...new Array(15).fill(0)],
      notes: [15, 31, ...new Array(14).fill(0)],
    });
    expect(onSmall.state.notes.slice(0, 3)).toEqual([0, 15, 0]);
  });

  test.each([[[-1]], [[10]], [[0.5]], [[Number.NaN]]])('a grid with a given of %j is not opened', (first) => {
    const givens = [...first, ...new Array(80).fill(0)];
    expect(reduce(start, { ...opening, givens })).toBe(start);
    expect(() => newSheet(plain, givens, 'x')).toThrow('givens do not fit the plain layout');
  });

  test('a new sheet has its name, and takes the highest digit', () => {
    const { state } = newSheet(plain, [9, ...new Array(80).fill(0)], 'nine');
    expect([state.name, state.givens[0], state.inHand]).toEqual(['nine', 9, null]);
    expect(() => newSheet(plain, new Array(80).fill(0), 'short')).toThrow(RangeError);
  });

  test('locking keeps every mark and strike', () => {
    const sheet = play(start, 'r1c2=3 r2c2:12 7@c2:r5,r8 r9c9<>7 lock');
    expect(sheet.state.givens.slice(0, 3)).toEqual([5, 3, 0]);
    expect(sheet.state.ink.every((digit) => digit === 0)).toBe(true);
    expect([sheet.state.notes[10], sheet.state.spots.size, [...sheet.state.strikes]]).toEqual([3, 1, [726]]);
  });
});
