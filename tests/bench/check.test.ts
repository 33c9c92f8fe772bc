import { spawn } from 'node:child_process';
import { closeSync, mkdtempSync, openSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { lineOf } from '../../source/commands/grid-text.ts';
import { generate } from '../../source/exact/generate.ts';
import { seededRandom } from '../../source/exact/random.ts';
import { plain } from '../../source/grid/layout.ts';
import { program } from '../commands/run-inkling.ts';

/**
 * How fast `check --jsonl` gets through many lines with two threads, against one core: the processor time that it
 * takes with one thread. What two cores can do at most is told by processor time alone, whatever else the machine
 * does: two threads may not cost much more than one. Where the machine was quiet, the time on the clock counts
 * too.
 */

const seed = 300_007;
const lines = 1_000_000;
const floor = 1.7;
const folder = mkdtempSync(join(tmpdir(), 'inkling-rate-'));

beforeAll(() => {
  const random = seededRandom(seed);
  const puzzles = Array.from({ length: 2000 }, () => lineOf(generate(plain, random).givens));
  writeFileSync(join(folder, 'grids.txt'), `${puzzles.join('\n')}\n`.repeat(lines / 2000));
  const told = `process.on('exit', () => require('node:fs').writeFileSync(process.env.TOLD, JSON.stringify(process.resourceUsage())));`;
  writeFileSync(join(folder, 'told.cjs'), `if (require('node:worker_threads').isMainThread) ${told}`);
});
afterAll(() => rmSync(folder, { recursive: true }));

/** Seconds. */
interface Taken {
  /** Of all threads. */
  readonly cpu: number;
  readonly elapsed: number;
}

async function check(jobs: number): Promise<Taken> {
  const told = join(folder, 'told.json');
  const printed = join(folder, `answers-${jobs}.txt`);
  const out = openSync(printed, 'w');
  const argv = ['--require', join(folder, 'told.cjs'), program, 'check', '--jsonl'];
  const began = performance.now();
  const child = spawn(process.execPath, [...argv, '--jobs', `${jobs}`, 'grids.txt'], {
    cwd: folder,
    env: { PATH: process.env.PATH, TOLD: told },
    stdio: ['ignore', out, 'inherit'],
  });
  const code = await new Promise((resolve) => child.on('close', resolve));
  const elapsed = (performance.now() - began) / 1000;
  closeSync(out);
  expect(code).toBe(0);
  const { userCPUTime, systemCPUTime } = JSON.parse(readFileSync(told, 'utf8')) as NodeJS.ResourceUsage;
  return { cpu: (userCPUTime + systemCPUTime) / 1e6, elapsed };
}

const median = (values: readonly number[]): number => values.toSorted((a, b) => a - b)[values.length >> 1];

test(`two threads check ${lines} lines at ${floor} times the rate of one core; seed ${seed}`, async () => {
  const work: number[] = [];
  const clock: number[] = [];
  const quiet: number[] = [];
  for (let round = 0; round < 3; round += 1) {
    const before = await check(1);
    const two = await check(2);
    const after = await check(1);
    const one = (before.cpu + after.cpu) / 2;
    work.push((2 * one) / two.cpu);
    clock.push(one / two.elapsed);
    // One thread waits for nothing but the disk if the machine has nothing else to do.
    if (Math.max(before.elapsed / before.cpu, after.elapsed / after.cpu) < 1.05)
      quiet.push(one / two.elapsed);
  }
  const answers = [1, 2].map((jobs) => readFileSync(join(folder, `answers-${jobs}.txt`)));
  expect(answers[0].equals(answers[1])).toBe(true);
  expect(answers[0].filter((byte) => byte === 10)).toHaveLength(lines);
  const said = quiet.length === 0 ? 'never quiet' : `${median(quiet).toFixed(2)} where it was quiet`;
  console.log(
    `two threads: ${median(work).toFixed(2)} times the rate of one core by processor time ` +
      `(floor ${floor}), ${median(clock).toFixed(2)} by the clock (${said})`,
  );
  expect(median(work)).toBeGreaterThanOrEqual(floor);
  if (quiet.length > 1 && availableParallelism() >= 2) {
    expect(median(quiet)).toBeGreaterThanOrEqual(floor);
  }
});
