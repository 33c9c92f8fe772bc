import type { App } from '../tests/pty/harness.ts';
import { renderScenes, type Scene } from './render.ts';

/** A grid of our own (`inkling` generated it): two pairs of singles in, then a wing. */
const grid = '.395........8...7.....1.9.41..4....3...........7...86...67.82...1..9...5.....1..8';

const sizes = [
  { label: '80x24', cols: 80, rows: 24 },
  { label: '100x40', cols: 100, rows: 40 },
] as const;

/** Some marks of every kind, as somebody may have made them before anything goes wrong. */
async function work(app: App): Promise<void> {
  await app.waitFor('q quit');
  app.type(':r5c5:268 r6c1:2459 r8c9<>5 4@b4:r5c1,r5c2,r6c1,r6c2 8@b5:r4c5\r');
  await app.waitFor('not saved');
  await app.waitFor('1-9 write');
}

/** A hint from a sheet with all candidates, `rungs` up its ladder, after `steps` that were taken. */
async function hint(app: App, steps: number, rungs: number): Promise<void> {
  await app.waitFor('q quit');
  app.press('a');
  for (let step = 0; step < steps; step += 1) {
    app.type('wwwww');
    await app.waitFor('5 of 5');
    app.press('return');
    await app.waitFor('1-9 write');
  }
  app.type('w'.repeat(rungs));
  await app.waitFor(`${rungs} of 5`);
}

const scenes: Scene[] = sizes.flatMap(({ label, cols, rows }): Scene[] => [
  {
    name: `workbench-${label}`,
    title: `The workbench at ${label}: givens, notes, spots and a strike`,
    cols,
    rows,
    args: [grid],
    env: { COLORFGBG: '15;0' },
    play: work,
  },
  {
    name: `slip-${label}`,
    title: `The same a move later: a digit stands twice in a row, flagged on the grid and in words`,
    cols,
    rows,
    args: [grid],
    env: { COLORFGBG: '15;0' },
    play: async (app) => {
      await work(app);
      app.press('9', 'g', '5', '8', '9', 'left');
      await app.waitFor('has 9 twice');
    },
  },
  {
    name: `cells-${label}`,
    title: `A hint at its fourth rung: the cells of two facts`,
    cols,
    rows,
    args: [grid],
    env: { COLORFGBG: '15;0' },
    play: (app) => hint(app, 8, 4),
  },
]);

const [directory] = process.argv.slice(2);
if (directory === undefined) throw new Error('name the directory for the pictures');
await renderScenes(scenes, directory);
