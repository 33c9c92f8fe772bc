import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  cpSync,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { closeAll, open } from '../pty/harness.ts';

/* What the build leaves in dist/ (`npm run build` first), and how it starts. */

const dist = fileURLToPath(new URL('../../dist', import.meta.url));
const grid = '53..7....6..195....98....6.8...6...34..8.3..17...2...6.6....28....419..5....8..79';

describe('a copy of the built program', () => {
  let root: string;
  let main: string;
  const caches = () => readdirSync(join(root, 'dist')).filter((name) => name.includes('.cache'));
  const check = () => {
    const { status, stdout, stderr } = spawnSync(process.execPath, [main, 'check', grid], {
      encoding: 'utf8',
    });
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    expect(stdout).toContain('One solution.');
  };

  beforeEach(() => {
    root = mkdtempSync(join(tmpdir(), 'inkling-dist-'));
    cpSync(dist, join(root, 'dist'), { recursive: true, preserveTimestamps: true });
    main = join(root, 'dist/main.js');
  });
  afterEach(() => {
    closeAll();
    chmodSync(join(root, 'dist'), 0o755);
    rmSync(root, { recursive: true, force: true });
  });

  test('one-shot commands and help do without the screen, so without Ink and React', () => {
    rmSync(join(root, 'dist/screen.js'));
    check();
    const { status, stdout } = spawnSync(process.execPath, [main, '--help'], { encoding: 'utf8' });
    expect(status).toBe(0);
    expect(stdout).toContain('inkling');
    const texts = ['main.js', 'program.js'].map((name) => readFileSync(join(root, 'dist', name), 'utf8'));
    expect(texts.some((text) => /react\.(?:element|fragment|suspense)/.test(text))).toBe(false);
    expect(readFileSync(join(dist, 'screen.js'), 'utf8')).toMatch(/react\.fragment/);
  });

  test('the first frame takes no script but open.js', async () => {
    for (const name of readdirSync(join(root, 'dist'))) {
      if (/\.js(?:\.cache)?$/.test(name) && !/^(?:main|open)\.js/.test(name))
        rmSync(join(root, 'dist', name));
    }
    const app = open([process.execPath, main, grid]);
    // Then it looks for the script that keys need, and ends over that.
    expect((await app.exit).code).toBe(1);
    const [frame] = app.output().split('\u001b[?2026l');
    expect(frame).toMatch(/c1 .*c9/s);
    expect(frame).toContain('keys');
    expect(app.modes().alternateScreen).toBe(false);
    expect(app.text()).toContain('attend.js');
  });

  test('scripts of two builds do not run together', async () => {
    for (const name of ['attend.js', 'flags.js']) {
      const path = join(root, 'dist', name);
      const text = readFileSync(path, 'utf8');
      const other = text.startsWith('//0') ? '//1' : '//0';
      writeFileSync(path, text.replace(/^\/\/./, other));
    }
    const app = open([process.execPath, main, grid]);
    expect((await app.exit).code).toBe(1);
    expect(app.modes().alternateScreen).toBe(false);
    expect(app.text().replaceAll('\n', '')).toMatch(/attend\.js is of another build/);
    const words = ['hint', '--rung', 'why', grid];
    const { status, stderr } = spawnSync(process.execPath, [main, ...words], { encoding: 'utf8' });
    expect(status).toBe(2);
    expect(stderr).toMatch(/flags\.js is of another build/);
  });

  test('compiled code that is missing, of another script or spoilt is made anew', () => {
    const path = join(root, 'dist/program.js.cache');
    expect(existsSync(path)).toBe(true);
    const whole = readFileSync(path);
    rmSync(path);
    check();
    expect(caches()).toContain('program.js.cache');
    for (const spoilt of [
      '',
      'nonsense',
      whole.subarray(0, 200),
      whole.subarray(0, whole.length - 1),
      Buffer.concat([Buffer.from('v0.1.2 none 1 1\n'), whole]),
    ]) {
      writeFileSync(path, spoilt);
      check();
      expect(readFileSync(path).length).toBeGreaterThan(10_000);
    }
    expect(caches().filter((name) => !/^[\w-]+\.js\.cache$/.test(name))).toEqual([]);
  });

  test('a folder that can not be written to does no harm', () => {
    rmSync(join(root, 'dist/program.js.cache'));
    chmodSync(join(root, 'dist'), 0o555);
    check();
  });
});

test('the workbench runs in a folder that is there no more', async () => {
  const gone = 'mkdir gone && cd gone && rmdir ../gone && exec "$@"';
  const app = open(['/bin/sh', '-c', gone, 'sh', process.execPath, join(dist, 'main.js'), grid]);
  await app.waitFor('? keys');
  // The line is there once Ink has been loaded.
  app.type(':r1');
  await app.waitFor(': r1');
  app.press('escape', 'q');
  expect((await app.exit).code).toBe(0);
});

test('the scripts of the workbench have no line twice', () => {
  const names = readdirSync(dist).filter((name) =>
    /^(?:open|attend|first-grid|nearest|common-[a-z])\.js$/.test(name),
  );
  const texts = names.map((name) => readFileSync(join(dist, name), 'latin1'));
  // Of modules that two of these use, one each: source/grid/read.ts, source/grid/names.ts, source/text/safe.ts.
  for (const words of ['candidates in parentheses to settle it', 'rows ', '\\ufff9-\\ufffb']) {
    expect([words, texts.filter((text) => text.includes(words)).length]).toEqual([words, 1]);
  }
});

test('a build leaves compiled code of what a start of the workbench takes', () => {
  const root = mkdtempSync(join(tmpdir(), 'inkling-build-'));
  try {
    const script = fileURLToPath(new URL('../../.ci/build.mjs', import.meta.url));
    cpSync(fileURLToPath(new URL('../../package.json', import.meta.url)), join(root, 'package.json'));
    const { status, stderr } = spawnSync(process.execPath, [script, join(root, 'dist')], {
      encoding: 'utf8',
    });
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    const names = readdirSync(join(root, 'dist'));
    expect(names).toEqual(
      expect.arrayContaining(['open.js.cache', 'attend.js.cache', 'screen.js.cache', 'check.js.cache']),
    );
  } finally {
    rmSync(root, { recursive: true, force: true });
  }
});

test('no debugger, no web socket and no download come with Ink', () => {
  const text = readFileSync(join(dist, 'screen.js'), 'latin1');
  // Asked one by one, so that a failure does not print the bundle.
  const unwanted = ['permessage-deflate', 'react-devtools-core', 'is-in-ci'].filter((word) =>
    text.includes(word),
  );
  expect(unwanted).toEqual([]);
  expect(/\bfetch\(/.test(text)).toBe(false);
});
