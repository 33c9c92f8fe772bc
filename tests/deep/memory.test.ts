import { spawn } from 'node:child_process';
import { createWriteStream, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { lineOf } from '../../source/commands/grid-text.ts';
import { generate } from '../../source/exact/generate.ts';
import { seededRandom } from '../../source/exact/random.ts';
import { plain } from '../../source/grid/layout.ts';
import { program } from '../commands/run-inkling.ts';

const seed = 1_000_003;
const many = Math.round(1_000_000 * Number(process.env.INKLING_DEEP ?? 1));
const folder = mkdtempSync(join(tmpdir(), 'inkling-memory-'));

beforeAll(async () => {
  const random = seededRandom(seed);
  const puzzles = Array.from({ length: 2000 }, () => lineOf(generate(plain, random).givens));
  const block = `${puzzles.join('\n')}\n`;
  for (const [name, lines] of [
    ['few.txt', 10_000],
    ['many.txt', many],
  ] as const) {
    const file = createWriteStream(join(folder, name));
    for (let written = 0; written < lines; written += 2000) {
      if (!file.write(block)) await new Promise<void>((resolve) => file.once('drain', () => resolve()));
    }
    await new Promise<void>((resolve) => file.end(() => resolve()));
  }
  const told = `process.on('exit', () => require('node:fs').writeFileSync(process.env.TOLD, JSON.stringify(process.resourceUsage())));`;
  writeFileSync(join(folder, 'told.cjs'), `if (require('node:worker_threads').isMainThread) ${told}`);
});
afterAll(() => rmSync(folder, { recursive: true }));

interface Usage {
  /** Kilobytes. */
  readonly peak: number;
  /** Seconds of all threads. */
  readonly cpu: number;
  readonly elapsed: number;
  readonly answers: number;
}

/** Checks a file and measures the process that does it. */
async function measure(name: string, jobs: number): Promise<Usage> {
  const told = join(folder, `${name}.json`);
  const began = performance.now();
  const argv = [
    '--require',
    join(folder, 'told.cjs'),
    program,
    'check',
    '--jsonl',
    '--jobs',
    `${jobs}`,
    name,
  ];
  const child = spawn(process.execPath, argv, { cwd: folder, env: { PATH: process.env.PATH, TOLD: told } });
  let answers = 0;
  child.stdout.on('data', (piece: Buffer) => {
    for (const byte of piece) if (byte === 10) answers += 1;
  });
  const code = await new Promise((resolve) => child.on('close', resolve));
  expect(code).toBe(0);
  const usage = JSON.parse(readFileSync(told, 'utf8')) as NodeJS.ResourceUsage;
  return {
    peak: usage.maxRSS,
    cpu: (usage.userCPUTime + usage.systemCPUTime) / 1e6,
    elapsed: (performance.now() - began) / 1000,
    answers,
  };
}

// How much faster two threads are depends on what else the machine does: that is printed. What they cost in
// all does not; if it is little more than what one costs, two free cores nearly halve the time.
test(`memory is flat over ${many} lines, and two threads cost little more than one; seed ${seed}`, async () => {
  const all: Usage[] = [];
  for (const jobs of [1, 2]) {
    const few = await measure('few.txt', jobs);
    const lots = await measure('many.txt', jobs);
    expect([few.answers, lots.answers]).toEqual([10_000, many]);
    console.log(`threads ${jobs}: ${few.peak} KB at 10,000 lines, ${lots.peak} KB at ${many}`);
    expect(lots.peak / few.peak).toBeLessThan(1.3);
    all.push(lots);
  }
  const [one, two] = all;
  const rate = (one.elapsed / two.elapsed).toFixed(2);
  console.log(
    `two threads: ${rate} times the rate of one, ${(two.cpu / one.cpu).toFixed(2)} times its processor time`,
  );
  expect(two.cpu / one.cpu).toBeLessThan(1.3);
});
