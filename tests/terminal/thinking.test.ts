import { expect, test } from 'vitest';
import { hintFor } from '../../source/hint/ladder.ts';
import { isRight } from '../../source/sheet/look-over.ts';
import { viewOf } from '../../source/sheet/view.ts';
import { openApp, rungOf } from '../../source/terminal/app-state.ts';
import { draw } from '../../source/terminal/draw.ts';
import { type Asking, answerOf, type Engine } from '../../source/terminal/engine.ts';
import { plainRows } from '../../source/terminal/screen.ts';
import type { News } from '../../source/terminal/services.ts';
import { Store } from '../../source/terminal/store.ts';
import { grid1333, openBench, sheetOf } from './bench.ts';

const engine: Engine = {
  findHint: (view) => hintFor(view),
  argue: () => expect.unreachable(),
  ask: () => expect.unreachable(),
  isRight: (state) => isRight(state),
};

/** A workbench whose engine answers when it is told to. */
function openSlow(size = { columns: 80, rows: 24 }) {
  const asked: { readonly asking: Asking; readonly hear: (news: News) => void }[] = [];
  let stops = 0;
  const store = new Store(
    openApp(sheetOf(grid1333), size),
    {
      think: (asking, hear) => asked.push({ asking, hear }),
      stop: () => {
        stops += 1;
      },
      copy: () => null,
    },
    { quit: () => undefined, suspend: () => undefined, redraw: () => undefined },
  );
  return {
    app: store.app,
    asked,
    stops: () => stops,
    screen: () => plainRows(draw(store.app(), { ascii: false, tints: false, digits: 'plain' })).join('\n'),
    press: (keys: string) => {
      for (const chord of keys.split(' ')) store.send({ kind: 'key', chord });
    },
    hear: (news: News, question = asked.length - 1) => asked[question].hear(news),
    answer: (question = asked.length - 1) => asked[question].hear(answerOf(engine, asked[question].asking)),
  };
}

test('while a hint is looked for, keys count; it shows when it is there', () => {
  const bench = openSlow();
  bench.press('w left left n');
  expect(bench.app()).toMatchObject({ hint: null, cursor: 38, pen: 'note' });
  bench.answer();
  expect(rungOf(bench.app())?.rung).toBe('where');
  expect(bench.app()).toMatchObject({ cursor: 38, pen: 'note', thinking: null });
  expect(bench.stops()).toBe(0);
});

test('climbing and taking ahead of the answer come to the same as after it', () => {
  const slow = openSlow();
  slow.press('a w w w w w return w w');
  expect(slow.asked).toHaveLength(1);
  expect(slow.app().sheet.past).toHaveLength(1);
  slow.answer();
  expect(slow.asked).toHaveLength(2);
  slow.answer();
  const quick = openBench(sheetOf(grid1333));
  quick.press('a w w w w w return w w');
  expect(slow.app().sheet.past).toHaveLength(2);
  expect(viewOf(slow.app().sheet.state)).toEqual(viewOf(quick.app().sheet.state));
  expect(rungOf(slow.app())?.rung).toBe('digits');
});

test('a changed sheet gives up what was asked about the old one', () => {
  const bench = openSlow();
  bench.press('w 5');
  expect(bench.stops()).toBe(1);
  expect(bench.app().thinking).toBeNull();
  bench.answer();
  expect(bench.app().hint).toBeNull();
});

test('escape and ctrl-c stop it, and leave the sheet alone', () => {
  for (const key of ['escape', 'ctrl+c']) {
    const bench = openSlow();
    const { sheet } = bench.app();
    bench.press('w');
    bench.hear({ kind: 'slow' });
    expect(bench.screen()).toContain('Thinking. esc stops it.');
    bench.press(key);
    expect(bench.app()).toMatchObject({ thinking: null, hint: null, message: [], sheet });
    expect(bench.stops()).toBe(1);
  }
});

test('another question takes the place of the first', () => {
  const bench = openSlow();
  bench.press('w y');
  expect(bench.stops()).toBe(1);
  bench.answer(0);
  expect(bench.app().hint).toBeNull();
  bench.answer(1);
  expect(bench.app().message).toEqual(['Right so far.']);
});

test('where no answer comes, it says why', () => {
  const bench = openSlow();
  bench.press('w');
  bench.hear({ kind: 'unanswered', why: 'No answer in 20 seconds. It can be asked again.' });
  expect(bench.app()).toMatchObject({
    thinking: null,
    message: ['No answer in 20 seconds. It can be asked again.'],
  });
  bench.press('w');
  expect(bench.asked).toHaveLength(2);
});

test.each([
  { columns: 80, rows: 24 },
  { columns: 57, rows: 24 },
  { columns: 40, rows: 15 },
])(
  '$columns x $rows: that it thinks stands there until it is done, whatever is pressed meanwhile',
  (size) => {
    const bench = openSlow(size);
    const words = 'Thinking. esc stops it.';
    bench.press('w');
    expect(bench.screen()).not.toContain('Thinking');
    bench.hear({ kind: 'slow' });
    for (const keys of ['left', 'down n', 'f 3', ': escape', '? escape']) {
      bench.press(keys);
      expect(bench.screen(), keys).toContain(words);
    }
    // Where Escape leaves something else first, it is not said to stop the thought.
    bench.press('g');
    expect(bench.screen()).toMatch(/Thinking\.(?! esc)/);
    bench.press('4 4');
    expect(bench.screen()).toContain(words);
    bench.answer();
    expect(bench.screen()).not.toContain('Thinking');
    expect(rungOf(bench.app())?.rung).toBe('where');
  },
);
