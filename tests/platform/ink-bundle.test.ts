import { execSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { closeAll, type OpenOptions, open } from '../pty/harness.ts';

/* An Ink program, bundled as package.json bundles the real one, in a pseudo-terminal. */

const repository = fileURLToPath(new URL('../../', import.meta.url));
const directory = mkdtempSync(join(tmpdir(), 'inkling-bundle-'));
const program = join(directory, 'ink-app.js');

beforeAll(() => {
  const { scripts } = JSON.parse(readFileSync(join(repository, 'package.json'), 'utf8')) as {
    scripts: { build: string };
  };
  const build = scripts.build
    .replace('source/main.ts', 'tests/pty/fixtures/ink-app.tsx')
    .replace('--outdir=dist', `--outdir=${directory}`);
  expect(build).toContain(directory);
  const path = `${join(repository, 'node_modules/.bin')}:${process.env.PATH}`;
  execSync(build, { cwd: repository, env: { ...process.env, PATH: path } });
});
afterAll(() => rmSync(directory, { recursive: true, force: true }));
afterEach(closeAll);

const start = async (options: OpenOptions = {}) => {
  const app = open([process.execPath, program], { cols: 60, rows: 8, ...options });
  await app.waitFor('ready');
  return app;
};

test('it starts, fills every row, takes keys and lines in one burst, and leaves', async () => {
  const app = await start({ watchTermios: true });
  expect(app.screen()[7]).toBe('last row');
  app.type('12345jjjj:r4c7=3\r:r4c7<>3\rh');
  await app.waitFor('keys 1 2 3 4 5 j j j j : <r4c7=3> : <r4c7<>3> h');
  app.resize(90, 5);
  await app.waitFor('ready 90x5');
  await app.waitFor((at) => at.screen()[4] === 'last row');
  app.press('q');
  expect(await app.exit).toEqual({ code: 0, signal: 0 });
  expect(app.termios().after).toBe(app.termios().before);
  expect(app.modes()).toMatchObject({ alternateScreen: false, cursorVisible: true, bracketedPaste: false });
  expect(app.scrollback()).toEqual([]);
});

test.each([[''], ['1']])('CI=%s does not keep Ink from drawing, and DEV starts no debugger', async (CI) => {
  const app = await start({ env: { CI, DEV: 'true' } });
  app.press('x');
  await app.waitFor('keys x');
});

test('an Ink program that is told to end by a signal gives the terminal back', async () => {
  const app = await start({ watchTermios: true });
  app.signal('SIGTERM');
  expect(await app.exitCode()).toBe(143);
  await app.exit;
  expect(app.termios().after).toBe(app.termios().before);
  expect(app.text().trim()).toBe('');
});

test('no debugger, no web socket and no download are in the bundle', () => {
  const text = readdirSync(directory)
    .map((name) => readFileSync(join(directory, name), 'utf8'))
    .join('');
  // Asked one by one, so that a failure does not print the bundle.
  const unwanted = ['permessage-deflate', 'react-devtools-core@', 'is-in-ci'].filter((word) =>
    text.includes(word),
  );
  expect(unwanted).toEqual([]);
  expect(/\bfetch\(/.test(text)).toBe(false);
});
