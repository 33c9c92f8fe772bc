import { render } from 'ink-testing-library';
import { afterEach, describe, expect, test } from 'vitest';
import type { App } from '../../source/terminal/app-state.ts';
import { Workbench } from '../../source/terminal/components/workbench.tsx';
import { draw } from '../../source/terminal/draw.ts';
import { screenText } from '../../source/terminal/row-text.ts';
import type { Screen } from '../../source/terminal/screen.ts';
import { makeTheme, type ThemeOptions } from '../../source/terminal/themes.ts';
import { type Bench, grid1333, openBench, sheetOf } from './bench.ts';

const opened: { unmount: () => void }[] = [];
afterEach(() => {
  for (const each of opened.splice(0)) each.unmount();
});

/** Settles once everything that React has under way is on the screen. */
const settled = () => new Promise<void>((resolve) => setImmediate(() => setImmediate(resolve)));

function mount(bench: Bench, options: ThemeOptions = { depth: 'mono', background: 'dark' }) {
  const theme = makeTheme(options);
  const cursors: Screen['cursor'][] = [];
  const drawApp = (app: App) => draw(app, { ascii: false, tints: theme.tints, digits: 'large' });
  const placeCursor = (at: Screen['cursor']) => cursors.push(at);
  const shown = render(
    <Workbench store={bench.store} draw={drawApp} themeOf={() => theme} placeCursor={placeCursor} />,
  );
  opened.push(shown);
  const plain = () => (shown.lastFrame() ?? '').replaceAll(/\u001b\[[\d;]*m/g, '');
  const expected = () => bench.rows({ tints: theme.tints }).map((line) => line.trimEnd());
  return { ...shown, plain, expected, cursors, theme };
}

/** Styled text as pieces of one look each, attributes in a fixed order; blanks without a background go. */
function runs(styled: string): string[] {
  const found: string[] = [];
  let codes = new Set<string>();
  for (const part of styled.split(/(\u001b\[[\d;]*m)/)) {
    const sequence = /^\u001b\[([\d;]*)m$/.exec(part)?.[1];
    if (sequence === undefined) {
      const look = [...codes].toSorted().join(' ');
      for (const char of part) if (char !== ' ' && char !== '\n') found.push(`${char} ${look}`);
      continue;
    }
    for (const code of sequence.match(/[34]8;5;\d+|\d+/g) ?? ['0']) {
      const ends = { 0: /./, 22: /^[12]$/, 24: /^4$/, 27: /^7$/, 39: /^(38|[39]\d$)/, 49: /^(48|4\d$|10)/ }[
        code
      ];
      const over = /^[34]8/.exec(code)?.[0];
      if (over) codes = new Set([...codes].filter((each) => !each.startsWith(over)));
      codes = ends ? new Set([...codes].filter((each) => !ends.test(each))) : codes.add(code);
    }
  }
  return found;
}

const trimmed = (frame: string) => frame.split('\n').map((line) => line.trimEnd());

describe('the workbench shows what is drawn', () => {
  test.each([
    '',
    'a',
    'a w',
    'a w w w w w',
    '?',
    '? m a r',
    'ctrl+p down down',
    'g 5 5 , right , L J',
    '- 3',
    'f 3',
    't 2',
  ])('after %j', async (keys) => {
    const bench = openBench(sheetOf(grid1333));
    const shown = mount(bench);
    if (keys !== '') bench.press(keys);
    await settled();
    expect(trimmed(shown.plain()).join('\n').trimEnd()).toBe(shown.expected().join('\n').trimEnd());
  });

  test('with the colours of the theme', async () => {
    const bench = openBench(sheetOf(grid1333));
    bench.type('r5c5=2');
    const shown = mount(bench, { depth: '256', background: 'dark' });
    await settled();
    const screen = draw(bench.app(), { ascii: false, tints: true, digits: 'large' });
    const text = screenText(screen, shown.theme);
    expect(text).toContain('38;5;74;48;5;236m 2 ');
    // Ink takes the sequences apart and puts them together again; what is drawn stays the same.
    expect(runs(shown.lastFrame() ?? '')).toEqual(runs(text));
  });

  test('many keys at once end as the same keys one by one', async () => {
    const keys = 'n 2 3 right s 6 v up i a x u u r down f 3 tab';
    const burst = openBench(sheetOf(grid1333));
    const shown = mount(burst);
    burst.press(keys);
    await settled();
    const single = openBench(sheetOf(grid1333));
    const other = mount(single);
    for (const key of keys.split(' ')) {
      single.press(key);
      await settled();
    }
    expect(shown.lastFrame()).toBe(other.lastFrame());
  });

  test('a change of size draws the other layout', async () => {
    const bench = openBench(sheetOf(grid1333), 57, 24);
    const shown = mount(bench);
    bench.store.send({ kind: 'resize', size: { columns: 40, rows: 15 } });
    await settled();
    expect(trimmed(shown.plain())[0]).toBe('   c1 c2 c3  c4 c5 c6  c7 c8 c9  r5c5');
  });
});

describe('the typed line', () => {
  async function typing(text: string, bench = openBench(sheetOf(grid1333))) {
    const shown = mount(bench);
    bench.press(':');
    await settled();
    for (const char of text) {
      shown.stdin.write(char);
      await settled();
    }
    return { bench, ...shown };
  }

  test('takes text where it stands, and hands it over on return', async () => {
    const { bench, plain, stdin } = await typing('r5c5=2');
    expect(plain()).toContain(' : r5c5=2');
    stdin.write('\r');
    await settled();
    expect(bench.app().sheet.state.ink[40]).toBe(2);
    expect(bench.app().mode.kind).toBe('work');
    expect(plain()).not.toContain(' : r5c5=2');
  });

  test('the terminal’s cursor follows the line’s own', async () => {
    const { cursors, stdin } = await typing('r5c5');
    expect(cursors.at(-1)).toEqual({ x: 7, y: 21 });
    stdin.write('\u001b[D');
    await settled();
    expect(cursors.at(-1)).toEqual({ x: 6, y: 21 });
    stdin.write('x');
    await settled();
    expect(cursors.at(-1)).toEqual({ x: 7, y: 21 });
    stdin.write('\u007f');
    await settled();
    expect(cursors.at(-1)).toEqual({ x: 6, y: 21 });
  });

  test('a paste goes to its end, and the next character behind it', async () => {
    const { bench, plain, stdin, cursors } = await typing('r5');
    bench.paste('c5=');
    await settled();
    expect(cursors.at(-1)).toEqual({ x: 8, y: 21 });
    stdin.write('2');
    await settled();
    expect(plain()).toContain(' : r5c5=2');
  });

  test('what is longer than the screen stays on its line', async () => {
    const { plain, stdin } = await typing('x');
    stdin.write('x'.repeat(119));
    await settled();
    const lines = trimmed(plain());
    expect(lines).toHaveLength(23);
    expect(lines[22]).toContain('esc leave');
  });

  test('of a longer line the part around the cursor shows, the cursor in it', async () => {
    const { cursors, plain, stdin, expected } = await typing('x');
    stdin.write(`${'r1c1=3 '.repeat(20)}r9c9`);
    await settled();
    expect(trimmed(plain())[21]).toMatch(/^ : .* r1c1=3 r9c9$/);
    expect(trimmed(plain())[21]).toBe(expected()[21]);
    expect(cursors.at(-1)).toEqual({ x: 78, y: 21 });
    for (let left = 0; left < 150; left += 1) {
      stdin.write('\u001b[D');
      await settled();
    }
    expect(trimmed(plain())[21]).toMatch(/^ : xr1c1=3 r1c1=3/);
    expect(cursors.at(-1)).toEqual({ x: 3, y: 21 });
  });
});
