import { sayMistake } from '../../source/commands/mistake.ts';
import { plain } from '../../source/grid/layout.ts';
import { readGrid } from '../../source/grid/read.ts';
import { findGridForm, writeGrid } from '../../source/grid/write.ts';
import { FrameStream } from '../../source/platform/frame-stream.ts';
import { newSheet } from '../../source/sheet/sheet.ts';
import { type App, openApp } from '../../source/terminal/app-state.ts';
import { draw } from '../../source/terminal/draw.ts';
import { LayerPainter } from '../../source/terminal/layer.ts';
import { Store } from '../../source/terminal/store.ts';
import { makeTheme } from '../../source/terminal/themes.ts';
import { update } from '../../source/terminal/update.ts';
import type { Random } from '../random.ts';
import { Screen } from './screen.ts';

/** What does something to a terminal, or to the order of signs, and what may help it to. */
const pieces = [
  '\u001b]0;owned\u0007',
  '\u001b]2;owned\u001b\\',
  '\u001b]52;c;b3duZWQ=\u0007',
  '\u001b]8;;http://x\u0007link\u001b]8;;\u0007',
  '\u001b]4;1;#ff0000\u0007',
  '\u001b[?1049l',
  '\u001b[?2004l',
  '\u001b[?1000h\u001b[?1006h',
  '\u001b[?25h',
  '\u001b[?1h\u001b=',
  '\u001b[2J\u001b[H',
  '\u001b[31;7m',
  '\u001b[6n',
  '\u001b[c',
  '\u001bc',
  '\u001bP+q544e\u001b\\',
  '\u001b_x\u001b\\',
  '\u001b[200~',
  '\u009b31m',
  '\u009d0;owned\u009c',
  '\u0090q\u009c',
  '\u001b',
  '\u0007',
  '\b',
  '\t',
  '\r',
  '\n',
  '\u000e',
  '\u007f',
  '\u0085',
  '\u202e',
  '\u2066',
  '\u2028',
  '\u200b',
  '\u200d',
  '\ufeff',
  '\u0301',
  '\u{1f600}',
  '\u{e0041}',
  '漢',
  '\ud800',
  '\udc00',
  'r1c1',
  ' ',
  'x'.repeat(300),
  '53..7....',
];

/** A string that means no good. */
export function hostileText(random: Random): string {
  const kind = random.below(4);
  return Array.from({ length: 1 + random.below(8) }, () => {
    if (kind === 0) return String.fromCharCode(random.below(256));
    if (kind === 1) return String.fromCharCode(random.below(65_536));
    return random.pick(pieces);
  }).join('');
}

/** What our own output is made of, text aside: places, styles, what is blank, updates and the cursor; `\r`, `\r\n` to move. */
const ours = /\u001b\[(?:[\d;]*[HGdmJKCX]|\?(?:2026|25)[hl])|\r\n?/g;
/** What must not be left when that is taken out. */
const unsafe = /[\u0000-\u001f\u007f-\u009f\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\ufeff\p{Cs}]/u;

export interface HostileTally {
  readonly strings: number;
  readonly failures: string[];
}

const givens = plain.boxOf.map(() => 0);
const emptyGrid = '.'.repeat(81);
const nothing = () => undefined;
const idle = { think: nothing, stop: nothing, copy: () => null };

/** The workbench with hostile strings in some place that text from outside can come to. */
function appWith(random: Random, texts: readonly string[]): App {
  const [name, ...rest] = texts;
  const app = openApp(newSheet(plain, givens, name, []), { columns: 80, rows: 24 });
  switch (random.below(5)) {
    case 0:
      return { ...app, message: [rest[0]] };
    case 1:
      return { ...app, message: rest };
    case 2:
      return update(app, { kind: 'paste', text: rest.join('\n'), truncated: false }).app;
    case 3: {
      const typing = update(app, { kind: 'key', chord: ':' }).app;
      const typed = update(typing, { kind: 'typed', text: rest.join('') }).app;
      return random.below(2) === 0 ? typed : update(typed, { kind: 'submit', text: rest.join(' ') }).app;
    }
    default: {
      // A grid whose givens are not those of the sheet: it is opened, with its remark as the name.
      const store = new Store(app, idle, { quit: nothing, suspend: nothing, redraw: nothing });
      store.send({ kind: 'paste', text: `1${emptyGrid.slice(1)} # ${rest[0]}\n`, truncated: false });
      store.send({ kind: 'key', chord: 'return' });
      return store.app();
    }
  }
}

/**
 * Shows hostile strings as names, messages, pastes, remarks and typed lines on an emulator's screen, and prints
 * them as errors and exports; tells where anything but our own sequences came through, or the emulator was touched.
 */
export async function showHostile(count: number, random: Random): Promise<HostileTally> {
  const failures: string[] = [];
  const screen = new Screen(80, 24);
  await screen.write('\u001b[?1049h\u001b[?25l\u001b[?2004h');
  const before = JSON.stringify(screen.modes());
  let bytes = '';
  const frames = new FrameStream({ columns: 80, rows: 24, write: (piece) => (bytes += piece) });
  const painter = new LayerPainter((parameters) => frames.styleOf(parameters));
  const theme = makeTheme({ depth: '256', background: 'dark' });
  const replies: string[] = [];
  screen.onReply((reply) => replies.push(reply));
  let strings = 0;
  while (strings < count && failures.length < 10) {
    const texts = Array.from({ length: 4 }, () => hostileText(random));
    strings += texts.length;
    const fail = (why: string) => failures.push(`${why}: ${JSON.stringify(texts)}`);
    bytes = '';
    const app = appWith(random, texts);
    const drawn = draw(app, { ascii: false, tints: true, digits: 'large' });
    frames.showLayer({ frame: painter.paint(drawn, theme) });
    await new Promise((resolve) => setImmediate(resolve));
    const printed = [
      ...sayMistake({
        place: texts[0],
        message: texts[1],
        excerpt: { text: texts[2], column: 1 + random.below(20) },
        next: texts[3],
      }),
    ];
    const read = readGrid(`${emptyGrid} # ${texts[0]}`);
    const form = findGridForm(random.pick(['line', 'rows', 'candidates']))!;
    if (read.ok) printed.push(...writeGrid(form, read.value.grid, texts).split('\n'));
    else printed.push(read.error.message);
    const left = bytes.replace(ours, '');
    if (unsafe.test(left))
      fail(`the screen got ${JSON.stringify(left.slice(Math.max(0, left.search(unsafe) - 9)).slice(0, 30))}`);
    const loose = printed.find((line) => unsafe.test(line.replaceAll('\n', '')));
    if (loose !== undefined) fail(`printed ${JSON.stringify(loose)}`);
    await screen.write(bytes);
    if (screen.touched.length > 0) fail(screen.touched.join());
    if (replies.length > 0) fail(`the emulator was asked ${replies.join()}`);
    if (JSON.stringify(screen.modes()) !== before) fail(JSON.stringify(screen.modes()));
    // The grid stands where it stands, whatever is beside it: nothing was wider or narrower than it was taken for.
    if (app.mode.kind === 'work' && !screen.lines()[7].startsWith('   ─────────────────┼───')) {
      fail(`the grid moved: ${screen.lines()[7]}`);
    }
  }
  return { strings, failures };
}
