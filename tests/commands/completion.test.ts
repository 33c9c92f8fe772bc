import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { commands, openCommand } from '../../source/commands/catalogue.ts';
import { manPage } from '../../source/commands/man.ts';
import { catalogue } from '../../source/techniques/catalogue.ts';
import { inkling, linesOf } from './run-inkling.ts';

const folder = mkdtempSync(join(tmpdir(), 'inkling-completion-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Whether a program is on the path here. */
function isHere(program: string): boolean {
  try {
    execFileSync('/bin/sh', ['-c', `command -v ${program}`], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
}

const named = commands.filter((command) => command !== openCommand);
const run = (program: string, ...args: string[]): string =>
  execFileSync(program, args, {
    cwd: folder,
    encoding: 'utf8',
    env: { PATH: process.env.PATH, HOME: folder },
  });

beforeAll(async () => {
  for (const shell of ['bash', 'zsh', 'fish']) {
    const { code, stdout } = await inkling(['completion', shell]);
    expect(code).toBe(0);
    writeFileSync(join(folder, shell), stdout);
  }
  writeFileSync(join(folder, 'grid one.txt'), '');
});

test.each(['bash', 'zsh', 'fish'])('for %s every command and every flag is named', async (shell) => {
  const { stdout } = await inkling(['completion', shell]);
  for (const { name } of named) expect(stdout).toMatch(new RegExp(`\\b${name}\\b`));
  for (const { flags } of commands) {
    for (const { name } of flags) expect(stdout).toMatch(new RegExp(`(--|-l )${name}\\b`));
  }
});

describe.skipIf(!isHere('bash'))('in bash', () => {
  const complete = (...words: string[]): string[] => {
    const quoted = words.map((word) => `'${word}'`).join(' ');
    const script = `. ./bash; COMP_WORDS=(inkling ${quoted}); COMP_CWORD=${words.length}; _inkling; printf '%s\\n' "\${COMPREPLY[@]}"`;
    return linesOf(run('bash', '--norc', '-c', script)).filter((line) => line !== '');
  };

  test.each([
    [['hin'], ['hint']],
    [['hint', '--ru'], ['--rung']],
    [
      ['hint', '--rung', ''],
      ['where', 'digits', 'pattern', 'cells', 'why'],
    ],
    [['--the'], ['--theme']],
    [['--theme', 'm'], ['mono']],
    [
      ['completion', ''],
      ['bash', 'zsh', 'fish'],
    ],
    [['help', 'ver'], ['verify']],
    [['find', 'x-w'], ['x-wing']],
    [['keys', '--config', 'f'], ['fish']],
    [['check', 'ba'], ['bash']],
  ])('%j', (words, wanted) => {
    expect(complete(...words)).toEqual(wanted);
  });

  test('the names of all commands, techniques and of files', () => {
    expect(complete('')).toEqual(expect.arrayContaining([...named.map(({ name }) => name), 'help', 'bash']));
    expect(complete('find', '')).toEqual(expect.arrayContaining(catalogue.map(({ id }) => id)));
  });
});

describe.skipIf(!isHere('fish'))('in fish', () => {
  const complete = (line: string): string[] =>
    linesOf(run('fish', '--no-config', '-c', `source ./fish; complete -C '${line}'`)).map(
      (each) => each.split('\t')[0],
    );

  test.each([
    ['inkling hin', 'hint'],
    ['inkling hint --ru', '--rung'],
    ['inkling hint --rung w', 'where'],
    ['inkling --the', '--theme'],
    ['inkling completion z', 'zsh'],
    ['inkling find x-w', 'x-wing'],
  ])('%s', (line, wanted) => {
    expect(complete(line)).toContain(wanted);
  });
});

test.skipIf(!isHere('zsh'))('zsh reads it without a complaint', () => {
  expect(run('zsh', '-f', '-n', './zsh')).toBe('');
  const script = 'autoload -U compinit; compinit -u -D; . ./zsh 2>/dev/null; whence -w _inkling';
  expect(run('zsh', '-f', '-c', script).trim()).toBe('_inkling: function');
});

test('a shell must be named, and be one of those', async () => {
  for (const args of [['completion'], ['completion', 'ksh']]) {
    const { code, stdout, stderr } = await inkling(args);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toContain('bash, zsh, fish');
  }
});

describe('the manual page', () => {
  test('tells of every command, flag and example', async () => {
    const { code, stdout } = await inkling(['man']);
    expect(code).toBe(0);
    const plain = stdout
      .replaceAll('\\-', '-')
      .replaceAll('\\e', '\\')
      .replaceAll(/\\f[BRI]/g, '');
    for (const { summary } of named) expect(plain.toLowerCase()).toContain(summary.toLowerCase());
    for (const { flags, examples } of commands) {
      for (const { name } of flags) expect(plain).toContain(`--${name}`);
      for (const { line } of examples) expect(plain).toContain(line);
    }
  });

  test.skipIf(!isHere('groff'))('is formatted without a warning', () => {
    writeFileSync(join(folder, 'inkling.1'), manPage(commands, '1.2.3').join('\n'));
    const script =
      'groff -man -Tascii -ww inkling.1 2>&1 >/dev/null; groff -man -Tascii inkling.1 | head -n 3';
    const out = run('/bin/sh', '-c', script);
    expect(out.split('\n')[0]).toMatch(/^INKLING\(1\)/);
  });
});
