import { readFileSync, readlinkSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { codeOf, type Files, flags, openPrivate, readPrivate, writeAll } from './storage.ts';

/** Who holds a lock. */
export interface Holder {
  readonly pid: number;
  /** When the process began, as the system counts it; empty where it does not tell. */
  readonly began: string;
  /** Where its number means something: this start of this system, and its space of process numbers. */
  readonly space: string;
  /** The machine. */
  readonly host: string;
}

/** What there is to know of processes; tests put another in its place. */
export interface Processes {
  readonly self: () => Holder;
  /** Whether the holder, of the same space, still runs. */
  readonly runs: (holder: Holder) => boolean;
  /** Milliseconds since 1970. */
  readonly now: () => number;
}

const textOf = (path: string): string => {
  try {
    return readFileSync(path, 'utf8').trim();
  } catch {
    return '';
  }
};

/** State and beginning of a process; null where it has gone, or where the system does not tell. */
function statusOf(pid: number | 'self'): { readonly state: string; readonly began: string } | null {
  const text = textOf(`/proc/${pid}/stat`);
  // The name in brackets may hold anything, blanks and brackets too.
  const [state, ...rest] = text.slice(text.lastIndexOf(')') + 2).split(' ');
  return text === '' ? null : { state, began: rest[18] ?? '' };
}

/** The processes of this machine. */
export const systemProcesses: Processes = {
  self: () => {
    let space = textOf('/proc/sys/kernel/random/boot_id');
    try {
      space += ` ${readlinkSync('/proc/self/ns/pid')}`;
    } catch {
      // No Linux: the machine's name has to do.
    }
    const host = textOf('/etc/machine-id') || hostname();
    return { pid: process.pid, began: statusOf('self')?.began ?? '', space: space || host, host };
  },
  runs: ({ pid, began }) => {
    try {
      process.kill(pid, 0);
    } catch (error) {
      if (codeOf(error) === 'ESRCH') return false;
    }
    const status = statusOf(pid);
    if (status === null) return true;
    if (status.state === 'Z' || status.state === 'X') return false;
    return began === '' || status.began === '' || status.began === began;
  },
  now: () => Date.now(),
};

/** How long a lock that does not yet say whose it is counts as held, in milliseconds. */
const unsignedMs = 10_000;
/** How long one from another machine counts as held after the last sign of life. */
const foreignMs = 24 * 3_600_000;

const free = 'free\n';
const lockName = /^lock\.(\d{1,15})$/;

const generationsIn = (names: readonly string[]): number[] =>
  names.flatMap((name) => lockName.exec(name)?.[1] ?? []).map(Number);

function parseHolder(text: string): Holder | null {
  try {
    const value: unknown = JSON.parse(text);
    if (typeof value !== 'object' || value === null) return null;
    const { pid, began, space, host } = value as Readonly<Record<string, unknown>>;
    if (typeof pid !== 'number' || !Number.isSafeInteger(pid) || pid <= 0) return null;
    if (typeof began !== 'string' || typeof space !== 'string' || typeof host !== 'string') return null;
    return { pid, began, space, host };
  } catch {
    return null;
  }
}

/** A lock that could not be had. `holder` null: it does not say whose it is. */
export interface Held {
  readonly held: true;
  readonly holder: Holder | null;
}

/**
 * The right to write in a folder. Each lock is a file `lock.N` that must not exist before; the highest N
 * counts, and it is never taken away, only written `free`. So whoever finds the last holder gone does not
 * remove that holder's lock, which could by then be another's: it makes the next one, and only one can.
 */
export class SheetLock {
  readonly #files: Files;
  readonly #folder: string;
  readonly generation: number;

  private constructor(files: Files, folder: string, generation: number) {
    this.#files = files;
    this.#folder = folder;
    this.generation = generation;
  }

  /** Takes the lock, or tells who has it. Throws where the folder cannot be read or written. */
  static take(files: Files, folder: string, processes: Processes = systemProcesses): SheetLock | Held {
    for (;;) {
      const highest = Math.max(0, ...generationsIn(files.readdirSync(folder)));
      if (highest > 0) {
        const holder = SheetLock.#holderOf(files, folder, highest, processes);
        if (holder !== 'nobody') return { held: true, holder };
      }
      const lock = new SheetLock(files, folder, highest + 1);
      if (!lock.#sign(processes.self())) continue;
      let generations: number[];
      try {
        generations = generationsIn(files.readdirSync(folder));
      } catch (error) {
        if (!lock.release()) lock.#clear(lock.generation);
        throw error;
      }
      if (generations.some((other) => other > lock.generation)) {
        // Others have come and gone since the first look; theirs counts.
        lock.#clear(lock.generation);
        continue;
      }
      for (const other of generations) if (other < lock.generation) lock.#clear(other);
      return lock;
    }
  }

  /** Who has the lock of a folder, without taking it; null where nobody has, or it can't be told. */
  static isHeld(files: Files, folder: string, processes: Processes = systemProcesses): boolean {
    const highest = Math.max(0, ...generationsIn(files.readdirSync(folder)));
    return highest > 0 && SheetLock.#holderOf(files, folder, highest, processes) !== 'nobody';
  }

  static #holderOf(
    files: Files,
    folder: string,
    generation: number,
    processes: Processes,
  ): Holder | null | 'nobody' {
    const path = join(folder, `lock.${generation}`);
    let text: string;
    let changed: number;
    try {
      text = readPrivate(files, path, 10_000);
      changed = files.lstatSync(path).mtimeMs;
    } catch (error) {
      if (codeOf(error) === 'ENOENT') return 'nobody';
      throw error;
    }
    if (text.startsWith(free)) return 'nobody';
    const holder = parseHolder(text);
    if (holder === null) return processes.now() - changed > unsignedMs ? 'nobody' : null;
    const self = processes.self();
    if (holder.space === self.space) return processes.runs(holder) ? holder : 'nobody';
    // The same machine, started anew since then.
    const [boot] = holder.space.split(' ');
    if (holder.host === self.host && boot !== self.space.split(' ')[0]) return 'nobody';
    try {
      changed = Math.max(changed, files.lstatSync(join(folder, 'journal')).mtimeMs);
    } catch {
      // No journal: the lock's own time has to do.
    }
    return processes.now() - changed > foreignMs ? 'nobody' : holder;
  }

  /** Whether it is still ours, by the names in the folder. */
  isAmong(names: readonly string[]): boolean {
    return Math.max(0, ...generationsIn(names)) === this.generation;
  }

  /** Gives it back; false where that can't be written down. At the end that does no harm: a process that has gone holds nothing. */
  release(): boolean {
    try {
      const fd = openPrivate(this.#files, this.#path(this.generation), flags.rewrite);
      try {
        // Over what stands there: at no moment does it look like a lock that does not say whose it is.
        writeAll(this.#files, fd, free, 0);
      } finally {
        this.#files.closeSync(fd);
      }
      return true;
    } catch {
      // The next one sees that we have gone.
      return false;
    }
  }

  #path(generation: number): string {
    return join(this.#folder, `lock.${generation}`);
  }

  /** Takes away a lock that counts no more. One that stays does no harm: a higher one is there. */
  #clear(generation: number): void {
    try {
      this.#files.unlinkSync(this.#path(generation));
    } catch {
      // The next one who takes the lock tries again.
    }
  }

  /** Makes the file, if there is none, and says whose it is. */
  #sign(holder: Holder): boolean {
    let fd: number;
    try {
      fd = openPrivate(this.#files, this.#path(this.generation), flags.create);
    } catch (error) {
      if (codeOf(error) === 'EEXIST') return false;
      throw error;
    }
    try {
      writeAll(this.#files, fd, `${JSON.stringify(holder)}\n`, 0);
    } catch (error) {
      this.#clear(this.generation);
      throw error;
    } finally {
      this.#files.closeSync(fd);
    }
    return true;
  }
}
