import { afterEach, expect, test } from 'vitest';
import { closeAll, open } from './harness.ts';

afterEach(closeAll);

test('a shell can be typed to, resized and asked for its exit code', async () => {
  const app = open(['/bin/sh'], { cols: 40, rows: 6, env: { PS1: 'ready> ' } });
  await app.waitFor('ready>');
  app.type("printf '\\033[1;38;5;208mX\\033[0m %s\\n' $(tput cols || stty size)\r");
  await app.waitFor(/^X /m);
  const y = app.screen().findIndex((line) => line.startsWith('X '));
  expect(app.cell(0, y)).toMatchObject({
    text: 'X',
    bold: true,
    foreground: { kind: 'palette', index: 208 },
  });
  app.resize(50, 8);
  app.type('stty size\r');
  await app.waitFor('8 50');
  app.press('ctrl+d');
  expect(await app.exit).toEqual({ code: 0, signal: 0 });
});

test('modes are seen as the program leaves them', async () => {
  const app = open(['/bin/sh', '-c', "printf '\\033[?1049h\\033[?25l\\033[?2004h\\033[?1002h'; read x"]);
  await app.waitFor((at) => at.modes().mouse === 'drag');
  expect(app.modes()).toMatchObject({ alternateScreen: true, cursorVisible: false, bracketedPaste: true });
});

test('termios before and after, process id and exit code are noted', async () => {
  const app = open(['/bin/sh', '-c', 'stty raw -echo; echo up; read x; exit 7'], { watchTermios: true });
  await app.waitFor('up');
  expect(await app.pid()).toBeGreaterThan(1);
  app.press('return');
  app.send('\n');
  expect((await app.exit).code).toBe(7);
  expect(await app.exitCode()).toBe(7);
  expect(app.termios().after).not.toBe(app.termios().before);
});

test('a wait that is never answered fails with the screen', async () => {
  const app = open(['/bin/sh', '-c', 'echo something else; read x']);
  await expect(app.waitFor('a marker', 300)).rejects.toThrow(/300 ms passed.*a marker[\s\S]*something else/);
});

test('a program that ends while it is waited for fails the wait at once', async () => {
  const app = open(['/bin/sh', '-c', 'echo last words']);
  await expect(app.waitFor('never')).rejects.toThrow(/the program ended[\s\S]*last words/);
});

test('signals reach the command, not the shell that watches it', async () => {
  const app = open(['/bin/sh', '-c', 'trap "exit 9" TERM; echo up; while :; do read x; done'], {
    watchTermios: true,
  });
  await app.waitFor('up');
  app.signal('SIGTERM');
  expect(await app.exitCode()).toBe(9);
});
