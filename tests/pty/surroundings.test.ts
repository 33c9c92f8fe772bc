import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { type App, closeAll, hasPlaced, open, openInkling, program } from './harness.ts';

/* Where the workbench can run, what it says where it can't, and which bytes it sends. */

const grid = '.461...5......4.2.2....5..67.2..1....8.......4......92.1...2..3..7..3..5...8..9.7';
const oneShot = /^inkling: .*one-shot command, such as: inkling hint GRID$/;

afterEach(closeAll);

test.each([
  ['', undefined],
  ['', ''],
])('CI%s empty or not set: it runs, and DEV starts no debugger', async (_, CI) => {
  const app = openInkling([grid], { env: { CI, DEV: 'true' } });
  await app.waitFor('? keys');
  app.press(':', 'r', '1');
  await app.waitFor(': r1');
});

test.each([{ CI: '1' }, { CI: 'true' }, { TERM: 'dumb' }, { TERM: undefined }])(
  '%j: one line on stderr, nothing on the screen, exit 2',
  async (env) => {
    const app = open(['/bin/sh', '-c', `${process.execPath} ${program} ${grid} 2> said; echo code $?`], {
      env,
    });
    await app.waitFor('code 2');
    expect(app.output().trim()).toBe('code 2');
    const { stdout } = spawnSync('cat', [join(app.home, 'said')], { encoding: 'utf8' });
    expect(stdout.trim()).toMatch(oneShot);
  },
);

test('stdout that is no terminal', async () => {
  const app = open([
    '/bin/sh',
    '-c',
    `${process.execPath} ${program} ${grid} > out; echo code $?; wc -c < out`,
  ]);
  await app.waitFor(/code 2\s+0/);
  expect(app.text().replaceAll('\n', '')).toContain('stdout is none');
});

test('no terminal at all', () => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, grid], {
    encoding: 'utf8',
    input: '',
    env: { PATH: process.env.PATH, TERM: 'xterm' },
  });
  expect([status, stdout]).toEqual([2, '']);
  expect(stderr.trim()).toMatch(oneShot);
});

test('a grid through a pipe, keys from the terminal', async () => {
  const home = open(['/bin/true']).home;
  writeFileSync(join(home, 'grid'), `${grid}\n`);
  const app = open(['/bin/sh', '-c', `cat grid | ${process.execPath} ${program} -; echo code $?`], { home });
  await app.waitFor(hasPlaced(25));
  app.press('2');
  await app.waitFor(hasPlaced(26));
  app.press('q');
  await app.waitFor('code 0');
});

describe('bytes', () => {
  /** Plays through what draws most. */
  async function play(app: App): Promise<void> {
    await app.waitFor('? keys');
    app.type('awwwww');
    await app.waitFor('5 of 5');
    app.press('escape', 'f', '3', '?');
    await app.waitFor(/undo/);
    app.press('escape');
    app.type(':r5c5=2 r9c9<>9 x\r');
    await app.waitFor(/expected/);
    app.press('escape');
    for (const [columns, rows] of [
      [120, 45],
      [45, 16],
      [20, 5],
    ] as const) {
      app.resize(columns, rows);
      await app.waitFor((at) => at.screen().length === rows && /keys|40 x 15/.test(at.text()));
    }
  }

  test.each([
    ['LC_ALL=C', { LANG: 'C', LC_ALL: 'C' }],
    ['TERM=linux', { TERM: 'linux', COLORTERM: undefined }],
  ])('%s: below 0x80 only', async (_, env) => {
    const app = openInkling([grid], { env });
    await play(app);
    expect([...app.output()].filter((sign) => sign > '\u007f')).toEqual([]);
  });

  const colours = (app: App): string[] =>
    [...app.output().matchAll(/\u001b\[([\d;:]*)m/g)]
      .flatMap(([, codes]) => codes!.split(';'))
      .filter((code) => /^(?:[34]\d|9\d|10\d)$/.test(code));

  test('NO_COLOR: no codes of colour, though the terminal has them', async () => {
    const app = openInkling([grid], { env: { NO_COLOR: '1', COLORTERM: 'truecolor' } });
    await play(app);
    expect(colours(app)).toEqual([]);
  });

  test('with colours the same is full of them, and nothing ever blinks or hides', async () => {
    const app = openInkling([grid], { env: { COLORTERM: 'truecolor' } });
    await play(app);
    expect(colours(app).length).toBeGreaterThan(100);
    const codes = [...app.output().matchAll(/\u001b\[([\d;]*)m/g)].map(([, each]) =>
      each!.replaceAll(/[34]8;(?:5;\d+|2;\d+;\d+;\d+)/g, ''),
    );
    expect(codes.filter((each) => each.split(';').some((code) => /^0?[568]$/.test(code)))).toEqual([]);
  });
});
