import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { commands, openCommand } from '../../source/commands/catalogue.ts';
import { commandHelp, programHelp } from '../../source/commands/help.ts';
import { parseCommandLine } from '../../source/commands/parse.ts';
import { essayGrid } from './grids.ts';
import { inkling, linesOf } from './run-inkling.ts';

const folder = mkdtempSync(join(tmpdir(), 'inkling-command-line-'));
beforeAll(() => {
  writeFileSync(join(folder, 'puzzle.txt'), `${essayGrid}\n`);
  writeFileSync(join(folder, '-odd.txt'), `${essayGrid}\n`);
  writeFileSync(join(folder, 'grids.txt'), `${essayGrid}\n${essayGrid}\n`);
});
afterAll(() => rmSync(folder, { recursive: true }));

describe('the catalogue of commands', () => {
  test('has no name twice, neither of commands nor of flags in one of them', () => {
    const names = commands.map(({ name }) => name);
    expect(new Set(names).size).toBe(names.length);
    for (const { flags } of commands) {
      expect(new Set(flags.map(({ name }) => name)).size).toBe(flags.length);
    }
  });

  test('names are lower case with hyphens, and none is taken by the program itself', () => {
    const taken = ['help', 'version', 'h'];
    for (const { name, flags } of commands) {
      for (const each of [name, ...flags.map((flag) => flag.name)]) {
        expect(each).toMatch(/^[a-z]+(-[a-z]+)*$/);
        expect(taken).not.toContain(each);
      }
    }
  });

  test('everything is documented: a summary in one line, an example that parses, operands', async () => {
    for (const command of commands) {
      for (const { summary } of [command, ...command.flags]) {
        expect(summary).toMatch(/^[a-z].*[^.]$/);
        expect(summary).not.toContain('\n');
      }
      expect(command.examples.length).toBeGreaterThan(0);
      for (const { line, does } of command.examples) {
        expect(does).not.toBe('');
        const names: (string | false)[] = [];
        for (const stage of line.split(' | ')) {
          // Words as a shell parts them, as far as examples go: a word may stand in single quotes.
          const words = Array.from(stage.matchAll(/'([^']*)'|\S+/g), ([word, inner]) => inner ?? word);
          const [first, ...argv] = words;
          expect(first).toBe('inkling');
          const parsed = await parseCommandLine(argv);
          names.push(parsed.kind === 'run' && parsed.invocation.command.name);
        }
        expect([line, names.at(-1)]).toEqual([line, command.name]);
        expect(names).not.toContain(false);
      }
    }
  });

  test('a flag means the same wherever it stands', () => {
    const known = new Map<string, string>();
    for (const flag of commands.flatMap(({ flags }) => flags)) {
      // What is taken where it is not given is each command's own.
      const meaning = JSON.stringify({ ...flag, fallback: undefined });
      const said = known.get(flag.name) ?? meaning;
      expect(meaning).toBe(said);
      known.set(flag.name, said);
    }
  });

  test('a fallback is one of the choices', () => {
    for (const flag of commands.flatMap(({ flags }) => flags)) {
      if (flag.kind === 'choice' && flag.fallback !== undefined)
        expect(flag.choices).toContain(flag.fallback);
    }
  });

  test('every command loads', async () => {
    for (const { load } of commands) expect(typeof (await load()).run).toBe('function');
  });

  test('help fits 79 columns and has the examples before everything else', () => {
    for (const lines of [programHelp(), ...commands.map(commandHelp)]) {
      expect(lines.filter((line) => line.length > 79)).toEqual([]);
      expect(lines[2]).toBe('Examples');
    }
  });

  test('help names every command and every flag', () => {
    for (const command of commands) {
      if (command !== openCommand) expect(programHelp().join('\n')).toContain(`  ${command.name} `);
      for (const flag of command.flags) expect(commandHelp(command).join('\n')).toContain(`--${flag.name}`);
    }
  });
});

describe('help and version', () => {
  const version = JSON.parse(
    readFileSync(fileURLToPath(new URL('../../package.json', import.meta.url)), 'utf8'),
  ).version as string;

  test('--version', async () => {
    expect(await inkling(['--version'])).toEqual({
      code: 0,
      signal: null,
      stdout: `inkling ${version}\n`,
      stderr: '',
    });
  });

  test.each([[['-h']], [['--help']], [['help']]])(
    '%j is the help of the program, on stdout',
    async (argv) => {
      const { code, stdout, stderr } = await inkling(argv);
      expect([code, stderr]).toEqual([0, '']);
      expect(linesOf(stdout)).toEqual(programHelp());
    },
  );

  test.each(commands.filter((command) => command !== openCommand).map((command) => [command]))(
    'three ways to the help of $name',
    async (command) => {
      for (const argv of [
        ['help', command.name],
        [command.name, '-h'],
        [command.name, 'x', '--help'],
      ]) {
        const { code, stdout, stderr } = await inkling(argv);
        expect([code, stderr]).toEqual([0, '']);
        expect(linesOf(stdout)).toEqual(commandHelp(command));
      }
    },
  );
});

describe('a command line that is wrong: exit 2, nothing on stdout, the nearest word', () => {
  const wrong: readonly (readonly [argv: string[], message: string, next: string])[] = [
    [['chek', essayGrid], "unknown command 'chek'", "did you mean 'check'?"],
    [['wander', essayGrid], "unknown command 'wander'", 'there is no file'],
    [['help', 'hnt'], "unknown command 'hnt'", "did you mean 'hint'?"],
    [['check', '--jsn', essayGrid], "unknown flag '--jsn'", "did you mean '--json'?"],
    [['check', '--Json', essayGrid], "unknown flag '--Json'", "did you mean '--json'?"],
    [['check', '-j', essayGrid], "unknown flag '-j'", "'inkling help check'"],
    [['check', '--no-json', essayGrid], "unknown flag '--no-json'", ''],
    [['check', '--__proto__', essayGrid], "unknown flag '--__proto__'", ''],
    [['check', '--json.x', essayGrid], "unknown flag '--json.x'", "did you mean '--json'?"],
    [['check', '-5'], "unknown flag '-5'", ''],
    [['check', '--json=maybe', essayGrid], "'--json' takes no value", ''],
    [['check', '--json', '--jsonl', essayGrid], '--json and --jsonl are both given', 'give one'],
    [['check', '--json', '--json', essayGrid], '--json is given twice', ''],
    [['check', essayGrid, essayGrid], 'takes one operand, but 2 are given', ''],
    [['--json', essayGrid], "'--json' is a flag of commands", 'inkling check --json'],
    [['hint', '--rung', 'wher', essayGrid], "--rung does not know 'wher'", "did you mean 'where'?"],
    [['hint', '--rung', essayGrid], "--rung does not know '53", 'where, digits, pattern, cells, why'],
    [['hint', essayGrid, '--rung'], '--rung needs a value', 'where, digits, pattern, cells, why'],
    [['hint', '--rung=', essayGrid], '--rung needs a value', ''],
    [['hint', '--rung', 'why', '--rung', 'why', essayGrid], '--rung is given twice', ''],
    [['convert', essayGrid], 'needs --to FORM', 'line, rows'],
    [['convert', '--to', 'lines', essayGrid], "--to does not know 'lines'", "did you mean 'line'?"],
    [['check', 'nothing.txt'], 'nothing.txt: there is no such file', ''],
    [['check', ''], "'': there is no such file", ''],
    [['check', '.'], '.: this is a folder', ''],
    [['weigh', '--up-to', '6', essayGrid], "--up-to does not know '6'", '\nit is one of: 1, 2, 3, 4, 5'],
    [['check', essayGrid.slice(1)], 'GRID:1:', ''],
  ];
  test.each(wrong)('inkling %j', async (argv, message, next) => {
    const { code, stdout, stderr } = await inkling(argv, { folder });
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(/^inkling: /);
    expect(stderr).toContain(message);
    expect(stderr).toContain(next);
    expect(stderr).not.toMatch(/\n {4}at /);
  });

  test('what was typed is made safe to show', async () => {
    const { stderr } = await inkling(['check', '--\u001b]0;owned\u0007', essayGrid]);
    expect(stderr).toContain('\\x1b]0;owned\\x07');
    expect(stderr).not.toContain('\u001b');
  });

  test('an error in a grid names the place, points at it and tells the next step', async () => {
    const input = `53..7....\n6..195...\n.98....6.\n8...6...3\n4..8.3..1\n7...2...6\n.6....28.\n...4x9..5\n....8..79\n`;
    const { code, stdout, stderr } = await inkling(['check', '-'], { input });
    expect([code, stdout]).toEqual([2, '']);
    const [message, line, caret, next] = linesOf(stderr);
    expect(message).toMatch(/^inkling: stdin:8:5: found "x"/);
    expect(line).toBe('  ...4x9..5');
    expect(caret).toBe('      ^');
    expect(next).toContain('inkling help check');
  });
});

describe('operands', () => {
  test('a file, stdin named and not named, and a grid are all read', async () => {
    const answers = [
      await inkling(['check', '--json', 'puzzle.txt'], { folder }),
      await inkling(['check', '--json', '-'], { input: essayGrid }),
      await inkling(['check', '--json'], { input: essayGrid }),
      await inkling(['check', '--json', essayGrid]),
      await inkling(['check', '--json', '--', '-odd.txt'], { folder }),
      await inkling(['check', essayGrid, '--json']),
    ];
    for (const { code, stdout } of answers) {
      expect(code).toBe(0);
      expect(stdout).toBe(answers[0].stdout);
    }
  });

  test('a grid whose blanks are hyphens is no flag', async () => {
    const hyphens = essayGrid.replaceAll('.', '-');
    const turned = [...hyphens].reverse().join('');
    expect((await inkling(['check', '--json', hyphens])).code).toBe(0);
    const starting = `--${hyphens.slice(2)}`;
    for (const grid of [turned, starting]) {
      const { stdout } = await inkling(['check', '--json', grid]);
      expect(JSON.parse(stdout).puzzle).toBe(grid.replaceAll('-', '.'));
    }
  });

  test('a file that is not there and a grid that is too short are told apart', async () => {
    expect((await inkling(['check', `${'long-folder/'.repeat(8)}puzzle.txt`])).stderr).toContain(
      'no such file',
    );
    expect((await inkling(['check', essayGrid.slice(0, 80)])).stderr).toContain('GRID:1:');
  });
});

describe('colour and streams', () => {
  test.each([[{ NO_COLOR: '1' }], [{ FORCE_COLOR: '3' }], [{}]])(
    'no escapes in a pipe: %j',
    async (environment) => {
      for (const argv of [['--help'], ['check', essayGrid], ['hint', '--rung', 'why', essayGrid], ['chek']]) {
        const { stdout, stderr } = await inkling(argv, { environment });
        expect(stdout + stderr).not.toContain('\u001b');
      }
    },
  );
});
