import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { closeAll, open, openInkling } from '../pty/harness.ts';
import { essayGrid } from './grids.ts';
import { inkling, program } from './run-inkling.ts';

afterEach(closeAll);

/** What a program has said in a terminal that it has not taken. */
async function refusal(args: readonly string[], env: Record<string, string | undefined>) {
  const app = openInkling(args, { env });
  const { code } = await app.exit;
  return { code, text: app.output().trimEnd().replaceAll('\r\n', '\n'), output: app.output() };
}

describe('where the workbench can not run: one line naming a one-shot command, exit 2', () => {
  test('no terminal on stdout', async () => {
    const { code, stdout, stderr } = await inkling([essayGrid]);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toMatch(/^inkling: [^\n]*terminal[^\n]*inkling hint[^\n]*\n$/);
  });

  test.each([
    ['TERM=dumb', { TERM: 'dumb' }],
    ['CI=1', { CI: '1' }],
  ])('%s', async (_name, env) => {
    const { code, text, output } = await refusal([essayGrid], env);
    expect(code).toBe(2);
    expect(text).toMatch(/^inkling: .*inkling hint GRID$/);
    expect(output).not.toContain('\u001b');
  });
});

describe('in a terminal', () => {
  test('an operand that can not be read is told before the screen is taken', async () => {
    for (const [args, message] of [
      [['nothing.txt'], 'nothing.txt: there is no such file'],
      [['nothing'], "unknown command 'nothing'"],
      [[essayGrid.slice(1)], 'GRID:1:'],
      [['-'], 'stdin is the terminal'],
    ] as const) {
      const { code, text, output } = await refusal(args, {});
      expect(code).toBe(2);
      expect(text).toContain(message);
      expect(output).not.toContain('\u001b[?1049h');
    }
  });

  test.each(['check', 'hint'])('%s with nothing to read shows its use instead of waiting', async (name) => {
    const { code, text } = await refusal([name], {});
    expect(code).toBe(2);
    expect(text).toContain(`inkling ${name}`);
  });

  test('a grid, a file and a pipe open; q quits with 0 and gives the screen back', async () => {
    const app = openInkling([essayGrid]);
    writeFileSync(join(app.home, 'my puzzle.txt'), `${essayGrid}\n`);
    const file = openInkling([join(app.home, 'my puzzle.txt')]);
    const pipe = open(['/bin/sh', '-c', `echo '${essayGrid}' | '${process.execPath}' '${program}' -`]);
    for (const each of [app, file, pipe]) {
      await each.waitFor('? keys');
      expect(each.modes().alternateScreen).toBe(true);
      each.press('q');
      expect((await each.exit).code).toBe(0);
      expect(each.modes()).toMatchObject({ alternateScreen: false, cursorVisible: true });
    }
    expect(file.output()).toContain('my puzzle');
  });

  test('with nothing given a puzzle that comes with the program opens', async () => {
    const app = openInkling([]);
    await app.waitFor('? keys');
    app.press('ctrl+c');
    expect((await app.exit).code).toBe(130);
  });
});
