import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { check } from '../../source/argument/kernel.ts';
import { pathOfGrid } from '../../source/commands/path.ts';
import { readGrid } from '../../source/grid/read.ts';
import { take } from '../../source/path/next.ts';
import { satSolutions } from '../judges/sat.ts';
import { positionFrom } from './follow-hints.ts';
import { clashing, essayGrid, essaySolution, noSolution, twoSolutions } from './grids.ts';
import { faultOf, type PrintedArgument, readArgument } from './judge-hint.ts';
import { inkling, jsonLines, linesOf } from './run-inkling.ts';

/** J. F. Crook's first worked example (Notices of the AMS 56(4), 2009). */
const crook = '.395........8...7.....1.9.41..4....3...........7...86...67.82...1..9...5.....1..8';
/** The published random-minimal-2000 set, line 257. */
const heavy = '...7.5......2.......3..8.4........7.56....9.3..7..32...45...1..82..9...59...1..82';

interface PrintedPath {
  readonly puzzle: string;
  readonly solved: boolean;
  readonly heaviest: number;
  readonly steps: readonly (PrintedArgument & {
    readonly available: number;
    readonly releases: number;
    readonly essential: boolean;
  })[];
  readonly contour: readonly number[];
  readonly bottlenecks: readonly number[];
  readonly meetings: readonly unknown[];
}

const asked = new Map<string, Promise<PrintedPath>>();

/** The path of a grid as the program prints it, asked for once. */
function pathFor(grid: string, ...flags: string[]): Promise<PrintedPath> {
  const key = [grid, ...flags].join(' ');
  const path =
    asked.get(key) ??
    inkling(['path', '--json', ...flags, grid]).then(({ stdout }) => JSON.parse(stdout) as PrintedPath);
  asked.set(key, path);
  return path;
}

const folder = mkdtempSync(join(tmpdir(), 'paths-'));
afterAll(() => rmSync(folder, { recursive: true }));
const fileOf = (value: unknown): string => {
  const name = join(folder, 'path.json');
  writeFileSync(name, JSON.stringify(value));
  return name;
};

describe('path', () => {
  test.each([crook, heavy])('of %s: applied in order, the steps end in the solution', async (grid) => {
    const path = await pathFor(grid);
    const [solution] = satSolutions(positionFrom(grid), 1);
    expect(path).toMatchObject({ schema: 1, puzzle: grid, solved: true });
    let position = positionFrom(grid);
    for (const step of path.steps) {
      expect(faultOf(position, step)).toBeNull();
      const verdict = check(position, readArgument(position, step));
      if (verdict.verdict !== 'holds') throw new Error(verdict.verdict);
      position = take(position, verdict.checked);
    }
    expect([...position.placed]).toEqual([...solution]);
    expect(path.contour).toEqual(path.steps.map(({ weight }) => weight));
    expect(path.heaviest).toBe(Math.max(...path.contour));
    for (const { placements, strikes, assumes } of path.steps) {
      expect(placements.length === 0).not.toBe(strikes.length === 0);
      expect(assumes).toBe('nothing');
    }
  });

  test('keys are those of the contract, in its order', async () => {
    const path = await pathFor(crook);
    expect(Object.keys(path)).toEqual([
      'schema',
      'puzzle',
      'solved',
      'heaviest',
      'steps',
      'contour',
      'bottlenecks',
      'meetings',
    ]);
    expect(Object.keys(path.steps[0])).toEqual(
      'technique facts placements strikes assumes weight available releases essential'.split(' '),
    );
  });

  test('golden: the first steps of the essay’s grid', async () => {
    const { steps, solved } = await pathFor(essayGrid);
    expect(solved).toBe(true);
    expect(steps).toHaveLength(51);
    for (const { placements } of steps) {
      const [, row, column, digit] = /^r(\d)c(\d)=(\d)$/.exec(placements[0]) ?? [];
      expect(essaySolution[(Number(row) - 1) * 9 + Number(column) - 1]).toBe(digit);
    }
    const { technique, facts, placements, strikes, weight, essential } = steps[steps.length - 1];
    expect({ technique, strikes, weight, essential }).toEqual({
      technique: 'full-house',
      strikes: [],
      weight: 1,
      essential: true,
    });
    expect([facts.length, placements.length]).toEqual([1, 1]);
  });

  test('as text: what it is like, the contour, and every step with its number', async () => {
    const { code, stdout } = await inkling(['path', crook]);
    expect(code).toBe(0);
    const lines = linesOf(stdout);
    const { steps, contour } = await pathFor(crook);
    expect(lines[0]).toBe(`Solved in ${steps.length} steps.`);
    expect(lines[1]).toBe('The heaviest rests on two facts.');
    const line = lines.find((text) => /^[▁-█]+$/.test(text)) ?? '';
    expect([...line]).toHaveLength(contour.length);
    for (const [index] of steps.entries()) {
      expect(lines.filter((text) => text.startsWith(`${index + 1} `))).toHaveLength(1);
    }
    const ascii = await inkling(['path', crook], { environment: { LANG: 'C' } });
    expect(ascii.stdout).toMatch(/^[\x20-\x7e\n]*$/);
    expect(linesOf(ascii.stdout)).toContain(contour.join(''));
  });

  test('as Markdown: a numbered list', async () => {
    const { code, stdout } = await inkling(['path', '--format', 'markdown', crook]);
    expect(code).toBe(0);
    const { steps } = await pathFor(crook);
    const numbered = linesOf(stdout).filter((line) => /^\d+\. \*\*/.test(line));
    expect(numbered.map((line) => Number.parseInt(line, 10))).toEqual(steps.map((_, i) => i + 1));
    expect(stdout).toContain(`\`\`\`\n${crook}\n\`\`\``);
  });

  test('with --proved nothing lighter was missed: never heavier, and still the solution', async () => {
    const [plain, proved] = [await pathFor(heavy), await pathFor(heavy, '--proved')];
    expect(proved.solved).toBe(true);
    expect(proved.heaviest).toBeLessThanOrEqual(plain.heaviest);
  });

  test('that does not solve says so with exit code 1', async () => {
    const { code, stdout } = await inkling(['path', '--json', twoSolutions]);
    expect(code).toBe(1);
    expect(JSON.parse(stdout)).toMatchObject({ solved: false, steps: [], contour: [] });
    expect((await inkling(['path', twoSolutions])).stdout).toMatch(
      /^Not solved: no step was found\.\nThe grid has several solutions, so no argument leads to one of them\.\n/,
    );
    for (const grid of [noSolution, clashing]) {
      const none = await inkling(['path', grid]);
      expect(none.code).toBe(1);
      expect(none.stdout).toMatch(/^Not solved: .*\nThe grid has no solution\.\n/);
    }
  });

  test('many grids with --jsonl, in their order; --json with many is a usage error that says so', async () => {
    const grids = [crook, essayGrid, twoSolutions];
    const many = await inkling(['path', '--jsonl'], { input: grids.join('\n') });
    expect(many.code).toBe(1);
    expect(jsonLines<PrintedPath>(many.stdout).map(({ puzzle }) => puzzle)).toEqual(grids);
    const wrong = await inkling(['path', '--json'], { input: grids.join('\n') });
    expect(wrong.code).toBe(2);
    expect(wrong.stderr).toContain('--jsonl');
  });

  test('starts from a table of candidates as it stands', async () => {
    const read = readGrid((await inkling(['convert', '--to', 'candidates', crook])).stdout);
    if (!read.ok) throw new Error(read.error.message);
    expect(pathOfGrid(read.value).json).toEqual(await pathFor(crook));
  });
});

describe('verify', () => {
  test('accepts what path prints, one or many', async () => {
    const path = await pathFor(heavy);
    const { length } = path.steps;
    const text = await inkling(['verify', fileOf(path)]);
    expect([text.code, text.stderr]).toEqual([0, '']);
    expect(text.stdout).toMatch(/^All \d+ steps accepted\.\n$/);
    const json = await inkling(['verify', '--json', '-'], { input: JSON.stringify(path) });
    expect(json.code).toBe(0);
    expect(JSON.parse(json.stdout)).toEqual({ schema: 1, steps: length, accepted: length, refused: [] });
    const paths = await inkling(['path', '--jsonl'], { input: `${crook}\n${heavy}\n` });
    const many = await inkling(['verify', '--jsonl'], { input: paths.stdout });
    expect([many.code, jsonLines<{ refused: unknown[] }>(many.stdout).map(({ refused }) => refused)]).toEqual(
      [0, [[], []]],
    );
  });

  test('names fact and candidate of a step that was changed or moved', async () => {
    const path = await pathFor(crook);
    const index = path.steps.findIndex(({ facts }) => facts.length === 2);
    const step = path.steps[index];
    const changed = { ...step, facts: [step.facts[0], 'r1c1'] };
    const steps = path.steps.map((old, i) => (i === index ? changed : old));
    const fact = await inkling(['verify', fileOf({ ...path, steps })]);
    expect(fact.code).toBe(1);
    expect(fact.stdout).toContain(`Step ${index + 1}: ${step.strikes[0]} is left open by `);
    const moved = [path.steps[path.steps.length - 1], ...path.steps.slice(0, -1)];
    const order = await inkling(['verify', '--json', fileOf({ ...path, steps: moved })]);
    expect(order.code).toBe(1);
    const [last] = moved;
    expect(JSON.parse(order.stdout).refused[0]).toMatchObject({
      step: 1,
      reason: 'open',
      candidate: last.placements[0],
      fact: last.facts[0],
    });
  });

  test('says in whole sentences why a step is refused', async () => {
    const path = await pathFor(crook);
    const [first, second] = path.steps;
    const told = async (steps: unknown[], more = {}) => {
      const { code, stdout } = await inkling(['verify', fileOf({ ...path, steps, solved: false, ...more })]);
      expect(code).toBe(1);
      return stdout.split('\n');
    };
    const [placed] = first.placements;
    expect(await told([first, first])).toEqual([
      'One of two steps accepted.',
      `Step 2: ${placed} stands on the grid already.`,
      '',
    ]);
    expect(await told([{ ...first, facts: ['7@k2'] }, second])).toContain(
      'Step 1: there is no fact 7@k2 on this layout.',
    );
    expect(await told([{ ...first, facts: [first.facts[0], first.facts[0]] }])).toEqual([
      'The only step is refused.',
      `Step 1: ${first.facts[0]} is given twice among the facts.`,
      '',
    ]);
    expect(await told([{ ...first, weight: 7 }])).toContain(
      `Step 1: ${placed} has another weight than is written there.`,
    );
    expect(await told([null])).toContain('Step 1: null cannot be read.');
    expect(await told([], { solved: true })).toEqual([
      'There are no steps.',
      'The steps do not end in a full grid.',
      '',
    ]);
  });

  test('tells what is no path', async () => {
    for (const input of ['', '{', '[]', '{"puzzle":"12","steps":[]}']) {
      const { code, stdout, stderr } = await inkling(['verify', '-'], { input });
      expect([code, stdout]).toEqual([2, '']);
      expect(stderr).toMatch(/^inkling: stdin: /);
    }
    const mixed = await inkling(['verify', '--jsonl'], {
      input: `{\n${JSON.stringify(await pathFor(crook))}\n`,
    });
    expect(mixed.code).toBe(1);
    expect(mixed.stderr).toContain('stdin:1: ');
    expect(jsonLines(mixed.stdout)).toHaveLength(1);
    expect((await inkling(['verify', join(folder, 'none.json')])).code).toBe(2);
  });
});

describe('trace', () => {
  test('leads to a digit, and to a digit being out', async () => {
    for (const target of ['r5c5', 'r7c2<>9', 'r5c5=8']) {
      const { code, stdout } = await inkling(['trace', '--json', crook, target]);
      expect(code).toBe(0);
      const traced = JSON.parse(stdout) as { readonly target: string; readonly steps: PrintedArgument[] };
      expect(traced.target).toBe(target === 'r5c5' ? 'r5c5=8' : target);
      let position = positionFrom(crook);
      for (const step of traced.steps) {
        expect(faultOf(position, step)).toBeNull();
        const verdict = check(position, readArgument(position, step));
        if (verdict.verdict !== 'holds') throw new Error(verdict.verdict);
        position = take(position, verdict.checked);
      }
      if (target === 'r7c2<>9') expect(position.candidates.has((6 * 9 + 1) * 9 + 8)).toBe(false);
      else expect(position.placed[40]).toBe(8);
    }
    const text = await inkling(['trace', crook, 'r4c7']);
    expect(linesOf(text.stdout)[0]).toMatch(/^r4c7 is 5, in \w+ steps?\.$/);
  });

  test('says what is so from the start, what is not so, and what can not be told', async () => {
    expect(await inkling(['trace', '--json', crook, 'r1c2=3'])).toMatchObject({
      code: 0,
      stdout: '{"schema":1,"target":"r1c2=3","steps":[]}\n',
    });
    expect(await inkling(['trace', '--json', crook, 'r5c5<>8'])).toMatchObject({
      code: 1,
      stdout: '{"schema":1,"target":"r5c5<>8","steps":null,"reason":"not-so"}\n',
    });
    expect(await inkling(['trace', '--json', twoSolutions, 'r1c4'])).toMatchObject({
      code: 1,
      stdout: '{"schema":1,"target":"r1c4","steps":null,"reason":"not-so"}\n',
    });
    expect((await inkling(['trace', noSolution, 'r1c1'])).stdout).toBe(
      'The grid has no solution, so anything could be shown.\n',
    );
    const wrong = await inkling(['trace', crook, 'k5']);
    expect([wrong.code, wrong.stdout]).toEqual([2, '']);
    expect(wrong.stderr).toContain('r7c3<>5');
    expect((await inkling(['trace'])).code).toBe(2);
  });
});

describe('weigh', () => {
  test('is exact as far as it is searched, and a bound beyond', async () => {
    expect(await inkling(['weigh', '--json', essayGrid])).toMatchObject({
      code: 0,
      stdout: `{"schema":1,"puzzle":"${essayGrid}","weight":{"atLeast":1,"atMost":1}}\n`,
    });
    expect((await inkling(['weigh', crook])).stdout).toBe(
      'Arguments of at most two facts solve it, and no fewer do.\n',
    );
    const one = await inkling(['weigh', '--up-to', '1', '--json', crook]);
    expect([one.code, JSON.parse(one.stdout).weight]).toEqual([1, { atLeast: 2, atMost: null }]);
    for (const grid of [clashing, noSolution]) {
      const none = await inkling(['weigh', '--json', grid]);
      expect([none.code, JSON.parse(none.stdout).weight]).toEqual([1, null]);
    }
    expect((await inkling(['weigh', twoSolutions])).stdout).toBe(
      'Arguments of four facts do not solve it.\nThe grid has several solutions, so no arguments do.\n',
    );
    expect((await inkling(['weigh', '--up-to', '9', crook])).code).toBe(2);
  });
});
