import { expect, it } from 'vitest';
import { seed } from '../grid/fixtures.ts';
import { fuzzReaders } from '../grid/fuzz.ts';

const count = Math.round(200_000 * Number(process.env.INKLING_DEEP ?? 1));

it(`${count.toLocaleString('en-US')} fuzzed inputs give a grid or a located error (seed ${seed})`, () => {
  const { grids, errors, slowest, failures } = fuzzReaders(count, seed);
  console.log(
    `seed ${seed}: ${grids} gave a grid, ${errors} an error; the slowest took ${slowest.toFixed(1)} ms`,
  );
  expect(failures.slice(0, 5)).toEqual([]);
  expect(grids + errors).toBe(count);
});
