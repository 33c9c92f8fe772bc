import type { Writable } from 'node:stream';

/**
 * A stream of whole lines. Each line goes out in one write, so that a reader or a signal never sees half of
 * a short one; a reader who goes away (`| head -1`) is no error.
 */
export interface Output {
  /** Writes text and a line end. Resolves once the stream takes more; false: nobody reads any longer. */
  line(text: string): Promise<boolean>;
  /** Writes lines that are bytes already, the last line end too, as `line` does. The bytes are free once it resolves. */
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

/** Wraps a stream of the process. An error other than a reader's going makes the pending `line` reject. */
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
        } else reject(error);
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
    bytes: write,
  };
}
