import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { essayGrid, fiveSolutions, noSolution } from './grids.ts';
import { inkling, jsonLines, linesOf, program, startInkling } from './run-inkling.ts';

interface Checked {
  readonly puzzle: string;
  readonly verdict: string;
}

const folder = mkdtempSync(join(tmpdir(), 'inkling-streams-'));
beforeAll(() => writeFileSync(join(folder, 'many.txt'), `${essayGrid}\n`.repeat(5000)));
afterAll(() => rmSync(folder, { recursive: true }));

const verdictsOf = (stdout: string): string[] => jsonLines<Checked>(stdout).map(({ verdict }) => verdict);

describe('many grids, one a line', () => {
  test('answers come in input order, and one that is not yes makes the exit code 1', async () => {
    const input = [essayGrid, noSolution, fiveSolutions, essayGrid].join('\n');
    const { code, stdout, stderr } = await inkling(['check', '--jsonl', '-'], { input });
    expect([code, stderr]).toEqual([1, '']);
    expect(verdictsOf(stdout)).toEqual(['one', 'none', 'several', 'one']);
    expect((await inkling(['check', '--jsonl'], { input: `${essayGrid}\n${essayGrid}\n` })).code).toBe(0);
  });

  test('a bad line is told with its number, and the rest goes on', async () => {
    const input = `${essayGrid}\nnot a grid\n${essayGrid.slice(1)}\n${essayGrid}\n${essayGrid}x\n`;
    const { code, stdout, stderr } = await inkling(['check', '--jsonl', '-'], { input });
    expect(code).toBe(1);
    expect(verdictsOf(stdout)).toEqual(['one', 'one']);
    const places = linesOf(stderr).flatMap((line) => /^inkling: stdin:(\d+):\d+: /.exec(line)?.[1] ?? []);
    expect(places).toEqual(['2', '3', '5']);
  });

  test('a bad first line does not hide the others', async () => {
    const input = `${essayGrid.slice(2)}\n${essayGrid}\n${essayGrid}\n`;
    const { code, stdout, stderr } = await inkling(['check', '--jsonl', '-'], { input });
    expect([code, verdictsOf(stdout)]).toEqual([1, ['one', 'one']]);
    expect(stderr).toMatch(/^inkling: stdin:1:/);
  });

  test('nothing but bad lines, or nothing at all, is an error of the input', async () => {
    expect((await inkling(['check', '--jsonl', '-'], { input: 'what\nis\nthis\n' })).code).toBe(2);
    for (const input of ['', '\n\n', '# only a remark\n']) {
      const { code, stdout, stderr } = await inkling(['check', '--jsonl', '-'], { input });
      expect([code, stdout]).toEqual([2, '']);
      expect(stderr).toMatch(/^inkling: stdin:\d+:\d+: /);
    }
  });

  test('BOM, CRLF, CR, blank lines, remarks and a missing last line end change nothing', async () => {
    const plainly = await inkling(['check', '--jsonl', '-'], { input: `${essayGrid}\n${noSolution}\n` });
    const variants = [
      `\ufeff${essayGrid}\n${noSolution}\n`,
      `${essayGrid}\r\n${noSolution}\r\n`,
      `${essayGrid}\r${noSolution}\r`,
      `\n\n${essayGrid}\n\n \t\n${noSolution}`,
      `# two grids\n${essayGrid} # the first\n# and\n${noSolution}\n#\n`,
    ];
    for (const input of variants) {
      const { code, stdout, stderr } = await inkling(['check', '--jsonl', '-'], { input });
      expect({ input, code, stdout, stderr }).toEqual({ input, code: 1, stdout: plainly.stdout, stderr: '' });
    }
  });

  test('UTF-16 with its mark is read', async () => {
    const input = Buffer.from(`\ufeff${essayGrid}\r\n`, 'utf16le');
    expect(verdictsOf((await inkling(['check', '--jsonl', '-'], { input })).stdout)).toEqual(['one']);
  });

  test('one grid of nine lines is one grid with --jsonl too', async () => {
    const input = essayGrid.replace(/.{9}/g, '$&\n');
    const { code, stdout } = await inkling(['check', '--jsonl', '-'], { input });
    expect([code, verdictsOf(stdout)]).toEqual([0, ['one']]);
  });

  test.each([['--json'], []])('without --jsonl they are refused, with %j', async (...flags) => {
    const input = `${essayGrid}\n${essayGrid}\n`;
    const { code, stdout, stderr } = await inkling(['check', ...flags, '-'], { input });
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toContain('stdin: there is more than one grid');
    expect(stderr).toContain('--jsonl');
  });

  test('a line without end is cut off at its limit, and the next line is read', async () => {
    const input = `${essayGrid}\n${'1'.repeat(3_000_000)}\n${essayGrid}\n`;
    const { code, stdout, stderr } = await inkling(['check', '--jsonl', '-'], { input });
    expect([code, verdictsOf(stdout)]).toEqual([1, ['one', 'one']]);
    expect(stderr).toMatch(/^inkling: stdin:2:/);
    expect(stderr.length).toBeLessThan(1000);
  });
});

describe('streams', () => {
  test('the first answer comes before the input ends', async () => {
    const child = startInkling(['check', '--jsonl', '-']);
    const answers: string[] = [];
    const nextAnswer = () =>
      new Promise<void>((resolve) => {
        child.stdout.once('data', (piece: Buffer) => {
          answers.push(piece.toString());
          resolve();
        });
      });
    for (const [grid, verdict] of [
      [essayGrid, 'one'],
      [noSolution, 'none'],
    ]) {
      const answered = nextAnswer();
      child.stdin.write(`${grid}\n`);
      await answered;
      expect(answers.at(-1)).toContain(`"verdict":"${verdict}"`);
    }
    const ended = new Promise((resolve) => child.on('close', resolve));
    child.stdin.end();
    expect(await ended).toBe(1);
  });

  test.each([
    ['a file', 'many.txt'],
    ['stdin that does not end', '-'],
  ])('a reader who leaves after one line is no error: %s', async (_name, operand) => {
    const feed = operand === '-' ? `while cat many.txt; do :; done 2>/dev/null |` : '';
    const script = `${feed} { "$0" "$1" check --jsonl ${operand}; echo "code $?" >&2; } | head -n 1`;
    const child = spawn('/bin/sh', ['-c', script, process.execPath, program], { cwd: folder });
    let stdout = '';
    let stderr = '';
    child.stdout.on('data', (piece: Buffer) => {
      stdout += piece.toString();
    });
    child.stderr.on('data', (piece: Buffer) => {
      stderr += piece.toString();
    });
    await new Promise((resolve) => child.on('close', resolve));
    expect(verdictsOf(stdout)).toEqual(['one']);
    expect(stderr).toBe('code 141\n');
  });

  test.runIf(existsSync('/dev/full'))('a full disk is told as what it is, with exit code 2', async () => {
    for (const line of ['check many.txt --jsonl', 'keys']) {
      const script = `"$0" "$1" ${line} > /dev/full; echo "code $?"`;
      const child = spawn('/bin/sh', ['-c', script, process.execPath, program], { cwd: folder });
      let said = '';
      for (const stream of [child.stdout, child.stderr]) {
        stream.on('data', (piece: Buffer) => {
          said += piece.toString();
        });
      }
      await new Promise((resolve) => child.on('close', resolve));
      expect(linesOf(said).sort()).toEqual(['code 2', 'inkling: what is printed cannot be written (ENOSPC)']);
    }
  });

  test('Ctrl-C ends it with whole lines only', async () => {
    const script = `trap : INT; "$0" "$1" check --jsonl - ; echo "code $?"`;
    const child = spawn('/bin/sh', ['-c', script, process.execPath, program], { detached: true });
    let stdout = '';
    await new Promise<void>((resolve) => {
      child.stdout.on('data', (piece: Buffer) => {
        stdout += piece.toString();
        if (stdout.includes('\n')) resolve();
      });
      child.stdin.write(`${essayGrid}\n`);
    });
    const ended = new Promise((resolve) => child.on('close', resolve));
    // To the whole group, as a terminal does it.
    process.kill(-(child.pid ?? 0), 'SIGINT');
    await ended;
    const lines = linesOf(stdout);
    expect(lines.pop()).toBe('code 130');
    for (const line of lines) expect(JSON.parse(line)).toHaveProperty('verdict', 'one');
  });
});
