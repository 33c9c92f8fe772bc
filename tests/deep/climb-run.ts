import { generate } from '../../source/exact/generate.ts';
import { randomBelow, seededRandom } from '../../source/exact/random.ts';
import { decideDigits, effort } from '../../source/exact/solve.ts';
import { plain } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';
import { coverCount } from '../judges/exact-cover.ts';
import { hasPublished, readPublishedSet } from '../published.ts';

/**
 * Climbs towards grids that take long to decide, for climb.test.ts: bundled, so that it measures the code that
 * people run. Arguments: a seed, and how many minutes. Prints a JSON object.
 *
 * A climb starts from noise, or from a grid of the published file of hard contradictions, changes a given or
 * two at a time, and keeps what takes about as much effort or more (branchings and contradictions, no clock:
 * the same seed climbs the same way). After many steps without a gain it begins anew elsewhere.
 */

const [seed, minutes] = process.argv.slice(2).map(Number);
const random = seededRandom(seed);
const below = (limit: number): number => randomBelow(random, limit);
const cpu = (): number => process.cpuUsage().user;
const median = (values: readonly number[]): number => values.toSorted((a, b) => a - b)[values.length >> 1];

/** Steps without a gain after which a climb is given up. */
const patience = 600;

/** The digits that no peer of a cell has. */
const freeAt = (grid: Uint8Array, cell: number): number[] => {
  const taken = new Set(plain.peers[cell].map((peer) => grid[peer]));
  return [1, 2, 3, 4, 5, 6, 7, 8, 9].filter((digit) => !taken.has(digit));
};

/** Puts a digit that no peer has into a cell, another than it holds; false where there is none. */
function giveAnother(grid: Uint8Array, cell: number): boolean {
  const free = freeAt(grid, cell).filter((digit) => digit !== grid[cell]);
  if (free.length === 0) return false;
  grid[cell] = free[below(free.length)];
  return true;
}

const cellsWith = (grid: Uint8Array, given: boolean): number[] =>
  [...grid.keys()].filter((cell) => (grid[cell] !== 0) === given);

/** Few digits anywhere that do not clash. */
function noise(): Uint8Array {
  const grid = new Uint8Array(81);
  for (let given = 12 + below(10); given > 0; given -= 1) giveAnother(grid, below(81));
  return grid;
}

/** One given changed, moved, added or dropped, without a clash; perhaps another one too. */
function neighbour(grid: Uint8Array): Uint8Array {
  const next = grid.slice();
  do {
    const givens = cellsWith(next, true);
    const open = cellsWith(next, false);
    const given = givens[below(givens.length)];
    switch (below(5)) {
      case 0:
        if (givens.length > 8) next[given] = 0;
        break;
      case 1:
        giveAnother(next, open[below(open.length)]);
        break;
      case 2:
        giveAnother(next, given);
        break;
      default: {
        // A given moves, as a rule with its digit.
        const digit = next[given];
        const cell = open[below(open.length)];
        next[given] = 0;
        if (freeAt(next, cell).includes(digit)) next[cell] = digit;
        else if (!giveAnother(next, cell)) next[given] = digit;
      }
    }
  } while (below(3) === 0);
  return next;
}

const effortOf = (grid: Uint8Array): number => effort(Position.from(plain, grid));

// The unit: of the published minimal grids, or, where they are missing, of some made alike.
const unitRandom = seededRandom(seed);
const unitGrids = hasPublished
  ? readPublishedSet('random-minimal-2000.txt').slice(0, 500)
  : Array.from({ length: 300 }, () => generate(plain, unitRandom).givens.join(''));
const unit = (): number => {
  const start = cpu();
  let solved = 0;
  while (cpu() - start < 300_000) {
    for (const grid of unitGrids) coverCount(grid);
    solved += unitGrids.length;
  }
  return (cpu() - start) / solved;
};
unit();
const d = unit();

const known = hasPublished ? readPublishedSet('contradictory-hard.txt') : [];
const digitsOf = (text: string): Uint8Array =>
  Uint8Array.from(text.slice(0, 81), (sign) => (sign >= '1' && sign <= '9' ? Number(sign) : 0));

const end = process.hrtime.bigint() + BigInt(Math.round(minutes * 60e9));
const inTime = (): boolean => process.hrtime.bigint() < end;
let climbs = 0;
let steps = 0;
const worst: { effort: number; grid: Uint8Array }[] = [];

/** Where the next climb begins: in noise, at a published grid, or, every other time, near one of the worst so far. */
function start(): Uint8Array {
  if (climbs % 4 === 0 || worst.length === 0) return noise();
  if (climbs % 4 === 2 && known.length > 0) return digitsOf(known[below(known.length)]);
  let grid = worst[below(worst.length)].grid;
  for (let step = below(6); step > 0; step -= 1) grid = neighbour(grid);
  return grid;
}

while (inTime()) {
  let grid = start();
  let height = effortOf(grid);
  let best = { effort: height, grid };
  for (let idle = 0; idle < patience && inTime(); idle += 1) {
    const next = neighbour(grid);
    const taken = effortOf(next);
    steps += 1;
    // A little down is allowed, or every small top ends the climb.
    if (taken < height * (0.9 + 0.1 * random())) continue;
    height = taken;
    grid = next;
    if (taken <= best.effort) continue;
    best = { effort: taken, grid };
    idle = 0;
  }
  climbs += 1;
  if (worst.every(({ grid: other }) => other.join() !== best.grid.join())) worst.push(best);
  worst.sort((a, b) => b.effort - a.effort);
  worst.length = Math.min(worst.length, 10);
}

const told = worst.map(({ effort: nodes, grid }) => {
  const times = Array.from({ length: 5 }, () => {
    const began = cpu();
    decideDigits(plain, grid);
    return (cpu() - began) / d;
  });
  return {
    grid: grid.join('').replaceAll('0', '.'),
    effort: nodes,
    d: median(times),
    verdict: decideDigits(plain, grid).verdict,
  };
});
process.stdout.write(JSON.stringify({ d, climbs, steps, worst: told }));
