import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { buildSync } from 'esbuild';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { hasPublished, publishedFolder, publishedNote } from '../published.ts';

/**
 * The exact engine against the `dancing-links` package in the fastest form we found for it (only open items
 * and compatible options, stopped at two solutions), the `logic-solver` package (MiniSat, its clauses kept from
 * one grid to the next) and a naive bit-mask search, in one run of one process, in turn. The floors are gates;
 * the aims are printed. `d` is the CPU time of one dancing-links solve of a random minimal grid.
 */

interface Measured {
  readonly d: number;
  readonly ratios: readonly {
    readonly name: string;
    readonly ours: number;
    readonly plain: number;
    readonly general: number;
    readonly naive: number;
    readonly sat: number;
  }[];
  readonly contradictory: readonly number[];
  readonly generator: number;
}

const targets = [
  { set: 'random minimal', floor: 11, aim: 13 },
  { set: 'seventeen-clue', floor: 18, aim: 22 },
  { set: 'top-95', floor: 24, aim: 28 },
  { set: 'hard', floor: 15, aim: 18 },
];

describe.skipIf(!hasPublished)(`exact engine${publishedNote}`, () => {
  const folder = mkdtempSync(join(tmpdir(), 'inkling-bench-'));
  let measured: Measured;

  beforeAll(() => {
    const outfile = join(folder, 'exact-run.mjs');
    buildSync({
      entryPoints: [fileURLToPath(new URL('exact-run.ts', import.meta.url))],
      outfile,
      bundle: true,
      minify: true,
      platform: 'node',
      format: 'esm',
      logLevel: 'warning',
    });
    const env = { ...process.env, INKLING_PUBLISHED: publishedFolder };
    measured = JSON.parse(execFileSync(process.execPath, [outfile], { env, encoding: 'utf8' })) as Measured;
    console.log(`d = ${measured.d.toFixed(1)} microseconds of CPU`);
  });

  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  test.each(targets.map((target, i) => ({ ...target, i })))(
    '$set: at least $floor times dancing-links',
    ({ set, floor, aim, i }) => {
      const { ours, plain, naive, sat } = measured.ratios[i];
      console.log(
        `${set}: ${plain.toFixed(1)}x dancing-links (floor ${floor}x, aim ${aim}x), ${sat.toFixed(0)}x ` +
          `logic-solver, ${naive.toFixed(0)}x naive search; ${ours.toFixed(2)} us a grid`,
      );
      expect(plain).toBeGreaterThanOrEqual(floor);
      expect(Math.min(naive, sat)).toBeGreaterThan(1);
    },
  );

  test('the general search on the plain layout: at least 2 times dancing-links', () => {
    for (const [i, { general }] of measured.ratios.entries()) {
      console.log(`general search, ${targets[i].set}: ${general.toFixed(1)}x (floor 2x, aim 3x)`);
    }
    expect(Math.min(...measured.ratios.map(({ general }) => general))).toBeGreaterThanOrEqual(2);
  });

  test('no contradictory grid takes more than 5,000 d', () => {
    const worst = Math.max(...measured.contradictory);
    console.log(`contradictory: worst ${worst.toFixed(0)} d (limit 5,000 d, aim 500 d)`);
    expect(worst).toBeLessThan(5000);
  });

  test('a minimal puzzle takes at most 4 d to make', () => {
    console.log(`generator: ${measured.generator.toFixed(2)} d a puzzle (limit 4 d, aim 3 d)`);
    expect(measured.generator).toBeLessThanOrEqual(4);
  });
});
