import { constants, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { bundleFixture } from '../pty/bundle.ts';
import { type App, closeAll, type OpenOptions, open } from '../pty/harness.ts';
import type { TerminalModes } from '../pty/screen.ts';

let fixture: ReturnType<typeof bundleFixture>;
beforeAll(() => {
  fixture = bundleFixture('guarded.ts');
});
afterAll(() => fixture.remove());
afterEach(closeAll);

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

async function start(options: OpenOptions = {}): Promise<App> {
  const app = open([process.execPath, fixture.path], { cols: 60, rows: 10, watchTermios: true, ...options });
  await app.waitFor('ready');
  return app;
}

/** Everything as it was: line discipline, modes, screen, no process left. */
async function expectRestored(app: App): Promise<void> {
  await app.exit;
  const termios = app.termios();
  expect(termios.after).toBe(termios.before);
  expect(app.modes()).toEqual(before);
  expect(app.text()).not.toContain('ready');
  await expectGone(app);
}

async function expectGone(app: App): Promise<void> {
  const pid = await app.pid();
  expect(() => process.kill(pid, 0)).toThrow('ESRCH');
}

test('while it runs the terminal is its own', async () => {
  const app = await start({ env: { MOUSE: 'on' } });
  expect(app.modes()).toMatchObject({ alternateScreen: true, bracketedPaste: true, mouse: 'drag' });
  expect(app.cursor()).toEqual({ x: 3, y: 1, visible: true });
  app.press('shift+up');
  await app.waitFor('key shift+up');
  app.paste('12\n34');
  await app.waitFor('key paste');
  app.send('\x1b[<0;3;2M');
  await app.waitFor('key mouse');
  app.resize(50, 8);
  await app.waitFor('size 50x8');
  app.press('q');
  await expectRestored(app);
});

describe('every way out', () => {
  const ways: readonly (readonly [string, (app: App) => void, number, string])[] = [
    ['quit', (app) => app.press('q'), 0, ''],
    ['Ctrl-C', (app) => app.press('ctrl+c'), 130, ''],
    ['an exception', (app) => app.press('t'), 1, 'inkling: internal error: thrown \\x1b[31mon purpose'],
    ['an unhandled rejection', (app) => app.press('r'), 1, 'inkling: internal error: rejected on purpose'],
    ['process.exit from elsewhere', (app) => app.press('x'), 4, ''],
    ['SIGTERM', (app) => app.signal('SIGTERM'), 143, ''],
    ['SIGHUP', (app) => app.signal('SIGHUP'), 129, ''],
    ['SIGINT', (app) => app.signal('SIGINT'), 130, ''],
    ['SIGQUIT', (app) => app.signal('SIGQUIT'), 131, ''],
  ];
  test.each(['off', 'on'].flatMap((streams) => ways.map((way) => [...way, streams] as const)))(
    '%s',
    async (_, leave, code, text, streams) => {
      const app = await start({ env: { MOUSE: 'on', STREAMS: streams } });
      leave(app);
      expect(await app.exitCode()).toBe(code);
      await expectRestored(app);
      expect(app.text().trim()).toBe(text);
    },
  );

  test.each([
    ['quit', (app: App) => app.press('q'), 'quit'],
    ['a crash', (app: App) => app.press('t'), 'crash'],
    ['SIGTERM', (app: App) => app.signal('SIGTERM'), 'signal'],
    ['SIGHUP', (app: App) => app.signal('SIGHUP'), 'hangup'],
    ['a closed terminal', (app: App) => app.hangUp(), 'hangup'],
  ] as const)('%s saves first', async (_, leave, reason) => {
    const app = await start({ env: { FLUSHED: 'flushed.txt' } });
    leave(app);
    await app.exitCode();
    expect(readFileSync(join(app.home, 'flushed.txt'), 'utf8')).toBe(`begun ${reason}\ndone\n`);
  });

  test('a hook that never ends holds a signal up only for a moment', async () => {
    const app = await start({ env: { FLUSHED: 'flushed.txt', STUCK: '1' } });
    app.signal('SIGTERM');
    expect(await app.exitCode()).toBe(143);
    await expectRestored(app);
  });

  test('a hook that never ends at quitting leaves SIGTERM working', async () => {
    const app = await start({ env: { FLUSHED: 'flushed.txt', STUCK: '1' } });
    app.press('q');
    await app.waitFor((at) => !at.modes().alternateScreen);
    app.signal('SIGTERM');
    expect(await app.exitCode()).toBe(143);
    await expectRestored(app);
  });

  test('a closed terminal ends it at once, with 129 and not with an abort', async () => {
    const app: App = await start();
    const from = performance.now();
    app.hangUp();
    expect(await app.exitCode()).toBe(129);
    expect(performance.now() - from).toBeLessThan(2000); // 200 ms on a quiet machine
    await expectGone(app);
  });

  test('a terminal that is closed before its streams are made ends it in the same way', async () => {
    const app = await start({ env: { LISTENS: 'late' } });
    app.hangUp();
    expect(await app.exitCode()).toBe(129);
    await expectGone(app);
  });

  test('what others print meanwhile comes out afterwards', async () => {
    const app = await start();
    app.press('w');
    await app.waitFor('key w');
    expect(app.text()).not.toContain('stray');
    app.press('q');
    await expectRestored(app);
    expect(app.text().trim()).toBe('a stray line');
  });
});

// What is written to a full terminal that does not wait is lost, as the switch to the other screen would be.
test.skipIf(process.platform !== 'linux')(
  'before its streams are made, output waits for a slow terminal',
  async () => {
    const app = await start({ env: { LISTENS: 'late' } });
    const [, flags] = /^flags:\s*([0-7]+)$/m.exec(readFileSync(`/proc/${await app.pid()}/fdinfo/1`, 'utf8'))!;
    expect(Number.parseInt(flags!, 8) & constants.O_NONBLOCK).toBe(0);
    app.hangUp();
    await app.exitCode();
  },
);

describe('under a shell with job control', () => {
  async function shell(): Promise<App> {
    const app = open(['/bin/bash', '--norc', '--noprofile', '-i'], {
      cols: 60,
      rows: 10,
      env: { PS1: 'shell> ', BASH_SILENCE_DEPRECATION_WARNING: '1' },
    });
    await app.waitFor('shell>');
    app.type('stty -g > a; echo before it\r');
    await app.waitFor(/^before it/m);
    app.type(`${process.execPath} ${fixture.path}\r`);
    await app.waitFor('ready');
    return app;
  }

  const pidOf = (app: App) => Number(/ready (\d+)/.exec(app.text())![1]);

  test.each([
    ['Ctrl-Z', (app: App): void => app.press('ctrl+z')],
    ['SIGTSTP', (app: App): void => void process.kill(pidOf(app), 'SIGTSTP')],
  ] as const)('%s gives the terminal back, fg takes it again', async (_, stop) => {
    const app = await shell();
    app.press('h');
    await app.waitFor('key h');
    stop(app);
    await app.waitFor((at) => !at.modes().alternateScreen && at.text().includes('Stopped'));
    expect(app.modes()).toEqual({ ...before, bracketedPaste: app.modes().bracketedPaste });
    expect(app.text()).toContain('before it');
    app.type('clear; stty -g | cmp - a && echo same modes\r');
    await app.waitFor(/^same modes/m);
    app.type('fg\r');
    await app.waitFor('ready');
    expect(app.modes()).toMatchObject({ alternateScreen: true, bracketedPaste: true });
    expect(app.cursor()).toEqual({ x: 3, y: 1, visible: true });
    app.press('j');
    await app.waitFor('key j');
    app.press('q');
    await app.waitFor((at) => !at.modes().alternateScreen && at.text().trimEnd().endsWith('shell>'));
    app.type('clear; stty -g | cmp - a && echo code $?\r');
    await app.waitFor(/^code 0/m);
  });

  test('stopped and continued without asking, it draws itself anew', async () => {
    const app = await shell();
    const pid = pidOf(app);
    process.kill(pid, 'SIGSTOP');
    await app.waitFor('Stopped');
    app.type('fg\r');
    await app.waitFor((at) => at.text().includes('ready') && !at.text().includes('Stopped'));
    app.press('k');
    await app.waitFor('key k');
    expect(app.modes().alternateScreen).toBe(true);
  });

  test('data on stdin and keys from the terminal', async () => {
    const app = open(['/bin/sh', '-c', `echo 'grid text' | ${process.execPath} ${fixture.path}`], {
      cols: 60,
      rows: 10,
    });
    await app.waitFor('key after data grid text');
    app.press('shift+left');
    await app.waitFor('key shift+left');
    app.press('q');
    expect((await app.exit).code).toBe(0);
    expect(app.modes()).toEqual(before);
  });
});

test('without job control Ctrl-Z leaves the program on the screen', async () => {
  const app = await start();
  app.press('ctrl+z');
  await app.waitFor('key ctrl+z');
  app.press('j');
  await app.waitFor('key j');
  expect(app.modes().alternateScreen).toBe(true);
});

test('idle, it writes nothing and Ctrl-L draws everything', async () => {
  const app = await start();
  const length = app.output().length;
  app.press('ctrl+l');
  await app.waitFor('key ctrl+l');
  const full = app.output().slice(length);
  expect(full).toContain('\x1b[2J');
  app.press('a', 'a');
  await app.waitFor('key a');
  expect(app.output().slice(length + full.length)).not.toContain('\x1b[2J');
});
