import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { aboutLayouts } from '../../source/commands/common-flags.ts';
import { findLayout, layoutNames } from '../../source/commands/layouts.ts';
import type { Layout } from '../../source/grid/layout.ts';
import { parseDigit } from '../../source/grid/names.ts';
import { Position } from '../../source/grid/position.ts';
import { coverSolutions } from '../judges/exact-cover.ts';
import { essayGrid } from './grids.ts';
import { inkling, jsonLines, linesOf } from './run-inkling.ts';

const root = new URL('../../', import.meta.url);
const folder = mkdtempSync(join(tmpdir(), 'inkling-layout-'));
const others = layoutNames(root).filter((name) => name !== 'plain');
beforeAll(() => {
  writeFileSync(join(folder, 'cross.txt'), 'size 4\nboxes 2x2\ndiagonals\n');
  writeFileSync(join(folder, 'wrong.txt'), 'size 4\nboxes 2x3\n');
});
afterAll(() => rmSync(folder, { recursive: true }));

const named = async (name: string): Promise<Layout> => {
  const layout = await findLayout(name, root);
  if ('message' in layout) throw new Error(layout.message);
  return layout;
};

describe('other layouts on the command line', () => {
  test('the help names each that comes with the program', () => {
    expect(others).toHaveLength(6);
    for (const name of others) expect(aboutLayouts).toContain(name);
  });

  test.each(others)('%s: made, checked, converted and hinted at; exact cover is the judge', async (name) => {
    const layout = await named(name);
    const flags = ['--layout', name];
    const made = await inkling([
      'make',
      ...flags,
      '--seed',
      '4',
      '--jsonl',
      '--count',
      name === '16x16' ? '1' : '3',
    ]);
    const puzzles = jsonLines<{ puzzle: string; solution: string }>(made.stdout);
    for (const { puzzle, solution } of puzzles) {
      const digits = Array.from(puzzle, (sign) => parseDigit(layout, sign) ?? 0);
      const filled = Array.from(solution, (sign) => parseDigit(layout, sign));
      expect(coverSolutions(Position.from(layout, digits), 2).map((found) => [...found])).toEqual([filled]);
    }
    const input = puzzles.map(({ puzzle }) => `${puzzle}\n`).join('');
    const checked = await inkling(['check', ...flags, '--jsonl', '-'], { input });
    expect(checked.code).toBe(0);
    expect(jsonLines<object>(checked.stdout)).toMatchObject(
      puzzles.map(({ puzzle, solution }) => ({ puzzle, solution, verdict: 'one' })),
    );
    const [{ puzzle }] = puzzles;
    const hint = await inkling(['hint', ...flags, '--rung', 'why', '--json', '-'], { input: puzzle });
    expect([hint.code, hint.stderr]).toEqual([0, '']);
    for (const form of ['boxes', 'candidates']) {
      const written = await inkling(['convert', ...flags, '--to', form, '-'], { input: puzzle });
      const back = await inkling(['convert', ...flags, '--to', 'line', '-'], { input: written.stdout });
      expect([form, back.stdout]).toEqual([form, `${puzzle}\n`]);
    }
  });

  test('a layout of a file: 4x4 whose diagonals hold every digit', async () => {
    const { code, stdout } = await inkling(['check', '--layout', 'cross.txt', '--json', '12..............'], {
      folder,
    });
    const { verdict, witnesses } = JSON.parse(stdout);
    expect([code, verdict]).toEqual([1, 'several']);
    for (const witness of witnesses as string[]) {
      const at = (cells: number[]) => new Set(cells.map((cell) => witness[cell])).size;
      expect([at([0, 5, 10, 15]), at([3, 6, 9, 12]), witness.slice(0, 2)]).toEqual([4, 4, '12']);
    }
    const clash = await inkling(['check', '--layout', 'cross.txt', '1....1..........'], { folder });
    expect(linesOf(clash.stdout)[1]).toBe('1 stands twice in box 1: r1c1 r2c2');
    const far = await inkling(['check', '--layout', 'cross.txt', '1..............1'], { folder });
    expect(linesOf(far.stdout)[1]).toBe('1 stands twice in diagonal 1: r1c1 r4c4');
  });

  test('threads take the layout too', async () => {
    const { stdout } = await inkling(['make', '--layout', '4x4', '--seed', '1', '--count', '200']);
    const input = stdout.repeat(100);
    const [one, two] = [
      await inkling(['check', '--layout', '4x4', '--jsonl', '--jobs', '1', '-'], { input }),
      await inkling(['check', '--layout', '4x4', '--jsonl', '--jobs', '2', '-'], { input }),
    ];
    expect(linesOf(two.stdout)).toHaveLength(20_000);
    expect(two).toEqual(one);
    expect(two.code).toBe(0);
  });

  test('the workbench says plainly that it draws the plain layout alone', async () => {
    const { code, stdout, stderr } = await inkling(['--layout', '6x6']);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toContain("the workbench can not draw the layout '6x6'");
    expect(stderr).toContain('check, hint, convert and make take every layout');
  });

  test.each([
    [['check', '--layout', '6X', essayGrid], "--layout does not know '6X'", '6x6'],
    [['check', '--layout', 'wrong.txt', essayGrid], 'wrong.txt:2:1: found "2x3"', 'inkling help check'],
    [['check', '--layout', '', essayGrid], '--layout needs a value', 'a file'],
    [['check', '--layout', '6x6', essayGrid], 'a digit from 1 to 6', ''],
  ])('inkling %j is refused', async (argv, message, next) => {
    const { code, stdout, stderr } = await inkling(argv, { folder });
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(new RegExp(message));
    expect(stderr).toContain(next);
  });
});

test('where the layouts are gone, the plain one is left', () => {
  expect(layoutNames(new URL('nowhere/', root))).toEqual(['plain']);
});
