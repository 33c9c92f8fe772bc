import type { Position } from '../../source/grid/position.ts';
import { pathOf } from '../../source/path/whole.ts';
import { coverCount } from '../judges/exact-cover.ts';
import { positionOf } from '../path/grids.ts';
import { readPublishedSet } from '../published.ts';

/**
 * The measurements of path.test.ts, as a program of its own so that what is measured is the bundled code that
 * people run. Prints one JSON object a set, in the order of the arguments, each `name:taken:warm`: how many
 * grids are taken, spread evenly, and how many paths of them are gone through first, one grid after the other and
 * over again: about a second's worth, until the code is compiled for what it meets. All times are multiples of one
 * dancing-links solve (package dancing-links, fastest form, up to two solutions) of a random minimal grid: the
 * median of batches that are run in turn with what is measured.
 */

/** CPU time of this process, in microseconds. */
const cpu = (): number => {
  const { user, system } = process.cpuUsage();
  return user + system;
};

const sorted = (times: readonly number[]): number[] => [...times].sort((a, b) => a - b);
/** The time that this share of them does not exceed. */
const at = (times: readonly number[], share: number): number =>
  times[Math.min(times.length - 1, Math.floor(times.length * share))];

const covers = readPublishedSet('random-minimal-2000.txt');
for (const line of covers) coverCount(line);

/** What `measure` answers for each item, in units, which are measured in turn with it. */
function inUnits<T>(items: readonly T[], measure: (item: T) => number[]): number[] {
  const batches = Math.min(items.length, 40);
  const units: number[] = [];
  const times: number[] = [];
  for (let batch = 0; batch < batches; batch += 1) {
    const start = cpu();
    for (let i = 0; i < 25; i += 1) coverCount(covers[batch * 25 + i]);
    units.push((cpu() - start) / 25);
    const from = Math.floor((batch * items.length) / batches);
    const to = Math.floor(((batch + 1) * items.length) / batches);
    for (const item of items.slice(from, to)) times.push(...measure(item));
  }
  const d = at(sorted(units), 0.5);
  return sorted(times.map((time) => time / d));
}

const figuresOf = (times: readonly number[]) => ({
  count: times.length,
  mean: times.reduce((sum, time) => sum + time, 0) / times.length,
  median: at(times, 0.5),
  p99: at(times, 0.99),
  most: at(times, 1),
});

/** How long a whole path takes; NaN if it does not solve. */
function pathTime(position: Position): number[] {
  const start = cpu();
  const { solved } = pathOf(position);
  return [solved ? cpu() - start : Number.NaN];
}

/** How long each step of a path takes on the state that the steps before it leave: till the next is in hand. */
function stepTimes(position: Position): number[] {
  const times: number[] = [];
  let last = 0;
  const { steps } = pathOf(position, {
    enough: (working) => {
      const now = cpu();
      if (working.steps.length > times.length) times.push(now - last);
      last = cpu();
      return false;
    },
  });
  // After the step that solves nobody is asked any more.
  if (times.length < steps.length) times.push(cpu() - last);
  return times;
}

/** The same, each step the middle one of three goes. */
function steadyStepTimes(position: Position): number[] {
  const goes = [stepTimes(position), stepTimes(position), stepTimes(position)];
  return goes[0].map((_, i) => sorted(goes.map((go) => go[i]))[1]);
}

for (const argument of process.argv.slice(2)) {
  const [name, taken, warm] = argument.split(':');
  const lines = readPublishedSet(name);
  const step = Math.floor(lines.length / Number(taken));
  const positions = Array.from({ length: Number(taken) }, (_, i) => positionOf(lines[i * step]));
  for (let i = 0; i < Number(warm); i += 1) pathTime(positions[i % positions.length]);
  const paths = figuresOf(inUnits(positions, pathTime));
  for (const position of positions.slice(0, Number(warm))) stepTimes(position);
  const steps = figuresOf(inUnits(positions, steadyStepTimes));
  console.log(JSON.stringify({ name, paths, steps }));
}
