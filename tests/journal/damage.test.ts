import { describe, expect, test } from 'vitest';
import { plain } from '../../source/grid/layout.ts';
import { writeLayout } from '../../source/grid/layout-text.ts';
import { checksum } from '../../source/journal/checksum.ts';
import { makeBody, makeJournal, makeSnapshot, readJournal } from '../../source/journal/journal.ts';
import { bodyOf, firstLine, makeRecords, recordLimit, start } from '../../source/journal/record.ts';
import { writeState } from '../../source/journal/state-text.ts';
import { Timeline } from '../../source/journal/timeline.ts';
import { newSheet, reduce } from '../../source/sheet/sheet.ts';
import type { SheetEvent } from '../../source/sheet/state.ts';
import { sheetOf, small } from '../sheet/fixture.ts';
import { tellSheet } from './fixture.ts';

// What is damage, and what is told of it: docs/journal-format.md, "Reading".

const begun = sheetOf('1...........2..3', small);
const opening = makeSnapshot(new Timeline(begun.state), 'x');
const ink = (cell: number, digit: number): SheetEvent => ({ kind: 'ink', cell, digit });
const journal = (...changes: readonly unknown[]): string =>
  makeJournal([...opening, ...changes.map(bodyOf)]).text;

/** What a journal gives: the ink, how much of it is whole, and what is told. */
function told(text: string) {
  const read = readJournal(text);
  if (!read.ok) return { error: read.error };
  const { timeline, length, damage, tail } = read.value;
  return { ink: timeline.state.ink.filter((digit) => digit !== 0), length, damage, number: tail.number };
}

describe('damage is told with its place, and all before it is there', () => {
  const good = journal(ink(1, 2), ink(2, 3), ink(3, 4));
  const lines = good.split('\n');
  const from = (line: number) => lines.slice(0, line - 1).join('\n').length + 1;

  test.each<[is: string, text: string, line: number, found: string]>([
    ['a record that is none', good.replace(/^3 .*$/m, 'hello'), 4, 'what is no record'],
    ['one that is missing', good.replace(/^3 .*\n/m, ''), 4, 'record 4'],
    ['an empty line', good.replace(/^3 /m, '\n3 '), 4, 'what is no record'],
    ['another digit', good.replace('"digit":3', '"digit":2'), 4, 'a record that does not match its checksum'],
    ['a last line end that is another', `${good.slice(0, -1)}\r`, 5, 'a record with a changed line end'],
    ['a kind that does not exist', journal(ink(1, 2), { kind: 'draw' }), 4, 'a record of no known kind'],
    ['a change of nothing', journal(ink(1, 2), ink(1, 2)), 4, 'a change that does not fit the sheet'],
    [
      'a second undo of one move',
      journal(ink(1, 2), { kind: 'undo', steps: 2 }),
      4,
      'a change that does not fit the sheet',
    ],
    [
      'a redo of nothing',
      journal(ink(1, 2), { kind: 'redo', steps: 1 }),
      4,
      'a change that does not fit the sheet',
    ],
  ])('%s', (_, text, line, found) => {
    const expected = found.includes('fit') ? 'one that does' : `record ${line - 1}`;
    const start =
      text
        .split('\n')
        .slice(0, line - 1)
        .join('\n').length + 1;
    expect(told(text)).toEqual({
      ink: [2, 3, 4].slice(0, line - 3),
      length: start,
      number: line - 2,
      damage: {
        code: 'damaged',
        line,
        column: 1,
        offset: start,
        found,
        expected,
        message: `Line ${line}: found ${found}; expected ${expected}.`,
      },
    });
    expect(start).toBeLessThanOrEqual(from(line));
  });

  test('none is told of a last record without its end, nor is it counted', () => {
    for (const end of [good.length - 2, from(5) + 1, from(5)]) {
      expect(told(good.slice(0, end))).toEqual({ ink: [2, 3], length: from(5), number: 3, damage: null });
    }
    expect(told(good)).toEqual({ ink: [2, 3, 4], length: good.length, number: 4, damage: null });
  });

  test('what comes first counts: a change that does not fit before a line that is damaged', () => {
    const text = journal(ink(1, 2), ink(1, 2), ink(2, 3)).replace(/\d"}\n$/, '');
    expect(told(text).damage?.line).toBe(4);
    const both = journal(ink(1, 2), ink(1, 2), ink(2, 3)).replace(/^4 .*$/m, 'hello');
    expect(told(both).damage?.line).toBe(4);
    expect(told(both).ink).toEqual([2]);
  });
});

describe('the longest line', () => {
  /** A journal with a name whose record has so many characters. */
  const withLine = (characters: number): string => {
    const { text, tail } = makeRecords(start, opening);
    const bare = makeRecords(tail, [bodyOf({ kind: 'name', name: '' })]).text.length - 1;
    return (
      firstLine +
      text +
      makeRecords(tail, [bodyOf({ kind: 'name', name: 'x'.repeat(characters - bare) })]).text
    );
  };

  test('has 65,536 characters; one more is damage', () => {
    expect(recordLimit).toBe(65_536);
    expect(told(withLine(65_536)).damage).toBeNull();
    expect(told(withLine(65_537)).damage?.found).toBe('a line of 65537 characters');
  });

  test('whose end is another is damage as well, one without its last sign never finished', () => {
    expect(told(`${withLine(65_535).slice(0, -1)}x`).damage?.found).toBe('a record with a changed line end');
    expect(told(withLine(65_536).slice(0, -2)).damage).toBeNull();
  });
});

describe('the opening', () => {
  const open = (fields: Readonly<Record<string, unknown>>): unknown => ({
    kind: 'open',
    layout: writeLayout(small),
    name: 'x',
    givens: begun.state.givens,
    notes: [],
    ...fields,
  });
  const only = (body: unknown): string => makeJournal([bodyOf(body)]).text;
  const zeros = new Array(16).fill(0);

  test.each<[string, unknown]>([
    ['another kind', { kind: 'fill' }],
    ['a state', { kind: 'state', state: writeState(begun.state) }],
    ['too few givens', open({ givens: zeros.slice(1) })],
    ['too many givens', open({ givens: [...zeros, 0] })],
    ['a digit too high', open({ givens: [5, ...zeros.slice(1)] })],
    ['a layout that is none', open({ layout: { name: 'x', text: 'size 4 and a bit' } })],
    ['givens of another layout', open({ layout: writeLayout(plain) })],
  ])('that is %s opens no sheet', (_, body) => {
    const { error } = told(only(body));
    expect(error).toMatchObject({ code: 'damaged', line: 2, column: 1, offset: firstLine.length });
    expect(error?.message).toBe('Line 2: found a record that opens no sheet; expected record 1.');
  });

  test('with the highest digit, and with notes, is a sheet', () => {
    const notes = [0, 6, ...zeros.slice(2)];
    const read = readJournal(only(open({ givens: [4, ...zeros.slice(1)], notes })));
    if (!read.ok) throw new Error(read.error.message);
    const { state } = read.value.timeline;
    expect(state.givens[0]).toBe(4);
    expect(state.notes[1]).toBe(6);
    expect([...state.claimed]).toEqual([1]);
    expect(read.value.name).toBe('x');
    expect(read.value.damage).toBeNull();
    expect(read.value.tail.number).toBe(1);
  });

  test('that is damaged is told where it stands; where it is missing, a record is', () => {
    const damaged = told(journal().replace('"digit', '"Digit').replace('"kind"', '"kynd"'));
    expect(damaged.error).toMatchObject({ code: 'damaged', line: 2, offset: firstLine.length });
    const missing = told(firstLine);
    expect(missing.error).toMatchObject({
      code: 'no-journal',
      line: 2,
      found: 'no record',
      expected: 'record 1',
    });
    expect(missing.error?.offset).toBe(firstLine.length);
    const torn = told(journal().slice(0, -3));
    expect(torn.error).toMatchObject({ code: 'no-journal', line: 2, found: 'no record' });
  });
});

describe('the first line', () => {
  const expected = 'the first line of a sheet of version 1';
  test.each([
    ['', 'an empty file'],
    ['hello\n', 'another beginning'],
    [firstLine.trimEnd(), 'another beginning'],
    [`${'x'.repeat(200)}\n`, 'another beginning'],
    [`${firstLine.trimEnd()}${' '.repeat(80)}\n`, 'another beginning'],
  ])('%j is none', (text, found) => {
    expect(told(text).error).toEqual({
      code: 'no-journal',
      line: 1,
      column: 1,
      offset: 0,
      found,
      expected,
      message: `Line 1: found ${found}; expected ${expected}.`,
    });
  });

  test('of a newer version is told as that, with or without more', () => {
    const line = 'inkling-sheet 12 ';
    const newer = `${line}${checksum('inkling-sheet 12')}`;
    for (const text of [newer, `${newer}\n`, `${newer}\nmore\n`]) {
      expect(told(text).error).toMatchObject({
        code: 'newer',
        line: 1,
        offset: 0,
        message: 'Line 1: found version 12; expected version 1.',
      });
    }
  });
});

describe('layouts and names on the way', () => {
  test('a sheet that goes from one layout to another and back is read on each', () => {
    const givens = Array.from({ length: 81 }, (_, cell) => (cell === 80 ? 9 : 0));
    const big: SheetEvent = { kind: 'open', layout: writeLayout(plain), name: 'big', givens, notes: [] };
    const back: SheetEvent = {
      kind: 'open',
      layout: writeLayout(small),
      name: 'small again',
      givens: begun.state.givens,
      notes: [],
    };
    let sheet = begun;
    const bodies = makeSnapshot(new Timeline(begun.state), begun.state.name);
    for (const event of [ink(1, 2), big, ink(79, 8), back, ink(2, 3)]) {
      sheet = reduce(sheet, event);
      bodies.push(makeBody(event), makeBody({ kind: 'state', state: sheet.state }));
    }
    const read = readJournal(makeJournal(bodies).text);
    if (!read.ok) throw new Error(read.error.message);
    const { sheet: again } = read.value.timeline;
    expect(read.value.damage).toBeNull();
    expect(again.state).toEqual(sheet.state);
    expect(tellSheet(again)).toBe(tellSheet(sheet));
    // One layout, one object: what is kept by layout is found again.
    expect(again.past[2].before.layout).toBe(plain);
    expect(again.past[4].before.layout).toBe(again.state.layout);
  });

  test('the name given last is the one of the sheet, from its beginning', () => {
    const text = journal({ kind: 'name', name: 'first' }, ink(1, 2), { kind: 'name', name: 'last' });
    const read = readJournal(text);
    if (!read.ok) throw new Error(read.error.message);
    expect(read.value.name).toBe('last');
    expect(read.value.timeline.beginning.name).toBe('last');
    expect(read.value.timeline.moves).toBe(1);
    const anew = makeSnapshot(read.value.timeline, 'last');
    expect(anew).toHaveLength(3);
    expect(JSON.parse(anew[0])).toMatchObject({ kind: 'open', name: 'last' });
  });
});

test('what changes nothing is damage after the last written state too', () => {
  const one = reduce(begun, ink(1, 2));
  const text = journal(ink(1, 2), { kind: 'state', state: writeState(one.state) }, ink(1, 2));
  expect(told(text).damage).toMatchObject({ line: 5, found: 'a change that does not fit the sheet' });
  expect(told(text).ink).toEqual([2]);
});

test('a sheet that was opened anew by its journal has the notes it began with', () => {
  const notes = Array.from({ length: 16 }, (_, cell) => (cell === 3 ? 6 : 0));
  const sheet = newSheet(small, begun.state.givens, 'noted', notes);
  const read = readJournal(makeJournal(makeSnapshot(new Timeline(sheet.state), 'noted')).text);
  expect(read.ok && read.value.timeline.state).toEqual(sheet.state);
});
