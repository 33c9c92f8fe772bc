import { closeSync, openSync, readSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { Script } from 'node:vm';

/*
 * What V8 has compiled of a script, kept in a file beside it. Reading that is several times faster than
 * compiling anew, and compiling is most of what a small command does. Node has no such thing before 22.
 */

type Wrapper = (
  exports: object,
  require: (name: string) => unknown,
  module: object,
  __filename: string,
) => void;

/**
 * What the compiled code was made from; V8 refuses by itself what another version or other flags made. The build
 * begins each script with a comment of this length that no other script has.
 */
const headLength = 18;
const stampOf = (source: string): string =>
  `${process.version} ${process.arch} ${source.length} ${source.slice(0, headLength)}`;

/** The scripts of one build begin alike: they hand each other what is theirs alone. */
const buildOf = (source: string): string => source.slice(2, 10);
let build: string | undefined;

/** More than any script has, so that one call reads it. What is not written to takes no memory. */
const usualSize = 1 << 19;

/** A whole file. Throws where it can't be read. `readFileSync` has more to do, which a start would wait for. */
function readWhole(path: string): Buffer {
  const fd = openSync(path, 'r');
  try {
    let bytes = Buffer.allocUnsafeSlow(usualSize);
    let length = readSync(fd, bytes, 0, bytes.length, null);
    while (length === bytes.length) {
      bytes = Buffer.concat([bytes], 2 * length);
      length += readSync(fd, bytes, length, bytes.length - length, null);
    }
    return bytes.subarray(0, length);
  } finally {
    closeSync(fd);
  }
}

/** The compiled code in a file of ours: a stamp, a line end, the bytes. Undefined where it does not fit. */
function readCache(path: string, stamp: string): Buffer | undefined {
  try {
    const file = readWhole(path);
    const head = Buffer.from(`${stamp}\n`);
    return file.subarray(0, head.length).equals(head) ? file.subarray(head.length) : undefined;
  } catch {
    return undefined;
  }
}

/** Writes it whole or not at all; a folder that is not ours to write to is no error. */
function writeCache(path: string, stamp: string, compiled: Buffer): void {
  const part = `${path}.${process.pid}`;
  try {
    writeFileSync(part, Buffer.concat([Buffer.from(`${stamp}\n`), compiled]), { flag: 'wx' });
    renameSync(part, path);
  } catch {
    rmSync(part, { force: true });
  }
}

/**
 * Runs a bundled CommonJS script, and gives its exports. Throws where it is of another build than the first. The
 * build leaves it in ASCII, which is read as it stands, and as the one function that CommonJS makes of a script: no
 * copy of a long text has to be made. Its compiled code comes from `PATH.cache` where that fits; else, or if `renew`
 * is set, what has been compiled by then is written there when the process ends.
 */
export function runScript(path: string, require: (name: string) => unknown, renew: boolean): unknown {
  const source = readWhole(path).toString('latin1');
  build ??= buildOf(source);
  if (buildOf(source) !== build)
    throw new Error(`${path} is of another build than the rest: install inkling anew`);
  const stamp = stampOf(source);
  const cachePath = `${path}.cache`;
  const cachedData = readCache(cachePath, stamp);
  const script = new Script(source, { filename: path, ...(cachedData && { cachedData }) });
  if (cachedData === undefined || script.cachedDataRejected || renew) {
    process.on('exit', () => writeCache(cachePath, stamp, script.createCachedData()));
  }
  const module = { exports: {} };
  (script.runInThisContext() as Wrapper)(module.exports, require, module, path);
  return module.exports;
}
