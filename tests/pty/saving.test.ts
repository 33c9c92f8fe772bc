import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { readJournal } from '../../source/journal/journal.ts';
import { type App, closeAll, hasPlaced, type OpenOptions, openInkling } from './harness.ts';

/** Lines 1333 and 257 of the published set random-minimal-2000. */
const grid = '.461...5......4.2.2....5..67.2..1....8.......4......92.1...2..3..7..3..5...8..9.7';
const other = '...7.5......2.......3..8.4........7.56....9.3..7..32...45...1..82..9...59...1..82';

const homes: string[] = [];
afterEach(() => {
  closeAll();
  for (const home of homes.splice(0)) rmSync(home, { recursive: true, force: true });
});

/** A home that outlives the programs that run in it. */
function newHome(): string {
  const home = mkdtempSync(join(tmpdir(), 'inkling-home-'));
  homes.push(home);
  return home;
}

async function start(args: readonly string[], options: OpenOptions = {}): Promise<App> {
  const app = openInkling(args, options);
  await app.waitFor('? keys');
  return app;
}

const shelfOf = (home: string): string => join(home, 'state/inkling/sheets');
const journalOf = (home: string): string => {
  const [id] = readdirSync(shelfOf(home));
  return join(shelfOf(home), id, 'journal');
};
const movesIn = (home: string): number => {
  const read = readJournal(readFileSync(journalOf(home), 'latin1'));
  if (!read.ok) throw new Error(read.error.message);
  return read.value.timeline.moves;
};
const isSaved = (app: App): boolean => /(?<!not) saved *$/.test(app.screen()[1]);

test('killed, and everything is there again, undo history and all', async () => {
  const home = newHome();
  const first = await start([grid], { home });
  first.type(':r5c4=2 r5c6:67\ru');
  await first.waitFor((app) => isSaved(app) && app.text().includes('Took back note r5c6'));
  first.signal('SIGKILL');
  await first.exit;

  const second = await start([grid], { home });
  await second.waitFor('Resumed after 1 move.');
  await second.waitFor(hasPlaced(26));
  second.press('r');
  await second.waitFor('Did note r5c6 6 7 again.');
  second.type('uu');
  await second.waitFor(hasPlaced(25));
  second.press('u');
  await second.waitFor('Nothing to undo.');
});

test('the grid’s own sheet, the last one, and a new one', async () => {
  const home = newHome();
  for (const [line, move] of [
    [grid, ':r5c4=2\r'],
    [other, ':r1c1:12\r'],
  ]) {
    const app = await start([line], { home });
    app.type(move);
    await app.waitFor(isSaved);
    app.press('q');
    expect((await app.exit).code).toBe(0);
  }
  const last = await start([], { home });
  await last.waitFor('Resumed after 1 move.');
  expect(last.screen()[1]).toContain('7');
  last.press('q');
  await last.exit;
  const named = await start([grid], { home });
  await named.waitFor(hasPlaced(26));
  named.press('q');
  await named.exit;
  const anew = await start(['--new', grid], { home });
  await anew.waitFor(hasPlaced(25));
  await anew.waitFor(isSaved);
  anew.press('q');
  await anew.exit;
  expect(readdirSync(shelfOf(home))).toHaveLength(3);
});

test('a pasted grid has a sheet of its own: undo leads back to the one before, redo on again, each as it was left', async () => {
  const home = newHome();
  const app = await start([grid], { home });
  app.type(':r5c4=2\r');
  await app.waitFor((at) => hasPlaced(26)(at) && isSaved(at));
  app.paste(other);
  await app.waitFor('opens it');
  app.press('return');
  await app.waitFor('Opened. u takes it back.');
  await app.waitFor((at) => hasPlaced(25)(at) && isSaved(at));
  app.press('u');
  await app.waitFor('Back on the sheet before. r leads on again.');
  await app.waitFor(hasPlaced(26));
  app.press('r');
  await app.waitFor(hasPlaced(25));
  app.type(':r1c1:12\r');
  await app.waitFor((at) => at.screen()[1].startsWith('r1 12') && isSaved(at));
  app.signal('SIGKILL');
  await app.exit;
  expect(readdirSync(shelfOf(home))).toHaveLength(2);

  // Each is resumed by its own grid, the last one without a word; pasted again, a grid brings what was left there.
  const last = await start([], { home });
  await last.waitFor('Resumed after 1 move.');
  await last.waitFor(hasPlaced(25));
  last.paste(grid);
  await last.waitFor('opens it');
  last.press('return');
  await last.waitFor('Resumed after 1 move.');
  await last.waitFor('leads back to the');
  await last.waitFor(hasPlaced(26));
  expect(readdirSync(shelfOf(home))).toHaveLength(2);
  last.press('u', 'u', 'u');
  await last.waitFor('Nothing to undo.');
});

test('a grid that was typed in has a sheet of its own, found by its givens', async () => {
  const home = newHome();
  const app = await start([grid], { home });
  app.press('e');
  await app.waitFor('Type the givens from');
  app.type('...7.5......2.......3..8.4........7.56....9.3..7..32...45...1..82..9...59...1..82');
  await app.waitFor((at) => hasPlaced(25)(at) && isSaved(at));
  app.press('return');
  await app.waitFor('25 givens locked.');
  app.press('n', 'g', '1', '1', '1');
  await app.waitFor(isSaved);
  app.press('q');
  expect((await app.exit).code).toBe(0);
  const again = await start([other], { home });
  await again.waitFor('Resumed after 1 move.');
  again.press('q');
  await again.exit;
  const untouched = await start([grid], { home });
  await untouched.waitFor((at) => hasPlaced(25)(at) && isSaved(at));
  expect(untouched.text()).not.toContain('Resumed');
});

test('a second instance can look, says so, and writes nothing', async () => {
  const home = newHome();
  const first = await start([grid], { home });
  first.type(':r5c4=2\r');
  await first.waitFor((app) => hasPlaced(26)(app) && isSaved(app));
  const before = readFileSync(journalOf(home));
  const second = await start([grid], { home });
  await second.waitFor('read-only');
  expect(second.text()).toContain('This sheet is open');
  second.type('j');
  second.type(':r5c6=6\r');
  await second.waitFor('only be looked');
  second.press('escape', 'u', 'x');
  await second.waitFor(hasPlaced(26));
  second.press('q');
  expect((await second.exit).code).toBe(0);
  expect(readFileSync(journalOf(home))).toEqual(before);
  first.press('u');
  await first.waitFor(hasPlaced(25));
  await first.waitFor(isSaved);
  // With the first one gone, the next one writes.
  first.press('q');
  await first.exit;
  const third = await start([grid], { home });
  await third.waitFor(isSaved);
});

test('a second instance can write as soon as the first is gone, and has what was written there', async () => {
  const home = newHome();
  const first = await start([grid], { home, watchTermios: true });
  await first.pid();
  const second = await start([grid], { home });
  await second.waitFor('read-only');
  first.type(':r5c4=2\r');
  await first.waitFor((app) => hasPlaced(26)(app) && isSaved(app));
  first.signal('SIGKILL');
  await first.exitCode();
  second.press('2');
  await second.waitFor('now it can be written');
  await second.waitFor((app) => hasPlaced(26)(app) && isSaved(app));
  second.press('u');
  await second.waitFor((app) => hasPlaced(25)(app) && isSaved(app));
});

test.each([
  ['SIGTERM', 143],
  ['SIGHUP', 129],
  ['SIGINT', 130],
] as const)('%s: all that was pressed is saved, and the program gone within 200 ms', async (name, code) => {
  // The machine may be busy with something else: the best of five counts.
  let fastest = Number.POSITIVE_INFINITY;
  for (let round = 0; round < 5 && fastest > 200; round += 1) {
    const home = newHome();
    const app = await start([grid], { home, watchTermios: true });
    await app.pid();
    app.type('n2345');
    await app.waitFor((at) => at.screen()[10][28] === '2');
    const began = performance.now();
    app.signal(name);
    expect(await app.exitCode()).toBe(code);
    fastest = Math.min(fastest, performance.now() - began);
    expect(movesIn(home)).toBeGreaterThan(0);
    expect(readFileSync(journalOf(home), 'latin1').endsWith('\n')).toBe(true);
  }
  expect(fastest).toBeLessThan(200);
});

describe('where nothing can be kept', () => {
  test('a place that can not be written: it runs, says so, asks before quitting, and saves once it can', async () => {
    const home = newHome();
    writeFileSync(join(home, 'state'), 'a file where a folder should be');
    const app = await start([grid], { home });
    await app.waitFor('not saved: no folder');
    app.type(':r5c4=2\r');
    await app.waitFor(hasPlaced(26));
    app.press('q');
    await app.waitFor('again quits');
    app.press('j');
    rmSync(join(home, 'state'));
    await app.waitFor(isSaved, 20_000);
    expect(movesIn(home)).toBe(1);
    app.press('q');
    expect((await app.exit).code).toBe(0);
  });

  test('quit all the same, it tells on stderr that the sheet is not saved', async () => {
    const home = newHome();
    writeFileSync(join(home, 'state'), '');
    const app = await start([grid], { home });
    app.type(':r5c4=2\r');
    await app.waitFor('not saved: no folder');
    app.press('q');
    await app.waitFor('again quits');
    app.press('q');
    expect((await app.exit).code).toBe(0);
    expect(app.output()).toMatch(/inkling: could not finish: the sheet is not saved: no folder there\r\n$/);
  });
});

test('a damaged sheet is told with its place, and kept', async () => {
  const home = newHome();
  const first = await start([grid], { home });
  first.type(':r5c4=2 r5c6:67 r5c5:45\r');
  await first.waitFor((app) => isSaved(app) && movesIn(home) === 3);
  first.press('q');
  await first.exit;
  const bytes = readFileSync(journalOf(home));
  bytes[bytes.indexOf('\n3 ') + 15] ^= 1;
  writeFileSync(journalOf(home), bytes);
  const second = await start([], { home });
  await second.waitFor('damaged');
  await second.waitFor(hasPlaced(26));
  await second.waitFor(isSaved);
  expect(readFileSync(`${journalOf(home)}.damaged-1`)).toEqual(bytes);
});
