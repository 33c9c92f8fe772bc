import { execFileSync } from 'node:child_process';
import { chmodSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, test } from 'vitest';
import { commands, openCommand } from '../source/commands/catalogue.ts';
import { readSettings } from '../source/commands/settings-file.ts';
import { keyModes } from '../source/terminal/action.ts';
import { helpGroups } from '../source/terminal/draw-help.ts';
import { actionTable, defaultKeymap, keyWord, sayAction } from '../source/terminal/keymap.ts';
import { settingsOf, settingTable } from '../source/terminal/preferences.ts';
import { rooms } from './architecture/rooms.ts';

const root = fileURLToPath(new URL('../', import.meta.url));
const readme = readFileSync(join(root, 'README.md'), 'utf8');
/** `npm run readme` sets it: what the README shows is then written anew instead of compared. */
const rewriting = process.env.INKLING_WRITE_README === '1';
let rewritten = readme;

const bin = mkdtempSync(join(tmpdir(), 'inkling-readme-'));
writeFileSync(
  join(bin, 'inkling'),
  `#!/bin/sh\nexec '${process.execPath}' '${join(root, 'dist/main.js')}' "$@"\n`,
);
chmodSync(join(bin, 'inkling'), 0o755);
afterAll(() => {
  rmSync(bin, { recursive: true });
  if (rewriting && rewritten !== readme) writeFileSync(join(root, 'README.md'), rewritten);
});

/** Types the lines of a block into one shell, and gives back what would then stand on the screen. */
function play(typed: readonly string[]): string {
  // Each line is echoed as it was typed, and `$?` reaches the next one as it would by hand.
  const script = typed.map((line) => `printf '%s\\n' ${quoted(`$ ${line}`)}; (exit $code)\n${line}\ncode=$?`);
  return execFileSync('/bin/sh', ['-c', `exec 2>&1; code=0\n${script.join('\n')}`], {
    cwd: root,
    encoding: 'utf8',
    // A home of its own: nobody's settings hold, and nobody's sheets are touched.
    env: { PATH: `${bin}${delimiter}${process.env.PATH}`, LANG: 'C.UTF-8', HOME: bin },
  });
}
const quoted = (text: string): string => `'${text.replaceAll("'", `'\\''`)}'`;

describe('README', () => {
  const blocks = [...readme.matchAll(/^```console\n([\s\S]*?)^```$/gm)].map(([, text]) => text);

  test('shows every command at work', () => {
    const shown = (name: string) => blocks.some((block) => new RegExp(`inkling ${name}\\b`).test(block));
    const names = commands.filter((command) => command !== openCommand).map(({ name }) => name);
    expect(names.filter((name) => !shown(name))).toEqual([]);
  });

  test.each(blocks.map((block) => [block.split('\n', 1)[0], block]))('%s …', (_title, block) => {
    const typed = block.split('\n').flatMap((line) => (line.startsWith('$ ') ? [line.slice(2)] : []));
    expect(typed.length).toBeGreaterThan(0);
    const shown = play(typed);
    if (rewriting) rewritten = rewritten.replace(block, () => shown);
    else expect(block).toBe(shown);
  });

  test('its table of keys is the one of the program', () => {
    const rows = helpGroups(defaultKeymap, 'work').flatMap(([heading, ...lines]) =>
      lines.map(({ keys, text }, index) => {
        const words = keys.split(' ').map((key) => `\`${key}\``);
        return `| ${index === 0 ? heading.text : ''} | ${words.join(' ')} | ${text} |`;
      }),
    );
    const section = /(<!-- keys:.*-->\n)([\s\S]*?)(<!-- end of keys -->)/.exec(readme);
    const wanted = `\n| | key | does |\n|---|---|---|\n${rows.join('\n')}\n\n`;
    if (rewriting)
      rewritten = rewritten.replace(section?.[0] ?? '', () => `${section?.[1]}${wanted}${section?.[3]}`);
    else expect(section?.[2]).toBe(wanted);
  });

  test('says on top what it is for, and names the two commands that set it up', () => {
    const [, paragraph] = readme.split('\n\n');
    expect(paragraph).toMatch(/^`inkling` is a workbench in the terminal/);
    expect(readme).toContain('npm ci && npm start');
    expect(readme).toContain('npm ci && npm test');
  });
});

describe('docs/config.md', () => {
  const path = join(root, 'docs/config.md');
  const config = readFileSync(path, 'utf8');
  let changed = config;
  afterAll(() => {
    if (rewriting && changed !== config) writeFileSync(path, changed);
  });

  /** Compares what stands between two marks with the table that belongs there, or writes it anew. */
  function expectTable(name: string, rows: readonly string[]): void {
    const section = new RegExp(`(<!-- ${name}:.*-->\\n)([\\s\\S]*?)(<!-- end of ${name} -->)`).exec(config);
    const wanted = `\n${rows.join('\n')}\n\n`;
    if (rewriting)
      changed = changed.replace(section?.[0] ?? '', () => `${section?.[1]}${wanted}${section?.[3]}`);
    else expect(section?.[2]).toBe(wanted);
  }

  test('its table of settings is the one of the program', () => {
    const code = (value: string | boolean | number) => `\`${JSON.stringify(value)}\``;
    expectTable('settings', [
      '| setting | is | where not set | about |',
      '|---|---|---|---|',
      ...settingTable.map(
        ({ name, values, fallback, about }) =>
          `| \`${name}\` | ${values.map(code).join(' ')} | ${code(fallback)} | ${about} |`,
      ),
    ]);
  });

  test('its table of actions is the one of the program', () => {
    expectTable('actions', [
      '| action | keys | does | counts in |',
      '|---|---|---|---|',
      ...actionTable.map((action) => {
        const { name, keys, modes } = action;
        const words = keys.map((key) => `\`${keyWord(key)}\``).join(' ');
        const where = modes.length === keyModes.length ? 'all' : modes.join(', ');
        return `| \`${name}\` | ${words === '' ? 'none' : words} | ${sayAction(action)} | ${where} |`;
      }),
    ]);
  });

  test('its example is read without a complaint, and does what it says', () => {
    const [, example] = /```toml\n([\s\S]*?)```/.exec(config) ?? [];
    const read = readSettings(example ?? '');
    expect(read).toHaveProperty('bindings');
    if (!('bindings' in read)) return;
    expect(settingsOf(read)).toMatchObject({ theme: 'light', pen: 'note' });
    expect(settingsOf(read).keymap.keysOf('undo')).toEqual(['u', 'ctrl+u']);
    expect(settingsOf(read).keymap.keysOf('singles')).toEqual([]);
  });
});

describe('DEVELOPERS.md', () => {
  const developers = readFileSync(join(root, 'DEVELOPERS.md'), 'utf8');

  test('its table of rooms is the one that is enforced', () => {
    const rows = [...developers.matchAll(/^\| `([a-z]+(?:\/|\.ts))` \| [^|]+ \| ([^|]+) \|$/gm)];
    expect(rows.map(([, room]) => room.replace('/', ''))).toEqual([...rooms.keys()]);
    for (const [, name, allowed] of rows) {
      const room = name.replace('/', '');
      const rules = rooms.get(room);
      const said =
        rules && room === 'commands'
          ? 'all'
          : [...rooms.keys()]
              .flatMap((other) => {
                if (rules?.imports.includes(other)) return [other];
                return rules?.typesOnly.includes(other) ? [`${other} (types)`] : [];
              })
              .join(', ') || '–';
      expect(`${room}: ${allowed}`).toBe(`${room}: ${said}`);
    }
  });

  test('every script and file that it names is there', () => {
    const { scripts } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
      scripts: Record<string, string>;
    };
    for (const [, name] of developers.matchAll(/`npm run ([a-z:]+)`/g)) expect(scripts).toHaveProperty(name);
    for (const [, path] of developers.matchAll(/`((?:source|tests|docs|\.ci)\/[\w./-]*)`/g)) {
      expect(() => execFileSync('test', ['-e', join(root, path)]), path).not.toThrow();
    }
  });
});
