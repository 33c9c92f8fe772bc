#!/usr/bin/env node
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { runScript } from './code-cache.ts';

/*
 * Where the built program starts: `dist/main.js`. It runs `program.js` beside it and, when that asks for the
 * components, `screen.js`, so that no command loads Ink and React but the workbench, and that one late.
 * The build sets INKLING_RENEW_CACHE while it plays through the program.
 */

const requireHere = createRequire(__filename);
const renew = process.env.INKLING_RENEW_CACHE !== undefined;

function requireFrom(name: string): unknown {
  return name === './screen.js'
    ? runScript(join(__dirname, 'screen.js'), requireFrom, renew)
    : requireHere(name);
}

runScript(join(__dirname, 'program.js'), requireFrom, renew);
