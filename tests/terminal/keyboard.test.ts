import { afterEach, describe, expect, test } from 'vitest';
import { FakeTimer } from '../platform/fake-timer.ts';
import { pasteBytes } from '../pty/keys.ts';
import { Random } from '../random.ts';
import { type Bench, grid1333, openBench, sheetOf } from './bench.ts';
import { randomKey } from './random-keys.ts';
import { type Wired, wire } from './wired.tsx';

/* Bytes from the keyboard to the screen, wired as in the program but for the pseudo-terminal. */

const theme = { depth: '256', background: 'dark' } as const;
const opened: Wired[] = [];
afterEach(() => {
  for (const wired of opened.splice(0)) wired.close();
});

async function start(after?: FakeTimer['after']): Promise<{ bench: Bench; wired: Wired }> {
  const bench = openBench(sheetOf(grid1333));
  const wired = await wire(bench, { columns: 80, rows: 24, theme, ...(after && { after }) });
  opened.push(wired);
  return { bench, wired };
}

/** What was done, apart from how it is drawn. */
const doneOn = ({ bench }: { bench: Bench }) => {
  const { sheet, cursor, pen, mode, message, found, held, hint } = bench.app();
  return { state: sheet.state, cursor, pen, mode, message, found, held, at: hint?.at };
};

/** Keys as a terminal sends them, the long ones of every kind among them. */
const script = [
  '\u001b[B\u001b[C\u001bOA\u001bOD',
  'n\u001bOt\u001bOu',
  '\u001b[1;2C\u001b[1;5D\u001b[H\u001b[4~',
  's7\u001b[C7',
  '\u001b[<0;10;5M\u001b[<0;10;5m\u001b[I\u001b[O',
  ':r5c4=2 r5c6<>7\r',
  pasteBytes('no grid at all, é and 日本'),
  '\u001b[97;3u\u001b[27;5;97~\u001b[15~',
  'i\u001b[3~3\u001b[5~',
].join('');

test('keys cut at every byte, 1 to 40 ms apart, do what they do in one piece', async () => {
  const whole = await start();
  whole.wired.keys.feed(script);
  const wanted = await whole.wired.settled();
  for (const gap of [1, 13, 40]) {
    const timer = new FakeTimer();
    const cut = await start(timer.after);
    for (const byte of Buffer.from(script)) {
      cut.wired.keys.feed(Uint8Array.of(byte));
      timer.advance(gap);
      // What goes to the typed line takes its turns in the machine's own time.
      if (cut.bench.app().mode.kind === 'typed') await cut.wired.settled();
    }
    const shown = await cut.wired.settled();
    expect(doneOn(cut)).toEqual(doneOn(whole));
    expect(shown).toEqual(wanted);
  }
});

test('a burst does what the same keys do one by one', async () => {
  const seed = 77;
  const random = new Random(seed);
  for (let round = 0; round < 12; round++) {
    const keys = Array.from({ length: 25 }, () => randomKey(random)).filter((key) => key !== '\u001b');
    const burst = await start();
    burst.wired.keys.feed(keys.join(''));
    const single = await start();
    for (const key of keys) {
      single.wired.keys.feed(key);
      await single.wired.settled();
    }
    await burst.wired.settled();
    const where = `seed ${seed}, round ${round}, ${JSON.stringify(keys)}`;
    await expect.poll(() => doneOn(burst), { timeout: 3000, message: where }).toEqual(doneOn(single));
    await expect.poll(burst.wired.settled, { timeout: 3000 }).toEqual(await single.wired.settled());
    for (const { wired } of [burst, single]) wired.close();
    opened.length = 0;
  }
});

test('the typed line goes on where the terminal becomes too small to show it, its cursor where it was', async () => {
  const { bench, wired } = await start();
  wired.keys.feed(':r5c4=');
  await wired.settled();
  for (const size of [
    { columns: 9, rows: 1 },
    { columns: 1, rows: 1 },
  ]) {
    wired.resize(size);
    wired.keys.feed('2\u001b[D');
    await wired.settled();
    expect(wired.screen.cursor().visible).toBe(false);
  }
  expect(bench.app().mode).toMatchObject({ kind: 'typed', text: 'r5c4=22' });
  wired.resize({ columns: 80, rows: 24 });
  await wired.settled();
  const { x, y, visible } = wired.screen.cursor();
  const line = wired.screen.lines()[y]!;
  expect(visible).toBe(true);
  expect(line.slice(0, x)).toMatch(/^ *: r5c4=$/);
  wired.resize({ columns: 1, rows: 1 });
  wired.keys.feed('\u007f=\u001b[C\u001b[C\u007f\rj');
  await wired.settled();
  expect(bench.app().mode.kind).toBe('work');
  expect(bench.app().sheet.past).toHaveLength(1);
});

test('a paste of 10 KB is one event, one preview and one undo step', async () => {
  const { bench, wired } = await start();
  const grid = '53..7....6..195....98....6.8...6...34..8.3..17...2...6.6....28....419..5....8..79';
  const text = `${grid}\n`.repeat(125);
  expect(text.length).toBeGreaterThan(10_000);
  const before = bench.app().sheet.state;
  let events = 0;
  wired.keys.subscribe((event) => {
    if (event.kind === 'paste') events++;
    return false;
  });
  for (const piece of pasteBytes(text).match(/[\s\S]{1,1000}/g)!) wired.keys.feed(piece);
  await wired.settled();
  expect(events).toBe(1);
  expect(bench.app().mode).toMatchObject({ kind: 'paste' });
  bench.press('return');
  expect(bench.app().sheet.state).not.toEqual(before);
  bench.press('u');
  expect(bench.app().sheet.state).toEqual(before);
});

describe('Shift and a digit, whatever it types, writes nothing and erases nothing', () => {
  // The digit row with Shift on the layouts of the United States, Britain, Germany, Spain, Sweden and Poland,
  // and without Shift on the French one (X.Org's xkeyboard-config).
  test.each(['!@#$%^&*()', '!"£$%^&*()', '!"§$%&/()=', '!"·$%&/()=', '!"#¤%&/()=', '&é"\'(-è_çà'])(
    '%s',
    async (signs) => {
      for (const pen of ['i', 'n', 's', 'x']) {
        const { bench, wired } = await start();
        bench.press(`${pen} 4`);
        const { sheet, cursor } = bench.app();
        for (const sign of signs) {
          wired.keys.feed(sign);
          bench.press('escape');
        }
        await wired.settled();
        expect(bench.app().sheet.state).toEqual(sheet.state);
        expect(bench.app().cursor).toBe(cursor);
      }
    },
  );
});
