import { expect, test } from 'vitest';
import type { Position } from '../../source/grid/position.ts';
import { pathOf } from '../../source/path/whole.ts';
import { coverCount } from '../judges/exact-cover.ts';
import { positionOf } from '../path/grids.ts';
import { hasPublished, publishedNote, readPublishedSet } from '../published.ts';

/** CPU time of this process, in microseconds. */
const cpu = (): number => {
  const { user, system } = process.cpuUsage();
  return user + system;
};

/**
 * CPU time of one dancing-links solve (package dancing-links, fastest form, up to two solutions) of a random
 * minimal grid, in microseconds: the median of 40 batches after a warm-up.
 */
function unit(): number {
  const lines = readPublishedSet('random-minimal-2000.txt');
  for (const line of lines) coverCount(line);
  const batches = Array.from({ length: 40 }, (_, batch) => {
    const start = cpu();
    for (let i = 0; i < 25; i += 1) coverCount(lines[batch * 25 + i]);
    return (cpu() - start) / 25;
  });
  return batches.sort((a, b) => a - b)[20];
}

/**
 * Whole paths, kernel on, the mean of a set as a multiple of the unit of the same run. `aim` is what the
 * project wants, `gate` what fails the run: a little above what was reached when it was set.
 */
const sets = [
  { name: 'seventeen-clue-49151.txt', taken: 3000, warm: 1000, aim: 2, gate: 12 },
  { name: 'random-minimal-2000.txt', taken: 2000, warm: 500, aim: 8, gate: 45 },
  { name: 'top-95.txt', taken: 95, warm: 95, aim: 80, gate: 400 },
  { name: 'hard-187.txt', taken: 6, warm: 1, aim: 2000, gate: 15_000 },
] as const;

test.skipIf(!hasPublished)(`whole paths as multiples of a dancing-links solve${publishedNote}`, () => {
  const d = unit();
  console.log(`unit: ${d.toFixed(1)} microseconds of CPU for one dancing-links solve`);
  for (const { name, taken, warm, aim, gate } of sets) {
    const lines = readPublishedSet(name);
    const step = Math.floor(lines.length / taken);
    const positions: Position[] = Array.from({ length: taken }, (_, i) => positionOf(lines[i * step]));
    for (const position of positions.slice(0, warm)) pathOf(position);
    const times = positions.map((position) => {
      const start = cpu();
      const { solved } = pathOf(position);
      const time = (cpu() - start) / d;
      expect(solved).toBe(true);
      return time;
    });
    times.sort((a, b) => a - b);
    const mean = times.reduce((sum, time) => sum + time, 0) / taken;
    const at = (share: number) => times[Math.min(taken - 1, Math.floor(taken * share))].toFixed(1);
    console.log(
      `${name}: mean ${mean.toFixed(1)} d, median ${at(0.5)}, p99 ${at(0.99)}, most ${at(1)}; aim ${aim}`,
    );
    expect(mean, name).toBeLessThan(gate);
  }
});
