import { fileURLToPath } from 'node:url';
import { afterEach, expect, test } from 'vitest';
import { type App, closeAll, openInkling } from './harness.ts';

const root = new URL('../../puzzles/', import.meta.url);
const file = (name: string): string => fileURLToPath(new URL(name, root));

afterEach(closeAll);

async function open(args: readonly string[], cols = 80, rows = 24): Promise<App> {
  const app = openInkling(args, { cols, rows });
  await app.waitFor('? keys');
  return app;
}

test.each([
  ['13-thumbnail.txt', 'Thumbnail', 12],
  ['14-postcard.txt', 'Postcard', 26],
  ['15-crop-marks.txt', 'Crop Marks', 62],
  ['16-inset.txt', 'Inset', 63],
  ['17-offcuts.txt', 'Offcuts', 60],
  ['18-broadsheet.txt', 'Broadsheet', 152],
])('%s opens on its layout and gives a hint', async (name, title, left) => {
  const app = await open([file(name)]);
  expect(app.text()).toContain(title);
  app.press('f', '1');
  await app.waitFor(`open   ${left} of `);
  app.press('w');
  await app.waitFor('1 of 5');
  await app.waitFor('Look at');
  app.press('escape', 'q');
  expect(await app.exit).toMatchObject({ code: 0 });
});

test('digits beyond nine, and a house that is no row, column or box', async () => {
  const large = await open([file('18-broadsheet.txt')]);
  large.press('g', '1', '2', ';', '3');
  await large.waitFor('105 placed');
  expect(large.screen()[1]).toMatch(/^r1 +9 ▐?D/);
  large.press('u');
  await large.waitFor('104 placed');
  const crossed = await open([file('15-crop-marks.txt')]);
  crossed.type(':4@d2:r1c9,r3c7\r');
  await crossed.waitFor('1-9 write');
  crossed.press('g', '1', '9');
  await crossed.waitFor('spots  4@d2');
});

test('a sheet is resumed on its layout, by its grid and as the last one', async () => {
  const first = await open([file('18-broadsheet.txt')]);
  first.press('g', '1', '2', ';', '3');
  await first.waitFor('105 placed');
  first.press('q');
  expect(await first.exit).toMatchObject({ code: 0 });
  for (const args of [[], [file('18-broadsheet.txt')]]) {
    const again = openInkling(args, { home: first.home });
    await again.waitFor('105 placed');
    expect(again.screen()[1]).toMatch(/^r1 +9 +D/);
    again.press('u');
    await again.waitFor('104 placed');
    again.press('r');
    await again.waitFor('105 placed');
    again.press('q');
    await again.exit;
  }
});

test('--layout without a grid opens one that comes with the program', async () => {
  const app = await open(['--layout', 'regions']);
  expect(app.text()).toContain('Offcuts');
});

test('a terminal that is too small for the layout says what it takes', async () => {
  const app = openInkling([file('18-broadsheet.txt')], { cols: 60, rows: 24 });
  await app.waitFor('inkling needs 63 x 23; this is 60 x 24.');
  app.resize(80, 24);
  await app.waitFor('Broadsheet');
});
