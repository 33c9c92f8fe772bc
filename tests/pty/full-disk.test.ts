import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { readJournal } from '../../source/journal/journal.ts';
import { type App, closeAll, hasPlaced } from './harness.ts';
import { mountSmallDisk, type SmallDisk } from './small-disk.ts';

/* A disk that is really full, or really read-only: what the fault-injecting files of other tests only play. */

/** Lines 1333 and 257 of the published set random-minimal-2000. */
const grid = '.461...5......4.2.2....5..67.2..1....8.......4......92.1...2..3..7..3..5...8..9.7';
const other = '...7.5......2.......3..8.4........7.56....9.3..7..32...45...1..82..9...59...1..82';

const closing: (() => void)[] = [];
afterEach(() => {
  closeAll();
  for (const close of closing.splice(0).reverse()) close();
});

/** A home whose state lies on a disk of its own; null, and said, where there can be none. */
async function homeOnDisk(
  kilobytes: number,
): Promise<{ home: string; disk: SmallDisk; state: string } | null> {
  const home = mkdtempSync(join(tmpdir(), 'inkling-disk-'));
  closing.push(() => rmSync(home, { recursive: true, force: true }));
  const state = join(home, 'state');
  mkdirSync(state);
  const disk = await mountSmallDisk(state, kilobytes);
  if ('why' in disk) {
    console.log(`skipped: no file system of one's own can be mounted here (${disk.why})`);
    return null;
  }
  closing.push(disk.close);
  return { home, disk, state };
}

const isSaved = (app: App): boolean => /(?<!not) saved *$/.test(app.screen()[1]);
const filled = 'not saved: disk *full';
/** What the panel says, lines that go on put together. */
const panel = (app: App): string =>
  app
    .screen()
    .map((line) => line.slice(58).trim())
    .join(' ');
const says = (text: string) => (app: App) => new RegExp(text).test(panel(app));

/** The journal of the one sheet, as it stands on the disk. */
function journalOf({ disk, state }: { disk: SmallDisk; state: string }) {
  const read = readJournal(disk.run(`cat '${state}'/inkling/sheets/*/journal`));
  if (!read.ok) throw new Error(read.error.message);
  return read.value.timeline.sheet;
}

describe('a disk that is full', () => {
  test('not saved is shown, the program goes on, and with room again all is saved; nothing shown as saved is lost', {
    timeout: 60_000,
  }, async (context) => {
    const place = await homeOnDisk(64);
    if (!place) return context.skip();
    const { home, disk, state } = place;
    const app = disk.openInkling([grid], { home, watchTermios: true });
    await app.pid();
    await app.waitFor(isSaved);
    app.type(':r5c4=2 r5c6:67\r');
    await app.waitFor((at) => hasPlaced(26)(at) && isSaved(at));
    const shown = journalOf(place).past.map(({ event }) => event);
    expect(shown).toHaveLength(2);

    disk.run(`dd if=/dev/zero of='${state}/filler' bs=1k 2> /dev/null || true`);
    // The journal's last block has room left: what fits there is still saved.
    app.type(`n${'23456789'.repeat(40)}`);
    await app.waitFor(says(filled));
    app.press('escape', 'down');
    await app.waitFor(/^r6\W/m);
    expect(
      journalOf(place)
        .past.slice(0, 2)
        .map(({ event }) => event),
    ).toEqual(shown);

    disk.run(`rm '${state}/filler'`);
    await app.waitFor(isSaved, 20_000);
    const saved = journalOf(place);
    expect(saved.past.length).toBeGreaterThan(200);
    app.signal('SIGKILL');
    await app.exitCode();
    const again = disk.openInkling([grid], { home });
    await again.waitFor(`Resumed after ${saved.past.length} moves.`);
    again.press('q');
    expect((await again.exit).code).toBe(0);
  });

  test('killed while it was full and begun again on the full disk: all that was shown as saved is there', {
    timeout: 60_000,
  }, async (context) => {
    const place = await homeOnDisk(64);
    if (!place) return context.skip();
    const { home, disk, state } = place;
    const first = disk.openInkling([grid], { home, watchTermios: true });
    await first.pid();
    await first.waitFor(isSaved);
    first.type(':r5c4=2 r5c6:67\r');
    await first.waitFor((at) => hasPlaced(26)(at) && isSaved(at));
    disk.run(`dd if=/dev/zero of='${state}/filler' bs=1k 2> /dev/null || true`);
    first.type(`n${'23456789'.repeat(40)}`);
    await first.waitFor(says(filled));
    first.signal('SIGKILL');
    await first.exitCode();

    const second = disk.openInkling([grid], { home });
    await second.waitFor(/Resumed after \d+ moves\./);
    const moves = Number(/Resumed after (\d+) moves/.exec(second.text())?.[1]);
    expect(moves).toBeGreaterThanOrEqual(2);
    // Another grid can be opened beside it, and says that it is not saved.
    second.type(':r5c5=4\r');
    await second.waitFor((at) => hasPlaced(27)(at));
    await second.waitFor(says(filled));
    second.paste(other);
    await second.waitFor('opens it');
    second.press('return');
    await second.waitFor(hasPlaced(25));
    await second.waitFor(says('not saved: '));
    second.press('q');
    await second.waitFor('again quits');
    second.press('u');
    await second.waitFor(hasPlaced(27));
    disk.run(`rm '${state}/filler'`);
    await second.waitFor(isSaved, 20_000);
    second.press('q');
    expect((await second.exit).code).toBe(0);
    const third = disk.openInkling([grid], { home });
    await third.waitFor(hasPlaced(27));
    await third.waitFor(`Resumed after ${moves + 1} moves.`);
  });
});

test('a disk that is read-only: not saved is shown and why, and once it can be written on all is saved', {
  timeout: 60_000,
}, async (context) => {
  const place = await homeOnDisk(256);
  if (!place) return context.skip();
  const { home, disk, state } = place;
  const first = disk.openInkling([grid], { home });
  await first.waitFor(isSaved);
  first.type(':r5c4=2\r');
  await first.waitFor((at) => hasPlaced(26)(at) && isSaved(at));
  first.press('q');
  await first.exit;
  disk.run(`mount -o remount,ro '${state}'`);

  const second = disk.openInkling([grid], { home });
  await second.waitFor('Resumed after 1 move.');
  await second.waitFor(says('not saved: read-only +disk'));
  second.type(':r5c6:67\r');
  await second.waitFor('67');
  second.paste(other);
  await second.waitFor('opens it');
  second.press('return');
  await second.waitFor(hasPlaced(25));
  second.press('u');
  await second.waitFor(hasPlaced(26));
  second.press('q');
  await second.waitFor('again quits');
  second.press('down');
  disk.run(`mount -o remount,rw '${state}'`);
  await second.waitFor(isSaved, 20_000);
  second.press('q');
  expect((await second.exit).code).toBe(0);
  const third = disk.openInkling([grid], { home });
  await third.waitFor('Resumed after 2 moves.');
});
