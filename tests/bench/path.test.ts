import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildSync } from 'esbuild';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { hasPublished, publishedFolder, publishedNote } from '../published.ts';

/**
 * Whole paths and warm steps, kernel on, as multiples `d` of the time of one dancing-links solve of the same run
 * (see path-run.ts). `path` is the most that a path may take on average, `step` the most for 99 steps of 100. On a
 * quiet machine on 2026-11-26: 1.72, 6.95, 32.5 and 613 d a path; 0.08, 2.9, 7.2 and 127 d a step.
 */
const sets = [
  {
    name: 'seventeen-clue-49151.txt',
    taken: 12_000,
    warm: 12_000,
    path: 2,
    step: 0.2,
  },
  {
    name: 'random-minimal-2000.txt',
    taken: 2000,
    warm: 2000,
    path: 8,
    step: 4,
  },
  {
    name: 'top-95.txt',
    taken: 95,
    warm: 285,
    path: 80,
    step: 60,
  },
  {
    name: 'hard-187.txt',
    taken: 20,
    warm: 4,
    path: 2000,
    step: 300,
  },
] as const;

/** No step at all may take longer than this. */
const longestStep = 1000;

interface Figures {
  readonly count: number;
  readonly mean: number;
  readonly median: number;
  readonly p99: number;
  readonly most: number;
}
interface Measured {
  readonly name: string;
  readonly paths: Figures;
  readonly steps: Figures;
}

const say = ({ count, mean, median, p99, most }: Figures): string =>
  `${count}, mean ${mean.toFixed(2)} d, median ${median.toFixed(3)}, p99 ${p99.toFixed(2)}, most ${most.toFixed(1)}`;

describe.skipIf(!hasPublished)(`paths as multiples of a dancing-links solve${publishedNote}`, () => {
  const folder = mkdtempSync(join(tmpdir(), 'inkling-bench-'));
  let measured: Measured[];

  beforeAll(() => {
    const outfile = join(folder, 'path-run.mjs');
    buildSync({
      entryPoints: [fileURLToPath(new URL('path-run.ts', import.meta.url))],
      outfile,
      bundle: true,
      minify: true,
      platform: 'node',
      format: 'esm',
      logLevel: 'warning',
    });
    const env = { ...process.env, INKLING_PUBLISHED: publishedFolder };
    const asked = sets.map(({ name, taken, warm }) => `${name}:${taken}:${warm}`);
    const said = execFileSync(process.execPath, [outfile, ...asked], { env, encoding: 'utf8' });
    measured = said
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line) as Measured);
  });

  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  test.each(sets.map((set, i) => ({ ...set, i })))('whole paths: $name', ({ path, i }) => {
    const { name, paths } = measured[i];
    console.log(`${name}: paths ${say(paths)}; at most ${path}`);
    expect(paths.mean).toBeLessThanOrEqual(path);
  });

  test.each(sets.map((set, i) => ({ ...set, i })))('warm steps: $name', ({ step, i }) => {
    const { name, steps } = measured[i];
    console.log(`${name}: steps ${say(steps)}; at most ${step}, never above ${longestStep}`);
    expect(steps.p99).toBeLessThanOrEqual(step);
    expect(steps.most).toBeLessThanOrEqual(longestStep);
  });
});
