import { describe, expect, test } from 'vitest';
import { positionOf } from '../../source/commands/grid-text.ts';
import { hintGrid } from '../../source/commands/hint.ts';
import { readGrid } from '../../source/grid/read.ts';
import { rungs } from '../../source/hint/rung.ts';
import { hasPublished, publishedNote, readPublishedSet } from '../published.ts';
import { followHints, positionFrom } from './follow-hints.ts';
import { clashing, essayGrid, essaySolution, noSolution } from './grids.ts';
import { faultOf, type PrintedHint } from './judge-hint.ts';
import { inkling, jsonLines, linesOf } from './run-inkling.ts';

/** What `where` may say: one house, and nothing else. */
const whereLine = /^Look at (row|column|box) [1-9]\.$/;
const keysAt = {
  where: ['house', 'rung', 'schema'],
  digits: ['digits', 'house', 'rung', 'schema', 'weight'],
  pattern: ['digits', 'house', 'rung', 'schema', 'technique', 'weight'],
  cells: ['cells', 'digits', 'facts', 'house', 'rung', 'schema', 'technique', 'weight'],
  why: ['argument', 'cells', 'digits', 'facts', 'house', 'prose', 'rung', 'schema', 'technique', 'weight'],
} as const;

describe('the rungs', () => {
  test.each(rungs.map((rung) => [rung]))(
    '%s prints the fields of the contract and no other',
    async (rung) => {
      const { code, stdout, stderr } = await inkling(['hint', '--rung', rung, '--json', essayGrid]);
      expect([code, stderr]).toEqual([0, '']);
      const json = JSON.parse(stdout);
      expect(Object.keys(json).sort()).toEqual([...keysAt[rung]].sort());
      expect(json).toMatchObject({ schema: 1, rung });
    },
  );

  test('each says the same of what it shares with the one before', () => {
    const read = readGrid(essayGrid);
    if (!read.ok) throw new Error(read.error.message);
    const all = rungs.map((rung) => hintGrid(read.value, rung).json);
    for (const [index, json] of all.slice(1).entries()) {
      const { rung: _before, ...before } = all[index];
      expect(json).toMatchObject(before);
    }
  });

  test('without --rung it is where: one house in words', async () => {
    const outcome = await inkling(['hint', essayGrid]);
    expect([outcome.code, outcome.stderr]).toEqual([0, '']);
    expect(linesOf(outcome.stdout)).toEqual([expect.stringMatching(whereLine)]);
    expect(await inkling(['hint', '--rung', 'where', essayGrid])).toEqual(outcome);
  });

  test('why is an argument in words, its facts lettered', async () => {
    const { code, stdout } = await inkling(['hint', '--rung', 'why', essayGrid]);
    expect(code).toBe(0);
    const lines = linesOf(stdout);
    expect(lines[0]).toMatch(/^A {2}\S/);
    expect(lines.some((line) => /^= {2}r[1-9]c[1-9] is [1-9]\.$/.test(line))).toBe(true);
    for (const line of lines) expect(line).toMatch(/\.$/);
  });
});

describe('where there is no step', () => {
  test('a solved grid', async () => {
    const json = await inkling(['hint', '--json', essaySolution]);
    expect(json).toEqual({ code: 1, signal: null, stdout: '{"schema":1,"step":null}\n', stderr: '' });
    const text = await inkling(['hint', essaySolution]);
    expect(text).toEqual({ code: 1, signal: null, stdout: 'The grid is solved.\n', stderr: '' });
  });

  test.each([
    ['no solution', noSolution],
    ['givens that clash', clashing],
  ])('%s: told as what can not be right, and refused by the kernel and a SAT solver', async (_name, grid) => {
    const { code, stdout } = await inkling(['hint', '--rung', 'why', '--json', grid]);
    expect(code).toBe(1);
    const { argument } = JSON.parse(stdout) as PrintedHint;
    expect(argument.breaks).toBe(true);
    expect(faultOf(positionFrom(grid), argument)).toBeNull();
  });
});

test('a table of candidates is taken as it stands', async () => {
  // r5c5 of the essay's grid has 5 left alone; with its neighbours struck down, r1c3 is a naked single.
  const { stdout: table } = await inkling(['convert', '--to', 'candidates', essayGrid]);
  const struck = table.replace('124 ', '(4) ');
  const read = readGrid(struck);
  if (!read.ok) throw new Error(read.error.message);
  const position = positionOf(read.value.grid);
  const { argument } = hintGrid(read.value, 'why').json as unknown as PrintedHint;
  expect(faultOf(position, argument)).toBeNull();
  expect(position.candidates.size).toBe(positionFrom(essayGrid).candidates.size - 2);
});

describe.skipIf(!hasPublished)(`published sets${publishedNote}`, () => {
  // 1,000 grids of the same sets: tests/deep/hint.test.ts.
  const sample = hasPublished
    ? ['seventeen-clue-49151.txt', 'random-minimal-2000.txt', 'top-95.txt'].flatMap((name) => {
        const grids = readPublishedSet(name);
        return grids.filter((_, index) => index % Math.floor(grids.length / 10) === 0);
      })
    : [];

  test('where: one house and nothing else, as text and as JSON', async () => {
    for (const { json, lines } of sample.map((grid) => hintOf(grid, 'where'))) {
      expect(lines).toEqual([expect.stringMatching(whereLine)]);
      expect(Object.keys(json).sort()).toEqual([...keysAt.where]);
      expect(json.house).toMatch(/^[rcb][1-9]$/);
    }
    const { code, stdout } = await inkling(['hint', '--jsonl'], { input: sample.join('\n') });
    expect(code).toBe(0);
    expect(jsonLines(stdout)).toEqual(sample.map((grid) => hintOf(grid, 'where').json));
  });

  test('why: accepted by the kernel, confirmed by a SAT solver, all the way down', () => {
    const followed = sample.filter((_, index) => index % 5 === 0).map((grid) => followHints(grid, 30));
    expect(followed.map(({ fault }) => fault).filter((fault) => fault !== null)).toEqual([]);
    expect(followed.flatMap(({ weights }) => weights).length).toBeGreaterThan(100);
  });
});

test('where nothing can be told, the command says why', () => {
  // A grid without a solution on which every search is long: one line of an own set of hard contradictory grids
  // (published/data/contradictory-hard.txt, line 5).
  const hard = '.....5......6.1..........3..465........1.68..3.......95......61..................';
  const answer = hintOf(hard, 'where');
  expect(answer.json).toEqual({ schema: 1, step: null });
  expect(answer.lines).toEqual(['This cannot be completed, but no argument short enough shows why.']);
  expect(hintOf('.'.repeat(81), 'where').lines).toEqual(['No step found.']);
  expect(hintOf(essaySolution, 'where').lines).toEqual(['The grid is solved.']);
});

function hintOf(grid: string, rung: (typeof rungs)[number]) {
  const read = readGrid(grid);
  if (!read.ok) throw new Error(read.error.message);
  return hintGrid(read.value, rung);
}
