#!/usr/bin/env node
import { join } from 'node:path';
import { runScript } from './code-cache.ts';

/*
 * Where the built program starts: `dist/main.js`. It runs `program.js` or `open.js` beside it and what that
 * asks for: the script of a command, and of the workbench's components with Ink and React. So nothing is read that
 * is not needed. The build sets INKLING_RENEW_CACHE to `all`, or to one of them, while it plays through the
 * program.
 */

const renewed = process.env.INKLING_RENEW_CACHE;
const scripts = new Map<string, unknown>();

/** Modules of Node's that take milliseconds to load, and are needed late or never. */
const slow: ReadonlySet<string> = new Set([
  'node:crypto',
  'node:fs/promises',
  'node:os',
  'node:string_decoder',
  'node:tty',
  'node:v8',
  'node:worker_threads',
]);

/** Loads a module when something of it is first used. */
const later = (name: string): object =>
  new Proxy({}, { get: (_, key) => Reflect.get(module.require(name), key) });

function requireFrom(name: string): unknown {
  if (slow.has(name)) return later(name);
  if (!name.startsWith('./')) return module.require(name);
  const renew = renewed === 'all' || renewed === name;
  if (!scripts.has(name)) scripts.set(name, runScript(join(__dirname, name), requireFrom, renew));
  return scripts.get(name);
}

/** What `program.js` and `open.js` hand out. */
interface Program {
  readonly start: () => Promise<void>;
}

/** Whether the command line names nothing but a grid or a file, or nothing at all: the sheet is all that is asked for. */
const opensSheet = ([word, ...others]: readonly string[]): boolean =>
  others.length === 0 && (word === undefined || !/^(?:-.|[a-zA-Z]+$)/.test(word));

const program = requireFrom(opensSheet(process.argv.slice(2)) ? './open.js' : './program.js') as Program;
void program.start();
