import {
  chmodSync,
  closeSync,
  constants,
  copyFileSync,
  fchmodSync,
  fdatasync,
  fstatSync,
  fsync,
  fsyncSync,
  ftruncateSync,
  linkSync,
  lstatSync,
  mkdirSync,
  openSync,
  readdirSync,
  readSync,
  renameSync,
  rmdirSync,
  type Stats,
  unlinkSync,
  writeSync,
} from 'node:fs';
import { dirname, isAbsolute, join } from 'node:path';

/** What is used of the file system; tests put one that fails in its place. */
export type Files = Pick<
  typeof import('node:fs'),
  | 'chmodSync'
  | 'closeSync'
  | 'copyFileSync'
  | 'fdatasync'
  | 'fsync'
  | 'fsyncSync'
  | 'fchmodSync'
  | 'fstatSync'
  | 'ftruncateSync'
  | 'linkSync'
  | 'lstatSync'
  | 'mkdirSync'
  | 'openSync'
  | 'readSync'
  | 'readdirSync'
  | 'renameSync'
  | 'rmdirSync'
  | 'unlinkSync'
  | 'writeSync'
>;

/** The file system of the machine. */
export const systemFiles: Files = {
  chmodSync,
  closeSync,
  copyFileSync,
  fchmodSync,
  fdatasync,
  fstatSync,
  fsync,
  fsyncSync,
  ftruncateSync,
  linkSync,
  lstatSync,
  mkdirSync,
  openSync,
  readSync,
  readdirSync,
  renameSync,
  rmdirSync,
  unlinkSync,
  writeSync,
};

/** Something that cannot be stored or read, in words that name it. */
export class StorageError extends Error {
  /** Few words, for a line of status: `disk full`. */
  readonly reason: string;
  readonly path: string;
  constructor(reason: string, path: string) {
    super(`${path}: ${reason}`);
    this.reason = reason;
    this.path = path;
  }
}

const reasons: Readonly<Record<string, string>> = {
  ENOSPC: 'disk full',
  EDQUOT: 'disk full',
  EFBIG: 'disk full',
  EACCES: 'no permission',
  EPERM: 'no permission',
  EROFS: 'read-only disk',
  ELOOP: 'symbolic link',
  ENOENT: 'folder missing',
  ENOTDIR: 'no folder there',
  EIO: 'disk error',
  EMFILE: 'too many files',
  ENFILE: 'too many files',
};

/** The code of an error of the file system; empty for any other error. */
export const codeOf = (error: unknown): string =>
  error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : '';

/** Why something could not be stored, in few words. */
export function reasonOf(error: unknown): string {
  if (error instanceof StorageError) return error.reason;
  const code = codeOf(error);
  return reasons[code] ?? (code === '' ? 'unknown trouble' : code);
}

/** Who runs the program; null where the system does not tell. */
const ownUser = (): number | null => process.getuid?.() ?? null;

const isForeign = (stats: Stats): boolean => ownUser() !== null && stats.uid !== ownUser();

/**
 * Makes a folder that only its owner can enter, whatever the umask, or makes an own one so. Throws a
 * StorageError where there is a symbolic link, somebody else's folder, or no folder at all.
 */
export function makePrivateFolder(files: Files, path: string): void {
  // Nearly always it is there: an error that says so takes longer than looking.
  let stats = files.lstatSync(path, { throwIfNoEntry: false });
  if (stats === undefined) {
    try {
      files.mkdirSync(path, { mode: 0o700 });
    } catch (error) {
      if (codeOf(error) !== 'EEXIST') throw error;
    }
    stats = files.lstatSync(path);
  }
  if (stats.isSymbolicLink()) throw new StorageError('symbolic link', path);
  if (!stats.isDirectory()) throw new StorageError('no folder there', path);
  if (isForeign(stats)) throw new StorageError("somebody else's folder", path);
  if ((stats.mode & 0o777) !== 0o700) files.chmodSync(path, 0o700);
}

/**
 * Opens a file that only its owner can read and write, whatever the umask. Never follows a symbolic link.
 * `flags`: as for open(2), without O_NOFOLLOW. Throws.
 */
export function openPrivate(files: Files, path: string, flags: number): number {
  const fd = files.openSync(path, flags | constants.O_NOFOLLOW | constants.O_NONBLOCK, 0o600);
  try {
    const stats = files.fstatSync(fd);
    if (!stats.isFile()) throw new StorageError('no file there', path);
    if (isForeign(stats)) throw new StorageError("somebody else's file", path);
    if ((stats.mode & 0o777) !== 0o600) files.fchmodSync(fd, 0o600);
    return fd;
  } catch (error) {
    files.closeSync(fd);
    throw error;
  }
}

const { O_CREAT, O_EXCL, O_RDONLY, O_RDWR, O_WRONLY } = constants;

/** How a file is opened: to be read, to be written on, or made anew where there is none yet. */
export const flags = { read: O_RDONLY, write: O_RDWR, create: O_RDWR | O_CREAT | O_EXCL, rewrite: O_WRONLY };

/** The bytes of a file, one character each. Throws a StorageError where there are more than the limit. */
export function readPrivate(files: Files, path: string, limit: number): string {
  const fd = files.openSync(path, O_RDONLY | constants.O_NOFOLLOW | constants.O_NONBLOCK);
  try {
    const stats = files.fstatSync(fd);
    if (!stats.isFile()) throw new StorageError('no file there', path);
    if (isForeign(stats)) throw new StorageError("somebody else's file", path);
    if (stats.size > limit) throw new StorageError(`larger than ${limit} bytes`, path);
    const bytes = Buffer.alloc(stats.size);
    let length = 0;
    while (length < bytes.length) {
      const read = files.readSync(fd, bytes, length, bytes.length - length, length);
      if (read === 0) break;
      length += read;
    }
    return bytes.toString('latin1', 0, length);
  } finally {
    files.closeSync(fd);
  }
}

/** Writes all of a text, one byte a character, at a place of a file. Throws where not all of it can be written. */
export function writeAll(files: Files, fd: number, text: string, position: number): void {
  const bytes = Buffer.from(text, 'latin1');
  for (let done = 0; done < bytes.length; ) {
    done += files.writeSync(fd, bytes, done, bytes.length - done, position + done);
  }
}

/** Makes what has happened to the names in a folder last, now. Some systems cannot; then it is left to them. */
export function syncFolder(files: Files, path: string): void {
  const fd = files.openSync(path, O_RDONLY);
  try {
    files.fsyncSync(fd);
  } catch (error) {
    if (codeOf(error) !== 'EINVAL' && codeOf(error) !== 'EPERM') throw error;
  } finally {
    files.closeSync(fd);
  }
}

type Environment = Readonly<Record<string, string | undefined>>;

/**
 * Where sheets are kept: `inkling/sheets` in XDG_STATE_HOME, by the XDG Base Directory Specification
 * `~/.local/state` where that is not set, empty or relative. `userHome`: asked where HOME is not an absolute
 * path either. Null where there is no place.
 */
export function sheetsFolder(environment: Environment, userHome: () => string | null): string | null {
  const { XDG_STATE_HOME: state, HOME: home } = environment;
  if (state !== undefined && isAbsolute(state)) return join(state, 'inkling', 'sheets');
  const base = home !== undefined && isAbsolute(home) ? home : userHome();
  return base === null || !isAbsolute(base) ? null : join(base, '.local', 'state', 'inkling', 'sheets');
}

/** Makes a folder and those above it that are missing. Throws. Node's own way never ends in folders such as /proc. */
function makeParents(files: Files, path: string): void {
  if (files.lstatSync(path, { throwIfNoEntry: false }) !== undefined) return;
  try {
    files.mkdirSync(path, { mode: 0o700 });
  } catch (error) {
    if (codeOf(error) === 'EEXIST') return;
    const parent = dirname(path);
    if (codeOf(error) !== 'ENOENT' || parent === path) throw error;
    makeParents(files, parent);
    files.mkdirSync(path, { mode: 0o700 });
  }
}

/** Makes the folder of all sheets, and what is missing above it. Throws. */
export function makeSheetsFolder(files: Files, path: string): void {
  const own = dirname(path);
  makeParents(files, dirname(own));
  makePrivateFolder(files, own);
  makePrivateFolder(files, path);
}
