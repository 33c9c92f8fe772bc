import { GeneralSearch } from '../../source/exact/general.ts';
import { generate } from '../../source/exact/generate.ts';
import { makePlainSearch } from '../../source/exact/plain.ts';
import { seededRandom } from '../../source/exact/random.ts';
import { decideText } from '../../source/exact/solve.ts';
import { plain } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';
import { coverCount } from '../judges/exact-cover.ts';
import { readPublishedSet } from '../published.ts';

/**
 * The measurements of exact.test.ts, as a program of its own so that what is measured is the bundled code
 * that people run. Prints one JSON object. CPU time, both sides in turn within one run, medians of ratios.
 */

const cpu = (): number => process.cpuUsage().user;
const median = (values: number[]): number => values.toSorted((a, b) => a - b)[values.length >> 1];
const limits = { solutions: 2, nodes: Infinity };

/** Microseconds of CPU a grid, over as many rounds as `budget` microseconds allow, at least one. */
function time(work: () => void, grids: number, budget: number): number {
  const start = cpu();
  let rounds = 0;
  do {
    work();
    rounds += 1;
  } while (cpu() - start < budget);
  return (cpu() - start) / rounds / grids;
}

const sets: readonly (readonly [string, number])[] = [
  ['random-minimal-2000.txt', 500],
  ['seventeen-clue-49151.txt', 500],
  ['top-95.txt', 95],
  ['hard-187.txt', 60],
];

/** So many lines, spread evenly over the set. */
function sample(name: string, size: number): string[] {
  const lines = readPublishedSet(name);
  const step = Math.max(1, Math.floor(lines.length / size));
  return lines.filter((_, i) => i % step === 0).slice(0, size);
}

const search = makePlainSearch();
const general = new GeneralSearch(plain);
const masksOf = (line: string) =>
  Position.from(
    plain,
    Array.from(line, (sign) => (sign >= '1' && sign <= '9' ? Number(sign) : 0)),
  ).candidates.toMasks();

/** Throws unless every grid has one solution: a solver that finds nothing would be fast. */
function solveAll<T>(grids: readonly T[], solve: (grid: T) => number): () => void {
  return () => {
    for (const grid of grids) if (solve(grid) !== 1) throw new Error('not one solution');
  };
}

// The first few hundred grids of a process run many times slower.
const warm = sample('random-minimal-2000.txt', 500);
const warmMasks = warm.map(masksOf);
time(
  solveAll(warm, (line) => search.runText(line, limits).found),
  warm.length,
  1_000_000,
);
time(
  solveAll(warmMasks, (masks) => general.run(masks, limits).found),
  warm.length,
  700_000,
);
time(solveAll(warm, coverCount), warm.length, 700_000);

const rounds = 9;
const unit: number[] = [];
const ratios = sets.map(([name, size]) => {
  const lines = sample(name, size);
  const masks = lines.map(masksOf);
  const ours: number[] = [];
  const plainRatios: number[] = [];
  const generalRatios: number[] = [];
  for (let round = 0; round < rounds; round += 1) {
    const fast = time(
      solveAll(lines, (line) => search.runText(line, limits).found),
      lines.length,
      40_000,
    );
    const cover = time(solveAll(lines, coverCount), lines.length, 60_000);
    const slow = time(
      solveAll(masks, (m) => general.run(m, limits).found),
      lines.length,
      40_000,
    );
    ours.push(fast);
    plainRatios.push(cover / fast);
    generalRatios.push(cover / slow);
    if (name.startsWith('random')) unit.push(cover);
  }
  return { name, ours: median(ours), plain: median(plainRatios), general: median(generalRatios) };
});
const d = median(unit);

const contradictory = readPublishedSet('contradictory-hard.txt').map((line) => {
  const times = Array.from({ length: 3 }, () => time(() => void decideText(line), 1, 0));
  return median(times) / d;
});

const random = seededRandom(1);
const made: number[] = [];
for (let round = 0; round < 5; round += 1) made.push(time(() => void generate(plain, random), 1, 100_000));

process.stdout.write(JSON.stringify({ d, ratios, contradictory, generator: median(made) / d }));
