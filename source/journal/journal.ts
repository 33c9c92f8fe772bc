import { type Layout, plain } from '../grid/layout.ts';
import { readWritten, writeLayout } from '../grid/layout-text.ts';
import { newSheet } from '../sheet/sheet.ts';
import type { SheetEvent, SheetState } from '../sheet/state.ts';
import { failure, type LocatedError, type Result, success } from '../text/result.ts';
import { parseChange } from './change-reader.ts';
import type { Change } from './changes.ts';
import {
  bodyOf,
  firstLine,
  formatVersion,
  makeRecords,
  readRecord,
  recordLimit,
  start,
  type Tail,
  versionOf,
} from './record.ts';
import { writeState } from './state-text.ts';
import { Timeline } from './timeline.ts';

/** What is wrong with a journal, and where: `line` counts records from line 2 on, `column` is 1. */
export interface JournalError extends LocatedError {
  /**
   * `no-journal`: it never was one, or its very beginning is damaged. `newer`: another version of the program
   * wrote it. `damaged`: a record is not what was written.
   */
  readonly code: 'no-journal' | 'newer' | 'damaged';
  /** How many bytes of the journal stand before the damage. */
  readonly offset: number;
}

/** What a journal keeps. */
export interface Kept {
  /** The sheet with its history. */
  readonly timeline: Timeline;
  /** The name of the sheet: the one that was given to it last, or that of the grid that it began with. */
  readonly name: string;
  /** How many changes stand behind the last state that is written down, or behind the opening. */
  readonly sinceState: number;
  /** What the next record goes on from. */
  readonly tail: Tail;
  /** How many bytes of the journal all this takes. What stands behind them is not part of it. */
  readonly length: number;
  /** Where the journal is damaged: what comes after that is lost. Null where nothing is. */
  readonly damage: JournalError | null;
}

type Opening = Extract<SheetEvent, { kind: 'open' }>;

function wrong(
  code: JournalError['code'],
  place: { readonly line: number; readonly offset: number },
  found: string,
  expected: string,
): JournalError {
  const message = `Line ${place.line}: found ${found}; expected ${expected}.`;
  return { code, line: place.line, column: 1, found, expected, message, offset: place.offset };
}

const openingOf = (state: SheetState, name: string): Opening => ({
  kind: 'open',
  layout: writeLayout(state.layout),
  name,
  givens: state.givens,
  notes: state.notes,
});

/** The sheet that an opening makes; null where its layout cannot be read or its digits do not fit. */
function openSheet({ layout: written, name, givens, notes }: Opening): SheetState | null {
  const layout = readWritten(written, plain);
  if (!layout || givens.length !== layout.cellCount || !givens.every((d) => d <= layout.size)) return null;
  return newSheet(layout, givens, name, notes).state;
}

/**
 * A history as the fewest bodies of records that bring it back, all that can be undone and redone included:
 * how the sheet was opened, the moves done, the moves taken back.
 */
export const makeSnapshot = (timeline: Timeline, name: string): string[] => [
  bodyOf(openingOf(timeline.beginning, name)),
  ...timeline.shortest().map(makeBody),
];

/** A whole journal of the bodies of records. */
export function makeJournal(bodies: readonly string[]): { readonly text: string; readonly tail: Tail } {
  const { text, tail } = makeRecords(start, bodies);
  return { text: firstLine + text, tail };
}

/** The body of the record of a change. */
export const makeBody = (change: Change): string =>
  bodyOf(change.kind === 'state' ? { ...change, state: writeState(change.state) } : change);

interface ReadLine {
  readonly change: Change;
  readonly tail: Tail;
  /** The bytes up to the end of its line. */
  readonly end: number;
}

/** The layout that the sheet is likely on after a change, so that each layout is read once. */
function layoutAfter(change: Change, before: Layout): Layout {
  if (change.kind === 'state') return change.state.layout;
  return change.kind === 'open' ? (readWritten(change.layout, before) ?? before) : before;
}

/** The records up to the first thing that is wrong. */
function readLines(text: string): { readonly read: ReadLine[]; readonly damage: JournalError | null } {
  const read: ReadLine[] = [];
  let tail = start;
  let layout: Layout = plain;
  let offset = firstLine.length;
  while (offset < text.length) {
    const place = { line: read.length + 2, offset };
    const refuse = (found: string) =>
      ({ read, damage: wrong('damaged', place, found, `record ${tail.number + 1}`) }) as const;
    const end = text.indexOf('\n', offset);
    if (end < 0) {
      // Whoever was writing it never came to its end, unless it has its end and only the line end is another.
      const rest = text.slice(offset, offset + recordLimit);
      const isWhole = 'body' in readRecord(tail, rest.slice(0, -1));
      return isWhole ? refuse('a record with a changed line end') : { read, damage: null };
    }
    if (end - offset > recordLimit) return refuse(`a line of ${end - offset} characters`);
    const record = readRecord(tail, text.slice(offset, end));
    if ('wrong' in record) return refuse(record.wrong);
    const change = parseChange(record.body, layout);
    if (!change) return refuse('a record of no known kind');
    layout = layoutAfter(change, layout);
    tail = record.tail;
    offset = end + 1;
    read.push({ change, tail, end: offset });
  }
  return { read, damage: null };
}

/**
 * Reads a journal, one character a byte. A last record without its line end was never finished and is left
 * out; anything else that is not as it was written is told with its place, and what stands before it is
 * recovered. An error where not even the opening can be had, or a newer version wrote it.
 */
export function readJournal(text: string): Result<Kept, JournalError> {
  const [first] = text.split('\n', 1);
  const version = versionOf(first);
  const expected = `the first line of a sheet of version ${formatVersion}`;
  if (version !== null && version > formatVersion) {
    const found = `version ${version}`;
    return failure(wrong('newer', { line: 1, offset: 0 }, found, `version ${formatVersion}`));
  }
  if (version === null || first.length === text.length) {
    const found = text.length === 0 ? 'an empty file' : 'another beginning';
    return failure(wrong('no-journal', { line: 1, offset: 0 }, found, expected));
  }
  const { read, damage } = readLines(text);
  const [opening] = read;
  const place = { line: 2, offset: firstLine.length };
  if (!opening) return failure(damage ?? wrong('no-journal', place, 'no record', 'record 1'));
  const name = read.flatMap(({ change }) => (change.kind === 'name' ? [change.name] : [])).at(-1);
  const opened = opening.change;
  const sheet = opened.kind === 'open' ? openSheet({ ...opened, name: name ?? opened.name }) : null;
  if (!sheet || opened.kind !== 'open') {
    return failure(wrong('damaged', place, 'a record that opens no sheet', 'record 1'));
  }
  const timeline = new Timeline(sheet);
  // What comes after the last state that is written down is worked out, and checked, at once.
  const written = read.findLastIndex(({ change }) => change.kind === 'state');
  const finish = (last: ReadLine, trouble: JournalError | null) =>
    success({
      timeline,
      name: name ?? opened.name,
      sinceState: read.indexOf(last) - Math.max(0, written),
      tail: last.tail,
      length: last.end,
      damage: trouble,
    });
  let last = opening;
  for (const [index, line] of read.entries()) {
    if (index === 0) continue;
    if (!timeline.play(line.change, { check: index > written })) {
      const where = { line: line.tail.number + 1, offset: last.end };
      return finish(last, wrong('damaged', where, 'a change that does not fit the sheet', 'one that does'));
    }
    last = line;
  }
  return finish(last, damage);
}
