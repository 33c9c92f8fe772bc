import { Writable } from 'node:stream';
import { FrameStream } from '../../source/platform/frame-stream.ts';
import { KeyStream, systemTimer, type Timer } from '../../source/platform/key-stream.ts';
import { handle } from '../../source/terminal/attend.ts';
import type { TerminalSize } from '../../source/terminal/layout-sizes.ts';
import { makePainting } from '../../source/terminal/painting.ts';
import { screenText } from '../../source/terminal/row-text.ts';
import type { Screen as Drawn } from '../../source/terminal/screen.ts';
import type { ThemeOptions } from '../../source/terminal/themes.ts';
import { Screen, type ScreenCell } from '../pty/screen.ts';
import type { Bench } from './bench.ts';

// Where CI is set Ink draws nothing at all; it is asked once, when it is loaded.
process.env.CI = '0';
process.env.CONTINUOUS_INTEGRATION = '0';
const { render } = await import('ink');
const { mountWorkbench } = await import('../../source/terminal/components/mount.tsx');
const { Workbench } = await import('../../source/terminal/components/workbench.tsx');

/** A workbench wired as in the program to keys and frames, with an emulator as its screen. */
export interface Wired {
  readonly keys: KeyStream;
  readonly screen: Screen;
  /** All that was written, update by update. */
  readonly updates: string[];
  readonly resize: (size: TerminalSize) => void;
  /** The state as it is drawn. */
  readonly drawn: () => Drawn;
  /** What stands on the screen once everything under way is drawn. */
  readonly settled: () => Promise<ScreenCell[][]>;
  /** The same state drawn anew by Ink alone, all of it, on an empty screen. */
  readonly stock: () => Promise<ScreenCell[][]>;
  /** The same state as lines of styled text, printed on an empty screen. */
  readonly printed: () => Promise<ScreenCell[][]>;
  readonly close: () => void;
}

export interface WiredOptions extends TerminalSize {
  readonly theme: ThemeOptions;
  readonly ascii?: boolean;
  /** The clock by which the rest of a key is waited for. Default: the machine's. */
  readonly after?: Timer['after'];
}

const turn = () => new Promise<void>((resolve) => setImmediate(resolve));

export async function wire(bench: Bench, options: WiredOptions): Promise<Wired> {
  let size: TerminalSize = options;
  const updates: string[] = [];
  const screen = new Screen(size.columns, size.rows);
  // The guard of the terminal does this.
  void screen.write('\u001b[?1049h');
  const frames = new FrameStream({
    ...size,
    write: (bytes) => {
      updates.push(bytes);
      void screen.write(bytes);
    },
  });
  const keys = new KeyStream({ timer: { ...systemTimer, after: options.after ?? systemTimer.after } });
  const painting = makePainting(
    {
      showLayer: (layer) => frames.showLayer(layer),
      styleOf: (parameters) => frames.styleOf(parameters),
      size: () => size,
    },
    options,
  );
  const stopKeys = keys.subscribe((event) => handle(bench.store, event));
  const terminal = {
    ink: {
      stdin: keys.ink as unknown as NodeJS.ReadStream,
      stdout: frames as unknown as NodeJS.WriteStream,
      exitOnCtrlC: false,
      patchConsole: false,
      isScreenReaderEnabled: false,
      maxFps: 250,
    },
    placeCursor: (at: { x: number; y: number } | undefined) => frames.placeCursor(at),
  } as const;
  const mounted = await mountWorkbench(terminal, { store: bench.store, ...painting });
  mounted.failed.catch(() => undefined);

  const onEmpty = async (text: string): Promise<ScreenCell[][]> => {
    const empty = new Screen(size.columns, size.rows);
    const lines = text.split('\n').slice(0, size.rows);
    await empty.write(lines.map((line, y) => `\u001b[${y + 1}H${line}\u001b[m`).join(''));
    return empty.visibleCells();
  };
  return {
    keys,
    screen,
    updates,
    resize: (next) => {
      size = next;
      screen.resize(next.columns, next.rows);
      frames.resize(next.columns, next.rows);
      bench.store.send({ kind: 'resize', size: next });
    },
    drawn: () => painting.draw(bench.app()),
    settled: async () => {
      // Events come strictly in order: when this one does, all keys before it have been dealt with.
      await new Promise<void>((resolve) => {
        const stop = keys.subscribe((event) => {
          if (event.kind !== 'reply' || event.body !== 'settled') return false;
          stop();
          resolve();
          return true;
        });
        keys.inject({ kind: 'reply', body: 'settled' });
      });
      // React takes a turn to render and one for effects; Ink holds a frame back for up to 4 ms.
      const until = performance.now() + 8;
      do await turn();
      while (performance.now() < until);
      await screen.write('');
      return screen.visibleCells();
    },
    stock: async () => {
      let last = '';
      const sink = new Writable({
        decodeStrings: false,
        write: (chunk: string, _, done) => {
          if (chunk.includes('\n')) last = chunk;
          done();
        },
      });
      Object.assign(sink, { columns: size.columns, rows: size.rows, isTTY: true });
      const { draw, themeOf } = painting;
      const drawn = render(<Workbench store={bench.store} draw={draw} themeOf={themeOf} />, {
        stdout: sink as unknown as NodeJS.WriteStream,
        stdin: keys.ink as unknown as NodeJS.ReadStream,
        debug: true,
        exitOnCtrlC: false,
        patchConsole: false,
      });
      await turn();
      drawn.unmount();
      return onEmpty(last);
    },
    printed: () => onEmpty(screenText(painting.draw(bench.app()), painting.themeOf(bench.app()))),
    close: () => {
      stopKeys();
      keys.end();
      mounted.unmount();
    },
  };
}
