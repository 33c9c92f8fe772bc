import { closeSync, openSync, readSync } from 'node:fs';

/** The bytes that are read at a time. */
const pieceSize = 65_536;

/** The text of a file, UTF-8, of which no more is read than so many bytes; null where there are more. Throws. */
export function readAtMost(path: string | URL, limit: number): string | null {
  const file = openSync(path, 'r');
  try {
    const pieces: Buffer[] = [];
    let length = 0;
    // What says of itself how long it is may have no end: a device, a pipe.
    for (;;) {
      const piece = Buffer.alloc(Math.min(pieceSize, limit + 1 - length));
      const read = readSync(file, piece);
      if (read === 0) return Buffer.concat(pieces, length).toString('utf8');
      pieces.push(piece.subarray(0, read));
      length += read;
      if (length > limit) return null;
    }
  } finally {
    closeSync(file);
  }
}
