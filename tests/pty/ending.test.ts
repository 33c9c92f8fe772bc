import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { type App, closeAll, hasPlaced, open, openInkling, program } from './harness.ts';
import type { TerminalModes } from './screen.ts';

/*
 * The built workbench, on every way out: the terminal is as it was and nobody is left. A hint has been asked for
 * before, so that its thread runs too. What an exception in the program does is in
 * tests/platform/terminal-guard.test.ts, with a program that throws.
 */

const grid = '.461...5......4.2.2....5..67.2..1....8.......4......92.1...2..3..7..3..5...8..9.7';
const before: TerminalModes = {
  alternateScreen: false,
  cursorVisible: true,
  bracketedPaste: false,
  mouse: 'none',
  focusEvents: false,
  synchronizedOutput: false,
  applicationCursorKeys: false,
  applicationKeypad: false,
};

afterEach(closeAll);

/** How the program has its terminal, by the environment: see source/platform/terminal-line.ts. */
const ways = [
  ['directly', {}],
  ['through streams, as Node warns of the other way', { NODE_OPTIONS: '--pending-deprecation' }],
] as const;

test('however Node was told to warn of it, nobody hears of the binding', async () => {
  for (const flag of ['--pending-deprecation', '--pending_deprecation']) {
    const app = openInkling([grid], { env: { NODE_OPTIONS: flag } });
    await app.waitFor('? keys');
    app.press('q');
    await app.exit;
    expect(app.text().trim()).toBe('');
  }
});

describe.each(ways)('with the terminal had %s', (_way, env) => {
  test.each([
    ['quit', (app: App) => app.press('q'), 0],
    ['Ctrl-C, once for the hint and once for the program', (app: App) => app.press('ctrl+c', 'ctrl+c'), 130],
    ['SIGTERM', (app: App) => app.signal('SIGTERM'), 143],
    ['SIGHUP', (app: App) => app.signal('SIGHUP'), 129],
    ['SIGINT', (app: App) => app.signal('SIGINT'), 130],
    ['SIGQUIT', (app: App) => app.signal('SIGQUIT'), 131],
  ] as const)('%s', async (_, leave, code) => {
    const app = openInkling([grid], { watchTermios: true, env });
    await app.waitFor('? keys');
    expect(app.modes()).toMatchObject({ alternateScreen: true, bracketedPaste: true });
    app.press('w');
    await app.waitFor('1 of 5');
    leave(app);
    expect(await app.exitCode()).toBe(code);
    await app.exit;
    expect(app.termios().after).toBe(app.termios().before);
    expect(app.modes()).toEqual(before);
    expect(app.text().trim()).toBe('');
    expect(app.scrollback()).toEqual([]);
    const pid = await app.pid();
    expect(() => process.kill(pid, 0)).toThrow('ESRCH');
  });

  test('a closed terminal', async () => {
    const app = openInkling([grid], { watchTermios: true, env });
    await app.waitFor('? keys');
    app.press('w');
    await app.waitFor('1 of 5');
    app.hangUp();
    expect(await app.exitCode()).toBe(129);
    const pid = await app.pid();
    expect(() => process.kill(pid, 0)).toThrow('ESRCH');
  });
});

test('suspended and continued: the shell has its terminal back meanwhile, and the sheet is as it was', async () => {
  const app = open(['/bin/bash', '--norc', '--noprofile', '-i'], { env: { PS1: 'shell> ' } });
  await app.waitFor('shell>');
  app.type('stty -g > modes; echo before it\r');
  await app.waitFor(/^before it/m);
  app.type(`${process.execPath} ${program} ${grid}\r`);
  await app.waitFor('? keys');
  app.press('2');
  await app.waitFor(hasPlaced(26));
  for (let round = 0; round < 2; round++) {
    app.press('ctrl+z');
    await app.waitFor((at) => !at.modes().alternateScreen && at.text().includes('Stopped'));
    expect(app.text()).toContain('before it');
    app.type('clear; stty -g | cmp - modes && echo same; echo before it\r');
    await app.waitFor(/^same\nbefore it/m);
    app.type('fg\r');
    await app.waitFor(hasPlaced(26));
    expect(app.modes()).toMatchObject({ alternateScreen: true, bracketedPaste: true });
  }
  app.press('u');
  await app.waitFor(hasPlaced(25));
  app.press('q');
  await app.waitFor((at) => !at.modes().alternateScreen && at.text().trimEnd().endsWith('shell>'));
  app.type('clear; stty -g | cmp - modes && echo code $?\r');
  await app.waitFor(/^code 0/m);
});

test('Ctrl-L draws everything anew', async () => {
  const app = openInkling([grid]);
  await app.waitFor('? keys');
  // The new sheet's status comes behind the first frame.
  await app.waitFor((at) => / saved *$/.test(at.screen()[1]));
  // A blank that was written is no different from one that was not.
  const rows = () => app.screen().map((row) => row.trimEnd());
  const screen = rows();
  const from = app.output().length;
  app.press('ctrl+l');
  await app.waitFor((at) => at.output().slice(from).includes('\u001b[2J') && at.text().includes('? keys'));
  expect(rows()).toEqual(screen);
});

test('what was above stays above, through sizes and keys', async () => {
  const home = open(['/bin/true']).home;
  writeFileSync(join(home, 'run'), `seq 1 60\nexec ${process.execPath} ${program} ${grid}\n`);
  const app = open(['/bin/sh', join(home, 'run')], { home });
  await app.waitFor('? keys');
  const above = app.scrollback();
  expect(above.slice(0, 3)).toEqual(['1', '2', '3']);
  for (const [columns, rows, sign] of [
    [100, 40, '? keys'],
    [30, 8, 'needs 40 x 15'],
    [80, 24, '? keys'],
  ] as const) {
    app.resize(columns, rows);
    app.press('right', 'f', '3');
    await app.waitFor(sign);
  }
  app.press('q');
  await app.exit;
  expect([...app.scrollback(), ...app.screen()].filter((line) => line !== '')).toEqual(
    Array.from({ length: 60 }, (_, i) => String(i + 1)),
  );
});
