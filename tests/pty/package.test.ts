import { execFileSync, spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { closeAll, hasPlaced, open } from './harness.ts';

/*
 * What is published, as somebody has it who installs it: the packed files alone, in a folder that has no other
 * packages in it or above it, run by the name that `bin` gives.
 */

const repository = fileURLToPath(new URL('../../', import.meta.url));
const { version, bin } = JSON.parse(readFileSync(join(repository, 'package.json'), 'utf8')) as {
  readonly version: string;
  readonly bin: Readonly<Record<string, string>>;
};
const grid = '.461...5......4.2.2....5..67.2..1....8.......4......92.1...2..3..7..3..5...8..9.7';
const folder = mkdtempSync(join(tmpdir(), 'inkling-package-'));
const installed = join(folder, 'node_modules', 'inkling');
const command = join(folder, 'bin', 'inkling');
let files: readonly string[] = [];

beforeAll(() => {
  // Of a copy, without what `npm pack` would run first: that builds dist/ anew, under the tests that run meanwhile,
  // and what they keep of compiled code comes and goes.
  const tree = join(folder, 'tree');
  const left = /[/\\](?:node_modules|reports|\.stryker-tmp|\.git|[^/\\]*\.cache[^/\\]*)$/;
  cpSync(repository, tree, { recursive: true, filter: (path) => !left.test(path) });
  const packed = execFileSync('npm', ['pack', '--ignore-scripts', '--json', '--pack-destination', folder], {
    cwd: tree,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'ignore'],
  });
  const [pack] = JSON.parse(packed) as { filename: string; files: { path: string }[] }[];
  files = pack.files.map(({ path }) => path);
  mkdirSync(installed, { recursive: true });
  mkdirSync(join(folder, 'bin'));
  execFileSync('tar', ['-xzf', join(folder, pack.filename), '-C', installed, '--strip-components=1']);
  symlinkSync(join(installed, bin.inkling), command);
});
afterEach(closeAll);
afterAll(() => rmSync(folder, { recursive: true, force: true, maxRetries: 3 }));

test('has what the program and its reader need, and nothing of how it is made', () => {
  const kinds =
    /^(?:package\.json|README\.md|CHANGELOG\.md|LICENSE|dist\/[a-z-]+\.js|dist\/package\.json|docs\/[a-z-]+\.md|docs\/schemas\/[a-z]+\.json|puzzles\/(?:layouts\/)?[\w-]+\.txt)$/;
  expect(files.filter((path) => !kinds.test(path))).toEqual([]);
  for (const path of [
    'LICENSE',
    'dist/main.js',
    'docs/config.md',
    'docs/schemas/hint.json',
    'puzzles/layouts/16x16.txt',
  ]) {
    expect(files).toContain(path);
  }
});

test('runs by its name: version, help, an answer, a layout that comes with it', () => {
  const run = (...args: string[]) => {
    const { status, stdout } = spawnSync(command, args, { encoding: 'utf8', cwd: folder, input: '' });
    return { status, stdout };
  };
  expect(run('--version')).toEqual({ status: 0, stdout: `inkling ${version}\n` });
  expect(run('--help').status).toBe(0);
  expect(run('check', grid)).toMatchObject({ status: 0, stdout: expect.stringMatching(/^One solution\.\n/) });
  expect(run('make', '--layout', '4x4', '--seed', '1').status).toBe(0);
});

test('opens the workbench: first frame, a digit, the thread that thinks, the typed line', async () => {
  const app = open([command, grid]);
  await app.waitFor('? keys');
  app.press('2');
  await app.waitFor(hasPlaced(26));
  app.press('u', 'w');
  await app.waitFor('1 of 5');
  app.press('escape');
  app.type(':r1');
  await app.waitFor(': r1');
  app.press('escape', 'q');
  expect(await app.exit).toEqual({ code: 0, signal: 0 });
});
