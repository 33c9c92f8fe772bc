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

test('no debugger, no web socket and no download come with Ink', () => {
  const text = readFileSync(join(dist, 'screen.js'), 'latin1');
  // Asked one by one, so that a failure does not print the bundle.
  const unwanted = ['permessage-deflate', 'react-devtools-core', 'is-in-ci'].filter((word) =>
    text.includes(word),
  );
  expect(unwanted).toEqual([]);
  expect(/\bfetch\(/.test(text)).toBe(false);
});
