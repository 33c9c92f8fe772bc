import { afterEach, describe, expect, test } from 'vitest';
import { type App, closeAll, hasPlaced, type OpenOptions, openInkling, placedOn } from './harness.ts';

/**
 * The workbench as a person meets it: the built program in a pseudo-terminal, an emulator as the screen.
 * The grid is line 1333 of the published set random-minimal-2000.
 */
const grid = '.461...5......4.2.2....5..67.2..1....8.......4......92.1...2..3..7..3..5...8..9.7';

afterEach(closeAll);

async function start(options: OpenOptions = {}, given = grid): Promise<App> {
  const app = openInkling([given], { env: { COLORTERM: 'truecolor', COLORFGBG: '15;0' }, ...options });
  await app.waitFor('? keys');
  return app;
}

/** Where a placed digit of a cell stands in the compact layout. */
const placeOf = (name: string): { x: number; y: number } => {
  const [row, column] = [Number(name[1]) - 1, Number(name[3]) - 1];
  return { x: 3 + 6 * column + 2, y: 1 + 2 * row + Math.floor(row / 3) };
};
const shows = (name: string, text: string) => (app: App) => {
  const place = placeOf(name);
  return app.cell(place.x, place.y).text === text;
};
const goTo = async (app: App, name: string) => {
  app.press('g', name[1]!, name[3]!);
  await app.waitFor(`cell   ${name}`);
};

test('placing, and taking it back', async () => {
  const app = await start();
  await goTo(app, 'r5c4');
  app.press('2');
  await app.waitFor(shows('r5c4', '2'));
  const { x, y } = placeOf('r5c4');
  expect(app.cell(x, y).foreground).toEqual({ kind: 'rgb', red: 0x56, green: 0xb4, blue: 0xe9 });
  const given = placeOf('r1c2');
  expect(app.cell(given.x, given.y)).toMatchObject({ text: '4', bold: true });
  await app.waitFor(hasPlaced(26));
  app.press('u');
  await app.waitFor(hasPlaced(25));
  expect(shows('r5c4', ' ')(app)).toBe(true);
  app.press('r');
  await app.waitFor(shows('r5c4', '2'));
});

test('marking with each pen, no Shift needed', async () => {
  const app = await start();
  await goTo(app, 'r6c6');
  app.press('n', '6', '7', '8');
  await app.waitFor((at) => at.screen()[13].includes('678'));
  app.press('o', '6');
  await app.waitFor((at) => at.screen()[13].includes('·78'));
  app.press('s', '7');
  // A lone spot is pending, and says so. The pen says which kind of house it is in.
  await app.waitFor((at) => /7\?|\?7/.test(at.screen()[13]));
  expect(app.text()).toContain('spot in box');
  expect(app.text()).not.toContain('7@b5');
  app.press('left', '7');
  await app.waitFor('cell   r6c5');
  await app.waitFor((at) => !at.screen()[13].includes('?'));
  // With another pen, or spots in another kind of house, the panel tells it.
  app.press('v');
  await app.waitFor((at) => at.text().includes('spot in row') && at.text().includes('spots  7@b5'));
  app.press('n');
  await app.waitFor((at) => at.text().includes('▸ note') && at.text().includes('spots  7@b5'));
});

describe('a slip of each kind is flagged at once, in words and on the grid', () => {
  test('a digit twice in a house', async () => {
    const app = await start();
    await goTo(app, 'r7c4');
    app.press('2');
    await app.waitFor('Row 7 has 2 twice');
    expect(app.screen()[15]).toMatch(/2!.*2!/);
    await app.waitFor('u  takes back r7c4=2');
    app.press('u');
    await app.waitFor((at) => !at.text().includes('twice'));
  });

  test('a cell with nothing left', async () => {
    const app = await start();
    app.type(':r5c5<>2345679 r5c5\r');
    await app.waitFor('r5c5 has nothing');
    expect(app.screen()[10]).toContain('none!');
  });

  test('a digit with no place left in a house', async () => {
    const app = await start();
    await goTo(app, 'r5c5');
    app.press('2');
    await app.waitFor('Box 2 has no place');
    expect(app.text()).toContain(' b2 ');
  });

  test('a claim whose last place has gone', async () => {
    const app = await start();
    app.type(':7@r1:c6,c7\r');
    app.type(':r1c6<>7 r1c7<>7\r');
    await app.waitFor('7 of row 1 was');
    expect(app.screen()[2]).toMatch(/7!.*7!/);
  });

  test('one key goes back to just before it', async () => {
    const app = await start();
    app.type(':r7c4=2\r:r5c6:67\r:r8c7=2\r');
    await app.waitFor('z  goes back to before');
    app.press('z');
    await app.waitFor(hasPlaced(25));
    expect(app.text()).not.toContain('twice');
  });
});

test('the five rungs, one key, and the sheet is left alone until the step is taken', async () => {
  const app = await start();
  app.press('a', 'w');
  await app.waitFor('1 of 5');
  expect(app.text()).toContain('Look at ');
  for (const [at, name] of ['digits', 'pattern', 'cells', 'why'].entries()) {
    app.press('w');
    await app.waitFor(`${at + 2} of 5`);
    expect(app.text()).toContain(`Hint  ${name}`);
  }
  expect(app.screen()[22]).toContain('enter take it');
  app.press('escape');
  await app.waitFor(hasPlaced(25));
  app.type('wwwww\r');
  await app.waitFor(hasPlaced(26));
});

test('a hint on a sparse sheet tells a run that ends in something to write', async () => {
  const app = await start();
  app.type(':r8c7=2 r9c6=6\r');
  await app.waitFor(hasPlaced(27));
  app.type('wwwww');
  await app.waitFor('5 of 5');
  app.press('return');
  await app.waitFor((at) => placedOn(at) >= 28 || at.text().includes('spot'));
  expect(app.text()).not.toContain('5 of 5');
});

test('find and trace: asked for, gone through, left, and the sheet is as it was', async () => {
  const app = await start();
  app.type(':find x-wing\r');
  await app.waitFor('1@c1 1@c9, 2 facts.');
  expect(app.screen()[3]).toMatch(/1A .*1×.*1B/);
  app.press('escape');
  await app.waitFor(hasPlaced(25));
  await goTo(app, 'r7c3');
  app.press('.');
  await app.waitFor(/r7c3 is \d +1 of \d+/);
  app.press('.');
  await app.waitFor(/r7c3 is \d +2 of \d+/);
  app.press('backspace');
  await app.waitFor(/r7c3 is \d +1 of \d+/);
  app.press('escape');
  await app.waitFor(hasPlaced(25));
  expect(app.text()).not.toContain('not saved');
});

test('a paste is a preview, then one undo step', async () => {
  const app = await start();
  app.paste(
    '53..7....\n6..195...\n.98....6.\n8...6...3\n4..8.3..1\n7...2...6\n.6....28.\n...419..5\n....8..79\n',
  );
  await app.waitFor('opens it');
  await app.waitFor(shows('r1c1', '5'));
  app.press('return');
  await app.waitFor(hasPlaced(30));
  app.press('u');
  await app.waitFor(hasPlaced(25));
  app.paste('this is no grid');
  await app.waitFor('The paste cannot be');
});

test('a burst with a typed line in it does what the same keys do one by one', async () => {
  const app = await start();
  app.type(':r5c4=2 r5c6:67\rgj:r8c7=2\rf3');
  await app.waitFor(hasPlaced(27));
  await app.waitFor('digit   3');
});

test('a line far longer than the screen, and one emptied and typed anew, in one burst each', async () => {
  const app = await start();
  app.type(`:${'r5c4 '.repeat(300)}r5c4=2\rj`);
  await app.waitFor(hasPlaced(26));
  await app.waitFor(/^r6\W/m);
  app.press(':', 'r', '1');
  app.paste('c');
  app.type('9<>1');
  app.press('ctrl+u', 'ctrl+t');
  app.type('r5c6:67 r5c6\r');
  await app.waitFor((at) => at.screen()[11].includes('67'));
  expect(app.text()).not.toContain('·');
});

test('quitting asks once about unsaved work and gives the terminal back', async () => {
  // Nothing can be saved below a device.
  const app = await start({ watchTermios: true, env: { XDG_STATE_HOME: '/dev/null' } });
  expect(app.modes()).toMatchObject({ alternateScreen: true, bracketedPaste: true });
  // In one write: whether it can be saved is not known yet when q comes.
  app.type('2q');
  await app.waitFor('q again quits');
  app.press('q');
  expect(await app.exitCode()).toBe(0);
  await app.exit;
  expect(app.termios().after).toBe(app.termios().before);
  expect(app.modes()).toMatchObject({
    alternateScreen: false,
    bracketedPaste: false,
    cursorVisible: true,
    mouse: 'none',
  });
  expect(app.screen().join('')).toMatch(/^inkling: [^│]*the sheet is not saved[^│]*$/);
});

test('Ctrl-C leaves what is open, then quits with 130', async () => {
  const app = await start();
  app.press('w');
  await app.waitFor('1 of 5');
  app.press('ctrl+c');
  await app.waitFor('1-9 write');
  app.press('ctrl+c');
  expect(await app.exit).toMatchObject({ code: 130 });
});

test('any size, while keys arrive', async () => {
  const app = await start();
  app.press('a');
  for (const [cols, rows, sign] of [
    [100, 40, '┏━'],
    [57, 24, 'u undo'],
    [40, 15, 'pen'],
    [30, 8, 'needs 40 x 15'],
    [80, 24, '1-9 write'],
  ] as const) {
    app.resize(cols, rows);
    app.press('right');
    await app.waitFor(sign);
  }
  // Five times to the right of r5c5, round the edge: nothing was lost on the way.
  await app.waitFor('cell   r5c1');
});

test('without UTF-8 every byte is ASCII', async () => {
  const app = await start({ env: { LANG: 'C', LC_ALL: 'C', TERM: 'xterm' } });
  app.type('awwwww');
  await app.waitFor('5 of 5');
  expect([...app.output()].filter((char) => char > '\u007f')).toEqual([]);
});
