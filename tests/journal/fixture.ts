import fc from 'fast-check';
import { type Change, changesBetween } from '../../source/journal/changes.ts';
import { type Kept, makeBody, makeJournal, makeSnapshot, readJournal } from '../../source/journal/journal.ts';
import { writeState } from '../../source/journal/state-text.ts';
import { Timeline } from '../../source/journal/timeline.ts';
import type { Sheet } from '../../source/sheet/state.ts';
import { type Action, act } from '../sheet/fixture.ts';

/** A sheet with everything that can be undone and redone, as one text: equal sheets have equal texts. */
export const tellSheet = (sheet: Sheet): string =>
  JSON.stringify([
    sheet.state.name,
    writeState(sheet.state),
    sheet.past.map(({ before, event }) => [event, writeState(before), before.name]),
    sheet.future.map(({ after, event }) => [event, writeState(after), after.name]),
  ]);

/** The same without the states on the way, which take long to work out. */
export const tellHistory = ({ timeline, name }: Pick<Kept, 'timeline' | 'name'>): string =>
  makeSnapshot(timeline, name).join('\n');

/** How many changes stand between two states that are written down. */
const stateEvery = 32;

/**
 * What a program would have written of these actions, and what `tellHistory` tells after each number of its
 * records: `told[k]` after k.
 */
export function journalOf(
  start: Sheet,
  actions: readonly Action[],
): { readonly text: string; readonly told: readonly string[]; readonly sheet: Sheet } {
  const timeline = new Timeline(start.state);
  const name = start.state.name;
  const bodies = makeSnapshot(timeline, name);
  const told = ['', tellHistory({ timeline, name })];
  let sheet = start;
  const write = (change: Change, after: Sheet) => {
    timeline.play(change, { after: after.state });
    bodies.push(makeBody(change));
    told.push(tellHistory({ timeline, name }));
  };
  for (const action of actions) {
    const after = act(sheet, action);
    for (const change of changesBetween(sheet, after)) write(change, after);
    sheet = after;
    if (bodies.length % stateEvery === 0) write({ kind: 'state', state: sheet.state }, sheet);
  }
  return { text: makeJournal(bodies).text, told, sheet };
}

/** So many actions, by a seed. */
export const someActions = (actions: fc.Arbitrary<Action>, count: number, seed: number): Action[] =>
  fc.sample(actions, { numRuns: count, seed });

/** A journal of so many records: that many of the longest there is for the actions. */
export function journalOfRecords(start: Sheet, actions: fc.Arbitrary<Action>, records: number, seed: number) {
  for (let count = records; ; count += records) {
    const whole = journalOf(start, someActions(actions, count, seed));
    const lines = whole.text.split('\n').slice(0, records + 1);
    if (lines.length > records && whole.told.length > records) {
      return { text: `${lines.join('\n')}\n`, told: whole.told.slice(0, records + 1) };
    }
  }
}

/** The number of whole records before a byte, and whether the byte lies in a first line or the opening. */
export function recordsBefore(text: string, byte: number): number {
  const before = text.slice(0, byte).split('\n').length - 1;
  return Math.max(0, before - 1);
}

export interface DamageTally {
  readonly recovered: number;
  readonly refused: number;
  readonly failures: string[];
}

/** Reads a journal that breaks off at each of these bytes: all before must be there, and nothing be reported. */
export function breakOff(
  { text, told }: { readonly text: string; readonly told: readonly string[] },
  bytes: Iterable<number>,
): DamageTally {
  const failures: string[] = [];
  let recovered = 0;
  let refused = 0;
  for (const byte of bytes) {
    const result = readJournal(text.slice(0, byte));
    const whole = recordsBefore(text, byte);
    if (!result.ok) {
      refused += 1;
      if (whole > 0) failures.push(`cut at ${byte}: ${result.error.message}`);
      if (result.error.code === 'newer') failures.push(`cut at ${byte}: newer`);
      continue;
    }
    recovered += 1;
    const { damage, length } = result.value;
    if (tellHistory(result.value) !== told[whole]) failures.push(`cut at ${byte}: another sheet`);
    if (damage) failures.push(`cut at ${byte}: ${damage.message}`);
    if (length > byte) failures.push(`cut at ${byte}: ${length} bytes`);
  }
  return { recovered, refused, failures };
}

/** Reads a journal with one bit of each of these bytes another: what comes before must be there, and the place be told. */
export function flipBits(
  { text, told }: { readonly text: string; readonly told: readonly string[] },
  bytes: Iterable<number>,
  bitOf: (byte: number) => number,
): DamageTally {
  const failures: string[] = [];
  let recovered = 0;
  let refused = 0;
  for (const byte of bytes) {
    const bit = bitOf(byte);
    const flipped = String.fromCharCode(text.charCodeAt(byte) ^ (1 << bit));
    const result = readJournal(text.slice(0, byte) + flipped + text.slice(byte + 1));
    const line = text.slice(0, byte).split('\n').length;
    const where = `bit ${bit} of byte ${byte}`;
    if (!result.ok) {
      refused += 1;
      const { code, line: told } = result.error;
      // The first line and the opening: without them there is no sheet.
      if (line > 2 || code === 'newer' || told > line) failures.push(`${where}: ${result.error.message}`);
      continue;
    }
    recovered += 1;
    const { damage } = result.value;
    if (line < 3) failures.push(`${where}: read without its opening`);
    if (damage?.line !== line) failures.push(`${where}: ${damage?.message ?? 'no damage told'}`);
    if (tellHistory(result.value) !== told[line - 2]) failures.push(`${where}: another sheet`);
  }
  return { recovered, refused, failures };
}
