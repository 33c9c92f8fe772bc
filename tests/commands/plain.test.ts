import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, test } from 'vitest';
import { essayGrid, essaySolution } from './grids.ts';
import { inkling, linesOf, startInkling } from './run-inkling.ts';

const home = mkdtempSync(join(tmpdir(), 'inkling-plain-'));
mkdirSync(join(home, 'inkling'));
afterAll(() => rmSync(home, { recursive: true, force: true }));

const plain = (input: string, ...args: readonly string[]) =>
  inkling(['--plain', '--new', ...args, essayGrid], { input });

describe('inkling --plain with a script on stdin', () => {
  test('does line by line, says what came of it, and ends with the input', async () => {
    const { code, stdout, stderr } = await plain('r1c3=4\nundo\nshow r1c3\n');
    expect([code, stderr]).toEqual([0, '']);
    expect(linesOf(stdout).slice(2)).toEqual([
      'Row 1 column 3 is 4.',
      'Took back row 1 column 3 is 4.',
      'Row 1 column 3 is open.',
    ]);
  });

  test('solves a grid from one end to the other', async () => {
    const { code, stdout } = await plain(`${'singles\n'.repeat(20)}copy-grid\n`);
    expect(code).toBe(0);
    expect(linesOf(stdout)).toContain('Solved.');
    expect(linesOf(stdout)).toContain(essaySolution);
  });

  test('takes other line ends, a byte order mark and a last line without an end', async () => {
    for (const input of ['\ufeffrow 1\r\nrow 1', 'row 1\rrow 1', 'row 1\n\n\nrow 1\n']) {
      const { code, stdout } = await plain(input);
      expect([code, linesOf(stdout).filter((line) => line.startsWith('Row 1:')).length]).toEqual([0, 2]);
    }
  });

  test('a line that cannot be read is told, the rest goes on, and the exit code is 1', async () => {
    const { code, stdout } = await plain('r1c3=44\nunod\nr1c3=4\n');
    expect(code).toBe(1);
    expect(linesOf(stdout)).toContain('No action is called "unod". Did you mean undo?');
    expect(linesOf(stdout).at(-1)).toBe('Row 1 column 3 is 4.');
  });

  test('a grid that is pasted last needs no empty line behind it', async () => {
    const { stdout } = await plain(`paste\n${essayGrid.match(/.{9}/g)?.join('\n')}\n`);
    expect(linesOf(stdout)).toContain('Pasted grid: 30 givens, one solution.');
  });

  test('what it says is plain text, and only rows, columns and boxes in words', async () => {
    const { stdout } = await plain(
      'fill\nhint\nhint\nhint\nhint\nhint\ntake\nfind naked-pair\nhelp\nmarks\n',
    );
    expect(stdout).toMatch(/^[ -~\n]*$/);
    const told = stdout.split('A digit:')[0];
    expect(told.split('write with the pen')[0]).not.toMatch(/\br\dc\d/);
  });

  test('where other signs cannot be shown, or with --ascii, none are', async () => {
    const input = 'caf\u00e9\nr1c3=\u0664\n';
    for (const [args, LANG] of [
      [[], 'C'],
      [['--ascii'], 'C.UTF-8'],
    ] as const) {
      const { stdout } = await inkling(['--plain', '--new', ...args, essayGrid], {
        input,
        environment: { LANG },
      });
      expect(stdout).toMatch(/^[ -~\n]*$/);
    }
    expect((await plain(input)).stdout).toContain('\u00e9');
  });

  test('`quit` ends it before the input does', async () => {
    const { code, stdout } = await plain('quit\nrow 1\n');
    expect(code).toBe(0);
    expect(stdout).not.toContain('Row 1');
  });

  test('a reader who goes away is no error', async () => {
    const child = startInkling(['--plain', '--new', essayGrid]);
    const ended = new Promise<number | null>((resolve) => child.on('close', (code) => resolve(code)));
    let stderr = '';
    child.stderr.setEncoding('utf8').on('data', (piece: string) => {
      stderr += piece;
    });
    child.stdin.on('error', () => {});
    child.stdout.once('data', () => {
      child.stdout.destroy();
      child.stdin.end('show\n'.repeat(5000));
    });
    expect([await ended, stderr]).toEqual([141, '']);
  });

  test('stdin has the lines, so it can not have the grid', async () => {
    const { code, stdout, stderr } = await inkling(['--plain', '-'], { input: essayGrid });
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toContain("'-' cannot have the grid");
  });
});

describe('settings', () => {
  const withSettings = (text: string, args: readonly string[], input = '') => {
    writeFileSync(join(home, 'inkling', 'config.toml'), text);
    return inkling(args, { input, environment: { XDG_CONFIG_HOME: home } });
  };

  test('keys and pens of one\u2019s own hold, here as on the screen', async () => {
    const text = 'pen = "note"\n[keys]\nfill = "k"\nup = []\n';
    const { code, stdout } = await withSettings(text, ['--plain', '--new', essayGrid], 'r1c3\n12\nk\n');
    expect(code).toBe(0);
    expect(linesOf(stdout).slice(-2)).toEqual([
      'Row 1 column 3 is open: note 1 2.',
      'All candidates are noted.',
    ]);
  });

  test('what cannot be used ends the program before it begins, each with its place', async () => {
    const { code, stdout, stderr } = await withSettings('theme = "lihgt"\n[keys]\nhitn = "x"\nfill = "u"\n', [
      '--plain',
      essayGrid,
    ]);
    expect([code, stdout]).toEqual([2, '']);
    const file = join(home, 'inkling', 'config.toml');
    const places = linesOf(stderr).filter((line) => line.startsWith('inkling: '));
    expect(places).toEqual([
      `inkling: ${file}:1:1: theme cannot be "lihgt"`,
      `inkling: ${file}:3:1: no action is called "hitn"`,
      `inkling: ${file}:4:1: u would do two things: fill and undo`,
    ]);
  });

  test('none are read with --config none, and a file that is named must be there', async () => {
    writeFileSync(join(home, 'inkling', 'config.toml'), 'nonsense');
    const environment = { XDG_CONFIG_HOME: home };
    expect((await inkling(['keys', '--config', 'none'], { environment })).code).toBe(0);
    expect((await inkling(['keys'], { environment })).code).toBe(2);
    const { code, stderr } = await inkling(['keys', '--config', join(home, 'no.toml')]);
    expect(code).toBe(2);
    expect(stderr).toContain('no.toml: there is no such file');
  });

  test('arguments may build on one solution where the settings or --assume say so, and not otherwise', async () => {
    const find = 'find unique-rectangle\n';
    // A puzzle on 4 by 4, which ships with the program, has some.
    const puzzle = fileURLToPath(new URL('../../puzzles/13-thumbnail.txt', import.meta.url));
    const args = ['--plain', '--new', puzzle];
    const not = await withSettings('', args, find);
    expect(not.stdout).toContain('which the workbench does not take for granted');
    const set = await withSettings('assume = "one-solution"', args, find);
    const asked = await withSettings('', [...args, '--assume', 'one-solution'], find);
    for (const { stdout } of [set, asked]) expect(stdout).toMatch(/^Unique rectangle, 1 of \d+\./m);
  });

  test('one-shot commands do not read them', async () => {
    const { code } = await withSettings('nonsense', ['check', essayGrid]);
    expect(code).toBe(0);
  });

  test('an empty or relative XDG_CONFIG_HOME counts as not set', async () => {
    mkdirSync(join(home, '.config', 'inkling'), { recursive: true });
    writeFileSync(join(home, '.config', 'inkling', 'config.toml'), '[keys]\nhint = "f5"\n');
    for (const path of ['', 'relative']) {
      const environment = { XDG_CONFIG_HOME: path, HOME: home };
      expect((await inkling(['keys'], { environment })).stdout).toMatch(/hint +f5 \*/);
    }
  });

  test('keys lists every action once', async () => {
    const { stdout } = await inkling(['keys']);
    const names = linesOf(stdout).flatMap((line) => /^ {2}(\S+)/.exec(line)?.[1] ?? []);
    expect(new Set(names).size).toBe(names.length);
    expect(names).toEqual(expect.arrayContaining(['hint', 'undo', 'pick', 'palette', 'theme']));
    for (const line of linesOf(stdout)) expect(line.length).toBeLessThanOrEqual(80);
  });
});
