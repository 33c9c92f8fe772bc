import { expect, test } from 'vitest';
import { Random } from '../random.ts';
import { grid1333, openBench, sheetOf } from '../terminal/bench.ts';
import { wire } from '../terminal/wired.tsx';

/*
 * The terminal's size changes at random, from 1 by 1 to 300 by 100, while keys arrive: nothing throws, nothing
 * scrolls away, the keys do what they do without it, and what is drawn fits the size, as if drawn all anew.
 */

const steps = Math.round(200 * Number(process.env.INKLING_DEEP ?? 1));
const keys = [
  'h',
  'j',
  'k',
  'l',
  'n',
  '3',
  '4',
  's',
  '7',
  'i',
  'u',
  'r',
  'f',
  '5',
  '\u001b[A',
  '\u001b[C',
  '?',
  'w',
  ':r5c6:67\r',
];

test(`${steps} sizes`, async () => {
  const seed = Number(process.env.INKLING_SEED ?? 930);
  console.log(`seed ${seed}`);
  const random = new Random(seed);
  const bench = openBench(sheetOf(grid1333));
  const still = openBench(sheetOf(grid1333));
  const theme = { depth: 'true', background: 'dark' } as const;
  const wired = await wire(bench, { columns: 80, rows: 24, theme });
  const other = await wire(still, { columns: 80, rows: 24, theme });
  try {
    for (let step = 0; step < steps; step++) {
      const size =
        step % 10 === 9
          ? { columns: 80, rows: 24 }
          : { columns: 1 + random.below(300), rows: 1 + random.below(100) };
      wired.resize(size);
      const pressed = Array.from({ length: 3 }, () => random.pick(keys)).join('');
      wired.keys.feed(pressed);
      other.keys.feed(pressed);
      const where = `seed ${seed}, step ${step}, ${size.columns} x ${size.rows}, ${JSON.stringify(pressed)}`;
      await other.settled();
      const shown = await wired.settled();
      expect(wired.screen.scrollback(), where).toEqual([]);
      const { sheet, cursor, pen } = bench.app();
      const expected = still.app();
      expect({ state: sheet.state, cursor, pen }, where).toEqual({
        state: expected.sheet.state,
        cursor: expected.cursor,
        pen: expected.pen,
      });
      if (bench.app().mode.kind === 'typed') continue;
      expect(shown, where).toEqual(await wired.printed());
    }
  } finally {
    wired.close();
    other.close();
  }
});
