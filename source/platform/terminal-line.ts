import { openSync } from 'node:fs';
import { ReadStream } from 'node:tty';
import type { RawModeDevice } from './terminal-guard.ts';

/** Columns and rows of a terminal. */
export interface TerminalSize {
  readonly columns: number;
  readonly rows: number;
}

/** Node's streams of a terminal. */
export interface TerminalStreams {
  readonly keyDevice: ReadStream;
  readonly stdout: NodeJS.WriteStream & { readonly fd: number };
}

/** A terminal as far as the first frame needs it; its streams, which take a tenth of a start, are made when asked for. */
export interface TerminalLine extends RawModeDevice {
  /** Whether what is written to stdout goes to a terminal. */
  readonly hasScreen: boolean;
  /** As it is now; where the terminal does not tell, 80 by 24. */
  readonly size: () => TerminalSize;
  readonly streams: () => TerminalStreams;
  /** Lets go of what was opened for it. */
  readonly close: () => void;
}

/** What Node's binding of terminals hands out; its streams are made on the same. Numbers are errors, 0 for none. */
interface TtyBinding {
  readonly TTY: new (
    fd: number,
    failure: { code?: string },
  ) => {
    readonly getWindowSize: (size: [number, number]) => number;
    readonly setRawMode: (on: boolean) => number;
    readonly setBlocking: (on: boolean) => number;
    readonly close: () => void;
  };
  readonly isTTY: (fd: number) => boolean;
}

/** Whether the process was asked to warn of what may be taken from Node one day, as the binding may. */
const warns = (): boolean =>
  /pending[-_]deprecation/.test([...process.execArgv, process.env.NODE_OPTIONS ?? ''].join(' ')) ||
  process.env.NODE_PENDING_DEPRECATION === '1';

/**
 * The terminal on stdin and stdout without a stream: through `process.binding` (deprecated in Node's documentation,
 * DEP0111, and there in every version so far). Null where either is none, or where Node does not hand it out.
 */
function openDirectly(): TerminalLine | null {
  const { binding } = process as { readonly binding?: (name: string) => unknown };
  if (binding === undefined || warns()) return null;
  try {
    const { TTY, isTTY } = binding.call(process, 'tty_wrap') as TtyBinding;
    if (!isTTY(0) || !isTTY(1)) return null;
    const failure: { code?: string } = {};
    const keys = new TTY(0, failure);
    const screen = new TTY(1, failure);
    const measured: [number, number] = [0, 0];
    if (failure.code !== undefined || screen.getWindowSize(measured) !== 0) return null;
    // As Node's streams of terminals do: what is written while a terminal is slow to take it must not be lost.
    screen.setBlocking(true);
    return {
      hasScreen: true,
      setRawMode: (on) => keys.setRawMode(on),
      size: () => {
        screen.getWindowSize(measured);
        return { columns: measured[0] || 80, rows: measured[1] || 24 };
      },
      streams: () => ({ keyDevice: process.stdin as ReadStream, stdout: process.stdout }),
      close: () => {
        keys.close();
        screen.close();
      },
    };
  } catch {
    return null;
  }
}

/** Where keys come from: stdin if it is a terminal; else, as when data is piped in, the controlling one, `/dev/tty`. */
function openKeyDevice(): ReadStream | undefined {
  if (process.stdin instanceof ReadStream && process.stdin.isTTY) return process.stdin;
  try {
    return new ReadStream(openSync('/dev/tty', 'r'));
  } catch {
    return undefined;
  }
}

/** The terminal, if there is one to read keys from. With `throughStreams` as where Node has nothing else. */
export function openTerminalLine(throughStreams = false): TerminalLine | undefined {
  const direct = throughStreams ? null : openDirectly();
  if (direct) return direct;
  const keyDevice = openKeyDevice();
  if (keyDevice === undefined) return undefined;
  const { stdout } = process;
  return {
    hasScreen: stdout.isTTY === true,
    setRawMode: (on) => keyDevice.setRawMode(on),
    size: () => ({ columns: stdout.columns || 80, rows: stdout.rows || 24 }),
    streams: () => ({ keyDevice, stdout }),
    // A device that we opened ourselves would keep the process alive.
    close: () => {
      if (keyDevice !== process.stdin) keyDevice.destroy();
    },
  };
}
