import { spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { colourDepth } from '../../source/platform/capabilities.ts';
import { coloursIn, terminfoColours } from '../../source/platform/terminfo.ts';

/* What terminfo says of colours, against the programs of ncurses: `tic` writes the entries, `tput` reads them. */

const hasPrograms = ['tic', 'tput'].every((name) => spawnSync(name, ['-V']).status === 0);
const folder = mkdtempSync(join(tmpdir(), 'inkling-terminfo-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** As `tput colors` has it; -1 stands for none. */
function byTput(term: string, env: Readonly<Record<string, string>>): number {
  const { stdout } = spawnSync('tput', ['-T', term, 'colors'], { env, encoding: 'utf8' });
  return Math.max(0, Number(stdout.trim()));
}

describe.runIf(hasPrograms)('against ncurses (skipped: no tic or no tput)', () => {
  test('entries of our own, with numbers of two and of four bytes', () => {
    const source = join(folder, 'source');
    writeFileSync(
      source,
      `ink-none|no colours at all,\n\tam, cols#80,\n
ink-8|eight,\n\tcolors#8, pairs#64,\n
ink-odd8|a name that makes the numbers begin elsewhere,\n\tam, bce, colors#8, pairs#64,\n
ink-256|many,\n\tam, cols#80, colors#256, pairs#32767,\n
ink-rgb|direct ones, which need long numbers,\n\tcolors#0x1000000, pairs#0x10000,\n`,
    );
    expect(spawnSync('tic', ['-x', '-o', folder, source]).status).toBe(0);
    const env = { PATH: process.env.PATH ?? '', TERMINFO: folder };
    const read = ['ink-none', 'ink-8', 'ink-odd8', 'ink-256', 'ink-rgb'].map((term) => [
      term,
      terminfoColours(term, { TERMINFO: folder }),
      byTput(term, env),
    ]);
    expect(read).toEqual([
      ['ink-none', 0, 0],
      ['ink-8', 8, 8],
      ['ink-odd8', 8, 8],
      ['ink-256', 256, 256],
      ['ink-rgb', 1 << 24, 1 << 24],
    ]);
    // The other places where ncurses looks: the home, and the list of folders.
    mkdirSync(join(folder, 'home'));
    expect(spawnSync('tic', ['-x', '-o', join(folder, 'home/.terminfo'), source]).status).toBe(0);
    expect(terminfoColours('ink-256', { HOME: join(folder, 'home') })).toBe(256);
    expect(terminfoColours('ink-256', { TERMINFO_DIRS: `/nowhere:${folder}` })).toBe(256);
    expect(terminfoColours('ink-256', {})).toBe(null);
  });

  test.runIf(existsSync('/lib/terminfo'))("the machine's own entries", () => {
    const terms = readdirSync('/lib/terminfo', { withFileTypes: true })
      .filter((each) => each.isDirectory())
      .flatMap(({ name }) => readdirSync(join('/lib/terminfo', name)));
    const env = { PATH: process.env.PATH ?? '' };
    expect(terms.map((term) => [term, terminfoColours(term, {})])).toEqual(
      terms.map((term) => [term, byTput(term, env)]),
    );
    console.log(`terminfo: ${terms.length} entries of the machine`);
  });

  test('an entry cut anywhere, or spoilt, gives a number or nothing', () => {
    const entry = readFileSync(join(folder, 'i/ink-rgb'));
    for (let length = 0; length < entry.length; length += 1) {
      expect([null, 0, 1 << 24]).toContain(coloursIn(entry.subarray(0, length)));
    }
    for (let at = 0; at < entry.length * 8; at += 1) {
      const spoilt = Buffer.from(entry);
      spoilt[at >> 3]! ^= 1 << (at & 7);
      const colours = coloursIn(spoilt);
      expect(colours === null || colours >= 0).toBe(true);
    }
  });
});

test.each(['../../etc/passwd', 'a/b', '', '.', '-x', 'x\u001b[31m'])('%j is no name to look for', (term) => {
  expect(terminfoColours(term, { TERMINFO: '/etc' })).toBe(null);
});

test.each([
  [1 << 24, 'true'],
  [256, '256'],
  [88, '16'],
  [16, '16'],
  [8, '16'],
  [2, 'mono'],
  [0, 'mono'],
  [null, '16'],
] as const)('a terminal of which terminfo says %s has %s colours', (colours, depth) => {
  expect(colourDepth({ TERM: 'st' }, undefined, true, () => colours)).toBe(depth);
});

test('what the terminal or the person says goes before terminfo, which the commonest names are spared', () => {
  const two = () => 2;
  expect(colourDepth({ TERM: 'st', COLORTERM: 'truecolor' }, undefined, true, two)).toBe('true');
  expect(colourDepth({ TERM: 'st' }, '256', true, two)).toBe('256');
  expect(colourDepth({ TERM: 'st' }, 'always', true, two)).toBe('16');
  expect(colourDepth({ TERM: 'vt100' }, undefined, true, () => 256)).toBe('mono');
  expect(colourDepth({ TERM: 'xterm-256color' }, undefined, true, two)).toBe('256');
});
