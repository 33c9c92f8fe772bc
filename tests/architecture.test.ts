import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { type Violation, violationsIn } from './architecture/checker.ts';
import { rooms } from './architecture/rooms.ts';

const root = fileURLToPath(new URL('../', import.meta.url));
const sourceRoot = join(root, 'source');

const tree = new Map(
  readdirSync(sourceRoot, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .filter((path) => /\.(ts|tsx|js|mjs|cjs|jsx)$/.test(path))
    .map((path) => [relative(sourceRoot, path).split(sep).join('/'), readFileSync(path, 'utf8')]),
);

const said = (violations: readonly Violation[]): string[] =>
  violations.map(({ file, line, rule, message }) => `${file}:${line}: ${rule}: ${message}`);

test('every file of source/ keeps to the table of rooms', () => {
  expect(tree.size).toBeGreaterThan(20);
  expect(tree.has('main.ts')).toBe(true);
  expect(said(violationsIn(tree))).toEqual([]);
});

/** A tree without a fault, to which one fault at a time is added. */
const sound: ReadonlyMap<string, string> = new Map([
  ['text/result.ts', 'export const success = 1;\n'],
  ['grid/layout.ts', "import { success } from '../text/result.ts';\nexport type Cell = typeof success;\n"],
  ['argument/kernel.ts', "import type { Cell } from '../grid/layout.ts';\nexport type Fact = Cell;\n"],
  ['exact/token.ts', "import type { Fact } from '../argument/kernel.ts';\nexport type Token = Fact;\n"],
  ['exact/solve.ts', "import { type Fact } from '../argument/kernel.ts';\nexport type Solved = Fact;\n"],
  ['path/next.ts', "import type { Token } from '../exact/token.ts';\nexport type Next = Token;\n"],
  ['platform/files.ts', "import 'node:fs';\nexport const now = () => Date.now();\n"],
  ['terminal/screen.tsx', "import { render } from 'ink';\nexport const draw = render;\n"],
  ['commands/open.ts', "export { draw } from '../terminal/screen.tsx';\n"],
  ['commands/check.ts', "export const run = () => import('./open.ts');\n"],
  ['main.ts', "import './commands/check.ts';\n"],
]);

const faults: readonly [name: string, rule: Violation['rule'], file: string, text: string][] = [
  ['a room that may not be imported', 'room', 'text/safe.ts', "import '../grid/layout.ts';"],
  ['a room that may not be imported, lazily', 'room', 'grid/read.ts', "void import('../exact/solve.ts');"],
  [
    'a room that may not be imported, through an export',
    'room',
    'grid/all.ts',
    "export * from '../exact/solve.ts';",
  ],
  [
    'a room that may not be imported, in a type',
    'room',
    'sheet/state.ts',
    "export type P = import('../path/next.ts').Next;",
  ],
  [
    'a value where only types are allowed',
    'types-only',
    'exact/mint.ts',
    "import { check } from '../argument/kernel.ts';",
  ],
  [
    'a value among types where only types are allowed',
    'types-only',
    'terminal/view.ts',
    "import { type Next, next } from '../path/next.ts';",
  ],
  [
    'a bare import where only types are allowed',
    'types-only',
    'terminal/view.ts',
    "import '../path/next.ts';",
  ],
  ['the kernel importing more than grid/', 'room', 'argument/kernel.ts', "import './fact.ts';"],
  ['node: in a pure room', 'node', 'sheet/save.ts', "import { readFileSync } from 'node:fs';"],
  ['node: in terminal/', 'node', 'terminal/save.ts', "import { readFileSync } from 'node:fs';"],
  ['a module of Node without node:', 'package', 'platform/disk.ts', "import { readFileSync } from 'fs';"],
  ['React outside terminal/', 'package', 'hint/panel.ts', "import { useState } from 'react';"],
  ['Ink in commands/', 'package', 'commands/hint.ts', "import { render } from 'ink';"],
  ['a package that only looks like Ink', 'package', 'terminal/x.ts', "import 'ink-spinner';"],
  ['a computed import', 'package', 'grid/plug.ts', "const name = 'x'; void import(name);"],
  ['require', 'node', 'grid/plug.ts', "declare const require: (m: string) => unknown; require('node:fs');"],
  ['the clock in a pure room', 'outside', 'path/time.ts', 'export const t = Date.now();'],
  ['the clock as an object', 'outside', 'path/time.ts', 'export const t = new Date();'],
  ['randomness in a pure room', 'outside', 'exact/make.ts', 'export const r = Math.random();'],
  ['the process in a pure room', 'outside', 'hint/say.ts', 'export const e = process.env;'],
  ['printing in a pure room', 'outside', 'hint/say.ts', "console.log('x');"],
  ['two files that import each other', 'cycle', 'text/result.ts', "import type { X } from './safe.ts';"],
  ['a file that imports itself', 'cycle', 'text/safe.ts', "import './safe.ts';"],
  ['a file that is too long', 'length', 'grid/long.ts', 'export {};\n'.repeat(401)],
  ['a kernel that is too long', 'length', 'argument/kernel.ts', 'export {};\n'.repeat(161)],
  ['an empty name', 'name', 'grid/utils.ts', 'export {};'],
  ['a room that is not in the table', 'room', 'engine/fast.ts', 'export {};'],
  ['a file beside main.ts', 'room', 'worker.ts', 'export {};'],
  ['a file that is not there', 'missing', 'grid/read.ts', "import './gone.ts';"],
  ['a file outside source/', 'missing', 'grid/read.ts', "import '../../tests/published.ts';"],
  ['the screen loaded with a one-shot command', 'eager', 'commands/hint.ts', "import './open.ts';"],
  ['main.ts reaching past commands/', 'room', 'main.ts', "import './grid/layout.ts';"],
];

test('the sound example has no fault', () => {
  expect(said(violationsIn(sound))).toEqual([]);
});

test.each(faults)('notices %s', (_name, rule, file, text) => {
  const faulty = new Map(sound);
  faulty.set(file, text);
  if (rule === 'cycle') faulty.set('text/safe.ts', faulty.get('text/safe.ts') ?? "import './result.ts';");
  if (file === 'argument/kernel.ts') faulty.set('argument/fact.ts', 'export {};');
  const rules = violationsIn(faulty).map((violation) => `${violation.file} ${violation.rule}`);
  expect(rules.some((found) => found.endsWith(` ${rule}`))).toBe(true);
  if (rule !== 'cycle') expect(rules).toContain(`${file} ${rule}`);
});

test('each room comes after the rooms that it imports', () => {
  const order = [...rooms.keys()];
  for (const [room, { imports, typesOnly }] of rooms) {
    for (const other of [...imports, ...typesOnly]) {
      expect(order.indexOf(other), `${room} imports ${other}`).toBeLessThan(order.indexOf(room));
    }
  }
});
