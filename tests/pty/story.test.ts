import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { afterEach, describe, expect, test } from 'vitest';
import { type App, closeAll, digitsOn, hasPlaced, openInkling, placedOn } from './harness.ts';

/*
 * One puzzle from paste to solved, by keys alone: on the screen, and the same story without a screen. The
 * puzzle is Brayer, which ships with the program. Its weight is 2: singles and locked candidates are not
 * enough. Its solution is checked against the rules, not against the program.
 */
const file = fileURLToPath(new URL('../../puzzles/05-brayer.txt', import.meta.url));
const rows = readFileSync(file, 'utf8')
  .split('\n')
  .filter((line) => /^[1-9.]{9}$/.test(line));
const brayer = rows.join('\n');
/** Something else to begin with. */
const empty = '.'.repeat(81);

/** Every row, column and box holds all nine digits, and the givens stand where they stood. */
function expectSolved(line: string): void {
  expect(line).toMatch(/^[1-9]{81}$/);
  const cells = Array.from({ length: 81 }, (_, cell) => cell);
  const houses = Array.from({ length: 9 }, (_, index) => [
    cells.filter((cell) => Math.floor(cell / 9) === index),
    cells.filter((cell) => cell % 9 === index),
    cells.filter((cell) => Math.floor(cell / 27) * 3 + Math.floor((cell % 9) / 3) === index),
  ]).flat();
  for (const house of houses) expect(new Set(house.map((cell) => line[cell])).size).toBe(9);
  for (const [cell, given] of [...rows.join('')].entries()) {
    if (given !== '.') expect(line[cell]).toBe(given);
  }
}

afterEach(closeAll);

describe('Brayer, from paste to solved', () => {
  test('on the screen, by keys alone', { timeout: 60_000 }, async () => {
    const app = openInkling([empty], { env: { COLORTERM: 'truecolor', COLORFGBG: '15;0' } });
    await app.waitFor('? keys');

    // She pastes the grid that a friend has sent her, looks at it, and opens it.
    app.paste(brayer);
    await app.waitFor('28 givens');
    app.press('return');
    await app.waitFor(hasPlaced(28));

    // She places what is plain to see, a round at a time, until nothing is.
    await takeSingles(app);
    expect(app.text()).toContain('No single here.');
    const plain = placedOn(app);
    expect(plain).toBeGreaterThan(45);

    // She goes to a cell and writes a 9 into it that its box has already. It says so at once, and how to take it
    // back.
    app.press('g', '5', '5', '9');
    await app.waitFor('twice');
    expect(app.text()).toMatch(/(Row|Column|Box) \d has 9/);
    await app.waitFor('u  takes back r5c5=9');
    app.press('u');
    await app.waitFor((at) => placedOn(at) === plain && !at.text().includes('twice'));

    // She notes all candidates and is stuck. A first hint: where to look. It says no more than that.
    app.press('a', 'w');
    await app.waitFor('1 of 5');
    expect(app.text()).toMatch(/Look at (row|column|box) \d\./);
    expect(app.text()).not.toMatch(/Claiming|goes from/);
    // She does not see it, asks on to the end, and takes the step.
    app.press('w', 'w', 'w', 'w');
    await app.waitFor('5 of 5');
    expect(app.text()).toContain('Hint  why');
    app.press('return');
    await app.waitFor((at) => !at.text().includes('Hint  why'));

    // A second hint. This time two rungs are enough for her to know, so she leaves it.
    app.press('w', 'w');
    await app.waitFor('2 of 5');
    app.press('escape');
    await app.waitFor((at) => !at.text().includes('2 of 5'));

    // She thinks that the 2s of row 7 and of column 5 rule out a 2, and has that judged before she says it.
    app.type(':r5c3<>2 by 2@r7 2@c5');
    await app.waitFor(': r5c3<>2 by 2@r7 2@c5');
    app.press('return');
    await app.waitFor('Argument holds');
    expect(app.text()).toMatch(/Holds\. Two-string/);
    expect(app.text()).toContain('2 goes from r5c3.');
    // It holds. She strikes it with the pen, in the cell itself.
    app.press('escape', 'g', '5', '3', 'o', '2', 'i');
    await app.waitFor((at) => at.screen()[10].includes('·'));

    // From here it falls.
    await takeSingles(app);
    await app.waitFor(hasPlaced(81));
    expect(app.text()).toContain('Solved.');
    expectSolved(digitsOn(app));

    // She leaves.
    app.press('q');
    if ((await settled(app)).includes('again quits')) app.press('q');
    await quitted(app);
  });

  test('without a screen, by the same keys and lines', { timeout: 60_000 }, async () => {
    const app = openInkling(['--plain', empty], { cols: 100, rows: 200 });
    await app.waitFor('help tells what can be typed');
    const said = lineByLine(app);

    for (const line of ['paste', ...rows]) app.type(`${line}\r`);
    await said('', 'Pasted grid: 28 givens, one solution.');
    await said('open', 'Opened.');
    await said('row 1', 'Row 1: 2, 7, 3, open, open, open, open, 5, open.');

    await said('x', /\d+ singles? placed\./);
    while (!(await said('x', /\d+ singles? placed\.|No single here\./)).includes('No single here.'));

    await said('r5c5', 'Row 5 column 5 is open');
    expect(await said('9', 'takes back')).toMatch(/Slip: (Row|Column|Box) \d has 9 twice/);
    await said('u', 'No slip any more.');

    await said('a', 'All candidates are noted.');
    const where = await said('w', 'Hint 1 of 5, where.');
    expect(where).toMatch(/Look at (row|column|box) \d\./);
    expect(where).not.toMatch(/Claiming|goes from/);
    for (const [index, rung] of ['digits', 'pattern', 'cells', 'why'].entries()) {
      await said('w', `Hint ${index + 2} of 5, ${rung}.`);
    }
    await said('take', /Struck: |Row \d column \d is \d/);

    await said('w', 'Hint 1 of 5, where.');
    await said('w', 'Hint 2 of 5, digits.');
    await said('leave', 'Left.');

    const judged = await said('r5c3<>2 by 2@r7 2@c5', '2 goes from row 5 column 3.');
    expect(judged).toMatch(/Holds\. Two-string kite, 2 facts\./);
    await said('leave', 'Left.');
    await said('r5c3', 'Row 5 column 3 is open');
    await said('o', 'Pen: strike.');
    await said('2', 'Struck: 2 in row 5 column 3.');
    await said('i', 'Pen: ink.');

    let told = '';
    while (!told.includes('Solved.')) told = await said('x', /Solved\.|\d+ singles? placed\./);
    await said('show', '81 placed, 0 open.');
    const line = (await said('copy-grid', 'That is it as text.')).match(/[1-9]{81}/)?.[0] ?? '';
    expectSolved(line);

    app.type('q\r');
    if ((await settled(app)).includes('again quits')) app.type('q\r');
    expect(await app.exit).toMatchObject({ code: 0 });
    // Nothing but text went out: no escape sequence, no line drawn, nothing taken back.
    expect(app.output()).toMatch(/^[ -~\r\n]*$/);
  });
});

/** Presses the key for all singles until there are none. */
async function takeSingles(app: App): Promise<void> {
  for (let before = -1; before !== placedOn(app) && placedOn(app) < 81; ) {
    before = placedOn(app);
    app.press('x');
    await app.waitFor((at) => placedOn(at) > before || at.text().includes('No single here.'));
  }
}

/**
 * Types a line and gives back what is said to it: everything up to the next prompt, without the line itself.
 * Waits until what is wanted is in there.
 */
function lineByLine(app: App): (line: string, wanted: string | RegExp) => Promise<string> {
  let read = app.output().length;
  return async (line, wanted) => {
    const fits = (said: string) => (typeof wanted === 'string' ? said.includes(wanted) : wanted.test(said));
    app.type(`${line}\r`);
    let said = '';
    await app.waitFor(() => {
      said = app.output().slice(read);
      return said.endsWith('\n: ') && fits(said);
    });
    read = app.output().length;
    return said;
  };
}

/** Waits until the program asks back or has gone; gives back all that it said. */
async function settled(app: App): Promise<string> {
  const asked = app.waitFor((at) => at.output().includes('again quits')).catch(() => undefined);
  await Promise.race([app.exit, asked]);
  return app.output();
}

/** The screen is given back, and the program has gone in good order. */
async function quitted(app: App): Promise<void> {
  expect(await app.exit).toMatchObject({ code: 0 });
  expect(app.modes().alternateScreen).toBe(false);
}
