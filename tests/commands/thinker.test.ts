import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, expect, test } from 'vitest';
import { Thinker } from '../../source/commands/thinker.ts';
import { hintFor } from '../../source/hint/ladder.ts';
import { viewOf } from '../../source/sheet/view.ts';
import type { Asking } from '../../source/terminal/engine.ts';
import type { News } from '../../source/terminal/services.ts';
import { grid1333, sheetOf } from '../terminal/bench.ts';

const { state } = sheetOf(grid1333);
const hint: Asking = { kind: 'find-hint', view: viewOf(state) };
/** What the engine may take for granted. */
const nothing = { granted: { oneSolution: false }, seconds: 60 };
const built = new URL('../../dist/think-worker.js', import.meta.url);

const folder = mkdtempSync(join(tmpdir(), 'inkling-thinker-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** The program of a thread that answers nothing, fails, or ends, by its name. */
function entry(name: string, code: string): URL {
  const path = join(folder, `${name}.mjs`);
  writeFileSync(path, code);
  return pathToFileURL(path);
}

/** All that is heard of a question, up to its end. */
function heard(thinker: Thinker, asking: Asking): Promise<News[]> {
  return new Promise((resolve) => {
    const all: News[] = [];
    thinker.think(asking, (news) => {
      all.push(news);
      if (news.kind !== 'slow') resolve(all);
    });
  });
}

test('the thread finds the same ladder as the engine here, and another one after it', async () => {
  const thinker = new Thinker(built, nothing, { slowAfter: 60_000, endAfter: 60_000 });
  const ladder = hintFor(viewOf(state));
  for (let round = 0; round < 2; round += 1) {
    const [news] = await heard(thinker, hint);
    if (news.kind !== 'hint-found') expect.unreachable(news.kind);
    expect(news.ladder?.rungs).toEqual(ladder?.rungs);
    expect(news.ladder?.written).toEqual(ladder?.written);
  }
  const [news] = await heard(thinker, { kind: 'is-right', state });
  expect(news).toEqual({ kind: 'standing', standing: 'right' });
  thinker.close();
});

test('an endless thought is told of, given up, and another one begun', async () => {
  const endless = entry('endless', `for (;;) ;`);
  const thinker = new Thinker(endless, nothing, { slowAfter: 5, endAfter: 40 });
  for (let round = 0; round < 2; round += 1) {
    const all = await heard(thinker, hint);
    expect(all.map(({ kind }) => kind)).toEqual(['slow', 'unanswered']);
  }
});

test('a thread that fails, or ends, is no more than an answer that does not come', async () => {
  const wait = `import { parentPort } from 'node:worker_threads'; parentPort.on('message', () => {`;
  const failing = entry('failing', `${wait} throw new Error('out of ink'); });`);
  const ending = entry('ending', `${wait} process.exit(3); });`);
  const patience = { slowAfter: 60_000, endAfter: 60_000 };
  expect(await heard(new Thinker(failing, nothing, patience), hint)).toEqual([
    { kind: 'unanswered', why: 'Thinking failed: out of ink' },
  ]);
  expect(await heard(new Thinker(ending, nothing, patience), hint)).toEqual([
    { kind: 'unanswered', why: 'Thinking ended without an answer.' },
  ]);
});

test('a thought for which there is no time is ended by the thread, which says what is known', async () => {
  // Line 9 of the published set hard-187: no argument of four facts or fewer strikes anything there.
  const hard = sheetOf(
    '..6.......3...7..11.7.............9.3....6..5.5.8..2....3..5..6...2...4..4..9.8..',
  ).state;
  const thinker = new Thinker(built, { granted: { oneSolution: false }, seconds: 0.001 });
  for (let round = 0; round < 2; round += 1) {
    const news = (await heard(thinker, { kind: 'find-hint', view: viewOf(hard) })).at(-1);
    expect(news).toMatchObject({ kind: 'unanswered', why: expect.stringMatching(/^No step found within/) });
    expect(news).toMatchObject({ why: expect.stringContaining('--seconds N') });
  }
  thinker.close();
});

test('what was stopped is not heard of again', async () => {
  const thinker = new Thinker(built, nothing, { slowAfter: 60_000, endAfter: 60_000 });
  const stopped: News[] = [];
  thinker.think(hint, (news) => stopped.push(news));
  thinker.stop();
  const after = await heard(thinker, hint);
  expect(after.map(({ kind }) => kind)).toEqual(['hint-found']);
  expect(stopped).toEqual([]);
  thinker.close();
});
