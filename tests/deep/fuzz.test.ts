import { Buffer } from 'node:buffer';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { expect, test } from 'vitest';
import { readSettings } from '../../source/commands/settings-file.ts';
import { plain } from '../../source/grid/layout.ts';
import { readLayout } from '../../source/grid/layout-reader.ts';
import { parseStatement } from '../../source/hint/statement.ts';
import { checksum } from '../../source/journal/checksum.ts';
import { readJournal } from '../../source/journal/journal.ts';
import { firstLine, makeRecords, start } from '../../source/journal/record.ts';
import { verifyPath } from '../../source/path/verify.ts';
import { KeyStream } from '../../source/platform/key-stream.ts';
import { parseMoves } from '../../source/sheet/moves.ts';
import { openApp } from '../../source/terminal/app-state.ts';
import { readTyped } from '../../source/terminal/typed-line.ts';
import { cpuTime } from '../grid/fuzz.ts';
import { journalOf, someActions } from '../journal/fixture.ts';
import { FakeTimer } from '../platform/fake-timer.ts';
import { hostileText } from '../pty/hostile.ts';
import { Random } from '../random.ts';
import { anyAction, crook, sheetOf, small } from '../sheet/fixture.ts';

const seed = Number(process.env.INKLING_SEED ?? Date.now() % 2 ** 31);
const count = Math.ceil(1_000_000 * Number(process.env.INKLING_DEEP ?? 1));
/** What a reader may keep of a million texts, in megabytes: what the heap holds once all garbage is collected. */
const mostKept = 100;
/** What the heap may ever hold, in megabytes, garbage too: how much of that there is is the collector's choice. */
const mostMemory = 1000;
setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;
const heap = (): number => process.memoryUsage().heapUsed / 1e6;

/** What a reader makes of a text: a value, or an error with its place. Anything else is a failure, in words. */
type Verdict = 'value' | 'error' | { readonly wrong: string };

interface Target {
  readonly name: string;
  /** Texts that the reader takes, to be spoilt. */
  readonly good: readonly string[];
  /** Pieces that mean something to it. */
  readonly pieces: readonly string[];
  readonly read: (text: string, random: Random) => Verdict;
}

const unsafe = /[\u0000-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069\p{Cs}]/u;

/** Judges a located error: it must have a place in the text and a sentence that is safe to show. */
function located(
  text: string,
  { line, column, message }: { line: number; column: number; message: string },
): Verdict {
  const lines = text.split(/\r\n|\n|\r/).length;
  if (!(line >= 1 && line <= lines + 1)) return { wrong: `line ${line} of ${lines}` };
  if (!(column >= 1 && column <= text.length + 2)) return { wrong: `column ${column}` };
  if (message === '' || unsafe.test(message)) return { wrong: `message ${JSON.stringify(message)}` };
  return 'error';
}

const journals = [1, 2, 3].map(
  (number) => journalOf(sheetOf('1...........2..3', small), someActions(anyAction(small), 12, number)).text,
);

/** Bodies with the right number and sum, so that what is in them is looked at too. */
const signed = (bodies: readonly string[]): string => firstLine + makeRecords(start, bodies).text;

const app = openApp(sheetOf(crook), { columns: 80, rows: 24 });

const targets: readonly Target[] = [
  {
    name: 'the journal',
    good: journals,
    pieces: ['\n', ' ', '{"kind":"ink"', firstLine, '"steps":1e9', '[]', checksum('x')],
    read: (text) => {
      const read = readJournal(text);
      if (!read.ok) return located(text, read.error);
      if (read.value.length > text.length) return { wrong: 'longer than it is' };
      return read.value.damage ? located(text, read.value.damage) : 'value';
    },
  },
  {
    name: 'the bodies of a journal with right sums',
    good: journals.map((text) =>
      text
        .split('\n')
        .slice(1, -1)
        .map((line) => line.replace(/^\d+ \w+ /, ''))
        .join('\n'),
    ),
    pieces: [
      '{',
      '}',
      '[',
      '"kind":"undo"',
      '"state"',
      ',',
      '0',
      '-1',
      '1e9',
      '81',
      'null',
      '"cells":[99]',
      '\n',
    ],
    read: (text) => {
      const journal = signed(text.split('\n'));
      const read = readJournal(journal);
      if (!read.ok) return located(journal, read.error);
      // Whatever it was taken for can be undone to its beginning and shown.
      const { timeline } = read.value;
      if (timeline.sheet.past.some(({ before }) => before.ink.length !== before.layout.cellCount)) {
        return { wrong: 'a state of another size' };
      }
      return read.value.damage ? located(journal, read.value.damage) : 'value';
    },
  },
  {
    name: 'the settings',
    good: ['theme = "dark"\npen = "note"\n[keys]\nhint = "f5"\nundo = ["u", "ctrl+u"]\nsingles = []\n'],
    pieces: [
      '[',
      ']',
      '=',
      '"',
      "'",
      '"""',
      '\n',
      '#',
      '.',
      '[keys]',
      'theme',
      '1979-05-27',
      '{',
      '}',
      '\\u0000',
    ],
    read: (text) => {
      const read = readSettings(text);
      if ('bindings' in read) return 'value';
      if (read.length === 0) return { wrong: 'no problem told' };
      for (const problem of read) {
        const verdict = located(text, problem);
        if (verdict !== 'error') return verdict;
      }
      return 'error';
    },
  },
  {
    name: 'a layout',
    good: [
      'size 9\nboxes 3x3\ndiagonals\n',
      'size 4\nregions\nAABB\nABBC\nADCC\nDDDC\n',
      'size 4\nboxes 2x2\nextra r1c1-r2c2\n',
    ],
    pieces: [
      'size',
      'boxes',
      'regions',
      'extra',
      'diagonals',
      ' ',
      '\n',
      'r1c1',
      '-',
      '3x3',
      '25',
      'x',
      'A',
      '#',
    ],
    read: (text) => {
      const read = readLayout(text, 'fuzzed');
      return read.ok ? 'value' : located(text, read.error);
    },
  },
  {
    name: 'a statement',
    good: ['r3c5<>7 by 7@c2 7@c8', 'r4c7=3 by r4c7', 'breaks by 1@r1 r2c2'],
    pieces: ['by', 'r1c1', '<>', '!=', '≠', '=', '@', '7@c2', 'b5', 'breaks', ' ', ',', '0'],
    read: (text) => {
      const read = parseStatement(text, plain);
      return read.ok ? 'value' : located(text, read.error);
    },
  },
  {
    name: 'moves',
    good: ['r4c7=3', 'r4c8:16 5@b2:r1c4,r2c4', 'r4c7<>38; r1c1'],
    pieces: ['r4c7', '=', '<>', '≠', ':', '-', ',', ';', ' ', '@', 'b2', 'c2', 'r3', '5', '16'],
    read: (text) => {
      const read = parseMoves(text, plain);
      return read.ok ? 'value' : located(text, read.error);
    },
  },
  {
    name: 'the typed line',
    good: ['find x-wing', 'trace r7c3<>4', 'undo', 'theme light', 'r4c7=3 by r4c7', 'show r1c1', 'row 4'],
    pieces: ['find', 'trace', 'by', ':', ' ', 'r1c1', 'hint', '9', 'theme', 'row', 'show'],
    read: (text) => {
      const typed = readTyped(app, text);
      if (typed.kind !== 'wrong') return 'value';
      return typed.lines.length > 0 ? 'error' : { wrong: 'nothing told' };
    },
  },
  {
    name: 'the key stream',
    good: [
      '12345jjjj',
      '\u001b[A\u001b[1;5C',
      '\u001b[200~paste\u001b[201~',
      '\u001b[<0;3;4M',
      '\u001b]52;c;eA==\u0007',
    ],
    pieces: [
      '\u001b',
      '[',
      'O',
      '\u001b[',
      '~',
      ';',
      '1',
      '5',
      'A',
      'M',
      '<',
      '\u001b[200~',
      '\u001b[201~',
      '\u0000',
      '\u007f',
    ],
    read: (text, random) => {
      const timer = new FakeTimer();
      const keys = new KeyStream({ timer, pasteLimit: 1000 });
      let events = 0;
      let wrong = '';
      keys.subscribe((event) => {
        events += 1;
        if (event.kind === 'key' && event.text !== undefined && /[\u0000-\u001f\u007f]/.test(event.text)) {
          wrong = `text ${JSON.stringify(event.text)}`;
        }
        if (event.kind === 'paste' && event.text.length > 1000) wrong = `a paste of ${event.text.length}`;
        return true;
      });
      const bytes = Buffer.from(text, random.below(3) === 0 ? 'latin1' : 'utf8');
      for (let at = 0; at < bytes.length; ) {
        const length = 1 + random.below(bytes.length);
        keys.feed(bytes.subarray(at, at + length));
        at += length;
        timer.advance(random.below(2) * 60);
      }
      timer.advance(10_000);
      if (events > bytes.length) wrong = `${events} events of ${bytes.length} bytes`;
      return wrong === '' ? 'value' : { wrong };
    },
  },
  {
    name: 'a path to be verified',
    good: [
      `{"schema":1,"puzzle":"${'.'.repeat(81)}","solved":false,"steps":[{"technique":null,"facts":["7@c2"],"placements":[],"strikes":["r3c5<>7"],"assumes":"nothing"}]}`,
    ],
    pieces: ['{', '}', '[', ']', '"', ',', ':', '"facts"', '"r1c1"', 'null', '1e999', '"steps"'],
    read: (text) => {
      let value: unknown;
      try {
        value = JSON.parse(text);
      } catch {
        return 'error';
      }
      const verified = verifyPath(plain, value);
      return 'message' in verified ? 'error' : 'value';
    },
  },
];

/** A text that may be anything: a good one spoilt, pieces thrown together, or hostile. */
function fuzzed({ good, pieces }: Target, random: Random): string {
  const kind = random.below(6);
  if (kind === 0) return hostileText(random);
  if (kind === 1) return Array.from({ length: random.below(30) }, () => random.pick(pieces)).join('');
  let text = random.pick(good);
  for (let times = 1 + random.below(4); times > 0; times -= 1) {
    const at = random.below(text.length + 1);
    const to = Math.min(text.length, at + random.below(12));
    const put = random.pick(['', random.pick(pieces), text.slice(at, to).repeat(2), hostileText(random)]);
    text = text.slice(0, at) + put + text.slice(to);
  }
  return text.slice(0, 20_000);
}

test.each(targets.map((target) => [target.name, target] as const))(
  `${count} texts through %s (seed ${seed})`,
  (name, target) => {
    const random = new Random(seed);
    const tally = { value: 0, error: 0 };
    const failures: string[] = [];
    let slowest = 0;
    let memory = 0;
    let kept = 0;
    for (let index = 0; index < count && failures.length < 5; index += 1) {
      const text = fuzzed(target, random);
      if (index % 1000 === 0) memory = Math.max(memory, heap());
      if (index % 100_000 === 99_999) {
        collect();
        kept = Math.max(kept, heap());
      }
      const fail = (why: string) =>
        failures.push(`input ${index}: ${why}: ${JSON.stringify(text.slice(0, 300))}`);
      try {
        const began = performance.now();
        const verdict = target.read(text, random);
        let took = performance.now() - began;
        // What the clock finds slow is measured again: the machine may have been busy with something else.
        for (let round = 0; round < 3 && took > 50; round += 1) {
          const before = cpuTime();
          target.read(text, random);
          took = Math.min(took, cpuTime() - before);
        }
        slowest = Math.max(slowest, took);
        if (took > 100) fail(`${took.toFixed(0)} ms`);
        if (typeof verdict === 'string') tally[verdict] += 1;
        else fail(verdict.wrong);
      } catch (error) {
        fail(`threw ${String(error)}`);
      }
    }
    collect();
    kept = Math.max(kept, heap());
    console.log(
      `seed ${seed}, ${name}: ${tally.value} values, ${tally.error} errors; the slowest took ${slowest.toFixed(1)} ms, the heap had ${memory.toFixed(0)} MB at most, ${kept.toFixed(0)} MB of it in use`,
    );
    expect(failures).toEqual([]);
    expect(tally.value).toBeGreaterThan(0);
    expect(kept).toBeLessThan(mostKept);
    expect(memory).toBeLessThan(mostMemory);
  },
);
