import { join } from 'node:path';
import type { Tail } from '../journal/record.ts';
import { type Append, JournalRewrite, type Point, textOf } from './journal-rewrite.ts';
import type { SheetLock } from './sheet-lock.ts';
import {
  codeOf,
  type Files,
  flags,
  openPrivate,
  reasonOf,
  StorageError,
  syncFolder,
  writeAll,
} from './storage.ts';

/** How far saving has come. */
export interface Progress {
  /** How many appends, counted from the first, are on the disk for good. */
  readonly saved: number;
  /** Why the rest is not, in few words; null while nothing is in the way. */
  readonly problem: string | null;
}

/** Calls back after some time, unless cancelled; it does not keep the process alive. */
export type Later = (milliseconds: number, call: () => void) => () => void;

export interface JournalFileOptions {
  readonly files: Files;
  /** The folder of the sheet. */
  readonly folder: string;
  /** Makes the folder, if it is missing, and takes its lock; throws where that can't be. */
  readonly lockFolder: () => SheetLock;
  /** The lock, where it has been taken already. */
  readonly lock: SheetLock | null;
  /**
   * The journal that is there already: its end, how many bytes of it are good, and how many it has. Null: it is
   * to be made, in place of what may be there.
   */
  readonly found: { readonly tail: Tail; readonly length: number; readonly size: number } | null;
  /** The bodies of records that make the whole sheet as it stands, all that was appended included. */
  readonly snapshot: () => readonly string[];
  readonly later: Later;
  /** Told whenever something has changed. */
  readonly tell: (progress: Progress) => void;
}

/** Times between two tries, in milliseconds. */
const firstWait = 500;
const longestWait = 10_000;

/** Room that a journal gets before it is written anew, beside twice what it then took, in bytes. */
const spareRoom = 65_536;

/**
 * The journal of one sheet, written by one process. What is appended goes to the system with the next turn of
 * the loop, all that came together in one write, and counts as saved once the system says that it is on the
 * disk. What can't be written is kept and tried again; so is what was written and could not be made to last.
 * Where the journal has grown far beyond what the sheet needs, it is written anew beside it and put in its place.
 */
export class JournalFile {
  readonly #options: JournalFileOptions;
  #lock: SheetLock | null;
  #fd: number | null = null;
  #written: Point;
  #saved = 0;
  /** Everything appended that is not known to be on the disk, in order. */
  #unsaved: Append[] = [];
  #count = 0;
  #problem: string | null = null;
  #wait = firstWait;
  #due = false;
  #syncing = false;
  #rewrite: JournalRewrite | null = null;
  #compactAt: number;
  #isNameSafe = true;
  /** Another process has taken over, or this one has let go: nothing is written any more. */
  #over = false;
  #cancelRetry: (() => void) | null = null;

  constructor(options: JournalFileOptions) {
    this.#options = options;
    this.#lock = options.lock;
    const length = options.found?.length ?? 0;
    this.#written = { length, tail: options.found?.tail ?? { number: 0, sum: '' }, number: 0 };
    this.#compactAt = options.found ? spareRoom : 0;
  }

  get progress(): Progress {
    return { saved: this.#saved, problem: this.#problem };
  }

  /** Takes the bodies of records that belong together; answers with the number of this append, from 1. */
  append(bodies: readonly string[]): number {
    this.#count += 1;
    this.#unsaved.push({ bodies, number: this.#count });
    this.#soon();
    return this.#count;
  }

  /** Writes what there is, now, and waits for the disk; then lets go of the sheet. Throws where that fails. */
  close(): void {
    if (this.#over) {
      if (this.#unsaved.length > 0) throw new StorageError(this.#problem ?? 'closed', this.#options.folder);
      return;
    }
    try {
      this.#dropRewrite();
      if (this.#saved < this.#count) this.#saveNow();
    } finally {
      this.#over = true;
      this.#cancelRetry?.();
      this.#lock?.release();
      this.#closeFile();
    }
  }

  /** Writes what there is, now, and waits for the disk. Where that fails goes on trying as before, and answers false. */
  settle(): boolean {
    if (this.#over || this.#saved === this.#count) return this.#unsaved.length === 0;
    try {
      this.#dropRewrite();
      this.#saveNow();
      return true;
    } catch (error) {
      // What was handed over may not have got to the disk: all of it is written once more.
      if (this.#written.number !== this.#saved) this.#forget();
      this.#fail(error);
      return false;
    }
  }

  /** Does as `close` does where everything can be saved now. Where it can't, goes on trying as before: false. */
  leave(): boolean {
    if (!this.settle()) return false;
    this.close();
    return true;
  }

  #path(): string {
    return join(this.#options.folder, 'journal');
  }

  #soon(): void {
    if (this.#due || this.#over || this.#cancelRetry) return;
    this.#due = true;
    setImmediate(() => {
      this.#due = false;
      this.#work();
    });
  }

  /** Does the next thing that there is to do, if any. */
  #work(): void {
    if (this.#over || this.#rewrite || this.#cancelRetry) return;
    if (this.#saved === this.#count && this.#problem === null) return;
    try {
      this.#makeSure();
      if (this.#fd === null || this.#written.length > this.#compactAt) {
        if (this.#syncing) return;
        if (this.#tryRewrite()) return;
      }
      this.#writeOut();
    } catch (error) {
      this.#fail(error);
      return;
    }
    this.#sync();
  }

  /** Sees to it that the folder and the lock are ours, and that the journal is where it was put. */
  #makeSure(): void {
    const { files, folder, found } = this.#options;
    const isLate = this.#lock === null;
    this.#lock ??= this.#options.lockFolder();
    let names: string[];
    try {
      names = files.readdirSync(folder);
    } catch (error) {
      if (codeOf(error) !== 'ENOENT') throw error;
      // The folder was taken away: it is made again, with all that is on the sheet.
      this.#forget();
      this.#lock = this.#options.lockFolder();
      return;
    }
    if (!this.#lock.isAmong(names)) {
      this.#over = true;
      throw new StorageError('taken over by another inkling', folder);
    }
    const isThere = names.includes('journal');
    if (isLate && isThere && files.lstatSync(this.#path()).size !== found?.size) {
      // Before the lock was ours somebody else has written there: theirs is not written over.
      this.#lock.release();
      this.#lock = null;
      throw new StorageError('changed by another inkling', folder);
    }
    if (this.#fd !== null && !isThere) this.#forget();
    if (this.#fd === null && found && this.#written.length > 0 && isThere) {
      const fd = openPrivate(files, this.#path(), flags.write);
      // An unfinished last record goes.
      files.ftruncateSync(fd, found.length);
      this.#fd = fd;
    }
  }

  /** The file that was written to is no longer the journal. */
  #forget(): void {
    if (this.#fd !== null) this.#close(this.#fd);
    this.#fd = null;
    this.#written = { ...this.#written, length: 0, number: this.#saved };
  }

  /** Hands everything that is not written yet to the system, in one piece. */
  #writeOut(): void {
    const fd = this.#fd!;
    const { files } = this.#options;
    const waiting = this.#unsaved.filter(({ number }) => number > this.#written.number);
    if (waiting.length === 0) return;
    const { text, point } = textOf(this.#written, waiting);
    try {
      writeAll(files, fd, text, this.#written.length);
    } catch (error) {
      // What got there of it must not look like a record to whoever reads it meanwhile.
      try {
        files.ftruncateSync(fd, this.#written.length);
      } catch {
        // Then it is an unfinished last record, and the next try writes over it.
      }
      throw error;
    }
    this.#written = point;
  }

  /** Waits for the disk, and goes on. */
  #sync(): void {
    if (this.#syncing || this.#fd === null || this.#saved === this.#written.number) return;
    const fd = this.#fd;
    const point = this.#written;
    this.#syncing = true;
    this.#options.files.fdatasync(fd, (error) => {
      this.#syncing = false;
      if (this.#over) {
        this.#closeFile();
        return;
      }
      if (fd !== this.#fd) {
        this.#soon();
        return;
      }
      if (error) {
        // What the file now holds can't be relied on: all of it is written once more, beside it.
        this.#forget();
        this.#fail(error);
        return;
      }
      try {
        this.#secureName();
      } catch (trouble) {
        this.#fail(trouble);
        return;
      }
      this.#reach(point.number);
      this.#work();
    });
  }

  #reach(append: number): void {
    this.#saved = append;
    this.#unsaved = this.#unsaved.filter(({ number }) => number > append);
    this.#problem = null;
    this.#wait = firstWait;
    this.#options.tell(this.progress);
  }

  #fail(error: unknown): void {
    this.#problem = reasonOf(error);
    if (!this.#over && this.#cancelRetry === null) {
      this.#cancelRetry = this.#options.later(this.#wait, () => {
        this.#cancelRetry = null;
        this.#work();
      });
      this.#wait = Math.min(2 * this.#wait, longestWait);
    }
    this.#options.tell(this.progress);
  }

  /** Begins the journal anew, if it can be; throws where there is no other way to go on. */
  #tryRewrite(): boolean {
    try {
      this.#beginRewrite();
      return true;
    } catch (error) {
      if (this.#fd === null) throw error;
      this.#compactAt = 2 * this.#written.length;
      return false;
    }
  }

  /** Begins the journal anew in a file beside it. */
  #beginRewrite(): void {
    const { files, folder, snapshot } = this.#options;
    this.#rewrite = new JournalRewrite(files, folder, snapshot(), this.#count);
    this.#awaitRewrite(this.#rewrite);
  }

  #awaitRewrite(rewrite: JournalRewrite): void {
    const { files } = this.#options;
    files.fsync(rewrite.fd, (error) => {
      if (rewrite !== this.#rewrite) return;
      try {
        if (error) throw error;
        if (this.#count > rewrite.point.number) {
          // More has come meanwhile: it belongs there too before the file may take the journal's place.
          rewrite.add(this.#unsaved.filter(({ number }) => number > rewrite.point.number));
          this.#awaitRewrite(rewrite);
          return;
        }
        this.#finishRewrite(rewrite);
      } catch (trouble) {
        this.#dropRewrite();
        // There may be room for what is new, if not for all of it again.
        this.#compactAt = 2 * this.#written.length;
        this.#fail(trouble);
      }
    });
  }

  /** Puts the new file in the journal's place. */
  #finishRewrite(rewrite: JournalRewrite): void {
    const { files, folder } = this.#options;
    if (!this.#lock?.isAmong(files.readdirSync(folder))) {
      this.#over = true;
      throw new StorageError('taken over by another inkling', folder);
    }
    rewrite.replace(this.#path());
    this.#rewrite = null;
    if (this.#fd !== null) this.#close(this.#fd);
    this.#fd = rewrite.fd;
    this.#written = rewrite.point;
    this.#compactAt = 2 * rewrite.point.length + spareRoom;
    this.#isNameSafe = false;
    this.#secureName();
    this.#reach(rewrite.point.number);
    this.#work();
  }

  /** Until the folder is on the disk too, the journal may be found without its new name. */
  #secureName(): void {
    if (this.#isNameSafe) return;
    syncFolder(this.#options.files, this.#options.folder);
    this.#isNameSafe = true;
  }

  #dropRewrite(): void {
    this.#rewrite?.drop();
    this.#rewrite = null;
  }

  #saveNow(): void {
    this.#makeSure();
    if ((this.#fd === null || this.#written.length > this.#compactAt) && this.#rewriteNow()) return;
    this.#writeOut();
    this.#options.files.fsyncSync(this.#fd!);
    this.#secureName();
    this.#saved = this.#written.number;
    this.#unsaved = [];
  }

  /** Lets go of the file, but not under the system's hands: what waits for the disk closes it afterwards. */
  #closeFile(): void {
    if (this.#fd === null || this.#syncing) return;
    this.#close(this.#fd);
    this.#fd = null;
  }

  /** Whether it could be written anew; throws where there is no other way. */
  #rewriteNow(): boolean {
    const { files, folder, snapshot } = this.#options;
    try {
      this.#rewrite = new JournalRewrite(files, folder, snapshot(), this.#count);
      files.fsyncSync(this.#rewrite.fd);
      this.#finishRewrite(this.#rewrite);
      return true;
    } catch (error) {
      if (this.#fd === null) throw error;
      return false;
    } finally {
      this.#dropRewrite();
    }
  }

  #close(fd: number): void {
    try {
      this.#options.files.closeSync(fd);
    } catch {
      // It has gone already.
    }
  }
}
