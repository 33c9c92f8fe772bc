import { describe, expect, test } from 'vitest';
import { makeLayout, plain, rectangularBoxes } from '../../source/grid/layout.ts';
import { writeLayout } from '../../source/grid/layout-text.ts';
import { parseChange } from '../../source/journal/change-reader.ts';
import { makeBody } from '../../source/journal/journal.ts';
import { readState, writeState } from '../../source/journal/state-text.ts';
import type { SheetState } from '../../source/sheet/state.ts';
import { play, sheetOf, small } from '../sheet/fixture.ts';

// What a record may say: docs/journal-format.md, and the events as source/sheet/state.ts declares them. A record's
// checksum guards against damage, not against a program that wrote something else; so each field is looked at.

type Fields = Readonly<Record<string, unknown>>;
const read = (value: unknown) => parseChange(JSON.stringify(value), small);

/** No whole number from 0 up, and no list of such. */
const wrongNumbers: readonly unknown[] = [-1, 0.5, 2 ** 53, '1', null, [1], {}, true, undefined];
const wrongLists: readonly unknown[] = [1, '12', null, {}, [1, -1], [0.5], ['1'], [[1]], undefined];
const wrongTexts: readonly unknown[] = [1, null, ['x'], {}, undefined];

const layout = writeLayout(small);
const kinds: readonly {
  readonly good: Fields;
  readonly wrong: Readonly<Record<string, readonly unknown[]>>;
}[] = [
  { good: { kind: 'ink', cell: 1, digit: 2 }, wrong: { cell: wrongNumbers, digit: wrongNumbers } },
  { good: { kind: 'ink-all', candidates: [0, 5] }, wrong: { candidates: wrongLists } },
  { good: { kind: 'strike', candidates: [] }, wrong: { candidates: wrongLists } },
  { good: { kind: 'note', cell: 0, digits: 3 }, wrong: { cell: wrongNumbers, digits: wrongNumbers } },
  { good: { kind: 'set-note', cell: 0, digits: 0 }, wrong: { cell: wrongNumbers, digits: wrongNumbers } },
  { good: { kind: 'spot', fact: 20, cell: 0 }, wrong: { fact: wrongNumbers, cell: wrongNumbers } },
  { good: { kind: 'set-spots', fact: 20, cells: [0, 1] }, wrong: { fact: wrongNumbers, cells: wrongLists } },
  {
    good: { kind: 'take', placements: [1], strikes: [2, 3] },
    wrong: { placements: wrongLists, strikes: wrongLists },
  },
  { good: { kind: 'erase', cell: 0 }, wrong: { cell: wrongNumbers } },
  { good: { kind: 'fill' }, wrong: {} },
  { good: { kind: 'restart' }, wrong: {} },
  { good: { kind: 'lock' }, wrong: {} },
  {
    good: { kind: 'tag', candidate: 3, tag: 'm' },
    wrong: { candidate: wrongNumbers, tag: ['a', 'M', '', 1, ['m'], undefined] },
  },
  { good: { kind: 'tag', candidate: 3, tag: null }, wrong: { candidate: wrongNumbers } },
  {
    good: { kind: 'several', events: [{ kind: 'fill' }, { kind: 'ink', cell: 1, digit: 2 }] },
    wrong: {
      events: [
        1,
        null,
        {},
        undefined,
        [1],
        [null],
        [[]],
        [{ kind: 'fill' }, { kind: 'ink', cell: -1, digit: 2 }],
        [{ kind: 'undo', steps: 1 }],
        [{ kind: 'redo', steps: 1 }],
        [{ kind: 'name', name: 'x' }],
        [{ kind: 'several', events: [] }],
        [{ kind: 'state', state: {} }],
      ],
    },
  },
  { good: { kind: 'several', events: [] }, wrong: {} },
  {
    good: { kind: 'open', layout, name: 'x', givens: [1, 0], notes: [] },
    wrong: {
      layout: [
        null,
        'plain',
        [],
        {},
        { name: 'x' },
        { text: layout.text },
        { name: 1, text: layout.text },
        { name: 'x', text: 1 },
        undefined,
      ],
      name: wrongTexts,
      givens: wrongLists,
      notes: wrongLists,
    },
  },
  { good: { kind: 'undo', steps: 1 }, wrong: { steps: [...wrongNumbers, 0] } },
  { good: { kind: 'redo', steps: 2 }, wrong: { steps: [...wrongNumbers, 0] } },
  { good: { kind: 'name', name: '' }, wrong: { name: wrongTexts } },
];

describe('a change', () => {
  test.each(kinds)(
    '$good.kind is read as it is; with a field of another type it is none',
    ({ good, wrong }) => {
      expect(read(good)).toEqual(good);
      for (const [field, values] of Object.entries(wrong)) {
        for (const value of values) {
          expect(read({ ...good, [field]: value }), `${field}: ${JSON.stringify(value)}`).toBeNull();
        }
      }
    },
  );

  test.each<[string, string]>([
    ['no JSON', '{"kind":"fill"'],
    ['nothing', ''],
    ['null', 'null'],
    ['a list', '[{"kind":"fill"}]'],
    ['a text', '"fill"'],
    ['an object without a kind', '{}'],
    ['a kind that is no text', '{"kind":["fill"]}'],
    ['a kind that every object has', '{"kind":"toString"}'],
  ])('%s is none', (_, body) => {
    expect(parseChange(body, small)).toBeNull();
  });
});

/** A state with something in every field: the tag letters, spots and a mark in hand included. */
function busyState(): SheetState {
  const { state } = play(sheetOf('1...........2..3', small), 'r1c2=2 r2c1<>3 r2c2:34 3@c4:r1,r3 4@c4:r1');
  return { ...state, name: '', tags: new Map([[5 * 4 + 3, 'v']]) };
}

describe('a state', () => {
  const written = writeState(busyState());
  const { cellCount, size } = small;
  const facts = cellCount + small.houses.length * size;
  const masks = (first: unknown) => [first, ...new Array(cellCount - 1).fill(0)];

  test('is read as it was written, on the layout it is on', () => {
    const state = busyState();
    for (const like of [small, plain]) {
      const again = readState(JSON.parse(JSON.stringify(written)), like);
      expect(again && writeState(again)).toEqual(written);
      expect(again?.layout.name).toBe('small');
    }
    const again = parseChange(makeBody({ kind: 'state', state }), small);
    expect(again).toEqual({ kind: 'state', state });
    expect(state.spots.size + state.claimed.size + state.tags.size).toBeGreaterThan(3);
    expect(state.inHand).not.toBeNull();
  });

  // The outermost values that there are on 4x4 with boxes: 16 cells, digits 1 to 4, masks up to 15, 64 facts.
  test.each<[string, Fields]>([
    ['the highest digits', { givens: masks(4), ink: masks(4) }],
    ['the highest masks', { strikes: masks(15), notes: masks(15) }],
    [
      'the last fact',
      { claimed: [0, facts - 1], inHand: facts - 1, spots: [[facts - 1, [0, cellCount - 1]]] },
    ],
    ['nothing in hand', { inHand: null }],
    ['no marks', { claimed: [], spots: [], tags: [] }],
    ['the last candidate', { tags: [[cellCount * size - 1, 'y']] }],
  ])('may have %s', (_, fields) => {
    const state = readState({ ...written, ...fields }, small);
    expect(state && writeState(state)).toEqual({ ...written, ...fields });
  });

  const numbers = (limit: number): readonly unknown[] => [limit, -1, 0.5, '1', null, [1], undefined];
  test.each<[field: string, values: readonly unknown[]]>([
    ['layout', [null, {}, 'small', { name: 'small', text: 'size 9\n' }, { name: 'small', text: 'boxes' }]],
    ...['givens', 'ink'].map((field): [string, unknown[]] => [
      field,
      [...numbers(size + 1).map(masks), masks(0).slice(1), [...masks(0), 0], 0, null, {}, undefined],
    ]),
    ...['strikes', 'notes'].map((field): [string, unknown[]] => [
      field,
      [...numbers(16).map(masks), masks(0).slice(1), [...masks(0), 0], 0, null, {}, undefined],
    ]),
    ['claimed', [...numbers(facts).map((fact) => [fact]), 0, null, {}, undefined]],
    ['inHand', [facts, -1, 0.5, '1', [1], undefined]],
    [
      'spots',
      [
        ...numbers(facts).map((fact) => [[fact, [0]]]),
        ...numbers(cellCount).map((cell) => [[20, [cell]]]),
        [[20]],
        [[20, [0], 0]],
        [[20, 0]],
        [20, 21],
        ['ab'],
        [[20, [0]], [21]],
        0,
        null,
        {},
        undefined,
      ],
    ],
    [
      'tags',
      [
        ...numbers(cellCount * size).map((candidate) => [[candidate, 'm']]),
        ...['a', '', null, 1, undefined].map((letter) => [[0, letter]]),
        [[0]],
        [[0, 'm', 0]],
        ['0m'],
        [[0, 'm'], [1]],
        0,
        null,
        {},
        undefined,
      ],
    ],
  ])('with another %s is none', (field, values) => {
    for (const value of values) {
      const state = JSON.parse(JSON.stringify({ ...written, [field]: value }));
      expect(readState(state, small), JSON.stringify(value)).toBeNull();
      expect(parseChange(JSON.stringify({ kind: 'state', state }), small)).toBeNull();
    }
  });

  test.each([[null], [[]], ['x'], [1], [undefined]])('%j is none', (value) => {
    expect(readState(value, small)).toBeNull();
  });

  test('on diagonals, whose facts come after those of the boxes, has these facts too', () => {
    const crossed = makeLayout({
      name: 'crossed',
      size: 4,
      boxOf: rectangularBoxes(2, 2),
      extras: [
        { kind: 'diagonal', cells: [0, 5, 10, 15] },
        { kind: 'diagonal', cells: [3, 6, 9, 12] },
      ],
    });
    const { state } = play(sheetOf('.'.repeat(16), crossed), '');
    const last = 16 + 14 * 4 - 1;
    const marked = { ...state, name: '', spots: new Map([[last, [12]]]), inHand: last };
    expect(readState(writeState(marked), crossed)).toEqual(marked);
  });
});
