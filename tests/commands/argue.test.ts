import { describe, expect, test } from 'vitest';
import { essayGrid } from './grids.ts';
import { inkling, jsonLines, linesOf } from './run-inkling.ts';

/** Line 1333 of the random minimal grids (own construction): an X-wing of 1s stands in it as it comes. */
const grid = '.461...5......4.2.2....5..67.2..1....8.......4......92.1...2..3..7..3..5...8..9.7';
const xWing = 'r2c3<>1 r2c7<>1 r5c3<>1 r5c7<>1 by 1@c1 1@c9';

const json = async (statement: string, ...flags: string[]) => {
  const { code, stdout, stderr } = await inkling(['argue', '--json', ...flags, grid, statement]);
  return { code, stderr, json: JSON.parse(stdout) };
};

describe('inkling argue', () => {
  test('an argument that holds: 0, its name, weight and what is needed', async () => {
    expect(await json(xWing)).toEqual({
      code: 0,
      stderr: '',
      json: {
        schema: 1,
        holds: true,
        verdict: 'holds',
        technique: 'x-wing',
        weight: 2,
        needed: ['1@c1', '1@c9'],
      },
    });
  });

  test('one that does not: 1, with a place for each fact that leaves it open', async () => {
    const outcome = await json('r5c1<>3 by 3@r1 3@c8');
    expect(outcome).toMatchObject({ code: 1, json: { schema: 1, holds: false, verdict: 'open' } });
    expect(Object.keys(outcome.json)).toEqual(['schema', 'holds', 'verdict', 'arrangement']);
    const [first, second] = outcome.json.arrangement;
    expect([first, second]).toEqual([expect.stringMatching(/^r1c\d=3$/), expect.stringMatching(/^r\dc8=3$/)]);
  });

  test('other refusals say which', async () => {
    expect(await json('r1c1<>5 by 5@r1')).toMatchObject({
      code: 1,
      json: { schema: 1, holds: false, verdict: 'already-struck' },
    });
    expect((await json('r5c5=3 by 3@r1')).json).toEqual({
      schema: 1,
      holds: false,
      verdict: 'no-fact-holds-it',
    });
  });

  test('in words, the statement as one operand or word by word', async () => {
    const one = await inkling(['argue', grid, 'r5c1<>3 by 3@r1 3@c8']);
    expect([one.code, one.stderr]).toEqual([1, '']);
    expect(linesOf(one.stdout)).toEqual([
      'Does not hold.',
      'A  3 of row 1: c1, c5 or c7.',
      'B  3 of column 8: r3, r4 or r5.',
      expect.stringMatching(/^\* {2}Overlooked: r[34]c8\.$/),
      expect.stringMatching(/^= {2}With 3 in r1c[57] and r[34]c8, both facts hold and r5c1 can be 3\.$/),
    ]);
    expect(await inkling(['argue', grid, 'r5c1<>3', 'by', '3@r1', '3@c8'])).toEqual(one);
    expect(await inkling(['argue', '-', 'r5c1<>3 by 3@r1 3@c8'], { input: grid })).toEqual(one);
  });

  test('without Unicode no sign goes beyond ASCII', async () => {
    const { stdout } = await inkling(['argue', grid, xWing], { environment: { LANG: 'C', LC_ALL: 'C' } });
    expect(stdout).toContain('x  1 goes from r2c3 r2c7 r5c3 r5c7.');
    expect(stdout).toMatch(/^[\x20-\x7e\n]*$/);
  });

  test('many grids, one object a line, in input order; the code says that one was refused', async () => {
    const statement = 'r1c3<>1 by 1@c3 r1c3';
    const { code, stdout } = await inkling(['argue', '--jsonl', '-', statement], {
      input: `${essayGrid}\n${grid}\n`,
    });
    expect([code, jsonLines<{ holds: boolean }>(stdout).length]).toEqual([1, 2]);
  });

  test('a candidate that a table leaves out counts as ruled out', async () => {
    const { stdout: table } = await inkling(['convert', '--to', 'candidates', grid]);
    const before = await inkling(['argue', '--json', '-', 'r2c4<>3 by r1c1'], { input: table });
    expect(JSON.parse(before.stdout).verdict).toBe('open');
    const without = table.split('\n');
    without[2] = without[2].replace(/367(8?)9/, (_, eight) => `67${eight}9`);
    const { stdout } = await inkling(['argue', '--json', '-', 'r2c4<>3 by r1c1'], {
      input: without.join('\n'),
    });
    expect(JSON.parse(stdout).verdict).toBe('already-struck');
  });

  test('what cannot be read: 2, where, and what could stand there', async () => {
    const { code, stdout, stderr } = await inkling(['argue', grid, 'r5c1<>3 by 3@r1 3@q8']);
    expect([code, stdout]).toEqual([2, '']);
    expect(linesOf(stderr)).toEqual([
      'inkling: STATEMENT:1:19: found "q8"; expected a house such as r4, c2 or b5',
      '  r5c1<>3 by 3@r1 3@q8',
      '                    ^',
      "'inkling help argue' shows how",
    ]);
    for (const operands of [[], [grid]]) {
      const missing = await inkling(['argue', ...operands]);
      expect([missing.code, missing.stdout]).toEqual([2, '']);
      expect(missing.stderr).toContain('needs a grid and a statement');
    }
    expect((await inkling(['argue', 'no-such-file', xWing])).code).toBe(2);
  });
});
