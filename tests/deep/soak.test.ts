import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { seededRandom } from '../../source/exact/random.ts';
import { changesBetween } from '../../source/journal/changes.ts';
import { Timeline } from '../../source/journal/timeline.ts';
import { tellSheet } from '../journal/fixture.ts';
import { closeAll, openInkling } from '../pty/harness.ts';
import { openedSheet, recover, Shadow, shown } from '../pty/kills.ts';
import { seed } from '../sheet/fixture.ts';

const count = Math.ceil(60_000 * Number(process.env.INKLING_DEEP ?? 1));
const grid = '.461...5......4.2.2....5..67.2..1....8.......4......92.1...2..3..7..3..5...8..9.7';
/**
 * As much is taken back as is done, and more where the history has grown long: each move that can be undone takes
 * some 2 KB for as long as it can be, and that is no leak.
 */
const keys = [...'123456789', ...'hjklhjkl', ...'insov', ...'uuuuuurr0xa', 'tab', 'ctrl+r'];
/** So many keys are pressed before the program's screen must be what they lead to. */
const burst = 100;
/** How many moves that can be undone are many. */
const many = 150;

afterAll(closeAll);

/** What a process has in memory, in megabytes. */
const memoryOf = (pid: number): number => {
  const [, kilobytes] = /^VmRSS:\s+(\d+) kB$/m.exec(readFileSync(`/proc/${pid}/status`, 'utf8')) ?? [];
  return Number(kilobytes) / 1000;
};

test(`${count} random keys: memory flat, journal written anew, the sheet what its events lead to (seed ${seed})`, async () => {
  const home = mkdtempSync(join(tmpdir(), 'inkling-soak-'));
  const env = { COLORTERM: 'truecolor', COLORFGBG: '15;0' };
  const app = openInkling([grid], { home, env, watchTermios: true });
  const pid = await app.pid();
  await app.waitFor(/\bsaved\b/);
  const random = seededRandom(seed);
  const shadow = new Shadow(openedSheet(grid), []);
  const folder = join(home, 'state/inkling/sheets');
  const journal = join(folder, readdirSync(folder)[0], 'journal');
  const memory: number[] = [];
  let written = 0;
  let size = statSync(journal).size;
  let anew = 0;
  for (let pressed = burst; pressed <= count; pressed += burst) {
    for (let left = burst; left > 0; left -= 1) {
      const isLong = shadow.sheets.at(-1)!.past.length > many;
      const key = isLong && random() < 0.5 ? 'u' : keys[Math.floor(random() * keys.length)];
      app.press(key);
      shadow.press(key);
    }
    const wanted = await shadow.screen();
    await app.waitFor((at) => shown(at) === wanted, 30_000);
    const now = statSync(journal).size;
    if (now < size) anew += 1;
    written += Math.max(0, now - size);
    size = now;
    if (pressed % (count / 20) === 0) memory.push(memoryOf(pid));
  }
  app.press('q');
  await app.exit;

  const left = recover(home)!;
  const last = shadow.sheets.at(-1)!;
  expect(tellSheet(left.sheet)).toBe(tellSheet(last));
  // The events by themselves, one after the other, without any state that the journal has beside them.
  const timeline = new Timeline(shadow.sheets[0].state);
  shadow.sheets.slice(1).forEach((sheet, i) => {
    for (const change of changesBetween(shadow.sheets[i], sheet)) timeline.play(change);
  });
  expect(tellSheet(timeline.sheet)).toBe(tellSheet(last));
  rmSync(home, { recursive: true, force: true });

  console.log(
    [
      `seed ${seed}, megabytes after each twentieth: ${memory.map((each) => each.toFixed(0)).join(' ')}`,
      `journal: ${written} bytes appended, ${size} in the end, written anew ${anew} times`,
      `moves that could be undone at most: ${Math.max(...shadow.sheets.map(({ past }) => past.length))}`,
    ].join('\n'),
  );
  expect(anew).toBeGreaterThan(0);
  // The first quarter warms up: code is compiled, and the heap grows to its working size.
  // What the collector has not come to yet is no growth. It goes through all of the memory every 15,000 keys or so,
  // so the least of some 20,000 keys is taken, and of 20,000 after that.
  const least = (from: number) => Math.min(...memory.slice(from, from + 7));
  expect(least(13) / least(5)).toBeLessThan(1.1);
});
