import { describe, expect, test } from 'vitest';
import { catalogue } from '../../source/techniques/catalogue.ts';
import { essayGrid } from './grids.ts';
import { inkling, jsonLines, linesOf } from './run-inkling.ts';

/** Line 1333 of the random minimal grids (own construction): an X-wing of 1s stands in it as it comes. */
const grid = '.461...5......4.2.2....5..67.2..1....8.......4......92.1...2..3..7..3..5...8..9.7';

describe('inkling find', () => {
  test('every instance, what it strikes and what is new in it', async () => {
    const { code, stdout, stderr } = await inkling(['find', '--json', 'x-wing', grid]);
    expect([code, stderr]).toEqual([0, '']);
    const strikes = ['r2c3<>1', 'r2c7<>1', 'r5c3<>1', 'r5c7<>1', 'r5c8<>1'];
    expect(JSON.parse(stdout)).toEqual({
      schema: 1,
      instances: [{ technique: 'x-wing', facts: ['1@c1', '1@c9'], strikes, new: strikes }],
    });
  });

  test('what lighter arguments make anyway is not new', async () => {
    const { stdout } = await inkling(['find', '--json', 'empty-rectangle', grid]);
    const { instances } = JSON.parse(stdout);
    const known = instances.find(({ facts }: { facts: string[] }) => facts.join(' ') === '4@b9 4@r3');
    expect(known).toMatchObject({ strikes: ['r4c7<>4', 'r4c8<>4', 'r5c7<>4', 'r5c8<>4'], new: [] });
    const lighter = await inkling(['argue', '--json', grid, 'r4c7<>4 r4c8<>4 r5c7<>4 r5c8<>4 by 4@c9']);
    expect(JSON.parse(lighter.stdout)).toMatchObject({ holds: true, technique: 'claiming', weight: 1 });
  });

  test('placements where it places', async () => {
    const { code, stdout } = await inkling(['find', '--json', 'hidden-single', essayGrid]);
    expect(code).toBe(0);
    for (const { placements, strikes, new: fresh } of JSON.parse(stdout).instances) {
      expect([strikes, placements.length, fresh]).toEqual([[], 1, placements]);
    }
  });

  test('in words', async () => {
    const { stdout } = await inkling(['find', 'x-wing', grid]);
    expect(linesOf(stdout)).toEqual([
      'X-wing: 1 instance.',
      '',
      '1@c1 1@c9, 2 facts',
      '×  1 goes from r2c3 r2c7 r5c3 r5c7 r5c8.',
    ]);
  });

  test('none: 1', async () => {
    const outcome = await inkling(['find', 'swordfish', grid]);
    expect([outcome.code, outcome.stdout]).toEqual([1, 'Swordfish: none.\n']);
    expect((await inkling(['find', '--json', 'swordfish', grid])).stdout).toBe(
      '{"schema":1,"instances":[]}\n',
    );
  });

  test('many grids, one object a line', async () => {
    const { code, stdout } = await inkling(['find', '--jsonl', 'X-WING'], {
      input: `${grid}\n${essayGrid}\n`,
    });
    const counts = jsonLines<{ instances: unknown[] }>(stdout).map(({ instances }) => instances.length);
    expect([code, counts[0], counts.length]).toEqual([counts[1] === 0 ? 1 : 0, 1, 2]);
  });

  test('a table of candidates is the position', async () => {
    const { stdout: table } = await inkling(['convert', '--to', 'candidates', grid]);
    const { stdout } = await inkling(['find', '--json', 'x-wing', '-'], { input: table });
    expect(JSON.parse(stdout).instances).toHaveLength(1);
  });

  test('the names of the techniques; an unknown one says which are near', async () => {
    const list = await inkling(['find']);
    expect(list.code).toBe(0);
    expect(linesOf(list.stdout).map((line) => line.split(' ')[0])).toEqual(catalogue.map(({ id }) => id));
    const { code, stdout, stderr } = await inkling(['find', 'xwing', grid]);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toContain("did you mean 'x-wing'?");
  });
});
