import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildSync } from 'esbuild';
import { afterAll, expect, test } from 'vitest';
import { publishedFolder } from '../published.ts';

const seed = Number(process.env.INKLING_SEED ?? 20_261_125);
/** An hour: INKLING_CLIMB=60. */
const minutes = Number(process.env.INKLING_CLIMB ?? 0.5 * Number(process.env.INKLING_DEEP ?? 1));
const limit = 20_000;

interface Climbed {
  readonly climbs: number;
  readonly steps: number;
  /** Ten at most, the one of most effort first; `d`: what deciding it takes, in dancing-links solves. */
  readonly worst: readonly { grid: string; effort: number; d: number; verdict: string }[];
}

const folder = mkdtempSync(join(tmpdir(), 'inkling-climb-'));
afterAll(() => rmSync(folder, { recursive: true }));

test(
  `${minutes} minutes of hill climbing find no grid that takes ${limit} d to decide; seed ${seed}`,
  () => {
    const outfile = join(folder, 'climb-run.mjs');
    buildSync({
      entryPoints: [fileURLToPath(new URL('climb-run.ts', import.meta.url))],
      outfile,
      bundle: true,
      minify: true,
      platform: 'node',
      format: 'esm',
      logLevel: 'warning',
    });
    const { climbs, steps, worst } = JSON.parse(
      execFileSync(process.execPath, [outfile, `${seed}`, `${minutes}`], {
        env: { ...process.env, INKLING_PUBLISHED: publishedFolder },
        encoding: 'utf8',
      }),
    ) as Climbed;
    const most = Math.max(...worst.map(({ d }) => d));
    console.log(
      `seed ${seed}: ${climbs} climbs, ${steps} steps, worst ${most.toFixed(0)} d (limit ${limit} d)`,
    );
    for (const { grid, effort, d, verdict } of worst.slice(0, 3)) {
      console.log(`${grid}: ${verdict}, effort ${effort}, ${d.toFixed(0)} d`);
    }
    // A climb that stays at the foot says nothing: the first search alone may spend 500.
    expect(Math.max(...worst.map(({ effort }) => effort))).toBeGreaterThan(300);
    expect(most).toBeLessThan(limit);
  },
  (minutes + 2) * 60_000,
);
