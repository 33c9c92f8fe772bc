import { afterAll, expect, test } from 'vitest';
import { closeAll } from '../pty/harness.ts';
import { killMany } from '../pty/kills.ts';
import { seed } from '../sheet/fixture.ts';

const kills = Math.ceil(50 * Number(process.env.INKLING_DEEP ?? 1));

afterAll(closeAll);

test(`${kills} kills at random moments under random keys (seed ${seed})`, async () => {
  const tally = await killMany(kills, seed);
  console.log(
    [
      `seed ${seed}`,
      `kills                                        ${tally.kills}`,
      `keys pressed                                 ${tally.keys}`,
      `changes shown as saved, all there afterwards ${tally.shownSaved}`,
      `changes there beyond what was shown          ${tally.savedUnseen}`,
      `half a record at the end, left out           ${tally.torn}`,
      `while the journal was being made anew        ${tally.amid}`,
      `longest undo history after a restart         ${tally.longest}`,
      `lost, torn or another sheet                  ${tally.failures.length}`,
    ].join('\n'),
  );
  expect(tally.failures).toEqual([]);
  expect(tally.shownSaved).toBeGreaterThan(kills);
});
