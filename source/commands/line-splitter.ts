import { lineLimit as limit } from './limits.ts';

/** The most characters of one line that are kept; of a longer one the rest is read and dropped. */
export const lineLimit = limit.most;

export interface NumberedLine {
  readonly line: string;
  /** From 1. */
  readonly number: number;
}

/** Cuts text that arrives in pieces into lines at CRLF, LF and CR. Keeps at most one line. */
export class LineSplitter {
  /** The most characters of a line that are kept. */
  readonly #limit: number;
  #rest = '';
  #number = 0;
  /** The last piece ended in CR: an LF at the start of the next belongs to it. */
  #afterReturn = false;

  constructor(most: number = lineLimit) {
    this.#limit = most;
  }

  /** The lines that a further piece completes. */
  *push(piece: string): Generator<NumberedLine> {
    let from = this.#afterReturn && piece.startsWith('\n') ? 1 : 0;
    if (piece !== '') this.#afterReturn = piece.endsWith('\r');
    const ends = /\r\n|\n|\r/g;
    ends.lastIndex = from;
    for (let end = ends.exec(piece); end !== null; end = ends.exec(piece)) {
      this.#keep(piece, from, end.index);
      from = end.index + end[0].length;
      yield this.#take();
    }
    this.#keep(piece, from, piece.length);
  }

  /** The last line, where it has no end. */
  *end(): Generator<NumberedLine> {
    if (this.#rest !== '') yield this.#take();
  }

  /** One sign over the limit is kept, so that whoever reads the line can see that it is too long. */
  #keep(piece: string, from: number, to: number): void {
    const room = this.#limit + 1 - this.#rest.length;
    this.#rest += piece.slice(from, Math.min(to, from + room));
  }

  #take(): NumberedLine {
    const line = this.#rest;
    this.#rest = '';
    this.#number += 1;
    return { line, number: this.#number };
  }
}

/** How many lines a block of whole lines has: each but the last has an end. */
export function countLines(block: string): number {
  let count = 0;
  if (block.includes('\r')) {
    count = block.match(/\r\n|\n|\r/g)?.length ?? 0;
  } else {
    for (let end = block.indexOf('\n'); end >= 0; end = block.indexOf('\n', end + 1)) count += 1;
  }
  return /[\r\n]$/.test(block.slice(-1)) || block === '' ? count : count + 1;
}

/** Cuts text that arrives in pieces into blocks of whole lines, as large as the pieces. Keeps at most one line. */
export class BlockCutter {
  #rest = '';
  /** The last piece ended in CR: an LF at the start of the next belongs to it. */
  #afterReturn = false;

  /** The lines that a further piece completes, as they stand; empty where there are none. */
  push(piece: string): string {
    const from = this.#afterReturn && piece.startsWith('\n') ? 1 : 0;
    if (piece !== '') this.#afterReturn = piece.endsWith('\r');
    const cut = Math.max(piece.lastIndexOf('\n'), piece.lastIndexOf('\r')) + 1;
    if (cut <= from) {
      this.#rest = this.#keep(this.#rest, piece.slice(from));
      return '';
    }
    const block = this.#rest + piece.slice(from, cut);
    this.#rest = this.#keep('', piece.slice(cut));
    return block;
  }

  /** The last line, where it has no end. */
  end(): string {
    const last = this.#rest;
    this.#rest = '';
    return last;
  }

  /** One sign over the limit is kept, so that whoever reads the line can see that it is too long. */
  #keep(rest: string, more: string): string {
    return rest + more.slice(0, Math.max(0, lineLimit + 1 - rest.length));
  }
}
