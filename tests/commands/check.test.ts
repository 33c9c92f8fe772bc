import { describe, expect, test } from 'vitest';
import { plain } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';
import { satSolutions } from '../judges/sat.ts';
import { hasPublished, publishedFolder, publishedNote, readPublishedSet } from '../published.ts';
import {
  clashing,
  completes,
  essayGrid,
  essaySolution,
  fiveSolutions,
  manySolutions,
  noSolution,
  thirtySolutions,
  twoSolutions,
} from './grids.ts';
import { inkling, jsonLines, linesOf } from './run-inkling.ts';

interface Checked {
  readonly puzzle: string;
  readonly verdict: string;
  readonly solution?: string;
  readonly witnesses?: string[];
}

describe('one grid in words', () => {
  test('one solution', async () => {
    const outcome = await inkling(['check', essayGrid]);
    expect(outcome).toEqual({
      code: 0,
      signal: null,
      stdout: `One solution.\n${essaySolution}\n`,
      stderr: '',
    });
  });

  test('no solution', async () => {
    const outcome = await inkling(['check', noSolution]);
    expect(outcome).toEqual({ code: 1, signal: null, stdout: 'No solution.\n', stderr: '' });
  });

  test('several solutions: two of them, and where they differ', async () => {
    const { code, stdout } = await inkling(['check', twoSolutions]);
    expect(code).toBe(1);
    const [head, one, other, difference] = linesOf(stdout);
    expect(head).toBe('Several solutions. Two of them:');
    expect(new Set([one, other])).toEqual(
      new Set([
        essaySolution,
        '534768912672195348198342567859671423426853791713924856961537284287419635345286179',
      ]),
    );
    expect(difference).toBe('They differ in 4 cells: r1c4 r1c5 r4c4 r4c5');
  });

  test('givens that clash, each house named', async () => {
    const { code, stdout } = await inkling(['check', clashing]);
    expect(code).toBe(1);
    expect(stdout).toBe('The givens clash.\n1 stands twice in box 5: r5c6 r6c5\n');
  });

  test('a table of candidates that leaves the solution out', async () => {
    const table = await inkling(['convert', '--to', 'candidates', essayGrid]);
    const whole = await inkling(['check', '-'], { input: table.stdout });
    expect(linesOf(whole.stdout)).toEqual(['One solution.', essaySolution]);
    // r1c3 is 4; its list is 1, 2, 4.
    const struck = table.stdout.replace('124 ', '12  ');
    const { code, stdout } = await inkling(['check', '-'], { input: struck });
    expect(code).toBe(1);
    expect(linesOf(stdout)).toEqual([
      'No solution with these candidates.',
      'The digits that are placed, by themselves, have one.',
    ]);
  });
});

describe('JSON, as the contract has it', () => {
  const golden: readonly (readonly [name: string, grid: string, code: number, json: object])[] = [
    [
      'one',
      essayGrid,
      0,
      { schema: 1, puzzle: essayGrid, givens: 30, verdict: 'one', solution: essaySolution },
    ],
    ['none', noSolution, 1, { schema: 1, puzzle: noSolution, givens: 17, verdict: 'none' }],
    [
      'clash',
      clashing,
      1,
      {
        schema: 1,
        puzzle: clashing,
        givens: 28,
        verdict: 'clash',
        clashes: [{ house: 'b5', digit: 1, cells: ['r5c6', 'r6c5'] }],
      },
    ],
  ];
  test.each(golden)('%s', async (_name, grid, code, json) => {
    const outcome = await inkling(['check', '--json', grid]);
    expect(outcome).toEqual({ code, signal: null, stdout: `${JSON.stringify(json)}\n`, stderr: '' });
  });

  test('several has two witnesses', async () => {
    const { code, stdout } = await inkling(['check', '--json', twoSolutions]);
    expect(code).toBe(1);
    const { witnesses, ...rest } = JSON.parse(stdout);
    expect(rest).toEqual({ schema: 1, puzzle: twoSolutions, givens: 77, verdict: 'several' });
    expect(new Set(witnesses).size).toBe(2);
    expect(witnesses.every((witness: string) => completes(twoSolutions, witness))).toBe(true);
  });

  test('redundant givens only where they are asked for', async () => {
    expect(JSON.parse((await inkling(['check', '--json', essayGrid])).stdout)).not.toHaveProperty(
      'redundant',
    );
    const { stdout } = await inkling(['check', '--json', '--redundant', essayGrid]);
    const { redundant } = JSON.parse(stdout) as { redundant: string[] };
    // By the definition: the grid without the given has one solution, and without any other it has not.
    const cells = [...essayGrid].map((_, cell) => cell).filter((cell) => essayGrid[cell] !== '.');
    const without = cells.map((cell) => `${essayGrid.slice(0, cell)}.${essayGrid.slice(cell + 1)}`);
    const answers = jsonLines<Checked>(
      (await inkling(['check', '--jsonl'], { input: without.join('\n') })).stdout,
    );
    const names = cells.map((cell) => `r${Math.floor(cell / 9) + 1}c${(cell % 9) + 1}=${essayGrid[cell]}`);
    expect(redundant).toEqual(names.filter((_, index) => answers[index].verdict === 'one'));
    expect(redundant.length).toBeGreaterThan(0);
  });
});

describe('grids with a published number of solutions', () => {
  // Sources beside each grid in grids.ts.
  test.each([
    ['0', noSolution],
    ['2', twoSolutions],
    ['5', fiveSolutions],
    ['30', thirtySolutions],
    ['148,357,268', manySolutions],
  ])('%s', async (count, grid) => {
    const { code, stdout } = await inkling(['check', '--json', grid]);
    const { verdict, witnesses = [] } = JSON.parse(stdout) as Checked;
    expect(code).toBe(1);
    expect(verdict).toBe(count === '0' ? 'none' : 'several');
    expect(new Set(witnesses).size).toBe(count === '0' ? 0 : 2);
    expect(witnesses.every((witness) => completes(grid, witness))).toBe(true);
  });
});

describe.skipIf(!hasPublished)(`published sets${publishedNote}`, () => {
  // Sources: published/README.md. The seventeen-clue set is in tests/deep.
  test.each([
    ['top-95.txt', 95],
    ['hard-187.txt', 187],
    ['euler96-50.txt', 50],
    ['cp-examples-33.txt', 33],
    ['random-minimal-2000.txt', 2000],
  ])('%s: one solution on every line', async (name, count) => {
    const grids = readPublishedSet(name);
    expect(grids.length).toBe(count);
    const { code, stdout } = await inkling(['check', '--jsonl', `${publishedFolder}/data/${name}`]);
    expect(code).toBe(0);
    const answers = jsonLines<Checked>(stdout);
    expect(answers.map(({ puzzle }) => puzzle)).toEqual(grids.map((grid) => grid.slice(0, 81)));
    expect(answers.filter(({ verdict }) => verdict !== 'one')).toEqual([]);
    expect(answers.filter(({ puzzle, solution = '' }) => !completes(puzzle, solution))).toEqual([]);
  });

  test('contradictory-hard.txt: no solution, but for lines whose solution is shown', async () => {
    // Source: published/README.md, own construction. It says that none of these grids has a solution; lines
    // 1 and 2 have one each, as anyone can see by filling it in, so the claim is tested line by line.
    const grids = readPublishedSet('contradictory-hard.txt');
    const { stdout } = await inkling(['check', '--jsonl', `${publishedFolder}/data/contradictory-hard.txt`]);
    const answers = jsonLines<Checked>(stdout);
    expect(answers.map(({ puzzle }) => puzzle)).toEqual(grids);
    for (const { puzzle, verdict, solution = '' } of answers) {
      const givens = Array.from(puzzle, (sign) => (sign === '.' ? 0 : Number(sign)));
      const judged = satSolutions(Position.from(plain, givens), 2);
      expect(verdict, puzzle).toBe(judged.length === 0 ? 'none' : 'one');
      if (verdict !== 'none') expect(completes(puzzle, solution), puzzle).toBe(true);
    }
    expect(answers.filter(({ verdict }) => verdict === 'none').length).toBeGreaterThanOrEqual(8);
  });

  test('Project Euler 96: the sum of the top left numbers of its 50 solutions is 24702', async () => {
    // Source: Project Euler, problem 96 (the value from memory, recomputed).
    const { stdout } = await inkling(['check', '--jsonl', `${publishedFolder}/data/euler96-50.txt`]);
    const corners = jsonLines<Checked>(stdout).map(({ solution = '' }) => Number(solution.slice(0, 3)));
    expect(corners.reduce((sum, corner) => sum + corner, 0)).toBe(24702);
  });
});

describe('what is answered on request', () => {
  test('minimality and symmetry', async () => {
    const { stdout } = await inkling(['check', '--minimal', '--symmetries', essayGrid]);
    // The essay's grid, by eye: turned upside down its givens stand in the same cells.
    expect(linesOf(stdout).slice(2)).toEqual([
      'Not every given is needed.',
      'Symmetries of the cells of the givens: half-turn',
    ]);
    const seventeen = '000000010400000000020000000000050407008000300001090000300400200050100000000806000';
    const json = JSON.parse((await inkling(['check', '--json', '--minimal', seventeen])).stdout);
    // Seventeen givens are the fewest (McGuire, Tugemann and Civario 2012), so none can go.
    expect(json).toMatchObject({ givens: 17, verdict: 'one', minimal: true });
  });

  test.each([
    // What their sources say; see grids.ts.
    [fiveSolutions, 5],
    [thirtySolutions, 30],
    [twoSolutions, 2],
    [essayGrid, 1],
    [noSolution, 0],
  ])('how many solutions %s has', async (grid, wanted) => {
    const asked = async (count: number) =>
      JSON.parse((await inkling(['check', '--solutions', `${count}`, '--json', grid])).stdout);
    expect(await asked(1000)).toMatchObject({ count: wanted, more: false });
    if (wanted > 1) expect(await asked(wanted - 1)).toMatchObject({ count: wanted - 1, more: true });
    if (wanted > 0) expect(await asked(wanted)).toMatchObject({ count: wanted, more: false });
  });

  test('of many solutions so many are counted as is said, and how to count further', async () => {
    const { code, stdout } = await inkling(['check', '--solutions', '1000', manySolutions]);
    expect(code).toBe(1);
    expect(stdout).toContain('More than 1,000 solutions; --solutions N sets how far they are counted.');
  });

  test('what settles a grid with several solutions', async () => {
    const { code, stdout } = await inkling(['check', '--settle', twoSolutions]);
    expect(code).toBe(1);
    expect(linesOf(stdout).slice(-2)).toEqual([
      'Cells that are not the same in all solutions: r1c4 r1c5 r4c4 r4c5',
      'One further given leaves one solution: r1c4=6, r1c4=7, r1c5=6, r1c5=7, r4c4=6, r4c4=7, r4c5=6, r4c5=7',
    ]);
    const json = JSON.parse((await inkling(['check', '--settle', '--json', twoSolutions])).stdout);
    expect(json.settle.atLeast).toBe(1);
    expect(JSON.parse((await inkling(['check', '--settle', '--json', essayGrid])).stdout)).not.toHaveProperty(
      'settle',
    );
  });
});
