import type { Writable } from 'node:stream';

/**
 * A stream of whole lines. Each line goes out in one write, so that a reader or a signal never sees half of
 * a short one; a reader who goes away (`| head -1`) is no error.
 */
export interface Output {
  /** Writes text and a line end. Resolves once the stream takes more; false: nobody reads any longer. */
  line(text: string): Promise<boolean>;
  /** Whether the reader has gone. */
  readonly closed: boolean;
  /** Calls back once, when the reader goes. */
  onClose(tell: () => void): void;
}

const gone = new Set(['EPIPE', 'EIO', 'ECONNRESET', 'ERR_STREAM_DESTROYED']);

/** Wraps a stream of the process. An error other than a reader's going makes the pending `line` reject. */
export function makeOutput(stream: Writable): Output {
  let closed = false;
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
  return {
    get closed() {
      return closed;
    },
    onClose(tell) {
      if (closed) tell();
      else listeners.push(tell);
    },
    line(text) {
      if (closed) return Promise.resolve(false);
      return new Promise((resolve, reject) => {
        stream.write(`${text}\n`, (error) => {
          if (!error) resolve(true);
          else if (isGone(error)) {
            close();
            resolve(false);
          } else reject(error);
        });
      });
    },
  };
}
