import { expect, test } from 'vitest';
import { showHostile } from '../pty/hostile.ts';
import { Random } from '../random.ts';

const seed = Number(process.env.INKLING_SEED ?? Date.now() % 2 ** 31);
const count = Math.ceil(20_000 * Number(process.env.INKLING_DEEP ?? 1));

test(`${count} hostile strings on the screen, in errors and exports (seed ${seed})`, async () => {
  const { strings, failures } = await showHostile(count, new Random(seed));
  console.log(`seed ${seed}: ${strings} hostile strings, ${failures.length} came through`);
  expect(failures).toEqual([]);
});
