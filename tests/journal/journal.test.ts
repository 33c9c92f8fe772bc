import { crc32 } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { plain } from '../../source/grid/layout.ts';
import { changesBetween } from '../../source/journal/changes.ts';
import { checksum } from '../../source/journal/checksum.ts';
import { makeBody, makeJournal, makeSnapshot, readJournal } from '../../source/journal/journal.ts';
import { bodyOf, firstLine, makeRecords, start } from '../../source/journal/record.ts';
import { Timeline } from '../../source/journal/timeline.ts';
import { newSheet, redo, reduce, undo } from '../../source/sheet/sheet.ts';
import type { Sheet } from '../../source/sheet/state.ts';
import { act, anyAction, crook, seed, sheetOf, small } from '../sheet/fixture.ts';
import { journalOf, someActions, tellSheet } from './fixture.ts';

console.log(`journal.test.ts: seed ${seed}`);

const smallSheet = () => sheetOf('1...........2..3', small);

/** The timeline of a sheet that was played, by the differences of its sheets alone. */
function follow(sheets: readonly Sheet[]): Timeline {
  const timeline = new Timeline(sheets[0].state);
  sheets.slice(1).forEach((sheet, i) => {
    for (const change of changesBetween(sheets[i], sheet)) expect(timeline.play(change)).toBe(true);
  });
  return timeline;
}

test('the checksum is the CRC-32 of zlib', () => {
  fc.assert(
    fc.property(
      fc.string({ unit: fc.integer({ min: 0, max: 255 }).map((c) => String.fromCharCode(c)) }),
      (text) => {
        expect(Number.parseInt(checksum(text), 16)).toBe(crc32(Buffer.from(text, 'latin1')));
      },
    ),
    { seed },
  );
});

describe('what changed', () => {
  test('leads from any sheet to any that came out of it, undo history included', () => {
    fc.assert(
      fc.property(fc.array(anyAction(small), { maxLength: 30 }), fc.array(fc.nat(29)), (actions, kept) => {
        let sheet = smallSheet();
        // Only some of the sheets on the way are looked at, so several actions can lie between two.
        const sheets = [sheet];
        actions.forEach((action, i) => {
          sheet = act(sheet, action);
          if (!kept.includes(i)) sheets.push(sheet);
        });
        sheets.push(sheet);
        expect(tellSheet(follow(sheets).sheet)).toBe(tellSheet(sheet));
      }),
      { seed, numRuns: 300 },
    );
  });

  test('a step back is an undo, a step forward a redo, and nothing else', () => {
    const one = reduce(smallSheet(), { kind: 'ink', cell: 1, digit: 2 });
    const two = reduce(one, { kind: 'ink', cell: 2, digit: 3 });
    expect(changesBetween(two, two)).toEqual([]);
    expect(changesBetween(one, two)).toEqual([{ kind: 'ink', cell: 2, digit: 3 }]);
    expect(changesBetween(two, undo(two, 2))).toEqual([{ kind: 'undo', steps: 2 }]);
    expect(changesBetween(undo(two, 2), two)).toEqual([{ kind: 'redo', steps: 2 }]);
    expect(changesBetween(two, redo(undo(two)))).toEqual([]);
  });
});

describe('a journal', () => {
  test.each([
    ['4x4', small, smallSheet(), 400],
    ['9x9', plain, sheetOf(crook), 150],
  ] as const)('gives back the sheet and its history on %s', (_name, layout, sheet, count) => {
    const written = journalOf(sheet, someActions(anyAction(layout), count, seed));
    const read = readJournal(written.text);
    if (!read.ok) throw new Error(read.error.message);
    expect(read.value.damage).toBeNull();
    expect(read.value.length).toBe(written.text.length);
    expect(tellSheet(read.value.timeline.sheet)).toBe(tellSheet(written.sheet));
    // Written anew it is shorter, and the same.
    const anew = makeJournal(makeSnapshot(read.value.timeline, read.value.name)).text;
    expect(anew.length).toBeLessThan(written.text.length);
    const again = readJournal(anew);
    if (!again.ok) throw new Error(again.error.message);
    expect(tellSheet(again.value.timeline.sheet)).toBe(tellSheet(written.sheet));
    expect(again.value.damage).toBeNull();
  });

  test('is ASCII, one line a record, whatever the names are', () => {
    const name = 'ESC\u001b[2J \u202e bidi \ud800 😀 \u0085\u2028\n\u007f';
    const sheet = newSheet(small, smallSheet().state.givens, name);
    const { text } = makeJournal(makeSnapshot(new Timeline(sheet.state), name));
    expect(text).toMatch(/^[\u0020-\u007e\n]*$/);
    expect(text.split('\n')).toHaveLength(3);
    const read = readJournal(text);
    expect(read.ok && read.value.name).toBe(name);
  });

  test('a name that was given last counts, and undo does not take it back', () => {
    const sheet = reduce(smallSheet(), { kind: 'ink', cell: 1, digit: 2 });
    const timeline = follow([smallSheet(), sheet]);
    const bodies = [...makeSnapshot(timeline, 'first'), makeBody({ kind: 'name', name: 'second' })];
    const read = readJournal(makeJournal([...bodies, makeBody({ kind: 'undo', steps: 1 })]).text);
    if (!read.ok) throw new Error(read.error.message);
    expect(read.value.name).toBe('second');
    expect(read.value.timeline.sheet.state.name).toBe('second');
    expect(read.value.timeline.sheet.future).toHaveLength(1);
  });

  test('says how many changes stand behind the last state, or the opening where there is none', () => {
    const ink = (cell: number, digit: number) => makeBody({ kind: 'ink', cell, digit });
    const opening = makeSnapshot(new Timeline(smallSheet().state), 'x');
    const timeline = new Timeline(smallSheet().state);
    timeline.play({ kind: 'ink', cell: 1, digit: 2 });
    const state = makeBody({ kind: 'state', state: timeline.state });
    const since = (...bodies: string[]) => {
      const read = readJournal(makeJournal([...opening, ...bodies]).text);
      if (!read.ok) throw new Error(read.error.message);
      return read.value.sinceState;
    };
    expect(opening).toHaveLength(1);
    expect(since()).toBe(0);
    expect(since(ink(1, 2))).toBe(1);
    expect(since(ink(1, 2), ink(2, 3), ink(3, 4))).toBe(3);
    expect(since(ink(1, 2), state)).toBe(0);
    expect(since(ink(1, 2), state, ink(2, 3), ink(3, 4))).toBe(2);
    // The second state counts, and what is damaged does not.
    expect(since(ink(1, 2), state, ink(2, 3), makeBody({ kind: 'undo', steps: 1 }), state, ink(2, 3))).toBe(
      1,
    );
    expect(since(ink(1, 2), state, ink(2, 3), ink(0, 4))).toBe(1);
  });

  test('a newer version is refused by its number, a damaged first line is not taken for one', () => {
    const newer = `inkling-sheet 2 ${checksum('inkling-sheet 2')}\nwhat it may hold\n`;
    const read = readJournal(newer);
    expect(read.ok ? null : [read.error.code, read.error.found]).toEqual(['newer', 'version 2']);
    const damaged = readJournal(newer.replace(' 2 ', ' 3 '));
    expect(damaged.ok ? null : damaged.error.code).toBe('no-journal');
    for (const text of ['', '\n', 'x', firstLine.trimEnd(), firstLine]) {
      const empty = readJournal(text);
      expect(empty.ok ? null : empty.error.code).toBe('no-journal');
    }
  });

  test.each([
    ['a change that changes nothing', { kind: 'ink', cell: 0, digit: 2 }, 'does not fit'],
    ['more to undo than there is', { kind: 'undo', steps: 3 }, 'does not fit'],
    ['an unknown kind', { kind: 'paint', cell: 1 }, 'no known kind'],
    ['a field of another type', { kind: 'ink', cell: '1', digit: 2 }, 'no known kind'],
    ['a negative number', { kind: 'ink', cell: -1, digit: 2 }, 'no known kind'],
    ['a state of another size', { kind: 'state', state: {} }, 'no known kind'],
    ['no object', 7, 'no known kind'],
  ])('%s is damage at its line, though its checksum is right', (_name, change, words) => {
    const opening = makeSnapshot(new Timeline(smallSheet().state), 'x');
    const bodies = [...opening, makeBody({ kind: 'ink', cell: 1, digit: 2 }), bodyOf(change)];
    const read = readJournal(makeJournal([...bodies, makeBody({ kind: 'undo', steps: 1 })]).text);
    if (!read.ok) throw new Error(read.error.message);
    expect(read.value.damage).toMatchObject({ code: 'damaged', line: 4 });
    expect(read.value.damage?.message).toContain(words);
    expect(read.value.timeline.sheet.past).toHaveLength(1);
  });

  test('records that are left out, doubled, swapped or from elsewhere are damage', () => {
    const { text } = journalOf(smallSheet(), someActions(anyAction(small), 60, seed));
    const lines = text.split('\n').slice(0, 30);
    const other = journalOf(sheetOf('2...........1..3', small), someActions(anyAction(small), 60, seed + 1));
    const others = other.text.split('\n');
    for (let at = 3; at < 25; at += 1) {
      const [before, line, next, rest] = [lines.slice(0, at), lines[at], lines[at + 1], lines.slice(at + 2)];
      for (const changed of [
        [...before, next, ...rest],
        [...before, line, line, next, ...rest],
        [...before, next, line, ...rest],
        [...before, others[at], next, ...rest],
      ]) {
        const read = readJournal(`${changed.join('\n')}\n`);
        expect(read.ok && read.value.damage?.line).toBeTruthy();
      }
    }
  });

  test('a line without end is read no further than a record can reach', () => {
    const { text, tail } = makeRecords(start, makeSnapshot(new Timeline(smallSheet().state), 'x'));
    const long = makeRecords(tail, [bodyOf({ kind: 'name', name: 'x'.repeat(70_000) })]).text;
    const read = readJournal(firstLine + text + long);
    expect(read.ok && read.value.damage?.message).toContain('characters');
  });
});
