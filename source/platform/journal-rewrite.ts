import { randomBytes } from 'node:crypto';
import { join } from 'node:path';
import { makeJournal } from '../journal/journal.ts';
import { makeRecords, type Tail } from '../journal/record.ts';
import { type Files, flags, openPrivate, writeAll } from './storage.ts';

/** Some records that belong together, and which append they came with, counted from 1. */
export interface Append {
  readonly bodies: readonly string[];
  readonly number: number;
}

/** A point of a journal: how many bytes, what the next record goes on from, up to which append. */
export interface Point {
  readonly length: number;
  readonly tail: Tail;
  readonly number: number;
}

const prefix = '.new-';

/** Appends in one text, and the point that they lead to; the same point where there are none. */
export function textOf(
  from: Point,
  appends: readonly Append[],
): { readonly text: string; readonly point: Point } {
  const { text, tail } = makeRecords(
    from.tail,
    appends.flatMap(({ bodies }) => bodies),
  );
  const number = appends.at(-1)?.number ?? from.number;
  return { text, point: { length: from.length + text.length, tail, number } };
}

/** A journal written anew beside the old one, in the same folder, under a name that nobody can foretell. */
export class JournalRewrite {
  readonly fd: number;
  readonly #files: Files;
  readonly #path: string;
  #point: Point;

  /** Writes the records that make the whole sheet after so many appends. Throws, and leaves nothing, where it can't. */
  constructor(files: Files, folder: string, bodies: readonly string[], number: number) {
    for (const name of files.readdirSync(folder)) {
      // What a process that was killed has left.
      if (name.startsWith(prefix)) files.unlinkSync(join(folder, name));
    }
    this.#files = files;
    this.#path = join(folder, prefix + randomBytes(9).toString('hex'));
    this.fd = openPrivate(files, this.#path, flags.create);
    const { text, tail } = makeJournal(bodies);
    this.#point = { length: text.length, tail, number };
    try {
      writeAll(files, this.fd, text, 0);
    } catch (error) {
      this.drop();
      throw error;
    }
  }

  get point(): Point {
    return this.#point;
  }

  /** Writes what came after. Throws. */
  add(appends: readonly Append[]): void {
    const { text, point } = textOf(this.#point, appends);
    writeAll(this.#files, this.fd, text, this.#point.length);
    this.#point = point;
  }

  /** Takes the place of the file of this path. Throws. */
  replace(path: string): void {
    this.#files.renameSync(this.#path, path);
  }

  /** Takes itself away. */
  drop(): void {
    try {
      this.#files.closeSync(this.fd);
      this.#files.unlinkSync(this.#path);
    } catch {
      // The next rewrite takes it away.
    }
  }
}
