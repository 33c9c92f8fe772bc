import { readdirSync, readFileSync, rmSync, unlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { KeptSheet } from '../../source/commands/kept-sheet.ts';
import { seededRandom } from '../../source/exact/random.ts';
import { readJournal } from '../../source/journal/journal.ts';
import { Timeline } from '../../source/journal/timeline.ts';
import { SheetLock, systemProcesses } from '../../source/platform/sheet-lock.ts';
import { makePrivateFolder } from '../../source/platform/storage.ts';
import { reduce, undo } from '../../source/sheet/sheet.ts';
import type { Sheet } from '../../source/sheet/state.ts';
import { newState } from '../commands/shelf.ts';
import { tellSheet } from '../journal/fixture.ts';
import { crook, seed, sheetOf } from '../sheet/fixture.ts';
import { type FaultyFiles, makeFaultyFiles, type Operation } from './faulty-files.ts';

console.log(`journal-file.test.ts: seed ${seed}`);

/** A kept sheet on a disk that fails on demand, with a clock of its own: retries come when they are called. */
class Desk {
  readonly disk: FaultyFiles = makeFaultyFiles();
  readonly folder = join(newState(), '0123456789ab');
  sheet: Sheet = sheetOf(crook);
  readonly kept: KeptSheet;
  /** The sheet after each number of changes taken. */
  readonly sheets: Sheet[] = [];
  #retry: (() => void) | null = null;
  #told: () => void = () => {};

  constructor(fail: (operation: Operation) => string | null = () => null) {
    this.disk.fail(fail);
    const lockFolder = () => {
      makePrivateFolder(this.disk.files, this.folder);
      // Later than it is, so that a lock that could neither be signed nor taken away again has had its time.
      const processes = { ...systemProcesses, now: () => Date.now() + 20_000 };
      const lock = SheetLock.take(this.disk.files, this.folder, processes);
      if ('held' in lock) throw new Error('held');
      return lock;
    };
    this.kept = new KeptSheet({
      files: this.disk.files,
      folder: this.folder,
      lockFolder,
      lock: null,
      found: null,
      later: (_, call) => {
        this.#retry = call;
        return () => {
          this.#retry = null;
        };
      },
      timeline: new Timeline(this.sheet.state),
      name: 'test',
    });
    this.sheets[0] = this.sheet;
    this.sheets[1] = this.sheet;
    this.kept.watch(() => this.#told());
  }

  /** Settles once all is saved, or something is in the way. */
  settled(): Promise<string | null> {
    return new Promise((resolve) => {
      const look = () => {
        const { taken, saved, problem } = this.kept.saving();
        if (problem !== null || taken === saved) resolve(problem);
      };
      this.#told = look;
      look();
    });
  }

  /** Settles at the next news of saving. */
  news(): Promise<void> {
    return new Promise((resolve) => {
      this.#told = resolve;
    });
  }

  retry(): void {
    const call = this.#retry;
    this.#retry = null;
    call?.();
  }

  /** Tries again, and settles at the news of it. */
  async retried(): Promise<void> {
    const news = this.news();
    this.retry();
    await news;
  }

  take(after: Sheet): void {
    if (after === this.sheet) return;
    const number = this.kept.take(this.sheet, after);
    this.sheet = after;
    this.sheets[number] = after;
  }

  /** Notes a cell, each time another one. */
  edit(): void {
    const open = this.sheet.state.givens.flatMap((digit, cell) => (digit === 0 ? [cell] : []));
    const cell = open[this.sheet.past.length % open.length];
    this.take(reduce(this.sheet, { kind: 'note', cell, digits: 0b111111111 }));
  }

  /** What the disk has, as somebody would read it who comes now. */
  onDisk(): Sheet {
    const read = readJournal(readFileSync(join(this.folder, 'journal'), 'latin1'));
    if (!read.ok) throw new Error(read.error.message);
    if (read.value.damage) throw new Error(read.value.damage.message);
    return read.value.timeline.sheet;
  }

  /** Fails unless the disk has the sheet of some number of changes, and no fewer than are told to be saved. */
  expectSaved(): void {
    const { saved } = this.kept.saving();
    if (saved === 0) return;
    const told = tellSheet(this.onDisk());
    const at = this.sheets.findIndex((sheet, i) => i >= saved && tellSheet(sheet) === told);
    expect(at, `saved ${saved} of ${this.sheets.length - 1}`).toBeGreaterThanOrEqual(saved);
  }
}

test('is made at once, and each change is on the disk when it is told to be', async () => {
  const desk = new Desk();
  expect(await desk.settled()).toBeNull();
  expect(tellSheet(desk.onDisk()) === tellSheet(desk.sheet)).toBe(true);
  for (let i = 0; i < 5; i += 1) desk.edit();
  desk.take(undo(desk.sheet, 2));
  expect(desk.kept.saving().saved).toBe(1);
  expect(await desk.settled()).toBeNull();
  expect(tellSheet(desk.onDisk()) === tellSheet(desk.sheet)).toBe(true);
});

test('keys that come together go in one write and one wait for the disk', async () => {
  const desk = new Desk();
  await desk.settled();
  desk.disk.log.length = 0;
  for (let i = 0; i < 20; i += 1) desk.edit();
  await desk.settled();
  expect(desk.disk.log.filter((operation) => operation === 'write')).toHaveLength(1);
  expect(desk.disk.log.filter((operation) => operation === 'sync')).toHaveLength(1);
});

describe.each([
  ['ENOSPC', 'disk full'],
  ['EACCES', 'no permission'],
  ['EROFS', 'read-only disk'],
  ['EIO', 'disk error'],
])('%s', (code, words) => {
  test.each(['open', 'write', 'sync', 'rename', 'mkdir', 'list'] as const)(
    'from %s when the sheet is made: told, tried again, nothing lost',
    async (operation) => {
      const desk = new Desk((asked) => (asked === operation ? code : null));
      expect(await desk.settled()).toBe(words);
      desk.edit();
      desk.edit();
      desk.retry();
      expect(await desk.settled()).toBe(words);
      expect(desk.kept.saving().saved).toBe(0);
      desk.disk.fail(() => null);
      desk.retry();
      await desk.news();
      expect(await desk.settled()).toBeNull();
      expect(tellSheet(desk.onDisk()) === tellSheet(desk.sheet)).toBe(true);
    },
  );

  test.each(['write', 'sync', 'list'] as const)(
    'from %s later on: what was saved is still there, and the rest comes after',
    async (operation) => {
      const desk = new Desk();
      desk.edit();
      await desk.settled();
      const before = tellSheet(desk.sheet);
      const { saved } = desk.kept.saving();
      desk.disk.fail((asked) => (asked === operation ? code : null));
      desk.edit();
      expect(await Promise.race([desk.news().then(() => desk.settled()), desk.settled()])).toBe(words);
      expect(desk.kept.saving().saved).toBe(saved);
      desk.expectSaved();
      if (operation !== 'sync') expect(tellSheet(desk.onDisk())).toBe(before);
      desk.disk.fail(() => null);
      desk.edit();
      desk.retry();
      await desk.news();
      expect(await desk.settled()).toBeNull();
      expect(tellSheet(desk.onDisk()) === tellSheet(desk.sheet)).toBe(true);
    },
  );
});

describe('saved at once, for somebody who is about to leave', () => {
  test.each(['settle', 'leave'] as const)('%s: all of it, where the disk takes it', async (how) => {
    const desk = new Desk();
    desk.edit();
    desk.edit();
    expect(desk.kept[how]()).toBe(true);
    expect(desk.kept.saving().problem).toBeNull();
    expect(tellSheet(desk.onDisk()) === tellSheet(desk.sheet)).toBe(true);
    if (how === 'leave') return;
    desk.edit();
    expect(await desk.settled()).toBeNull();
    expect(tellSheet(desk.onDisk()) === tellSheet(desk.sheet)).toBe(true);
  });

  test.each(['write', 'sync', 'list', 'rename'] as const)(
    'where %s fails it goes on as before, says what is in the way, and nothing is lost',
    async (operation) => {
      for (const how of ['settle', 'leave'] as const) {
        const desk = new Desk();
        if (operation !== 'rename') await desk.settled();
        desk.edit();
        desk.disk.fail((asked) => (asked === operation ? 'EIO' : null));
        expect(desk.kept[how](), how).toBe(false);
        expect(desk.kept.saving().problem).toBe('disk error');
        desk.edit();
        desk.disk.fail(() => null);
        await desk.retried();
        expect(await desk.settled()).toBeNull();
        expect(tellSheet(desk.onDisk()) === tellSheet(desk.sheet)).toBe(true);
        expect(desk.kept[how]()).toBe(true);
      }
    },
  );
});

test('a disk that fills up byte by byte: half a record is never read, and what was saved stays', async () => {
  for (let room = 0; room < 140; room += 1) {
    const desk = new Desk();
    desk.edit();
    await desk.settled();
    const before = tellSheet(desk.sheet);
    desk.disk.setRoom(room);
    desk.edit();
    desk.edit();
    const news = desk.news();
    await news;
    const problem = desk.kept.saving().problem;
    desk.expectSaved();
    if (problem === null) continue;
    expect(problem).toBe('disk full');
    expect(tellSheet(desk.onDisk())).toBe(before);
    desk.disk.setRoom(1e6);
    desk.retry();
    await desk.news();
    expect(await desk.settled()).toBeNull();
    expect(tellSheet(desk.onDisk()) === tellSheet(desk.sheet)).toBe(true);
  }
});

test('a journal or a folder that somebody takes away is made again', async () => {
  const desk = new Desk();
  desk.edit();
  await desk.settled();
  unlinkSync(join(desk.folder, 'journal'));
  desk.edit();
  expect(await desk.settled()).toBeNull();
  expect(tellSheet(desk.onDisk()) === tellSheet(desk.sheet)).toBe(true);
  rmSync(desk.folder, { recursive: true });
  desk.edit();
  expect(await desk.settled()).toBeNull();
  expect(tellSheet(desk.onDisk()) === tellSheet(desk.sheet)).toBe(true);
});

test('a lock that another has taken over: nothing is written any more, and it is told', async () => {
  const desk = new Desk();
  desk.edit();
  await desk.settled();
  const before = readFileSync(join(desk.folder, 'journal'));
  const other = SheetLock.take(desk.disk.files, desk.folder, {
    self: () => ({ pid: 1, began: '', space: 'elsewhere', host: 'elsewhere' }),
    runs: () => false,
    now: () => Date.now() + 25 * 3_600_000,
  });
  expect('held' in other).toBe(false);
  desk.edit();
  expect(await desk.settled()).toBe('taken over by another inkling');
  expect(readFileSync(join(desk.folder, 'journal'))).toEqual(before);
  expect(() => desk.kept.close()).toThrow('not saved');
});

test('is written anew where it has grown far beyond what it needs, also when that fails at first', async () => {
  const desk = new Desk();
  await desk.settled();
  let largest = 0;
  let shrunk = 0;
  let failing = 0;
  for (let round = 0; round < 4000; round += 1) {
    if (desk.sheet.past.length > 10) desk.take(undo(desk.sheet, 8));
    else desk.edit();
    if (round % 40 !== 39) continue;
    if (failing === 0 && largest > 70_000) {
      // Renaming can't be done for a while: appending still can.
      desk.disk.fail((asked) => (asked === 'rename' ? 'EACCES' : null));
      failing = round;
    }
    if (failing > 0 && round > failing + 400) desk.disk.fail(() => null);
    while ((await desk.settled()) !== null) await desk.retried();
    const size = readFileSync(join(desk.folder, 'journal')).length;
    if (size < largest / 2) shrunk += 1;
    largest = Math.max(size, shrunk > 0 ? 0 : largest);
    desk.expectSaved();
  }
  expect(failing).toBeGreaterThan(0);
  expect(shrunk).toBeGreaterThan(0);
  expect(tellSheet(desk.onDisk()) === tellSheet(desk.sheet)).toBe(true);
  expect(readdirSync(desk.folder).filter((name) => name.startsWith('.new-'))).toEqual([]);
});

test('failures at random: what is told to be saved is on the disk, always', async () => {
  const random = seededRandom(seed);
  const operations: Operation[] = ['open', 'write', 'sync', 'rename', 'list', 'truncate', 'unlink'];
  const pick = <T>(from: readonly T[]): T => from[Math.floor(random() * from.length)];
  for (let run = 0; run < 30; run += 1) {
    const desk = new Desk();
    for (let round = 0; round < 30; round += 1) {
      const broken = new Set(random() < 0.4 ? [pick(operations), pick(operations)] : []);
      desk.disk.fail((asked) => (broken.has(asked) && random() < 0.7 ? pick(['ENOSPC', 'EIO']) : null));
      for (let edits = Math.floor(random() * 4); edits > 0; edits -= 1) {
        if (random() < 0.3) desk.take(undo(desk.sheet, 1 + Math.floor(random() * 2)));
        else desk.edit();
      }
      await desk.settled();
      desk.expectSaved();
      desk.retry();
    }
    desk.disk.fail(() => null);
    desk.retry();
    await new Promise((resolve) => setImmediate(resolve));
    desk.kept.close();
    expect(tellSheet(desk.onDisk()), `run ${run}, seed ${seed}`).toBe(tellSheet(desk.sheet));
  }
});
