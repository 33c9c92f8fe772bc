import { fstatSync } from 'node:fs';
import type { Writable } from 'node:stream';

/** A write to a pipe is whole up to so many bytes (POSIX, PIPE_BUF), the last of them left for a line end. */
export const wholeWrite = 4095;

/**
 * A stream of whole lines. Each line goes out in one write, so that a reader or a signal never sees half of
 * a short one; a reader who goes away (`| head -1`) is no error.
 */
export interface Output {
  /** Writes text and a line end. Resolves once the stream takes more; false: nobody reads any longer. */
  line(text: string): Promise<boolean>;
  /**
   * Writes lines that are bytes already, the last line end too: to a file all at once, elsewhere as many lines at
   * a time as one write takes whole. Resolves as `line` does; the bytes are free then.
   */
  bytes(lines: Uint8Array): Promise<boolean>;
  /** Whether a person watches: it is a terminal. */
  readonly isTerminal: boolean;
  /**
   * On a terminal, writes text into the line that the cursor is in; the next call, or the next line, writes
   * over it. Empty: takes it away. Elsewhere, and where the stream is busy, nothing.
   */
  passing(text: string): void;
  /** Whether the reader has gone. */
  readonly closed: boolean;
  /** Calls back once, when the reader goes. */
  onClose(tell: () => void): void;
}

const gone = new Set(['EPIPE', 'EIO', 'ECONNRESET', 'ERR_STREAM_DESTROYED']);

/** Whether the stream is a file on a disk: what is written to it is never cut by a signal. */
function isFile(stream: object): boolean {
  const fd = 'fd' in stream && typeof stream.fd === 'number' ? stream.fd : -1;
  try {
    return fd >= 0 && fstatSync(fd).isFile();
  } catch {
    return false;
  }
}

/** Cuts lines after the last line end that a write takes whole, a longer line after its own. */
function* wholeWrites(lines: Uint8Array): Generator<Uint8Array> {
  const bytes = Buffer.from(lines.buffer, lines.byteOffset, lines.length);
  for (let from = 0; from < bytes.length; ) {
    const rest = bytes.subarray(from);
    const last = rest.length <= wholeWrite ? rest.length - 1 : rest.lastIndexOf(10, wholeWrite - 1);
    const end = last >= 0 ? last : rest.indexOf(10);
    const to = end >= 0 ? from + end + 1 : bytes.length;
    yield bytes.subarray(from, to);
    from = to;
  }
}

/** What went wrong with a stream that is written to: a full disk, say. */
export class UnwritableOutput extends Error {
  constructor(readonly code: string) {
    super(`what is printed cannot be written (${code})`);
  }
}

/** Wraps a stream of the process. An error other than a reader's going is an UnwritableOutput of the pending `line`. */
export function makeOutput(stream: Writable & { readonly isTTY?: boolean }): Output {
  const isTerminal = stream.isTTY === true;
  let closed = false;
  /** How many signs of passing text stand on the line. */
  let standing = 0;
  /** Spaces over what stands there, without escapes: they work on every terminal. */
  const wiped = (): string => {
    const wipe = standing === 0 ? '' : `\r${' '.repeat(standing)}\r`;
    standing = 0;
    return wipe;
  };
  let file: boolean | null = null;
  const listeners: (() => void)[] = [];
  const close = (): void => {
    closed = true;
    for (const tell of listeners.splice(0)) tell();
  };
  const isGone = (error: NodeJS.ErrnoException): boolean => gone.has(error.code ?? '');
  // The write's own callback reports the error as well; this listener keeps it from ending the process.
  stream.on('error', (error) => {
    if (isGone(error)) close();
  });
  const write = (lines: string | Uint8Array): Promise<boolean> => {
    if (closed) return Promise.resolve(false);
    return new Promise((resolve, reject) => {
      const wipe = wiped();
      if (wipe !== '') stream.write(wipe);
      stream.write(lines, (error) => {
        if (!error) resolve(true);
        else if (isGone(error)) {
          close();
          resolve(false);
        } else reject(new UnwritableOutput((error as NodeJS.ErrnoException).code ?? error.message));
      });
    });
  };
  return {
    get closed() {
      return closed;
    },
    isTerminal,
    passing(text) {
      if (!isTerminal || closed || stream.writableNeedDrain || (text === '' && standing === 0)) return;
      stream.write(wiped() + text);
      standing = text.length;
    },
    onClose(tell) {
      if (closed) tell();
      else listeners.push(tell);
    },
    line: (text) => write(`${text}\n`),
    bytes: (lines) => {
      file ??= isFile(stream);
      if (file) return write(lines);
      const pieces = Array.from(wholeWrites(lines), write);
      return Promise.all(pieces).then((taken) => taken.every(Boolean));
    },
  };
}
