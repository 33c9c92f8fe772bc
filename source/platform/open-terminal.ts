import { writeSync } from 'node:fs';
import type { CellPlace } from './frame.ts';
import { FrameStream, type Layer } from './frame-stream.ts';
import { holdOutput } from './held-output.ts';
import { KeyStream, systemTimer } from './key-stream.ts';
import { keepMemoryLow } from './memory.ts';
import { type ExitHook, TerminalGuard } from './terminal-guard.ts';
import type { TerminalLine, TerminalSize, TerminalStreams } from './terminal-line.ts';

/*
 * The terminal, for whoever draws on it.
 *
 *   const line = openTerminalLine();
 *   const can = decideCapabilities({ env, flags, isTTY: { keys: line !== undefined, ... } });
 *   if (can.obstacle) ...                                    // one line on stderr, exit 2
 *   const terminal = openTerminal({ line, escapeWaitMs: can.escapeWaitMs });
 *   terminal.showLayer({ frame: firstFrame });
 *   terminal.flush();                                        // on the screen before streams are made
 *   terminal.listen();                                       // keys and sizes come from here on
 *   const { render } = await import('ink');
 *   const app = render(<Workbench terminal={terminal} />, terminal.ink);
 *   app.waitUntilExit().then(() => terminal.close(), (error) => terminal.crash(error));
 *
 * - Keys: `terminal.keys.subscribe((event) => true | false | 'ink')`; see KeyStream. Text inputs that use
 *   Ink's `useInput` work as they are.
 * - Size: `size()`, and `onResize` for changes. A frame may use every row; what does not fit is cut off.
 * - Cursor: `placeCursor({ x, y })`, best from `useInsertionEffect`; or Ink's `useCursor`.
 * - Ctrl-L: `redraw()`. Ctrl-Z: `suspend()`. Ctrl-C when it means quit: `exit(130)`. Quit: unmount, which
 *   settles `waitUntilExit`, then `close()`.
 * - Saving: `beforeExit((reason) => ...)` runs on every way out but SIGKILL. After a signal, a hang-up or a
 *   crash what it begins has 150 ms; what it does synchronously always ends.
 * - While the screen is ours, what others write to stdout and stderr (console.log, warnings) is held back and
 *   comes out on stderr after the screen was given back.
 */

/** What Ink's `render` gets, whole. */
export interface InkStreams {
  readonly stdin: NodeJS.ReadStream;
  readonly stdout: NodeJS.WriteStream;
  readonly exitOnCtrlC: false;
  readonly patchConsole: false;
  readonly isScreenReaderEnabled: false;
  /** Frames are cheap here; a lower limit only makes keys late. */
  readonly maxFps: number;
}

export interface OpenTerminalOptions {
  /** From `openTerminalLine`. */
  readonly line: TerminalLine;
  /** From `decideCapabilities`; default 50. */
  readonly escapeWaitMs?: number;
  readonly altPrefix?: boolean;
  readonly pasteLimit?: number;
  /** Puts a crash into words, already safe to show. */
  readonly describeCrash?: (error: unknown) => string;
}

export interface OpenedTerminal {
  readonly ink: InkStreams;
  readonly keys: KeyStream;
  readonly frames: FrameStream;
  size(): TerminalSize;
  /** Calls back after each change of size; the answer takes it back. */
  onResize(listener: (size: TerminalSize) => void): () => void;
  /**
   * Makes the terminal's streams and reads keys from here on: once the first frame is out, and in the same turn, so
   * that no key comes before.
   */
  listen(): void;
  /** Shows lines of text and SGR without Ink. */
  paint(frame: string): void;
  /** Lays a painted screen under Ink's frame; see FrameStream. */
  showLayer(layer: Layer): void;
  /** The number of the style that these SGR parameters make, for the cells of a layer. */
  styleOf(parameters: string): number;
  placeCursor(at: CellPlace | undefined): void;
  /** Writes what is to be shown now, and not when the current task has ended. */
  flush(): void;
  /** Draws everything anew. */
  redraw(): void;
  /** Mouse reports; off unless asked for. */
  setMouse(on: boolean): void;
  /** Stops the job until `fg`. */
  suspend(): void;
  beforeExit(hook: ExitHook): () => void;
  /** Gives the terminal back; the process goes on and can end by itself. */
  close(): Promise<void>;
  /** Gives the terminal back, prints the text, if any, on stderr, and ends the process. */
  exit(code: number, text?: string): void;
  /** Ends the process over an error that nobody handled. */
  crash(error: unknown): void;
  /**
   * Settles once what is painted is out and nothing has come from the keyboard for a moment: the time to load
   * what takes long.
   */
  quiet(): Promise<void>;
  /** For when everything has been loaded: from here on only keys are waited for. */
  settleDown(): void;
  /** How many bytes have gone to the screen, for benchmarks. */
  bytesSent(): number;
}

/** Writes what a terminal takes now; answers with the rest. */
function writeSome(fd: number, text: string): Uint8Array | string {
  try {
    const written = writeSync(fd, text);
    return written === Buffer.byteLength(text) ? '' : Buffer.from(text).subarray(written);
  } catch {
    // Busy, or gone: the stream waits for the one and tells of the other.
    return text;
  }
}

/** Less than a held key takes to come again. */
const quietMs = 25;
const quietLimitMs = 150;

/** Of a terminal that has gone no stream can be made either: Node says so with a code of its own. */
const isGone = (error: NodeJS.ErrnoException): boolean =>
  error.code === 'EIO' ||
  error.code === 'EPIPE' ||
  error.code === 'ENXIO' ||
  error.code === 'EBADF' ||
  error.code === 'ERR_TTY_INIT_FAILED';

/** What a terminal writes to: file descriptor 1. */
const outputFd = 1;

/** Takes the terminal over and wires keys, screen and guard together. */
export function openTerminal(options: OpenTerminalOptions): OpenedTerminal {
  const { line } = options;
  let streams: TerminalStreams | undefined;
  /** Their own way out, before what others write is held back. */
  let writeOut: ((bytes: Uint8Array | string) => void) | undefined;
  /** Undefined where the terminal has gone meanwhile, over which the process then ends. */
  const makeStreams = (): TerminalStreams | undefined => {
    try {
      streams ??= line.streams();
    } catch (error) {
      onError(error as NodeJS.ErrnoException);
      return undefined;
    }
    writeOut ??= streams.stdout.write.bind(streams.stdout);
    return streams;
  };
  const keys = new KeyStream({
    escapeWaitMs: options.escapeWaitMs ?? 50,
    altPrefix: options.altPrefix ?? false,
    pasteLimit: options.pasteLimit ?? 1_048_576,
  });
  // Straight to the terminal, which takes less than the stream does; what it does not take is the stream's.
  const write = (bytes: string) => {
    const rest = streams && streams.stdout.writableLength > 0 ? bytes : writeSome(outputFd, bytes);
    if (rest.length === 0) return;
    makeStreams();
    writeOut?.(rest);
  };
  const frames = new FrameStream({ ...line.size(), write });
  frames.stop();
  const hasNewSize = () => {
    const { columns, rows } = line.size();
    return columns !== frames.columns || rows !== frames.height;
  };
  const takeSize = () => {
    const { columns, rows } = line.size();
    frames.resize(columns, rows);
  };
  let isListening = false;
  let isInside = false;
  let releaseOutput: (() => string) | undefined;
  const holdWhatOthersWrite = () => {
    if (isListening && isInside) releaseOutput ??= holdOutput();
  };
  const guard = new TerminalGuard({
    keys: line,
    outputFd,
    ...(options.describeCrash && { describeCrash: options.describeCrash }),
    onEnter: () => {
      isInside = true;
      holdWhatOthersWrite();
      if (hasNewSize()) takeSize();
      frames.start();
    },
    onLeave: () => {
      isInside = false;
      frames.stop();
    },
    takeHeldText: () => {
      const held = releaseOutput?.() ?? '';
      releaseOutput = undefined;
      return held;
    },
  });

  const onError = (error: NodeJS.ErrnoException) => (isGone(error) ? guard.hangUp() : guard.crash(error));
  let lastInput = () => {};
  const onData = (bytes: Buffer | string) => {
    keys.feed(bytes);
    lastInput();
  };
  const quiet = () =>
    new Promise<void>((resolve) => {
      let cancel = () => {};
      const cancelLimit = systemTimer.after(quietLimitMs, () => end());
      const end = () => {
        cancel();
        cancelLimit();
        lastInput = () => {};
        resolve();
      };
      lastInput = () => {
        cancel();
        cancel = systemTimer.after(quietMs, end);
      };
      lastInput();
    });
  const onEnd = () => guard.hangUp();
  const onSize = () => {
    takeSize();
    for (const listener of [...sizeListeners]) listener(line.size());
  };
  const sizeListeners = new Set<(size: TerminalSize) => void>();
  const listen = () => {
    if (isListening) return;
    const made = makeStreams();
    if (!made) return;
    isListening = true;
    const { keyDevice, stdout } = made;
    keyDevice.on('error', onError);
    keyDevice.on('end', onEnd);
    keyDevice.on('data', onData);
    stdout.on('error', onError);
    stdout.on('resize', onSize);
    process.stderr.on('error', ignore);
    holdWhatOthersWrite();
    // The news of a change that came before went to nobody.
    if (hasNewSize()) onSize();
  };
  guard.enter();

  return {
    ink: {
      // Ink's types ask for a whole tty stream; it uses what InkInput and FrameStream have.
      stdin: keys.ink as unknown as NodeJS.ReadStream,
      stdout: frames as unknown as NodeJS.WriteStream,
      exitOnCtrlC: false,
      patchConsole: false,
      isScreenReaderEnabled: false,
      maxFps: 250,
    },
    keys,
    frames,
    size: line.size,
    onResize: (listener) => {
      sizeListeners.add(listener);
      return () => sizeListeners.delete(listener);
    },
    listen,
    paint: (frame) => frames.paint(frame),
    showLayer: (layer) => frames.showLayer(layer),
    styleOf: (parameters) => frames.styleOf(parameters),
    placeCursor: (at) => frames.placeCursor(at),
    flush: () => frames.flush(),
    redraw: () => frames.repaint(),
    setMouse: (on) => guard.setMouse(on),
    suspend: () => guard.suspend(),
    beforeExit: (hook) => guard.beforeExit(hook),
    close: async () => {
      await guard.close();
      keys.end();
      if (streams && isListening) {
        const { keyDevice, stdout } = streams;
        keyDevice.off('data', onData);
        keyDevice.off('end', onEnd);
        stdout.off('resize', onSize);
        keyDevice.pause();
        keyDevice.unref();
      }
      line.close();
    },
    exit: (code, text) => guard.exit(code, text),
    crash: (error) => guard.crash(error),
    quiet,
    settleDown: keepMemoryLow,
    bytesSent: () => frames.bytesSent,
  };
}

function ignore(): void {
  // stderr on a terminal that has gone: nothing can be said there any more.
}
