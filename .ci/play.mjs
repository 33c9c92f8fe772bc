import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { spawn } from '@lydell/node-pty';

const grid = '53..7....6..195....98....6.8...6...34..8.3..17...2...6.6....28....419..5....8..79';

const another = grid.replace('53', '.3');

/**
 * Opens the workbench in a pseudo-terminal and presses each key when the one before has been answered. Without keys
 * it is ended as soon as something is on the screen.
 */
function playKeys(program, words, env, keys) {
  return new Promise((done, fail) => {
    const app = spawn(process.execPath, [program, ...words], { cols: 80, rows: 24, env });
    const left = [...keys];
    const limit = setTimeout(() => {
      app.kill('SIGKILL');
      fail(new Error('the workbench did not answer its keys'));
    }, 60_000);
    app.onData(() => {
      const key = left.shift();
      if (key !== undefined) app.write(key);
      else if (keys.length === 0) app.kill('SIGTERM');
    });
    app.onExit(({ exitCode }) => {
      clearTimeout(limit);
      if (exitCode === (keys.length === 0 ? 143 : 0)) done();
      else fail(new Error(`the workbench ended with ${exitCode}`));
    });
  });
}

/** Plays through what starts should be quick for, so that its compiled code is kept. */
export async function play(program) {
  const home = mkdtempSync(join(tmpdir(), 'inkling-build-'));
  const env = { PATH: process.env.PATH, HOME: home, LANG: 'C.UTF-8', TERM: 'xterm-256color' };
  const colours = { COLORTERM: 'truecolor', COLORFGBG: '15;0', INKLING_RENEW_CACHE: 'all' };
  try {
    for (const words of [['--version'], ['--help'], ['check', grid], ['hint', '--rung', 'why', grid]]) {
      const { status } = spawnSync(process.execPath, [program, ...words], { env: { ...env, ...colours } });
      if (status !== 0) throw new Error(`inkling ${words.join(' ')} ended with ${status}`);
    }
    // What is typed into the line waits for Ink, so that it is loaded however fast the keys come.
    for (const words of [[grid], ['--color', 'true', grid]]) {
      await playKeys(program, words, { ...env, ...colours }, ['l', 'n', ':', 'r5c5=5', '\r', 'q', 'q']);
    }
    // Of the script that every start waits for, nothing but what its first frame takes: of a new sheet and an old one.
    rmSync(join(dirname(program), 'open.js.cache'));
    for (const words of [[another], [another]]) {
      await playKeys(program, words, { ...env, ...colours, INKLING_RENEW_CACHE: './open.js' }, []);
    }
  } finally {
    rmSync(home, { recursive: true, force: true });
  }
}
