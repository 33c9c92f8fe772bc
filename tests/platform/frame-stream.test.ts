import { describe, expect, test } from 'vitest';
import { blankFrame } from '../../source/platform/frame.ts';
import { FrameStream } from '../../source/platform/frame-stream.ts';
import { Screen, visible } from '../pty/screen.ts';
import { leastBytes, penAfter } from './least-bytes.ts';
import { changedLines, randomLine, seededRandom } from './random-frames.ts';

/** A FrameStream whose updates are kept, and shown on an emulator. */
function screenOf(columns: number, rows: number) {
  const updates: string[] = [];
  const screen = new Screen(columns, rows);
  let drawn = Promise.resolve();
  const frames = new FrameStream({
    columns,
    rows,
    write: (bytes) => {
      updates.push(bytes);
      drawn = screen.write(bytes);
    },
  });
  const settled = async () => {
    frames.flush();
    await drawn;
  };
  return { frames, screen, updates, settled };
}

/** The same lines printed plainly on a fresh emulator: what a terminal makes of them without us. */
async function printed(lines: readonly string[], columns: number, rows: number): Promise<Screen> {
  const screen = new Screen(columns, rows);
  await screen.write(lines.map((line, y) => `\x1b[${y + 1}H${line}\x1b[m`).join(''));
  return screen;
}

const inkErase = (lines: number) => `${'\x1b[2K\x1b[1A'.repeat(Math.max(0, lines - 1))}\x1b[2K\x1b[G`;

describe('the emulator is the judge', () => {
  for (const [columns, rows, rounds] of [
    [80, 24, 20],
    [120, 45, 8],
    [17, 5, 100],
    [1, 1, 100],
  ] as const) {
    test(`random frames at ${columns}x${rows}: what is drawn by changes is what is printed plainly`, async () => {
      const seed = 7100 + columns;
      const random = seededRandom(seed);
      const { frames, screen, updates, settled } = screenOf(columns, rows);
      let lines = Array.from({ length: rows }, () => randomLine(columns, random));
      for (let round = 0; round < rounds; round++) {
        // As Ink does it: the last frame is erased, the new one written.
        frames.write(`${inkErase(round === 0 ? 0 : rows + 1)}${lines.join('\n')}\n`);
        await settled();
        const plain = await printed(lines, columns, rows);
        expect(screen.visibleCells(), `round ${round}, seed ${seed}`).toEqual(plain.visibleCells());
        lines = changedLines(lines, columns, random);
      }
      for (const update of updates) expect(update).toMatch(/^\x1b\[\?2026h.*\x1b\[\?2026l$/s);
    });
  }

  test('frames larger than the terminal are cut, and nothing scrolls', async () => {
    const random = seededRandom(5);
    const { frames, screen, settled } = screenOf(30, 8);
    for (let round = 0; round < 15; round++) {
      const lines = Array.from({ length: 14 }, () => randomLine(50, random));
      frames.write(`${inkErase(15)}${lines.join('\n')}\n`);
      await settled();
      const wide = await printed(lines, 50, 14);
      for (let y = 0; y < 8; y++) {
        for (let x = 0; x < 30; x++) {
          const whole = wide.cell(x, y);
          // A wide character that the edge cuts in two is a space.
          const expected = x === 29 && whole.width === 2 ? { ...whole, text: ' ', width: 1 } : whole;
          expect(visible(screen.cell(x, y)), `round ${round}, x ${x}, y ${y}, seed 5`).toEqual(
            visible(expected),
          );
        }
      }
    }
    expect(screen.scrollback()).toEqual([]);
  });

  test('after a resize everything is drawn anew, with the last frame cut to the size', async () => {
    const { frames, screen, settled } = screenOf(20, 4);
    frames.write('first line\nsecond\n');
    await settled();
    screen.resize(8, 3);
    frames.resize(8, 3);
    await settled();
    expect(screen.lines()).toEqual(['first li', 'second', '']);
    screen.resize(30, 5);
    await screen.write('noise\r\nnoise\x1b[41m');
    frames.resize(30, 5);
    await settled();
    expect(screen.lines()).toEqual(['first line', 'second', '', '', '']);
    expect(screen.cell(29, 4).background).toEqual({ kind: 'default' });
  });
});

describe('how little is written', () => {
  test('the same frame again writes nothing', async () => {
    const { frames, updates, settled } = screenOf(40, 5);
    frames.write('one\ntwo\n');
    await settled();
    frames.write(`${inkErase(3)}one\ntwo\n`);
    await settled();
    frames.write(inkErase(3));
    frames.write('one\ntwo\n');
    await settled();
    expect(updates).toHaveLength(1);
  });

  test('a frame painted before Ink is not written a second time by Ink', async () => {
    const { frames, updates, settled } = screenOf(40, 5);
    frames.paint('one\n\x1b[1mtwo\x1b[22m');
    await settled();
    frames.write('one\n\x1b[1mtwo\x1b[22m\n');
    await settled();
    expect(updates).toHaveLength(1);
  });

  test('many frames in one task make one write', async () => {
    const { frames, screen, updates } = screenOf(40, 5);
    for (let i = 0; i < 50; i++) frames.write(`${inkErase(3)}count ${i}\nlast\n`);
    await Promise.resolve();
    expect(updates).toHaveLength(1);
    await screen.write('');
    expect(screen.lines()[0]).toBe('count 49');
  });

  test.each([
    ['a digit', ['. . .', ''], ['. 7 .', ''], '\x1b[;3H7'],
    ['the next row', ['ab', 'cd'], ['aX', 'Yd'], '\x1b[;2HX\r\nY'],
    [
      'along a row',
      ['a..............................b', ''],
      ['X..............................Y', ''],
      '\x1b[HX\x1b[32GY',
    ],
    ['over a short gap', ['abcd', ''], ['XbcY', ''], '\x1b[HXbcY'],
    ['a style alone', ['7', ''], ['\x1b[1m7\x1b[22m', ''], '\x1b[H\x1b[1m7'],
    ['a tail that goes', ['ab-long tail', ''], ['ab', ''], '\x1b[;3H\x1b[K'],
    ['a short tail', ['abcd', ''], ['abc', ''], '\x1b[;4H '],
  ])('%s', async (_, before, after, bytes) => {
    const { frames, updates, settled } = screenOf(40, 2);
    frames.write(`${before.join('\n')}\n`);
    frames.placeCursor({ x: 20, y: 1 });
    await settled();
    frames.placeCursor(undefined);
    frames.write(`${inkErase(3)}${after.join('\n')}\n`);
    await settled();
    expect(updates.at(-1)).toBe(`\x1b[?2026h${bytes}\x1b[?25l\x1b[?2026l`);
  });

  test('bytes are the least that absolute moves, SGR and characters allow, plus the 16 of the bracket', async () => {
    const seed = 31;
    const random = seededRandom(seed);
    const columns = 40;
    const rows = 8;
    const { frames, screen, updates, settled } = screenOf(columns, rows);
    let lines = Array.from({ length: rows }, () => randomLine(columns, random));
    frames.write(`${lines.join('\n')}\n`);
    await settled();
    let least = 0;
    let sent = 0;
    for (let round = 0; round < 40; round++) {
      const before = screen.picture();
      const start = await penAfter(updates.join(''), columns, rows);
      lines = changedLines(lines, columns, random);
      const count = updates.length;
      frames.write(`${inkErase(rows + 1)}${lines.join('\n')}\n`);
      await settled();
      const bound = leastBytes(before.cells, screen.picture().cells, start);
      if (bound === 0) {
        expect(updates).toHaveLength(count);
        continue;
      }
      expect(updates).toHaveLength(count + 1);
      const bytes = Buffer.byteLength(updates.at(-1)!);
      least += bound + 16;
      sent += bytes;
      expect(bytes, `round ${round}, seed ${seed}`).toBeLessThanOrEqual(bound + 16 + 4);
    }
    expect(sent / least).toBeLessThan(1.005);
  });
});

describe('the cursor', () => {
  test('stays on the cell where it was placed, whatever is drawn', async () => {
    const { frames, screen, updates, settled } = screenOf(40, 5);
    frames.write('one\ntwo\n');
    await settled();
    expect(screen.cursor().visible).toBe(false);
    frames.placeCursor({ x: 7, y: 3 });
    await settled();
    expect(screen.cursor()).toEqual({ x: 7, y: 3, visible: true });
    frames.write(`${inkErase(3)}one\nTWO\n`);
    await settled();
    expect(screen.cursor()).toEqual({ x: 7, y: 3, visible: true });
    const count = updates.length;
    frames.placeCursor({ x: 7, y: 3 });
    await settled();
    expect(updates).toHaveLength(count);
    frames.placeCursor({ x: 8, y: 3 });
    await settled();
    expect(updates.at(-1)).toBe('\x1b[9G');
    frames.placeCursor({ x: 40, y: 3 });
    await settled();
    expect(screen.cursor().visible).toBe(false);
  });

  test('goes where Ink puts it, and is hidden when Ink takes it away', async () => {
    const { frames, screen, settled } = screenOf(40, 5);
    // Written as in Ink's cursor-helpers.js: up from below the frame, to the column, show.
    frames.write('one\ntwo\n\x1b[1A\x1b[3G\x1b[?25h');
    await settled();
    expect(screen.cursor()).toEqual({ x: 2, y: 1, visible: true });
    frames.write('\x1b[?25l\x1b[1B\x1b[1G\x1b[2A\x1b[2G\x1b[?25h');
    await settled();
    expect(screen.cursor()).toEqual({ x: 1, y: 0, visible: true });
    frames.write(`\x1b[?25l\x1b[2B\x1b[1G${inkErase(3)}one\ntwo!\n`);
    await settled();
    expect(screen.cursor().visible).toBe(false);
    expect(screen.lines()[1]).toBe('two!');
  });
});

describe('nothing but our own cells goes out', () => {
  test.each([
    ['a window title', 'a\x1b]0;owned\x07b', 'ab'],
    ['a clipboard write', 'a\x1b]52;c;eA==\x1b\\b', 'ab'],
    ['a clear', 'a\x1b[2J\x1b[Hb', 'ab'],
    ['an alternate screen', 'a\x1b[?1049lb', 'ab'],
    ['a device query', 'a\x1bP$qm\x1b\\\x1b[6nb', 'ab'],
    ['C1 controls', 'a\x9b31mb\x84', 'a31mb'],
    ['blink and concealment', '\x1b[5;8mab', 'ab'],
    ['a reset', 'a\x1bcb', 'acb'],
    ['marks of direction', 'a\u202eb\u2066', 'ab'],
    ['an unfinished command', 'ab\x1b]0;no end', 'ab'],
    ['tabs and returns', 'a\t\r\bb', 'ab'],
  ])('%s', async (_, text, shown) => {
    const { frames, screen, updates, settled } = screenOf(40, 3);
    frames.write(`${text}\n`);
    await settled();
    expect(screen.lines()[0]).toBe(shown);
    expect(screen.cell(0, 0)).toMatchObject({ blink: false, hidden: false });
    const rest = updates
      .join('')
      .replaceAll(/\x1b\[\?(?:2026|25)[hl]|\x1b\[(?:\d*(?:;\d+)*[mHGd]|[JK2]*J|K)|\r\n?/g, '');
    expect(rest).toBe(shown);
  });

  test('while stopped nothing is written; the start draws everything', async () => {
    const { frames, screen, updates, settled } = screenOf(20, 3);
    frames.write('one\n');
    await settled();
    frames.stop();
    frames.write(`${inkErase(2)}two\n`);
    frames.placeCursor({ x: 1, y: 1 });
    await settled();
    expect(updates).toHaveLength(1);
    await screen.write('\x1b[41mshell was here');
    frames.start();
    await settled();
    expect(screen.lines()).toEqual(['two', '', '']);
    expect(screen.cell(10, 0).background).toEqual({ kind: 'default' });
  });
});

describe('a layer under Ink', () => {
  /** A frame of these lines, every cell bold. */
  const bold = (frames: FrameStream, lines: readonly string[]) => {
    const frame = blankFrame(lines[0]!.length, lines.length);
    lines.forEach((line, y) => {
      [...line].forEach((char, x) => {
        frame.graphemes[y * frame.columns + x] = char;
        frame.styles[y * frame.columns + x] = frames.styleOf('1');
      });
    });
    return frame;
  };

  test('shows alone, before Ink has written and after; the row left to Ink is filled by it', async () => {
    const { frames, screen, updates, settled } = screenOf(10, 3);
    const frame = bold(frames, ['one', 'two', 'six']);
    frames.showLayer({ frame });
    await settled();
    expect(screen.lines()).toEqual(['one', 'two', 'six']);
    expect(screen.cell(0, 0).bold).toBe(true);
    frames.write('\n');
    await settled();
    expect(updates).toHaveLength(1);
    frames.showLayer({ frame, inkRow: 1 });
    await settled();
    expect(screen.lines()).toEqual(['one', 'two', 'six']);
    frames.write(`${inkErase(2)}\n: 7@r1\n`);
    await settled();
    expect(screen.lines()).toEqual(['one', ': 7@r1', 'six']);
    expect(screen.cell(0, 1).bold).toBe(false);
    frames.showLayer({ frame });
    await settled();
    expect(screen.lines().map((line) => line.trimEnd())).toEqual(['one', 'two', 'six']);
    frames.showLayer(undefined);
    await settled();
    expect(screen.lines().map((line) => line.trimEnd())).toEqual(['', ': 7@r1', '']);
  });

  test('is cut to the size, and filled up to it', async () => {
    const { frames, screen, settled } = screenOf(5, 2);
    frames.showLayer({ frame: bold(frames, ['abcdefg', 'hijklmn', 'opqrstu']), inkRow: 7 });
    await settled();
    expect(screen.lines()).toEqual(['abcde', 'hijkl']);
    screen.resize(9, 4);
    frames.resize(9, 4);
    await settled();
    expect(screen.lines()).toEqual(['abcdefg', 'hijklmn', 'opqrstu', '']);
  });
});

describe('blanks', () => {
  test.each([
    ['change nothing where only unseen looks differ', '\x1b[1;31m \x1b[m \x1b[3mx', '  \x1b[3mx', ''],
    ['between words need no change of look', '   ', '\x1b[1ma\x1b[22m \x1b[1mb', '\x1b[H\x1b[1ma b'],
    ['take the look of what follows', '   ', '\x1b[44m \x1b[1ma', '\x1b[H\x1b[1;44m a'],
    ['underlined or reversed are seen', '   ', '\x1b[4m \x1b[24m', '\x1b[H\x1b[4m '],
  ])('%s', async (_, before, after, bytes) => {
    const { frames, updates, settled } = screenOf(10, 2);
    frames.write(`${before}\n`);
    frames.placeCursor({ x: 5, y: 1 });
    await settled();
    frames.placeCursor(undefined);
    frames.write(`${inkErase(2)}${after}\n`);
    await settled();
    const shown = updates.at(-1)!.replace('\x1b[?25l', '');
    expect(shown).toBe(bytes === '' ? '' : `\x1b[?2026h${bytes}\x1b[?2026l`);
  });
});
