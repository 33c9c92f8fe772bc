import {
  chmodSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  unlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { openLastSheet } from '../../source/commands/resume.ts';
import { writeLayout } from '../../source/grid/layout-text.ts';
import { checksum } from '../../source/journal/checksum.ts';
import { sheetsFolder } from '../../source/platform/storage.ts';
import { undo } from '../../source/sheet/sheet.ts';
import { essayGrid, fiveSolutions, twoSolutions } from './grids.ts';
import { inkling, linesOf } from './run-inkling.ts';
import { newState, openOn, settled, shelfIn, write } from './shelf.ts';

interface Listed {
  readonly id: string;
  readonly name: string;
  readonly placed: number | null;
  readonly moves: number | null;
  readonly held: boolean;
  readonly problem: string | null;
}

const run = (state: string, ...args: string[]) =>
  inkling(['sheets', ...args], { environment: { XDG_STATE_HOME: state } });
const list = async (state: string): Promise<Listed[]> =>
  JSON.parse((await run(state, '--json')).stdout).sheets as Listed[];

/** Two sheets, the first with two moves. */
function twoSheets(): string {
  const state = newState();
  const one = openOn(shelfIn(state), essayGrid, 'essay');
  const open = one.sheet.state.givens.flatMap((digit, cell) => (digit === 0 ? [cell] : []));
  write(one, one.sheet, [
    { kind: 'note', cell: open[0], digits: 0b111111111 },
    { kind: 'note', cell: open[1], digits: 0b111111111 },
  ]);
  one.close();
  openOn(shelfIn(state), twoSolutions, 'two').close();
  return state;
}

test('no sheets', async () => {
  const { code, stdout, stderr } = await run(newState());
  expect([code, stdout, stderr]).toEqual([0, 'No sheet is kept yet. inkling GRID begins one.\n', '']);
});

test('lists them, the last one first, with what can be undone', async () => {
  const state = twoSheets();
  const sheets = await list(state);
  expect(sheets.map(({ name, moves, held, problem }) => [name, moves, held, problem])).toEqual([
    ['two', 0, false, null],
    ['essay', 2, false, null],
  ]);
  const { code, stdout } = await run(state);
  expect(code).toBe(0);
  expect(linesOf(stdout)).toHaveLength(2);
  expect(linesOf(stdout)[1]).toMatch(new RegExp(`^essay .* 2 moves .*Z  ${sheets[1].id}$`));
});

test('names one, and exports it by its name, and by its id', async () => {
  const state = twoSheets();
  const [, { id }] = await list(state);
  expect((await run(state, 'name', id, 'Tuesday')).stdout).toBe('essay is called Tuesday now.\n');
  expect((await list(state)).map(({ name }) => name).sort()).toEqual(['Tuesday', 'two']);
  const exported = await run(state, 'export', 'Tuesday');
  expect(exported.stdout.trim()).toBe(`${essayGrid.replaceAll(/[0*_-]/g, '.')} # Tuesday`);
  expect((await run(state, 'export', id)).stdout).toBe(exported.stdout);
  expect((await run(state, 'export', id, '--to', 'candidates')).stdout).toContain('Tuesday');
  // The moves are still there.
  expect((await list(state)).find((sheet) => sheet.id === id)?.moves).toBe(2);
});

test('removes one by its exact name only, and then it is gone', async () => {
  const state = twoSheets();
  for (const word of ['tw', 'TWO', 'two ', '*', '..', '/', '']) {
    const { code, stdout, stderr } = await run(state, 'remove', word);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toContain('there is no sheet');
  }
  expect((await run(state, 'remove', 'two')).stdout).toBe('Removed two.\n');
  expect((await list(state)).map(({ name }) => name)).toEqual(['essay']);
  expect(readdirSync(join(state, 'inkling/sheets'))).toHaveLength(1);
});

test('two of one name: neither is touched, and the ids are told', async () => {
  const state = newState();
  openOn(shelfIn(state), essayGrid, 'same').close();
  openOn(shelfIn(state), essayGrid, 'same', true).close();
  const { code, stderr } = await run(state, 'remove', 'same');
  expect(code).toBe(2);
  const sheets = await list(state);
  expect(sheets).toHaveLength(2);
  for (const { id } of sheets) expect(stderr).toContain(id);
  expect((await run(state, 'remove', sheets[0].id)).code).toBe(0);
  expect(await list(state)).toHaveLength(1);
});

test('a sheet that is open elsewhere is neither removed nor named: exit 1', async () => {
  const state = newState();
  const opened = openOn(shelfIn(state), essayGrid, 'mine');
  expect(await settled(opened)).toBeNull();
  expect((await list(state))[0].held).toBe(true);
  for (const args of [
    ['remove', 'mine'],
    ['name', 'mine', 'yours'],
  ]) {
    const { code, stderr } = await run(state, ...args);
    expect(code).toBe(1);
    expect(stderr).toContain(`open elsewhere (process ${process.pid})`);
  }
  opened.close();
  expect((await run(state, 'remove', 'mine')).code).toBe(0);
});

test('symbolic links are never followed', async () => {
  const state = twoSheets();
  const folder = join(state, 'inkling/sheets');
  const target = newState();
  writeFileSync(join(target, 'journal'), 'precious');
  symlinkSync(target, join(folder, '0123456789ab'));
  const [first] = await list(state);
  expect(await list(state)).toHaveLength(2);
  expect((await run(state, 'remove', '0123456789ab')).code).toBe(2);
  // A link in place of a sheet's journal.
  const journal = join(folder, first.id, 'journal');
  const kept = readFileSync(journal);
  writeFileSync(join(target, 'copy'), kept);
  unlinkSync(journal);
  symlinkSync(join(target, 'copy'), journal);
  expect((await list(state)).find(({ id }) => id === first.id)?.problem).toBe('symbolic link');
  expect((await run(state, 'remove', first.id)).code).toBe(0);
  expect(readFileSync(join(target, 'copy'))).toEqual(kept);
  expect(readFileSync(join(target, 'journal'), 'utf8')).toBe('precious');
});

test('files that are not ours stay, and are told of', async () => {
  const state = twoSheets();
  const [{ id }] = await list(state);
  const folder = join(state, 'inkling/sheets', id);
  writeFileSync(join(folder, 'notes.txt'), 'mine');
  const { code, stderr } = await run(state, 'remove', id);
  expect(code).toBe(2);
  expect(stderr).toContain('other files are in the folder');
  expect(readdirSync(folder)).toEqual(['notes.txt']);
});

test('what it can not do: exit 2, nothing on stdout', async () => {
  const state = twoSheets();
  for (const args of [
    ['delete', 'two'],
    ['remove'],
    ['name', 'two'],
    ['export', 'two', 'three'],
    ['name', 'two', ''],
  ]) {
    const { code, stdout, stderr } = await run(state, ...args);
    expect([code, stdout], args.join(' ')).toEqual([2, '']);
    expect(stderr).toMatch(/^inkling: /);
  }
});

describe('where sheets lie', () => {
  test.each([
    [{ XDG_STATE_HOME: '/here/state', HOME: '/here' }, '/here/state/inkling/sheets'],
    [{ XDG_STATE_HOME: '', HOME: '/here' }, '/here/.local/state/inkling/sheets'],
    [{ XDG_STATE_HOME: 'state', HOME: '/here' }, '/here/.local/state/inkling/sheets'],
    [{ HOME: '/here' }, '/here/.local/state/inkling/sheets'],
    [{ HOME: '' }, '/passwd/.local/state/inkling/sheets'],
    [{ HOME: 'home' }, '/passwd/.local/state/inkling/sheets'],
    [{}, '/passwd/.local/state/inkling/sheets'],
  ])('%j: %s', (environment, wanted) => {
    expect(sheetsFolder(environment, () => '/passwd')).toBe(wanted);
  });

  test('nowhere, where nothing says where home is', () => {
    expect(sheetsFolder({ HOME: '.' }, () => null)).toBeNull();
  });
});

describe('files and folders', () => {
  test('are for their owner alone, also under umask 000, and are made so where they were not', async () => {
    const before = process.umask(0);
    try {
      const state = newState();
      mkdirSync(join(state, 'inkling'), { mode: 0o777 });
      chmodSync(join(state, 'inkling'), 0o777);
      const opened = openOn(shelfIn(state), essayGrid);
      await settled(opened);
      const modes = readdirSync(state, { recursive: true }).map((name) => {
        const stats = statSync(join(state, String(name)));
        return [stats.isDirectory(), stats.mode & 0o777];
      });
      expect(modes.length).toBeGreaterThan(4);
      for (const [isFolder, mode] of modes) expect(mode).toBe(isFolder ? 0o700 : 0o600);
      opened.close();
    } finally {
      process.umask(before);
    }
  });

  test.each(['inkling', 'inkling/sheets'])('a symbolic link in place of %s is refused', async (name) => {
    const state = newState();
    const target = newState();
    if (name !== 'inkling') mkdirSync(join(state, 'inkling'));
    symlinkSync(target, join(state, name));
    const opened = openOn(shelfIn(state), essayGrid);
    expect(await settled(opened)).toBe('symbolic link');
    expect(readdirSync(target)).toEqual([]);
  });
});

describe('a journal that is not as it was', () => {
  const journalOf = (state: string): string => {
    const folder = join(state, 'inkling/sheets');
    return join(folder, readdirSync(folder)[0], 'journal');
  };
  const oneSheet = (): string => {
    const state = newState();
    const opened = openOn(shelfIn(state), fiveSolutions);
    const open = opened.sheet.state.givens.flatMap((digit, cell) => (digit === 0 ? [cell] : []));
    write(
      opened,
      opened.sheet,
      open.slice(0, 5).map((cell) => ({ kind: 'note', cell, digits: 0b111111111 }) as const),
    );
    opened.close();
    return state;
  };

  test('does not grow beyond what it holds over many short runs', () => {
    const state = newState();
    const open = openOn(shelfIn(state), fiveSolutions);
    const cells = open.sheet.state.givens.flatMap((digit, cell) => (digit === 0 ? [cell] : []));
    open.close();
    const path = journalOf(state);
    const moves = 120;
    const sizes: number[] = [];
    for (let run = 0; run < moves; run += 1) {
      const opened = openOn(shelfIn(state), fiveSolutions);
      expect(opened.sheet.past).toHaveLength(run);
      const cell = cells[run % cells.length];
      write(opened, opened.sheet, [{ kind: 'note', cell, digits: 0b111111111 }]);
      opened.close();
      sizes.push(statSync(path).size);
    }
    // Some 80 bytes a move, and a state of some 2,300 every eighth.
    expect(sizes[moves - 1]).toBeLessThan(moves * 500);
    // Nothing but undone and done again: no longer, however often.
    for (let run = 0; run < 30; run += 1) {
      const opened = openOn(shelfIn(state), fiveSolutions);
      const back = undo(opened.sheet, 5);
      for (let times = 0; times < 40; times += 1) {
        opened.keeper.take(opened.sheet, back);
        opened.keeper.take(back, opened.sheet);
      }
      opened.close();
    }
    expect(statSync(path).size).toBeLessThan(2 * sizes[moves - 1] + 65_536 + 10_000);
  });

  test('damaged in the middle: read up to there, its place told, the old bytes kept', async () => {
    const state = oneSheet();
    const path = journalOf(state);
    const bytes = readFileSync(path);
    const at = bytes.indexOf('\n4 ') + 20;
    bytes[at] ^= 4;
    writeFileSync(path, bytes);
    const listed = await run(state);
    expect(listed.code).toBe(0);
    expect(listed.stdout).toContain('Line 5: ');
    const opened = openLastSheet(shelfIn(state));
    if (!opened || 'message' in opened) throw new Error('not opened');
    expect(opened.sheet.past).toHaveLength(2);
    expect(opened.greeting[0]).toContain('Line 5: ');
    expect(opened.greeting[0]).toContain(`${path}.damaged-1`);
    expect(readFileSync(`${path}.damaged-1`)).toEqual(bytes);
    await settled(opened);
    opened.close();
    expect(readFileSync(`${path}.damaged-1`)).toEqual(bytes);
    expect((await list(state))[0]).toMatchObject({ moves: 2, problem: null });
    // A second time it is another file.
    const again = readFileSync(path);
    again[again.length - 10] ^= 1;
    writeFileSync(path, again);
    const second = openLastSheet(shelfIn(state));
    if (!second || 'message' in second) throw new Error('not opened');
    second.close();
    expect(readFileSync(`${path}.damaged-1`)).toEqual(bytes);
    expect(readFileSync(`${path}.damaged-2`)).toEqual(again);
  });

  test('an unfinished last record goes without a word', () => {
    const state = oneSheet();
    const path = journalOf(state);
    const bytes = readFileSync(path);
    writeFileSync(path, bytes.subarray(0, bytes.length - 7));
    const opened = openLastSheet(shelfIn(state));
    if (!opened || 'message' in opened) throw new Error('not opened');
    expect(opened.greeting).toEqual(['Resumed after 5 moves.']);
    opened.close();
    expect(existsSync(`${path}.damaged-1`)).toBe(false);
  });

  test('a sheet on which another grid was opened says so to who asks for the first', () => {
    const state = newState();
    const one = openOn(shelfIn(state), essayGrid, 'essay');
    const other = openOn(shelfIn(newState()), twoSolutions, 'two');
    const { givens, layout } = other.sheet.state;
    other.close();
    const layoutText = writeLayout(layout);
    write(one, one.sheet, [{ kind: 'open', layout: layoutText, name: 'two', givens, notes: [] }]);
    one.close();
    const again = openOn(shelfIn(state), essayGrid);
    again.close();
    expect(again.greeting).toEqual([
      'Resumed after 1 move.',
      'Another grid was opened on this sheet since: undo leads back.',
    ]);
  });

  test('damaged at its beginning: the grid gets a new sheet, the old bytes are kept', async () => {
    const state = oneSheet();
    const path = journalOf(state);
    writeFileSync(path, 'nothing of ours\n');
    const opened = openOn(shelfIn(state), fiveSolutions);
    expect(opened.greeting[0]).toContain('journal.damaged-1');
    expect(await settled(opened)).toBeNull();
    opened.close();
    expect(readFileSync(`${path}.damaged-1`, 'utf8')).toBe('nothing of ours\n');
    expect((await list(state))[0]).toMatchObject({ moves: 0, problem: null });
  });

  test('as the last sheet it makes room for the one before', () => {
    const state = twoSheets();
    const folder = join(state, 'inkling/sheets');
    const [last] = readdirSync(folder).sort(
      (a, b) => statSync(join(folder, b, 'journal')).mtimeMs - statSync(join(folder, a, 'journal')).mtimeMs,
    );
    writeFileSync(join(folder, last, 'journal'), '');
    const opened = openLastSheet(shelfIn(state));
    if (!opened || 'message' in opened) throw new Error('not opened');
    expect(opened.sheet.past).toHaveLength(2);
    expect(opened.greeting[0]).toContain(join(folder, last));
    opened.close();
    expect(readFileSync(join(folder, last, 'journal.damaged-1'), 'utf8')).toBe('');
  });

  test('of a newer version it is refused with its path, and stays as it is', async () => {
    const state = oneSheet();
    const path = journalOf(state);
    const newer = `inkling-sheet 2 ${checksum('inkling-sheet 2')}\nanything\n`;
    writeFileSync(path, newer);
    const opened = openLastSheet(shelfIn(state));
    expect(opened).toMatchObject({ place: path, message: expect.stringContaining('version 2') });
    expect((await run(state)).stdout).toContain('newer');
    expect((await run(state, 'export', (await list(state))[0].id)).code).toBe(1);
    expect(readFileSync(path, 'utf8')).toBe(newer);
    expect(existsSync(`${path}.damaged-1`)).toBe(false);
  });
});
