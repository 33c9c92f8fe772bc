import { fileURLToPath } from 'node:url';
import type { App } from '../tests/pty/harness.ts';
import { renderScenes, type Scene } from './render.ts';

/** One of the puzzles that come with the program, which generated it. Singles, then a step of two facts. */
const grid = fileURLToPath(new URL('../../puzzles/06-makeready.txt', import.meta.url));

const sizes = [
  { label: '80x24', cols: 80, rows: 24 },
  { label: '100x40', cols: 100, rows: 40 },
] as const;

/** All of it is on the disk, and the panel says so. */
const isSaved = (app: App): boolean => /(?<!not )\bsaved\b/.test(app.text());

/** Some marks of every kind, as somebody may have made them before anything goes wrong. */
async function work(app: App): Promise<void> {
  await app.waitFor('q quit');
  app.type(':r5c2:289 r5c3:49 r4c3:46 r4c5<>3 3@b5:r4c4,r4c6 8@b6:r4c7,r5c7,r6c9 1@b8:r9c6 r4c6\r');
  await app.waitFor('spots  3@b5');
  await app.waitFor('1-9 write');
  await app.waitFor(isSaved);
}

/** The first hint of two facts from a sheet with all candidates, at the rung that shows their cells. */
async function cells(app: App): Promise<void> {
  await app.waitFor('q quit');
  app.press('a');
  for (;;) {
    app.type('ww');
    await app.waitFor('2 of 5');
    if (/\bTwo\b/.test(app.text())) break;
    app.type('www');
    await app.waitFor('5 of 5');
    app.press('return');
    await app.waitFor('1-9 write');
  }
  app.type('ww');
  await app.waitFor('4 of 5');
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
      app.press('g', '4', '3', '9');
      await app.waitFor('has 9 twice');
      await app.waitFor(isSaved);
    },
  },
  {
    name: `cells-${label}`,
    title: `A hint at its fourth rung: the cells of two facts`,
    cols,
    rows,
    args: [grid],
    env: { COLORFGBG: '15;0' },
    play: cells,
  },
]);

const [directory] = process.argv.slice(2);
if (directory === undefined) throw new Error('name the directory for the pictures');
await renderScenes(scenes, directory);
