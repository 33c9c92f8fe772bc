import { spawn } from 'node:child_process';
import { readdirSync, readFileSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { type Holder, type Processes, SheetLock, systemProcesses } from '../../source/platform/sheet-lock.ts';
import { systemFiles } from '../../source/platform/storage.ts';
import { newState } from '../commands/shelf.ts';
import { makeFaultyFiles } from './faulty-files.ts';

const here: Holder = { pid: 100, began: '7', space: 'boot pid:[1]', host: 'machine' };

/** Processes of which these run, at a time. */
const processes = (self: Holder, running: readonly Holder[], now = Date.now()): Processes => ({
  self: () => self,
  runs: ({ pid, began }) => running.some((each) => each.pid === pid && each.began === began),
  now: () => now,
});

const take = (folder: string, about: Processes) => SheetLock.take(systemFiles, folder, about);
const isHeld = (folder: string, about: Processes) => SheetLock.isHeld(systemFiles, folder, about);

/** A folder whose lock this holder has. */
function heldBy(holder: Holder): string {
  const folder = newState();
  expect('held' in take(folder, processes(holder, [holder]))).toBe(false);
  return folder;
}

test('one takes it, another does not, and can once it is given back', () => {
  const folder = newState();
  const other = { ...here, pid: 200 };
  const both = [here, other];
  const lock = take(folder, processes(here, both));
  if ('held' in lock) throw new Error('held');
  expect(take(folder, processes(other, both))).toEqual({ held: true, holder: here });
  expect(isHeld(folder, processes(other, both))).toBe(true);
  lock.release();
  expect(isHeld(folder, processes(other, both))).toBe(false);
  expect('held' in take(folder, processes(other, both))).toBe(false);
  expect(lock.isAmong(readdirSync(folder))).toBe(false);
  expect(readdirSync(folder)).toEqual(['lock.2']);
});

test('one that can neither be looked at nor given back is not left behind by who runs on', () => {
  const folder = newState();
  const disk = makeFaultyFiles();
  // The folder can be listed once, before the lock is made; what is then to be opened is the lock, to give it back.
  disk.fail((operation) => {
    const listed = disk.log.filter((each) => each === 'list').length;
    return listed > 1 && operation !== 'unlink' ? 'EIO' : null;
  });
  expect(() => SheetLock.take(disk.files, folder, processes(here, [here]))).toThrow('EIO');
  expect(disk.log).toContain('write');
  expect('held' in take(folder, processes(here, [here]))).toBe(false);
});

describe('a lock that was left behind heals', () => {
  const gone = { ...here, pid: 300 };
  test.each([
    ['of a process that has gone', gone, here, []],
    ['of a process whose number another has now', gone, here, [{ ...gone, began: '8' }]],
    ['from before the machine was started anew', { ...gone, space: 'old boot' }, here, [gone]],
  ] as [string, Holder, Holder, Holder[]][])('%s', (_name, holder, self, running) => {
    const folder = heldBy(holder);
    expect('held' in take(folder, processes(self, running))).toBe(false);
  });

  test('from another machine, a day after the last sign of life', () => {
    const far = { ...gone, space: 'other', host: 'elsewhere' };
    const folder = heldBy(far);
    expect(take(folder, processes(here, []))).toEqual({ held: true, holder: far });
    const day = 24 * 3_600_000;
    expect('held' in take(folder, processes(here, [], Date.now() + day + 60_000))).toBe(false);
    // What was written to the journal since then is a sign of life.
    const again = heldBy(far);
    writeFileSync(join(again, 'journal'), 'x');
    const later = (Date.now() + day) / 1000;
    utimesSync(join(again, 'journal'), later, later);
    expect('held' in take(again, processes(here, [], Date.now() + day + 60_000))).toBe(true);
  });

  test.each(['', '{"pid":', 'null', '{"pid":-1}', '{"pid":1,"began":2}', 'x'.repeat(500)])(
    'that does not say whose it is (%j), after a while',
    (text) => {
      const folder = newState();
      writeFileSync(join(folder, 'lock.4'), text);
      expect(take(folder, processes(here, []))).toEqual({ held: true, holder: null });
      const lock = take(folder, processes(here, [], Date.now() + 11_000));
      expect(!('held' in lock) && lock.generation).toBe(5);
    },
  );
});

test('a process that was killed no longer runs, even while its parent has not looked', async () => {
  const child = spawn('sleep', ['60']);
  const pid = child.pid!;
  const self = systemProcesses.self();
  const stat = readFileSync(`/proc/${pid}/stat`, 'utf8');
  const began = stat.slice(stat.lastIndexOf(')') + 2).split(' ')[19];
  const holder = { ...self, pid, began };
  expect(systemProcesses.runs(holder)).toBe(true);
  expect(systemProcesses.runs({ ...holder, began: `${began}1` })).toBe(false);
  process.kill(pid, 'SIGKILL');
  await new Promise((resolve) => child.on('exit', resolve));
  expect(systemProcesses.runs(holder)).toBe(false);
  expect(systemProcesses.runs(self)).toBe(true);
});

test('who was late does not take a lock from under one who was not', () => {
  // Both find the last holder gone. One takes the lock, works, and gives it back; then the other goes on.
  const folder = heldBy({ ...here, pid: 300 });
  const late = processes({ ...here, pid: 400 }, []);
  let listed = 0;
  const files = {
    ...systemFiles,
    readdirSync: ((path: string) => {
      const names = systemFiles.readdirSync(path);
      listed += 1;
      if (listed === 1) {
        for (const pid of [500, 501, 502]) {
          const holder = { ...here, pid };
          const lock = take(folder, processes(holder, [holder]));
          if ('held' in lock) throw new Error('held');
          if (pid !== 502) lock.release();
        }
      }
      return names;
    }) as typeof systemFiles.readdirSync,
  };
  const third = { ...here, pid: 502 };
  const found = SheetLock.take(files, folder, { ...late, runs: ({ pid }) => pid === third.pid });
  expect(found).toEqual({ held: true, holder: third });
  expect(readdirSync(folder)).toEqual(['lock.4']);
});
