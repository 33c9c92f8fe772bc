import { GeneralSearch } from '../../source/exact/general.ts';
import { generate } from '../../source/exact/generate.ts';
import { seededRandom } from '../../source/exact/random.ts';
import { decideText } from '../../source/exact/solve.ts';
import { plain } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';
import { coverCount } from '../judges/exact-cover.ts';
import { naiveSolutions } from '../judges/naive.ts';
import { satSolutions } from '../judges/sat.ts';
import { readPublishedSet } from '../published.ts';

/**
 * The measurements of exact.test.ts, as a program of its own so that what is measured is the bundled code
 * that people run, by the entry that they run it by: one search, which also hands out the solution. (A second
 * search built beside it would slow both: the compiler then no longer takes their tables for constants.)
 * Prints one JSON object. CPU time, all in turn within one run, medians of ratios.
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

/** The sets, how many grids of each are taken, and how many of those for the judges that take longest. */
const sets: readonly (readonly [string, number, number])[] = [
  ['random-minimal-2000.txt', 500, 20],
  ['seventeen-clue-49151.txt', 500, 20],
  ['top-95.txt', 95, 19],
  ['hard-187.txt', 60, 12],
];

/** So many, spread evenly over all. */
function sample<T>(all: readonly T[], size: number): T[] {
  const step = Math.max(1, Math.floor(all.length / size));
  return all.filter((_, i) => i % step === 0).slice(0, size);
}

const general = new GeneralSearch(plain);
const positionOf = (line: string): Position =>
  Position.from(
    plain,
    Array.from(line, (sign) => (sign >= '1' && sign <= '9' ? Number(sign) : 0)),
  );

interface Grid {
  readonly line: string;
  readonly position: Position;
  readonly masks: ArrayLike<number>;
}
const gridOf = (line: string): Grid => {
  const position = positionOf(line);
  return { line, position, masks: position.candidates.toMasks() };
};

/** Each answers how many solutions a grid has, stopped at two. */
const solvers = {
  ours: ({ line }: Grid) => (decideText(line).verdict === 'one' ? 1 : 0),
  cover: ({ line }: Grid) => coverCount(line),
  general: ({ masks }: Grid) => general.run(masks, limits).found,
  naive: ({ position }: Grid) => naiveSolutions(position.givens, 2, Infinity)?.length ?? 0,
  sat: ({ position }: Grid) => satSolutions(position, 2).length,
};

/** Microseconds of CPU a grid. Throws unless each has one solution: a solver that finds nothing would be fast. */
function timeSolver(solve: (grid: Grid) => number, grids: readonly Grid[], budget: number): number {
  return time(
    () => {
      for (const grid of grids) if (solve(grid) !== 1) throw new Error('not one solution');
    },
    grids.length,
    budget,
  );
}

// The first few hundred grids of a process run many times slower.
const warm = sample(readPublishedSet('random-minimal-2000.txt'), 500).map(gridOf);
for (const solve of Object.values(solvers)) timeSolver(solve, warm.slice(0, 50), 100_000);
for (const solve of [solvers.ours, solvers.cover, solvers.general]) timeSolver(solve, warm, 700_000);

const rounds = 9;
const unit: number[] = [];
const ratios = sets.map(([name, size, fewer]) => {
  const grids = sample(readPublishedSet(name), size).map(gridOf);
  const few = sample(grids, fewer);
  const taken: number[] = [];
  const times = {
    plain: [] as number[],
    general: [] as number[],
    naive: [] as number[],
    sat: [] as number[],
  };
  for (let round = 0; round < rounds; round += 1) {
    const ours = timeSolver(solvers.ours, grids, 40_000);
    const cover = timeSolver(solvers.cover, grids, 60_000);
    const slow = timeSolver(solvers.general, grids, 40_000);
    const oursOfFew = timeSolver(solvers.ours, few, 10_000);
    taken.push(ours);
    times.plain.push(cover / ours);
    times.general.push(cover / slow);
    times.naive.push(timeSolver(solvers.naive, few, 10_000) / oursOfFew);
    times.sat.push(timeSolver(solvers.sat, few, 10_000) / oursOfFew);
    if (name.startsWith('random')) unit.push(cover);
  }
  return {
    name,
    ours: median(taken),
    plain: median(times.plain),
    general: median(times.general),
    naive: median(times.naive),
    sat: median(times.sat),
  };
});

// Unit and what is measured in it, in turn.
const inUnits = (work: () => void, rounds: number, budget: number): number =>
  median(
    Array.from({ length: rounds }, () => time(work, 1, budget) / timeSolver(solvers.cover, warm, budget / 2)),
  );

const random = seededRandom(1);
const make = (): void => void generate(plain, random);
time(make, 1, 300_000);
const generator = inUnits(make, 9, 100_000);
const contradictory = readPublishedSet('contradictory-hard.txt').map((line) =>
  inUnits(() => void decideText(line), 3, 20_000),
);

process.stdout.write(JSON.stringify({ d: median(unit), ratios, contradictory, generator }));
