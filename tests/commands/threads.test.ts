import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Writable } from 'node:stream';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { checkGrid } from '../../source/commands/check.ts';
import type { Surroundings } from '../../source/commands/command.ts';
import { Crew } from '../../source/commands/crew.ts';
import { sourceOf } from '../../source/commands/input.ts';
import { BlockCutter, countLines, LineSplitter } from '../../source/commands/line-splitter.ts';
import { answerLines } from '../../source/commands/many-lines.ts';
import { makeOutput } from '../../source/commands/output.ts';
import { plain } from '../../source/grid/layout.ts';
import { Random } from '../random.ts';
import { clashing, essayGrid, fiveSolutions, noSolution } from './grids.ts';
import { inkling, jsonLines, linesOf, program } from './run-inkling.ts';

const folder = mkdtempSync(join(tmpdir(), 'inkling-threads-'));
const count = 15_000;
/** Each line differs from its neighbours, so that an answer out of order shows; some are bad. */
const lines = Array.from({ length: count }, (_, index) => {
  if (index % 1000 === 777) return `${essayGrid.slice(0, 70)} # bad`;
  if (index % 97 === 5) return [noSolution, fiveSolutions, clashing][index % 3];
  const cells = [...essayGrid];
  for (let bit = 0; bit < 14; bit += 1) {
    // The essay's solution in its first two rows, where the grid has blanks: which are filled says the index.
    const at = [2, 3, 5, 6, 7, 8, 10, 11, 15, 16, 17, 18, 21, 22][bit];
    const sign = '534678912672195348198342567'[at];
    if ((index >> bit) & 1) cells[at] = sign;
  }
  return cells.join('');
});
const badLines = lines.flatMap((line, index) => (line.includes('bad') ? [index + 1] : []));

beforeAll(() => {
  writeFileSync(join(folder, 'many.txt'), `${lines.join('\n')}\n`);
  writeFileSync(join(folder, 'returns.txt'), lines.join('\r\n'));
});
afterAll(() => rmSync(folder, { recursive: true }));

describe('check --jsonl on several threads', () => {
  test('answers and notices are those of one thread: input order, bad lines by number', async () => {
    const alone = await inkling(['check', '--jsonl', '--jobs', '1', 'many.txt'], { folder });
    expect(alone.code).toBe(1);
    const answers = jsonLines<{ puzzle: string; verdict: string }>(alone.stdout);
    expect(answers.map(({ puzzle }) => puzzle)).toEqual(lines.filter((line) => !line.includes('bad')));
    const numbers = [...alone.stderr.matchAll(/^inkling: many\.txt:(\d+):/gm)].map(([, line]) =>
      Number(line),
    );
    expect(numbers).toEqual(badLines);
    for (const jobs of ['2', '3']) {
      const several = await inkling(['check', '--jsonl', '--jobs', jobs, 'many.txt'], { folder });
      expect(several).toEqual(alone);
    }
    const returns = await inkling(['check', '--jsonl', '--jobs', '2', 'returns.txt'], { folder });
    expect(returns.stdout).toBe(alone.stdout);
    expect(returns.stderr).toBe(alone.stderr.replaceAll('many.txt', 'returns.txt'));
  });

  test.each([
    ['a file', 'many.txt'],
    ['stdin that does not end', '-'],
  ])('a reader who leaves once the threads work is no error: %s', async (_name, operand) => {
    const feed = operand === '-' ? `while cat many.txt; do :; done 2>/dev/null |` : '';
    const script = `${feed} { "$0" "$1" check --jsonl --jobs 2 ${operand} 2>/dev/null; echo "code $?" >&2; } | head -n 9000`;
    const child = spawn('/bin/sh', ['-c', script, process.execPath, program], { cwd: folder });
    let [stdout, stderr] = ['', ''];
    child.stdout.on('data', (piece: Buffer) => {
      stdout += piece.toString();
    });
    child.stderr.on('data', (piece: Buffer) => {
      stderr += piece.toString();
    });
    await new Promise((resolve) => child.on('close', resolve));
    expect(jsonLines(stdout)).toHaveLength(9000);
    expect(stderr).toBe('code 141\n');
  });

  test('Ctrl-C while the threads work leaves whole lines only', async () => {
    const script = `trap : INT; while cat many.txt; do :; done 2>/dev/null | "$0" "$1" check --jsonl --jobs 2 - 2>/dev/null; echo "code $?"`;
    const child = spawn('/bin/sh', ['-c', script, process.execPath, program], {
      detached: true,
      cwd: folder,
    });
    let stdout = '';
    await new Promise<void>((resolve) => {
      child.stdout.on('data', (piece: Buffer) => {
        stdout += piece.toString();
        if (stdout.length > 3_000_000) resolve();
      });
    });
    const ended = new Promise((resolve) => child.on('close', resolve));
    process.kill(-(child.pid ?? 0), 'SIGINT');
    await ended;
    const printed = linesOf(stdout);
    expect(printed.pop()).toBe('code 130');
    expect(printed.length).toBeGreaterThan(9000);
    for (const line of printed.slice(-200)) expect(JSON.parse(line)).toHaveProperty('verdict');
  });

  test.each([['0'], ['65'], ['two']])('--jobs %s is refused', async (jobs) => {
    const { code, stderr } = await inkling(['check', '--jsonl', '--jobs', jobs, 'many.txt'], { folder });
    expect(code).toBe(2);
    expect(stderr).toContain('a whole number from 1 to 64');
  });
});

/** A stream that keeps what is written to it. */
class Kept extends Writable {
  text = '';
  readonly isTTY: boolean;
  constructor(isTTY: boolean) {
    super({ decodeStrings: false });
    this.isTTY = isTTY;
  }
  override _write(piece: string, _encoding: BufferEncoding, done: () => void): void {
    this.text += piece;
    done();
  }
}

/** Answers `many.txt` in this process, on one thread; `watched`: whether stderr is a terminal. */
async function answerWatched(watched: boolean): Promise<{ results: string; notices: string }> {
  const [results, notices] = [new Kept(false), new Kept(watched)];
  const surroundings: Surroundings = {
    results: makeOutput(results),
    notices: makeOutput(notices),
    stdin: process.stdin,
    environment: {},
    packageRoot: new URL('../../', import.meta.url),
  };
  await answerLines(sourceOf(join(folder, 'many.txt'), process.stdin), surroundings, {
    answer: (named) =>
      checkGrid(named, { redundant: false, minimal: false, symmetries: false, settle: false }),
    layout: plain,
    jobs: 1,
    startCrew: () => Promise.reject(new Error('no thread is needed')),
    progressEvery: 0,
  });
  return { results: results.text, notices: notices.text };
}

test('progress stands on a terminal only, is wiped before each notice, and nothing of it stays', async () => {
  const watched = await answerWatched(true);
  const unwatched = await answerWatched(false);
  expect(watched.results).toBe(unwatched.results);
  expect(unwatched.notices).not.toContain('grids');
  expect(watched.notices).toMatch(/\r {5,}\r[\d,]+ grids, \d+ bad lines/);
  // What a terminal would show: a carriage return goes back, and later signs stand over earlier ones.
  const seen = watched.notices
    .split('\n')
    .map((line) => {
      let shown = '';
      for (const part of line.split('\r')) shown = part + shown.slice(part.length);
      return shown.trimEnd();
    })
    .join('\n');
  expect(seen).toBe(
    unwatched.notices
      .split('\n')
      .map((line) => line.trimEnd())
      .join('\n'),
  );
});

test('a thread that fails makes the answer fail, and does not hang', async () => {
  const crew = new Crew(new URL('data:text/javascript,throw new Error("broken")'), {}, 1);
  await expect(crew.answer({ text: `${essayGrid}\n`, firstLine: 1 })).rejects.toThrow('broken');
  await crew.dismiss();
});

test('blocks have the lines that a splitter finds, however the text arrives', () => {
  const seed = Number(process.env.INKLING_SEED ?? 4);
  const random = new Random(seed);
  for (let round = 0; round < 300; round += 1) {
    const text = Array.from({ length: random.below(40) }, () =>
      random.pick(['a', 'bc', '\n', '\r', '\r\n']),
    ).join('');
    const splitter = new LineSplitter();
    const expected = [...splitter.push(text), ...splitter.end()].map(({ line }) => line);
    const cutter = new BlockCutter();
    const blocks: string[] = [];
    for (let at = 0; at < text.length; ) {
      const size = 1 + random.below(6);
      blocks.push(cutter.push(text.slice(at, at + size)));
      at += size;
    }
    blocks.push(cutter.end());
    const told = `seed ${seed}, round ${round}: ${JSON.stringify(text)}`;
    const found = blocks.flatMap((block) => {
      const each = new LineSplitter();
      const inside = [...each.push(block), ...each.end()].map(({ line }) => line);
      expect(countLines(block), told).toBe(inside.length);
      return inside;
    });
    expect(found, told).toEqual(expected);
  }
});
