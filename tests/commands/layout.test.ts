import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { argueGrid } from '../../source/commands/argue.ts';
import { aboutLayouts } from '../../source/commands/common-flags.ts';
import { findInGrid } from '../../source/commands/find.ts';
import { hintGrid } from '../../source/commands/hint.ts';
import { findLayout, layoutNames } from '../../source/commands/layouts.ts';
import { pathOfGrid } from '../../source/commands/path.ts';
import { parseAsked, traceGrid } from '../../source/commands/trace.ts';
import { verifyJson } from '../../source/commands/verify.ts';
import { weighGrid } from '../../source/commands/weigh.ts';
import { cellOf, digitOf, type Layout } from '../../source/grid/layout.ts';
import { parseConclusion, parseDigit } from '../../source/grid/names.ts';
import { Position } from '../../source/grid/position.ts';
import { readGrid } from '../../source/grid/read.ts';
import { parseStatement } from '../../source/hint/statement.ts';
import { techniqueById } from '../../source/techniques/catalogue.ts';
import { coverSolutions } from '../judges/exact-cover.ts';
import { essayGrid } from './grids.ts';
import { inkling, jsonLines, linesOf } from './run-inkling.ts';

interface PathJson {
  readonly solved: boolean;
  readonly heaviest: number;
  readonly steps: readonly {
    readonly facts: readonly string[];
    readonly placements: readonly string[];
  }[];
}

/** Whether an answer is one that the schema of its command describes. */
function expectSchema(name: string, json: unknown): void {
  const schema = JSON.parse(readFileSync(new URL(`docs/schemas/${name}.json`, root), 'utf8')) as object;
  const validate = new Ajv2020({ strict: true, strictTypes: false, strictRequired: false }).compile(schema);
  expect([name, validate(json), validate.errors]).toEqual([name, true, null]);
}

const root = new URL('../../', import.meta.url);
const folder = mkdtempSync(join(tmpdir(), 'inkling-layout-'));
const others = layoutNames(root).filter((name) => name !== 'plain');
beforeAll(() => {
  writeFileSync(join(folder, 'cross.txt'), 'size 4\nboxes 2x2\ndiagonals\n');
  writeFileSync(join(folder, 'wrong.txt'), 'size 4\nboxes 2x3\n');
  writeFileSync(join(folder, 'said.txt'), '# a grid\n# layout: ../cross.txt\n12..............\n');
  writeFileSync(join(folder, 'many.txt'), '\ufeff\n# Layout: 4X4\n12......3.......\n1.1.............\n');
  writeFileSync(join(folder, 'late.txt'), `${essayGrid}\n# layout: 4x4\n${essayGrid}\n`);
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
    const written = await inkling(['convert', ...flags, '--to', 'candidates', '-'], { input: puzzle });
    const back = await inkling(['convert', ...flags, '--to', 'line', '-'], { input: written.stdout });
    expect(back.stdout).toBe(`${puzzle}\n`);
  });

  const files = readdirSync(new URL('puzzles/', root))
    .filter((name) => name.endsWith('.txt'))
    .flatMap((name) => {
      const file = fileURLToPath(new URL(`puzzles/${name}`, root));
      const [, layout] = /^# layout: (.+)$/m.exec(readFileSync(file, 'utf8')) ?? [];
      return layout === undefined ? [] : [{ name, file, layout }];
    });

  test('a grid of each comes with the program', () => {
    expect(files.map(({ layout }) => layout).sort()).toEqual([...others].sort());
  });

  test.each(files)('$name: path, verify, weigh, find, trace, argue and hint answer', async (puzzle) => {
    const layout = await named(puzzle.layout);
    const read = readGrid(readFileSync(puzzle.file, 'utf8'), { layout });
    if (!read.ok) throw new Error(read.error.message);
    const { value: grid } = read;
    const [solution] = coverSolutions(Position.from(layout, grid.grid.givens), 2);
    const text = JSON.stringify(pathOfGrid(grid).json);
    expectSchema('path', JSON.parse(text));
    expectSchema('verify', verifyJson(text));
    expectSchema('weigh', weighGrid(grid, 2).json);
    const { solved, steps, heaviest } = JSON.parse(text) as PathJson;
    for (const on of [undefined, layout]) {
      expect(verifyJson(text, on)).toMatchObject({
        steps: steps.length,
        accepted: steps.length,
        refused: [],
      });
    }
    expect(solved).toBe(true);
    const placed = steps.flatMap(({ placements }) => placements);
    for (const name of placed) {
      const candidate = parseConclusion(layout, name)?.candidate ?? -1;
      expect(solution[cellOf(layout, candidate)]).toBe(digitOf(layout, candidate));
    }
    const { weight } = weighGrid(grid, 3).json as { weight: { atLeast: number; atMost: number } };
    expect(weight.atMost).toBe(weight.atLeast);
    expect(heaviest).toBeGreaterThanOrEqual(weight.atLeast);
    const placing = steps.find(({ placements }) => placements.length > 0);
    const statement = parseStatement(`${placing?.placements[0]} by ${placing?.facts[0]}`, layout);
    if (!statement.ok) throw new Error(statement.error.message);
    expect(argueGrid(grid, statement.value).json).toHaveProperty('holds');
    expectSchema('argue', argueGrid(grid, statement.value).json);
    const [last] = placed.slice(-1);
    const asked = parseAsked(layout, last);
    if (asked === null) throw new Error(last);
    const traced = traceGrid(grid, asked);
    expect(traced).toMatchObject({ negative: false, json: { target: last } });
    expectSchema('trace', traced.json);
    const technique = techniqueById('hidden-single');
    if (!technique) throw new Error('no hidden single');
    expectSchema('find', findInGrid(grid, technique).json);
    const { instances } = findInGrid(grid, technique).json as { instances: { placements: string[] }[] };
    for (const name of instances.flatMap(({ placements }) => placements)) expect(placed).toContain(name);
    expectSchema('hint', hintGrid(grid, 'why').json);
    expect(hintGrid(grid, 'why')).toMatchObject({ negative: false, json: { rung: 'why' } });
  });

  test('the file says its layout to every command, and --layout says it over the file', async () => {
    const { file } = files[2];
    const path = await inkling(['path', '--json', file]);
    expect([path.code, path.stderr]).toEqual([0, '']);
    const input = readFileSync(file);
    const asked = await inkling(['path', '--json', '--layout', 'diagonals', '-'], { input });
    expect(asked).toEqual(path);
    for (const flags of [[], ['--layout', 'diagonals']]) {
      const verified = await inkling(['verify', ...flags, '-'], { input: path.stdout });
      expect([verified.code, verified.stderr]).toEqual([0, '']);
    }
    expect((await inkling(['verify', '--layout', 'plain', '-'], { input: path.stdout })).code).toBe(1);
    const bent = JSON.stringify({ ...JSON.parse(path.stdout), layout: { name: 'bent', text: 'size nine' } });
    const refused = await inkling(['verify', '-'], { input: bent });
    expect([refused.code, refused.stderr]).toEqual([2, expect.stringContaining('"layout" is no layout')]);
    for (const rest of [['weigh'], ['hint'], ['find', 'hidden-single']]) {
      expect((await inkling([...rest, file])).code).toBe(0);
    }
    const traced = await inkling(['trace', file, 'r1c1']);
    expect([traced.code, traced.stderr]).toEqual([0, '']);
    const argued = await inkling(['argue', '--json', file, 'r1c1<>5 by 5@d1']);
    expect(JSON.parse(argued.stdout)).toHaveProperty('holds');
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

  test('a remark above the first grid says the layout of all; one below says nothing', async () => {
    const many = await inkling(['check', '--jsonl', 'many.txt'], { folder });
    expect(jsonLines<object>(many.stdout)).toMatchObject([{ verdict: 'several' }, { verdict: 'clash' }]);
    expect(many.stderr).toBe('');
    const late = await inkling(['check', '--jsonl', 'late.txt'], { folder });
    expect(jsonLines<object>(late.stdout)).toMatchObject([{ verdict: 'one' }, { verdict: 'one' }]);
    const flag = await inkling(['check', '--layout', 'cross.txt', 'said.txt'], { folder });
    expect([flag.code, flag.stderr]).toEqual([1, '']);
    const plainly = await inkling(['check', '--layout', 'plain', 'many.txt'], { folder });
    expect(plainly.stderr).toContain('expected 81');
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

  test.each([
    [['check', '--layout', '6X', essayGrid], "--layout does not know '6X'", '6x6'],
    [['check', '--layout', 'wrong.txt', essayGrid], 'wrong.txt:2:1: found "2x3"', 'inkling help check'],
    [['check', '--layout', '', essayGrid], '--layout needs a value', 'a file'],
    [['check', '--layout', '6x6', essayGrid], 'a digit from 1 to 6', ''],
    [['check', 'said.txt'], 'said.txt: it says the layout "../cross.txt"', 'the names are: plain, 16x16'],
    [['verify', '--layout', '7x7', 'said.txt'], "--layout does not know '7x7'", '6x6'],
    [['trace', '--layout', '4x4', '1...........2...', 'r5c1'], 'found "r5c1"', 'inkling help trace'],
    [['argue', '--layout', '4x4', '1...........2...', 'r1c2<>5 by r1c2'], 'STATEMENT:1:7', 'help argue'],
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
