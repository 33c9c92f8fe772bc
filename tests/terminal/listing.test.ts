import { describe, expect, test } from 'vitest';
import { actionsOf, actionTable, defaultKeymap } from '../../source/terminal/keymap.ts';
import { searchActions } from '../../source/terminal/listing.ts';
import { grid1333, openBench, sheetOf } from './bench.ts';

const search = (text: string) =>
  searchActions(actionTable, text, defaultKeymap.keysOf).map(({ name }) => name);
const fresh = (columns?: number, rows?: number) => openBench(sheetOf(grid1333), columns, rows);

describe('looking for an action', () => {
  test.each([
    ['undo', 'undo'],
    ['cop cand', 'copy-candidates'],
    ['cand cop', 'copy-candidates'],
    ['slip', 'back'],
    ['rght', 'right'],
    ['colours', 'theme'],
    ['right so far', 'right-so-far'],
    ['w', 'hint'],
    ['HINT', 'hint'],
  ])('%j comes to %s first', (text, name) => {
    expect(search(text)[0]).toBe(name);
  });

  test('nothing asked is everything, in the order of the table; nonsense is nothing', () => {
    expect(search('')).toEqual(actionTable.map(({ name }) => name));
    expect(search('zzqx')).toEqual([]);
    expect(search('undo zzqx')).toEqual([]);
  });

  test('every action is found by its name and by what it does', () => {
    for (const { name, help } of actionTable) {
      expect(search(name.replaceAll('-', ' '))).toContain(name);
      expect(search(help)).toContain(name);
    }
  });
});

describe('the list of actions', () => {
  test('opens by one key, shows what can be done with its key, and enter does it', () => {
    const bench = fresh();
    bench.press('ctrl+p');
    for (const letter of 'note all') bench.press(letter === ' ' ? 'space' : letter);
    expect(bench.rows()[2]).toMatch(/▸ a {14}note all candidates {8}fill/);
    bench.press('return');
    expect(bench.app().mode.kind).toBe('work');
    expect(bench.app().sheet.past).toHaveLength(1);
  });

  test('arrows choose, round again; escape leaves; letters do nothing to the sheet', () => {
    const bench = fresh();
    bench.press('ctrl+p u n d o');
    expect(bench.app().sheet.past).toHaveLength(0);
    bench.press('ctrl+u down down up');
    const { mode } = bench.app();
    expect(mode).toMatchObject({ kind: 'palette', text: '', at: 1 });
    bench.press('up up');
    expect(bench.rows()[0]).toMatch(/(\d+) of \1$/);
    bench.press('escape');
    expect(bench.app().mode).toEqual({ kind: 'work' });
  });

  test('digits, question marks and backspace belong to its words', () => {
    const bench = fresh();
    bench.press('ctrl+p 3 ? x backspace');
    expect(bench.app().mode).toMatchObject({ text: '3?' });
    expect(bench.rows()[0]).toContain('nothing fits');
    bench.press('return');
    expect(bench.app().mode.kind).toBe('palette');
  });

  test('what is chosen is always on the screen, at every size', () => {
    for (const [columns, rows] of [
      [80, 24],
      [40, 15],
      [120, 45],
    ] as const) {
      const bench = fresh(columns, rows);
      bench.press('ctrl+p');
      const shown = new Set<string>();
      const { length } = actionsOf('work');
      for (let at = 0; at < length; at += 1) {
        const line = bench.rows().find((row) => row.includes('▸'));
        expect(line, `${columns} x ${rows}, ${at}`).toBeDefined();
        shown.add(line ?? '');
        bench.press('down');
      }
      expect(shown.size).toBe(length);
    }
  });

  test('within a hint its own keys come too, and it is still there afterwards', () => {
    const bench = fresh();
    bench.press('a w ctrl+p');
    for (const letter of 'where to look') bench.press(letter === ' ' ? 'space' : letter);
    bench.press('return');
    expect(bench.app().hint?.at).toBe(1);
  });
});

describe('the help', () => {
  test('shows all keys at a glance, by pages, and goes with the key that it came by', () => {
    const bench = fresh();
    bench.press('?');
    const first = bench.rows().join('\n');
    expect(first).toContain('space page 1 of 2');
    bench.press('space');
    const second = bench.rows().join('\n');
    expect(second).toContain('page 2 of 2');
    for (const text of ['one cell on', 'write with the pen']) expect(first).toContain(text);
    for (const text of ['type moves or an action', 'these keys']) expect(second).toContain(text);
    bench.press('pageup');
    expect(bench.rows().join('\n')).toBe(first);
    bench.press('?');
    expect(bench.app().mode.kind).toBe('work');
  });

  test('letters narrow it down to what they ask for, enter does that, backspace widens it', () => {
    const bench = fresh();
    bench.press('? m a r k s');
    const rows = bench.rows().join('\n');
    expect(rows).toContain('look over my marks');
    expect(rows).not.toContain('quit');
    bench.press('backspace backspace backspace backspace backspace');
    expect(bench.rows().join('\n')).toContain('page 1 of 2');
    bench.press('f i l l return');
    expect(bench.app().sheet.past).toHaveLength(1);
  });
});

describe('lines that were typed before', () => {
  const lineOf = (bench: ReturnType<typeof fresh>) => {
    const { mode } = bench.app();
    return mode.kind === 'typed' ? mode.text : null;
  };

  test('come back with up, the last one first, and go with down', () => {
    const bench = fresh();
    bench.type('r5c4=2');
    bench.type('show row 1');
    bench.type('show row 1');
    bench.press(': up');
    expect(lineOf(bench)).toBe('show row 1');
    bench.press('up');
    expect(lineOf(bench)).toBe('r5c4=2');
    bench.press('up');
    expect(lineOf(bench)).toBe('r5c4=2');
    bench.press('down');
    expect(lineOf(bench)).toBe('show row 1');
    bench.press('down');
    expect(lineOf(bench)).toBe('');
    bench.press('down escape');
    expect(bench.app().mode.kind).toBe('work');
  });

  test('those that could not be understood are not among them', () => {
    const bench = fresh();
    bench.type('r5c4=2');
    bench.type('nonsense');
    bench.press('ctrl+u up');
    expect(lineOf(bench)).toBe('r5c4=2');
  });
});
