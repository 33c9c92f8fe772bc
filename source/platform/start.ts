#!/usr/bin/env node
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { runScript } from './code-cache.ts';

/*
 * Where the built program starts: `dist/main.js`. It runs `program.js` or `workbench.js` beside it and what that
 * asks for: the script of a command, and of the workbench's components with Ink and React. So nothing is read that
 * is not needed. The build sets INKLING_RENEW_CACHE while it plays through the program.
 */

const requireHere = createRequire(__filename);
const renew = process.env.INKLING_RENEW_CACHE !== undefined;
const scripts = new Map<string, unknown>();

/** Modules of Node's that take milliseconds to load, and are needed late or never. */
const slow: ReadonlySet<string> = new Set([
  'node:crypto',
  'node:fs/promises',
  'node:v8',
  'node:worker_threads',
]);

/** Loads a module when something of it is first used. */
const later = (name: string): object =>
  new Proxy({}, { get: (_, key) => Reflect.get(requireHere(name) as object, key) });

function requireFrom(name: string): unknown {
  if (slow.has(name)) return later(name);
  if (!name.startsWith('./')) return requireHere(name);
  if (!scripts.has(name)) scripts.set(name, runScript(join(__dirname, name), requireFrom, renew));
  return scripts.get(name);
}

/** Whether the first word on the command line is most likely a grid or a file, or none. */
const opensSheet = (word: string | undefined): boolean =>
  word === undefined || !/^(?:-.|[a-z]+$)/i.test(word);

// Either does what all words ask for; this one has the workbench in it.
requireFrom(opensSheet(process.argv[2]) ? './workbench.js' : './program.js');
