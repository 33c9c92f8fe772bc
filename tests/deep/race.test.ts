import { afterAll, expect, test } from 'vitest';
import { seededRandom } from '../../source/exact/random.ts';
import { closeAll } from '../pty/harness.ts';
import { raceForLock, raceMany } from '../pty/races.ts';
import { seed } from '../sheet/fixture.ts';

const rounds = Math.ceil(20 * Number(process.env.INKLING_DEEP ?? 1));

afterAll(closeAll);

test(`${rounds} rounds of two instances that start for one sheet at once`, async () => {
  const { stale, second, failures } = await raceMany(rounds);
  console.log(
    `${rounds} rounds, one writer each; ${second} won by the second to start, ${stale} over a lock left behind`,
  );
  expect(failures).toEqual([]);
  expect(stale).toBeGreaterThan(0);
});

test(`${rounds * 50} rounds of three processes that take one lock in the same millisecond (seed ${seed})`, async () => {
  const { wrong, healed } = await raceForLock(rounds * 50, seededRandom(seed));
  console.log(
    `seed ${seed}: ${rounds * 50} rounds, ${wrong} without exactly one holder; ${healed} locks healed`,
  );
  expect(wrong).toBe(0);
  expect(healed).toBeGreaterThan(rounds);
});
