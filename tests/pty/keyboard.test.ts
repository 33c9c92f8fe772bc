import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { type App, closeAll, hasPlaced, type OpenOptions, openInkling } from './harness.ts';

/** Line 1333 of the published set random-minimal-2000. */
const grid = '.461...5......4.2.2....5..67.2..1....8.......4......92.1...2..3..7..3..5...8..9.7';
const homes: string[] = [];
afterEach(() => {
  closeAll();
  for (const home of homes.splice(0)) rmSync(home, { recursive: true, force: true });
});

async function start(options: OpenOptions = {}, args: readonly string[] = []): Promise<App> {
  const env = { COLORTERM: 'truecolor', COLORFGBG: '15;0', ...options.env };
  const app = openInkling([...args, grid], { ...options, env });
  await app.waitFor('? keys');
  return app;
}

/** A home whose settings file has this in it. */
function homeWith(settings: string): string {
  const home = mkdtempSync(join(tmpdir(), 'inkling-keyboard-'));
  homes.push(home);
  mkdirSync(join(home, 'config', 'inkling'), { recursive: true });
  writeFileSync(join(home, 'config', 'inkling', 'config.toml'), settings);
  return home;
}

describe('the keyboard', () => {
  test('the help is searched by typing, and what is found is done', async () => {
    const app = await start();
    app.press('?');
    await app.waitFor('page 1 of 2');
    app.type('note all');
    await app.waitFor('action  note all');
    expect(app.cursor()).toMatchObject({ x: 3 + 'action  note all'.length, y: 0, visible: true });
    app.press('return');
    // What r5c5 can be, in the two lines of its cell.
    await app.waitFor((at) => [10, 11].map((y) => at.screen()[y].slice(27, 32)).join() === ' 2 34,567 9');
  });

  test('the list of actions: some letters, enter', async () => {
    const app = await start();
    app.press('ctrl+p');
    await app.waitFor('1 of ');
    app.type('copy all');
    await app.waitFor('1 of 1');
    app.press('escape');
    await app.waitFor(hasPlaced(25));
    app.press('ctrl+p');
    app.type('two cand');
    app.press('return');
    await app.waitFor(/two +\d+ cells/);
  });

  test('cells are picked with Shift and arrows, or with a comma, and written at once', async () => {
    const app = await start();
    app.press('g', '6', '4');
    app.press('shift+right', 'shift+right');
    await app.waitFor('picked 3 cells');
    app.press('n', '7');
    await app.waitFor((at) => /7.*7.*7/.test(at.screen()[13].slice(20, 38)));
    app.press('u');
    await app.waitFor((at) => !/7/.test(at.screen()[13].slice(20, 38)));
    app.press('escape');
    await app.waitFor((at) => !at.text().includes('picked'));
  });

  test('a count before a key', async () => {
    const app = await start();
    app.press('g', '1', '1');
    app.type('-8l-3j');
    await app.waitFor('cell   r4c9');
    app.type('-2');
    await app.waitFor('times, then a key');
  });

  test('a line typed before comes back with up, to be changed and typed again', async () => {
    const app = await start();
    app.type(':r5c4=2\r');
    await app.waitFor(hasPlaced(26));
    app.press(':', 'up');
    await app.waitFor(': r5c4=2');
    app.press('backspace');
    app.type('9\r');
    await app.waitFor((at) => at.cell(3 + 6 * 3 + 2, 1 + 2 * 4 + 1).text === '9');
  });

  test('the theme changes at once, on the whole screen', async () => {
    const app = await start();
    const foreground = () => app.cell(0, 1).foreground;
    const dark = foreground();
    // #8A8A8A, which is 245 of the 256 colours.
    expect(dark).toEqual({ kind: 'palette', index: 245 });
    app.type(':theme light');
    await app.waitFor(': theme light');
    app.press('return');
    await app.waitFor('Theme: light.');
    expect(foreground()).toEqual({ kind: 'rgb', red: 0x6f, green: 0x6f, blue: 0x6f });
    app.type(':theme mono');
    await app.waitFor(': theme mono');
    app.press('return');
    await app.waitFor('Theme: mono.');
    expect(foreground().kind).toBe('default');
  });

  test('--theme goes before the settings, the settings before what the terminal says', async () => {
    const home = homeWith('theme = "mono"');
    const set = await start({ home });
    expect(set.cell(0, 1).foreground.kind).toBe('default');
    const asked = await start({ home }, ['--new', '--theme', 'light']);
    expect(asked.cell(0, 1).foreground).toEqual({ kind: 'rgb', red: 0x6f, green: 0x6f, blue: 0x6f });
  });

  test('keys of one\u2019s own do what they are bound to, and the footer names them', async () => {
    const app = await start({ home: homeWith('[keys]\nhint = "f5"\nquit = "Q"\nundo = []\n') });
    expect(app.screen()[22]).toContain('f5 hint');
    expect(app.screen()[22]).toContain(':undo undo');
    app.send('\x1b[15~');
    await app.waitFor('1 of 5');
    app.press('escape', 'q', 'Q');
    expect(await app.exit).toMatchObject({ code: 0 });
  });

  test('settings that cannot be used are told before the screen is taken', async () => {
    const app = openInkling([grid], { home: homeWith('[keys]\nhint = "u"\n') });
    expect(await app.exit).toMatchObject({ code: 2 });
    expect(app.output()).toContain('config.toml:2:1: u would do two things: hint and undo');
    expect(app.output()).not.toContain('\u001b');
  });

  test('the mouse is left to the terminal, unless the settings ask for it; then a click goes to a cell', async () => {
    const without = await start();
    expect(without.modes().mouse).toBe('none');
    const app = await start({ home: homeWith('mouse = true') }, ['--new']);
    expect(app.modes().mouse).not.toBe('none');
    // r4c7 begins in column 39, line 8, counted from 0; the report counts from 1.
    app.send('\x1b[<0;41;9M\x1b[<0;41;9m');
    await app.waitFor('cell   r4c7');
    // On a rule, and with the wheel, nothing happens.
    app.send('\x1b[<0;41;8M\x1b[<65;10;3M');
    app.press('n', '6');
    await app.waitFor((at) => at.screen()[9][40] === '6');
    expect(app.text()).toContain('cell   r4c7');
    app.press('u', 'q');
    if (!(await gone(app))) app.press('q');
    await app.exit;
    expect(app.modes().mouse).toBe('none');
  });
});

/** Whether the program goes, rather than ask back. */
const gone = (app: App): Promise<boolean> =>
  Promise.race([
    app.exit.then(() => true),
    app.waitFor('again quits').then(
      () => false,
      () => true,
    ),
  ]);
