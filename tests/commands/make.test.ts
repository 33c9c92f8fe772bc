import { describe, expect, test } from 'vitest';
import { gridForms } from '../../source/grid/write.ts';
import { coverCount } from '../judges/exact-cover.ts';
import { completes } from './grids.ts';
import { inkling, jsonLines, linesOf } from './run-inkling.ts';

interface Made {
  readonly puzzle: string;
  readonly givens: number;
  readonly solution: string;
  readonly symmetry: string;
  readonly seed: number;
  readonly number: number;
}

const minimal = (puzzle: string): boolean =>
  [...puzzle].every(
    (sign, cell) => sign === '.' || coverCount(`${puzzle.slice(0, cell)}.${puzzle.slice(cell + 1)}`) === 2,
  );

describe('make', () => {
  test('puzzles of a seed: one solution each, no given to spare; exact cover is the judge', async () => {
    const { code, stdout, stderr } = await inkling(['make', '--count', '12', '--seed', '3']);
    expect([code, stderr]).toEqual([0, '']);
    const puzzles = linesOf(stdout);
    expect(new Set(puzzles).size).toBe(12);
    for (const puzzle of puzzles) {
      expect(puzzle).toMatch(/^[.1-9]{81}$/);
      expect([coverCount(puzzle), minimal(puzzle)], puzzle).toEqual([1, true]);
    }
  });

  test('the same seed makes the same puzzles, a longer run goes on from a shorter one', async () => {
    const long = linesOf((await inkling(['make', '--count', '5', '--seed', '42'])).stdout);
    const short = linesOf((await inkling(['make', '--count=2', '--seed=42'])).stdout);
    const other = linesOf((await inkling(['make', '--count', '2', '--seed', '43'])).stdout);
    expect(short).toEqual(long.slice(0, 2));
    expect(other).not.toEqual(short);
  });

  test('a seed that was drawn is told on stderr, and makes the same puzzle again', async () => {
    const drawn = await inkling(['make']);
    const seed = /^inkling: seed (\d+)\n$/.exec(drawn.stderr)?.[1] ?? '';
    expect(await inkling(['make', '--seed', seed])).toEqual({ ...drawn, stderr: '' });
    const again = await inkling(['make']);
    expect(again.stderr).not.toBe(drawn.stderr);
  });

  test('--jsonl says what it was made from', async () => {
    const argv = ['make', '--count', '3', '--seed', '9', '--symmetry', 'half-turn', '--jsonl'];
    const made = jsonLines<Made>((await inkling(argv)).stdout);
    expect(made.map(({ number }) => number)).toEqual([1, 2, 3]);
    for (const { puzzle, givens, solution, symmetry, seed } of made) {
      expect([symmetry, seed, givens]).toEqual(['half-turn', 9, puzzle.replaceAll('.', '').length]);
      expect(completes(puzzle, solution)).toBe(true);
      expect(coverCount(puzzle)).toBe(1);
      const shape = [...puzzle].map((sign) => sign === '.');
      expect(shape.toReversed()).toEqual(shape);
    }
    const one = await inkling(['make', '--seed', '9', '--symmetry', 'half-turn', '--json']);
    expect(JSON.parse(one.stdout)).toEqual(made[0]);
  });

  test.each(gridForms.map(({ name }) => [name]))('two puzzles as %s read back', async (form) => {
    const argv = ['make', '--count', '2', '--seed', '5'];
    const { stdout } = await inkling([...argv, '--form', form]);
    const back = await inkling(['convert', '--to', 'line', '-'], { input: stdout });
    expect(back.stdout).toBe((await inkling(argv)).stdout);
  });

  test.each([
    [['--count', '0'], "--count cannot be '0'", 'a whole number from 1'],
    [['--count', '1.5'], "--count cannot be '1.5'", 'a whole number'],
    [['--count', '1e3'], "--count cannot be '1e3'", ''],
    [['--seed', '4294967296'], "--seed cannot be '4294967296'", 'from 0 to 4294967295'],
    [['--seed', 'luck'], "--seed cannot be 'luck'", ''],
    [['--seed'], '--seed needs a value', ''],
    [['--symmetry', 'mirror'], "--symmetry does not know 'mirror'", 'left-right'],
    [['--json', '--count', '2'], '--json prints one object', '--jsonl'],
    [['--json', '--jsonl'], '--json and --jsonl are both given', ''],
    [['puzzle.txt'], 'takes no operand, but one is given', "'inkling help make' shows how"],
  ])('inkling make %j is refused', async (flags, message, next) => {
    const { code, stdout, stderr } = await inkling(['make', ...flags]);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toContain(message);
    expect(stderr).toContain(next);
  });
});
