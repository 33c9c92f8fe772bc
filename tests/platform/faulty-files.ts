import * as fs from 'node:fs';
import { type Files, systemFiles } from '../../source/platform/storage.ts';

/** An error as the system makes it. */
export const systemError = (code: string): NodeJS.ErrnoException =>
  Object.assign(new Error(`${code}: made for a test`), { code });

/** What a disk does that can fail. */
export type Operation =
  | 'open'
  | 'write'
  | 'sync'
  | 'rename'
  | 'link'
  | 'mkdir'
  | 'list'
  | 'truncate'
  | 'unlink';

/** Whether an operation fails now, and with which code; for `write` also how many bytes still go through. */
export type Judge = (operation: Operation) => string | null;

export interface FaultyFiles {
  readonly files: Files;
  /** Sets what fails from now on. */
  fail(judge: Judge): void;
  /** How many bytes there still is room for; infinite at first. */
  setRoom(bytes: number): void;
  /** Each operation that was asked for, in order. */
  readonly log: Operation[];
}

/**
 * The file system of the machine with failures on demand. A full disk takes as many bytes as there is room for
 * and fails with ENOSPC on the next write, as a real one does; a truncated file gives its room back.
 */
export function makeFaultyFiles(): FaultyFiles {
  let judge: Judge = () => null;
  let room = Number.POSITIVE_INFINITY;
  const log: Operation[] = [];
  const check = (operation: Operation) => {
    log.push(operation);
    const code = judge(operation);
    if (code !== null) throw systemError(code);
  };
  const later = (operation: Operation, real: (fd: number, done: fs.NoParamCallback) => void) =>
    ((fd: number, done: fs.NoParamCallback) => {
      log.push(operation);
      real(fd, (error) => {
        const code = judge(operation);
        done(error ?? (code === null ? null : systemError(code)));
      });
    }) as typeof fs.fsync;
  const files: Files = {
    ...systemFiles,
    openSync: ((path, flags, mode) => {
      check('open');
      return fs.openSync(path, flags, mode);
    }) as typeof fs.openSync,
    writeSync: ((fd: number, bytes: Buffer, offset: number, length: number, position: number) => {
      check('write');
      if (room <= 0) throw systemError('ENOSPC');
      const most = Math.min(length, room);
      const written = fs.writeSync(fd, bytes, offset, most, position);
      room -= written;
      return written;
    }) as typeof fs.writeSync,
    ftruncateSync: (fd, length) => {
      check('truncate');
      room += Math.max(0, fs.fstatSync(fd).size - (length ?? 0));
      fs.ftruncateSync(fd, length);
    },
    fdatasync: later('sync', fs.fdatasync) as typeof fs.fdatasync,
    fsync: later('sync', fs.fsync),
    fsyncSync: (fd) => {
      check('sync');
      fs.fsyncSync(fd);
    },
    renameSync: (from, to) => {
      check('rename');
      fs.renameSync(from, to);
    },
    linkSync: (from, to) => {
      check('link');
      fs.linkSync(from, to);
    },
    mkdirSync: ((path: string, options: fs.Mode) => {
      check('mkdir');
      return fs.mkdirSync(path, options);
    }) as typeof fs.mkdirSync,
    readdirSync: ((path: string) => {
      check('list');
      return fs.readdirSync(path);
    }) as typeof fs.readdirSync,
    unlinkSync: (path) => {
      check('unlink');
      fs.unlinkSync(path);
    },
  };
  return {
    files,
    fail: (next) => {
      judge = next;
    },
    setRoom: (bytes) => {
      room = bytes;
    },
    log,
  };
}
