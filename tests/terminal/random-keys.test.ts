import fc from 'fast-check';
import { expect, test } from 'vitest';
import { keyModeOf } from '../../source/terminal/app-state.ts';
import { draw } from '../../source/terminal/draw.ts';
import { actionTable, typedNames } from '../../source/terminal/keymap.ts';
import { PlainSession } from '../../source/terminal/plain/plain-session.ts';
import { defaultSettings } from '../../source/terminal/settings.ts';
import { grid257, grid1333, openBench, sheetOf } from './bench.ts';

const seed = Number(process.env.INKLING_SEED ?? Date.now() % 2 ** 31);
console.log(`random-keys.test.ts: seed ${seed}`);

/** Every key of the table, digits one by one, and some that do nothing. */
const chords = [
  ...new Set([
    ...actionTable.flatMap(({ keys }) => [...keys] as string[]).filter((key) => key !== '1-9'),
    ...'123456789',
    ...['M', '$', 'é', 'f9', 'ctrl+alt+x', 'insert', 'begin'],
  ]),
];
/** Engines that know nothing keep this quick; what hints do to keys is tested elsewhere. */
const idle = {
  findHint: () => null,
  ask: () => ({ kind: 'said' as const, lines: ['Nothing.'] }),
  isRight: () => 'undecided' as const,
};

const lines = fc.oneof(
  fc.constantFrom(...chords.filter((chord) => [...chord].length === 1)),
  fc.constantFrom(...typedNames),
  fc.constantFrom('r4c7=3', 'r4c8:16', '7@r1:c6,c7', 'r5c5<>6', 'show', 'row 3', 'marks', 'paste', '', 'end'),
  fc.constantFrom('find 4', 'undo 3', 'theme mono', 'help', 'help undo', '12', '1.3', grid257, 'nonsense'),
);

test('whatever keys come in whatever order: nothing throws, every screen can be drawn, escape leads back', () => {
  fc.assert(
    fc.property(fc.array(fc.constantFrom(...chords), { minLength: 1, maxLength: 60 }), (keys) => {
      const bench = openBench(sheetOf(grid1333), 80, 24, idle);
      for (const key of keys) {
        bench.store.send({ kind: 'key', chord: key });
        if (keyModeOf(bench.app()) === 'typed') bench.store.send({ kind: 'submit', text: 'r5c5:67' });
      }
      for (const [columns, rows] of [
        [80, 24],
        [40, 15],
        [120, 45],
        [10, 3],
      ] as const) {
        bench.store.send({ kind: 'resize', size: { columns, rows } });
        draw(bench.app(), { ascii: true, tints: false, digits: 'large' });
      }
      // Escape never destroys: it closes what is open, one after the other, and leaves the sheet alone.
      const { state } = bench.app().sheet;
      for (let times = 0; times < 6; times += 1) bench.press('escape');
      expect(keyModeOf(bench.app())).toBe('work');
      expect(bench.app().sheet.state).toBe(state);
      expect(bench.app().picked.size).toBe(0);
    }),
    { seed, numRuns: 150 },
  );
});

test('undoing all that keys have done comes back to the beginning, and redoing it to the end', () => {
  fc.assert(
    fc.property(fc.array(fc.constantFrom(...chords), { minLength: 1, maxLength: 60 }), (keys) => {
      const bench = openBench(sheetOf(grid1333), 80, 24, idle);
      const start = bench.app().sheet.state;
      for (const key of keys) bench.store.send({ kind: 'key', chord: key });
      for (let times = 0; times < 6; times += 1) bench.press('escape');
      const end = bench.app().sheet;
      const states = [end.state];
      for (;;) {
        bench.type('undo');
        if (bench.app().message[0] === 'Nothing to undo.') break;
        states.push(bench.app().sheet.state);
      }
      expect(bench.app().sheet.state).toEqual(start);
      for (const state of states.reverse().slice(1)) {
        bench.type('redo');
        expect(bench.app().sheet.state).toEqual(state);
      }
    }),
    { seed, numRuns: 60 },
  );
});

test('whatever lines come without a screen: nothing throws, and each is answered in plain text', () => {
  fc.assert(
    fc.property(fc.array(lines, { minLength: 1, maxLength: 40 }), (typed) => {
      const session = new PlainSession(sheetOf(grid1333), defaultSettings, {
        ...idle,
        argue: () => ({
          ok: false,
          error: { code: 'odd', line: 1, column: 1, found: '', expected: '', message: 'Odd.' },
        }),
      });
      for (const line of typed) {
        const before = session.isPasting;
        const { lines: said, quit } = session.line(line);
        if (line !== '' && !before && quit === null) expect(said.length, line).toBeGreaterThan(0);
        for (const text of said) expect(text).toMatch(/^[^\u0000-\u001f\u007f-\u009f]*$/);
      }
    }),
    { seed, numRuns: 120 },
  );
});
