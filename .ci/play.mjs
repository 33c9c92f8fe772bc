import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { spawn } from '@lydell/node-pty';

const grid = '53..7....6..195....98....6.8...6...34..8.3..17...2...6.6....28....419..5....8..79';

/** Opens the workbench in a pseudo-terminal and presses each key when the one before has been answered. */
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
    });
    app.onExit(({ exitCode }) => {
      clearTimeout(limit);
      if (exitCode === 0) done();
      else fail(new Error(`the workbench ended with ${exitCode}`));
    });
  });
}

/** Plays through what starts should be quick for, so that its compiled code is kept. */
export async function play(program) {
  const home = mkdtempSync(join(tmpdir(), 'inkling-build-'));
  const env = { PATH: process.env.PATH, HOME: home, LANG: 'C.UTF-8', TERM: 'xterm-256color' };
  const colours = { COLORTERM: 'truecolor', COLORFGBG: '15;0', INKLING_RENEW_CACHE: '1' };
  try {
    for (const words of [['--version'], ['--help'], ['check', grid], ['hint', '--rung', 'why', grid]]) {
      const { status } = spawnSync(process.execPath, [program, ...words], { env: { ...env, ...colours } });
      if (status !== 0) throw new Error(`inkling ${words.join(' ')} ended with ${status}`);
    }
    for (const words of [[grid], ['--color', 'true', grid]]) {
      await playKeys(program, words, { ...env, ...colours }, ['l', 'n', 'q', 'q']);
    }
  } finally {
    rmSync(home, { recursive: true, force: true });
  }
}
