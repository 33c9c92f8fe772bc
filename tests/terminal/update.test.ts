import { describe, expect, test } from 'vitest';
import { houseFact } from '../../source/argument/fact.ts';
import { countDigits, digitsIn } from '../../source/grid/candidates.ts';
import { plain } from '../../source/grid/layout.ts';
import { cellName, parseCell, parseHouse } from '../../source/grid/names.ts';
import { readGrid } from '../../source/grid/read.ts';
import { hintFor } from '../../source/hint/ladder.ts';
import { isSolved, liveNote } from '../../source/sheet/marks.ts';
import { canTake, keyModeOf } from '../../source/terminal/app-state.ts';
import { type Bench, digitsOf, grid1333, openBench, sheetOf } from './bench.ts';

const cell = (name: string): number => parseCell(plain, name) ?? -1;
const at = (bench: Bench): string => cellName(plain, bench.app().cursor);
const ink = (bench: Bench, name: string): number => bench.app().sheet.state.ink[cell(name)];
const note = (bench: Bench, name: string): string =>
  digitsIn(liveNote(bench.app().sheet.state, cell(name))).join('');
const fresh = (columns?: number, rows?: number) => openBench(sheetOf(grid1333), columns, rows);

describe('moving', () => {
  test.each([
    ['left', 'r5c4'],
    ['h', 'r5c4'],
    ['right', 'r5c6'],
    ['l', 'r5c6'],
    ['up', 'r4c5'],
    ['k', 'r4c5'],
    ['down', 'r6c5'],
    ['j', 'r6c5'],
    ['home', 'r5c1'],
    ['end', 'r5c9'],
    ['pageup', 'r1c5'],
    ['pagedown', 'r9c5'],
    ['tab', 'r5c6'],
    ['shift+tab', 'r5c4'],
    ['g 7 3', 'r7c3'],
    ['home left', 'r5c9'],
    ['pageup up', 'r9c5'],
  ])('%s leads from r5c5 to %s', (keys, there) => {
    const bench = fresh();
    bench.press(keys);
    expect(at(bench)).toBe(there);
    expect(bench.app().mode.kind).toBe('work');
  });

  test('tab passes over placed cells, and while a digit is shown over cells where it cannot go', () => {
    const bench = fresh();
    bench.press('g 1 1 tab');
    expect(at(bench)).toBe('r1c5');
    bench.press('f 4 tab');
    // 4 of row 1 is given, so is row 2's; row 3 has it at c7 and c8 only.
    expect(at(bench)).toBe('r3c7');
  });
});

describe('pens', () => {
  test('each letter chooses its pen, p the next one, v the kind of house', () => {
    const bench = fresh();
    const pens = ['n', 's', 'o', 'i'].map((key) => {
      bench.press(key);
      return bench.app().pen;
    });
    expect(pens).toEqual(['note', 'spot', 'strike', 'ink']);
    bench.press('p');
    expect(bench.app().pen).toBe('note');
    expect(bench.app().spotHouse).toBe('box');
    bench.press('v');
    expect([bench.app().pen, bench.app().spotHouse]).toEqual(['spot', 'row']);
    bench.press('v v');
    expect(bench.app().spotHouse).toBe('box');
  });

  test('plain digits write with the pen', () => {
    const bench = fresh();
    bench.press('2');
    expect(ink(bench, 'r5c5')).toBe(2);
    bench.press('right n 6 7 9');
    expect(note(bench, 'r5c6')).toBe('679');
    bench.press('o 9');
    expect(note(bench, 'r5c6')).toBe('67');
    bench.press('s 6');
    const fact = houseFact(plain, parseHouse(plain, 'b5') ?? plain.houses[0], 6);
    expect(bench.app().sheet.state.spots.get(fact)).toEqual([cell('r5c6')]);
  });

  test('where nothing can be written it says why and changes nothing', () => {
    const bench = fresh();
    const before = bench.app().sheet;
    bench.press('g 1 2 5');
    expect(bench.app().message).toEqual(['r1c2 is a given.']);
    bench.press('g 1 1 n 4');
    expect(bench.app().message).toEqual(['4 is out of r1c1 already.']);
    expect(bench.app().sheet === before).toBe(true);
    bench.press('right');
    expect(bench.app().message).toEqual([]);
  });

  test('digit first: the digit in hand is written by enter, cell after cell, with the pen', () => {
    const bench = fresh();
    bench.press('d 3 n return right return');
    expect([note(bench, 'r5c5'), note(bench, 'r5c6')]).toEqual(['3', '']);
    expect(bench.app().held).toBe(3);
    expect(bench.app().found).toBe(3);
    bench.press('d d');
    expect([bench.app().held, bench.app().found]).toEqual([null, null]);
  });

  test('0, backspace and delete erase', () => {
    for (const key of ['0', 'backspace', 'delete']) {
      const bench = fresh();
      bench.press(`2 ${key}`);
      expect(ink(bench, 'r5c5'), key).toBe(0);
    }
  });
});

describe('undo, redo and the bulk moves', () => {
  test('each is one step, and undo comes back to the very same state', () => {
    const bench = fresh();
    const start = bench.app().sheet.state;
    bench.press('a');
    expect(bench.app().sheet.past).toHaveLength(1);
    const open = start.givens.flatMap((digit, index) => (digit === 0 ? [index] : []));
    expect(open.every((index) => liveNote(bench.app().sheet.state, index) !== 0)).toBe(true);
    bench.press('x');
    expect(bench.app().sheet.past).toHaveLength(2);
    expect(bench.app().sheet.state.ink.filter((digit) => digit !== 0).length).toBeGreaterThan(1);
    bench.press('ctrl+r');
    expect(bench.app().sheet.state.ink.every((digit) => digit === 0)).toBe(true);
    bench.press('u u u');
    expect(bench.app().sheet.state === start).toBe(true);
    bench.press('u');
    expect(bench.app().message).toEqual(['Nothing to undo.']);
    bench.press('r r r r');
    expect(bench.app().message).toEqual(['Nothing to redo.']);
  });

  test('no singles are placed beside a slip', () => {
    const bench = fresh();
    bench.press('i g 1 5 4');
    const { sheet } = bench.app();
    expect(bench.app().slips).not.toEqual([]);
    bench.press('x');
    expect(bench.app().sheet === sheet).toBe(true);
    expect(bench.app().message).toEqual(['No singles beside a slip. z goes back to before it.']);
    bench.press('z x');
    expect(bench.app().message.join()).toMatch(/placed|No single here/);
  });

  test('singles over and over solve a grid of singles, which is recognised', () => {
    // Line 257 of the same set needs nothing else; the last round fills the grid.
    const easy = '53..7....6..195....98....6.8...6...34..8.3..17...2...6.6....28....419..5....8..79';
    const bench = openBench(sheetOf(easy));
    for (let round = 0; round < 30 && !isSolved(bench.app().sheet.state); round += 1) bench.press('x');
    expect(isSolved(bench.app().sheet.state)).toBe(true);
    expect(bench.app().message).toEqual(['Solved.']);
    expect(bench.rows().join('\n')).toContain('Solved.');
    bench.press('w');
    expect(bench.app().message).toEqual(['Solved.']);
  });
});

describe('slips', () => {
  test('z goes back to just before the first slip, and undo keys redo it', () => {
    const bench = fresh();
    bench.type('r7c8=4');
    const clean = bench.app().sheet.state;
    bench.type('r7c4=4');
    bench.type('r8c7=2');
    expect(bench.app().slips.map(({ text }) => text)).toEqual(['Row 7 has 4 twice: r7c4 and r7c8.']);
    expect(bench.rows().join('\n')).toMatch(/z +goes back to before/);
    bench.press('z');
    expect(bench.app().sheet.state === clean).toBe(true);
    expect(bench.app().slips).toEqual([]);
    bench.press('z');
    expect(bench.app().message).toEqual(['No slip to go back from.']);
    bench.press('r');
    expect(bench.app().message).toEqual(['Did r7c4=4 again.']);
    bench.press('left');
    expect(bench.app().slips).toHaveLength(1);
    expect(bench.rows().join('\n')).toMatch(/u {2}takes back r7c4=4/);
  });
});

describe('hints', () => {
  test('one key climbs, nothing is written before the step is taken, escape leaves', () => {
    const bench = fresh();
    bench.press('a w');
    const { sheet } = bench.app();
    const rung = () => bench.app().hint?.ladder.rungs[bench.app().hint?.at ?? 0].rung;
    for (const expected of ['where', 'digits', 'pattern', 'cells']) {
      expect(rung()).toBe(expected);
      expect(canTake(bench.app())).toBe(false);
      bench.press('return');
      expect(bench.app().sheet === sheet).toBe(true);
      bench.press('w');
    }
    bench.press('w w');
    expect(rung()).toBe('why');
    expect(bench.app().sheet === sheet).toBe(true);
    expect(canTake(bench.app())).toBe(true);
    bench.press('return');
    expect(bench.app().sheet.past).toHaveLength(2);
    expect(bench.app().hint).toBeNull();
    bench.press('w escape');
    expect(bench.app().hint).toBeNull();
    expect(bench.app().sheet.past).toHaveLength(2);
  });

  test('moving keeps the hint; writing ends it, since it told of the sheet as it was', () => {
    const bench = fresh();
    bench.press('w left up');
    expect(keyModeOf(bench.app())).toBe('hint');
    bench.press('g 5 5 2');
    expect(bench.app().hint).toBeNull();
    expect(ink(bench, 'r5c5')).toBe(2);
  });

  test('taking every step in turn solves the grid or ends where no step is known', () => {
    const bench = openBench(sheetOf(grid1333));
    let steps = 0;
    for (; steps < 400 && !isSolved(bench.app().sheet.state); steps += 1) {
      bench.press('w');
      if (!bench.app().hint) break;
      expect(bench.app().hint?.ladder.kind).toBe('step');
      bench.press('w w w w return');
    }
    expect(bench.app().hint).toBeNull();
    expect(bench.app().slips).toEqual([]);
    expect(steps).toBeGreaterThan(10);
  });

  test('where no step is known it says so', () => {
    const bench = openBench(sheetOf(grid1333), 80, 24, { findHint: () => null });
    bench.press('w');
    expect(bench.app().message).toEqual(['No step found.']);
    expect(keyModeOf(bench.app())).toBe('work');
  });

  test('where no argument is short enough to show, a sheet that cannot be right is still told so first', () => {
    const bench = openBench(sheetOf(grid1333), 80, 24, { findHint: () => null });
    // Nothing stands twice and nothing is left without a place, and yet the one solution has no 9 there.
    bench.type('r1c1=9');
    expect(bench.app().slips).toEqual([]);
    bench.press('w');
    expect(bench.app().message[0]).toMatch(/^Something on the sheet cannot be right\./);
    bench.press('u w');
    expect(bench.app().message).toEqual(['No step found.']);
    const impossible = openBench(sheetOf(`12345678.${'.'.repeat(63)}........9`), 80, 24, {
      findHint: () => null,
    });
    impossible.press('w');
    expect(impossible.app().message[0]).toMatch(/^The givens have no solution\./);
  });

  test('right so far, and the marks looked over, only when asked', () => {
    const bench = fresh();
    bench.press('y');
    expect(bench.app().message).toEqual(['Right so far.']);
    bench.press('n g 5 5 2 3 m');
    expect(bench.app().message[0]).toMatch(/^r5c5 could also be /);
    bench.press('u u i g 1 5 3 y');
    expect(bench.app().message).toEqual(['Something on the sheet is not right.']);
  });
});

describe('the typed line', () => {
  test.each([
    ['r5c5=2', (bench: Bench) => ink(bench, 'r5c5') === 2],
    ['r5c6<>9', (bench: Bench) => bench.app().sheet.state.strikes.has(cell('r5c6') * 9 + 8)],
    ['r5c6:67', (bench: Bench) => note(bench, 'r5c6') === '67'],
    ['6@b5:r4c4,r5c4', (bench: Bench) => bench.app().sheet.state.spots.size === 1],
    ['r1c1', (bench: Bench) => at(bench) === 'r1c1'],
    ['fill', (bench: Bench) => countDigits(liveNote(bench.app().sheet.state, cell('r5c5'))) > 2],
    ['find 3', (bench: Bench) => bench.app().found === 3],
    ['hold 3', (bench: Bench) => bench.app().held === 3],
    ['Hint', (bench: Bench) => bench.app().hint?.at === 0],
    ['tag', (bench: Bench) => bench.app().mode.kind === 'tag'],
    ['quit', (bench: Bench) => bench.done.includes('quit 0')],
    ['', (bench: Bench) => bench.app().sheet.past.length === 0],
  ] as const)('takes %j', (line, holds) => {
    const bench = fresh();
    bench.type(line);
    expect(bench.app().mode.kind).not.toBe('typed');
    expect(holds(bench)).toBe(true);
  });

  test.each([
    ['r1c2=3', 'r1c2 is a given.'],
    ['7@b2:r1c4,r2c4', 'r1c4 is a given.'],
    ['r1c2:35', 'r1c2 is a given.'],
    ['r5c5=2 r5c5:34', 'r5c5 holds 2.'],
    ['r1c1<>4', 'Nothing changed.'],
    ['r1c1:1234', '1, 2 and 4 are out of r1c1 already.'],
    ['4@b1:r1c1', '4 is out of r1c1 already.'],
  ])('says what of %j it cannot write', (line, said) => {
    const bench = fresh();
    bench.type(line);
    expect(bench.app().message).toEqual([said]);
    expect(bench.rows().join(' ').replaceAll(/\s+/g, ' ')).toContain(said);
  });

  test('what it cannot read stays in the line, with where and what', () => {
    const bench = fresh();
    bench.type('r5c5=2 r10c1=3');
    expect(bench.app().mode).toMatchObject({ kind: 'typed', text: 'r5c5=2 r10c1=3' });
    expect(bench.app().message[0]).toMatch(/Column 8/);
    expect(ink(bench, 'r5c5')).toBe(0);
    bench.press('escape');
    bench.type('undoo');
    expect(bench.app().message).toEqual(['No action is called "undoo". Did you mean undo?']);
    expect(bench.rows().join('\n')).toContain('Did you mean');
  });

  test('help, typed, shows the keys', () => {
    const bench = fresh();
    bench.type('help');
    expect(bench.rows().join('\n')).toContain('look for an action');
  });
});

describe('tags', () => {
  test('t tags candidates, t again takes the next letter, 0 clears the cell', () => {
    const bench = fresh();
    bench.press('g 5 5 t 2 t 9');
    const rows = bench.rows().join('\n');
    expect(rows).toContain('2m');
    expect(rows).toContain('9t');
    expect(bench.app().sheet.state.tags.size).toBe(2);
    bench.press('9');
    expect(bench.app().sheet.state.tags.size).toBe(1);
    bench.press('0 escape');
    expect(bench.app().sheet.state.tags.size).toBe(0);
    expect(bench.app().mode.kind).toBe('work');
  });
});

describe('entering a grid by hand', () => {
  test('digits and open cells in reading order, a slip told at once, enter locks', () => {
    const bench = fresh();
    bench.press('e');
    expect([bench.app().mode.kind, at(bench)]).toEqual(['enter', 'r1c1']);
    bench.press('5 3 0 . 7 space');
    expect(bench.app().sheet.state.ink.slice(0, 6)).toEqual([5, 3, 0, 0, 7, 0]);
    bench.press('5');
    expect(bench.app().slips.map(({ text }) => text)).toEqual(['Row 1 has 5 twice: r1c1 and r1c7.']);
    bench.press('backspace return');
    expect(bench.app().mode.kind).toBe('work');
    expect(bench.app().sheet.state.givens.slice(0, 7)).toEqual([5, 3, 0, 0, 7, 0, 0]);
    expect(bench.app().message).toEqual(['3 givens locked.']);
  });

  test('escape loses nothing, and e goes on where it was left', () => {
    const bench = openBench(sheetOf('.'.repeat(81)));
    bench.press('g 1 1 e 1 2 escape');
    expect(bench.app().sheet.state.ink.slice(0, 3)).toEqual([1, 2, 0]);
    bench.press('e 3');
    expect(bench.app().sheet.state.ink.slice(0, 3)).toEqual([1, 2, 3]);
  });
});

describe('pasting and copying', () => {
  test('a paste is a preview first; enter opens it in one step, escape leaves it', () => {
    const bench = fresh();
    const before = bench.app().sheet;
    const other = '53..7....6..195....98....6.8...6...34..8.3..17...2...6.6....28....419..5....8..79';
    bench.paste(`${other}\n`);
    expect(bench.app().mode.kind).toBe('paste');
    expect(bench.app().sheet === before).toBe(true);
    expect(bench.rows()[1]).toContain('r1   5     3');
    bench.press('escape');
    expect(bench.app().sheet === before).toBe(true);
    bench.paste(other);
    bench.press('return');
    expect(bench.app().sheet.state.givens).toEqual(digitsOf(other));
    // A sheet of its own, with nothing on it to undo: undo takes back that it was opened, and redo opens it again.
    expect(bench.app().sheet.past).toHaveLength(0);
    bench.press('u');
    expect(bench.app().sheet === before).toBe(true);
    bench.press('r');
    expect(bench.app().sheet.state.givens).toEqual(digitsOf(other));
    bench.press('5 u');
    expect(bench.app().sheet.state.givens).toEqual(digitsOf(other));
    bench.press('u u');
    expect(bench.app().sheet === before).toBe(true);
    expect(bench.app().message).toEqual(['Nothing to undo.']);
  });

  test('of several grids it asks which', () => {
    const bench = fresh();
    const other = '53..7....6..195....98....6.8...6...34..8.3..17...2...6.6....28....419..5....8..79';
    bench.paste(`${grid1333}\n${other}\n`);
    expect(bench.rows().join('\n')).toContain('Grid 1 of 2');
    bench.press('down return');
    expect(bench.app().sheet.state.givens).toEqual(digitsOf(other));
  });

  test('the preview says how many solutions a grid has, and the sheet is not touched', () => {
    const bench = fresh();
    const before = bench.app().sheet;
    bench.paste(`${grid1333}\n${'.'.repeat(81)}\n55${'.'.repeat(79)}\n`);
    for (const words of ['one solution', 'several solutions', 'no solution', 'one solution']) {
      expect(bench.rows()[2]).toMatch(new RegExp(` ${words}$`));
      expect(bench.app().message).toEqual([]);
      bench.press('down');
    }
    bench.press('escape');
    expect(bench.app()).toMatchObject({ thinking: null, message: [] });
    expect(bench.app().sheet === before).toBe(true);
  });

  test('what cannot be read is said with its place, and cannot hurt the screen', () => {
    const bench = fresh();
    bench.paste('not a grid \u001b[31m at all');
    expect(bench.app().mode.kind).toBe('work');
    expect(bench.app().message.join(' ')).toMatch(/cannot be read.*[Ll]ine 1/);
    expect(bench.rows().join('')).not.toMatch(/\u001b/);
  });

  test('a paste into the typed line types its first line', () => {
    const bench = fresh();
    bench.press(':');
    bench.paste('r5c5=2\nr5c6=3');
    expect(bench.app().mode).toMatchObject({ kind: 'typed', text: 'r5c5=2' });
    expect(bench.rows().join('\n')).toMatch(/Only the first line/);
    bench.press('escape :');
    bench.paste('r5c5=2\n');
    expect(bench.app()).toMatchObject({ mode: { kind: 'typed', text: 'r5c5=2' }, message: [] });
    bench.paste(`${' '.repeat(300)}x`);
    expect(bench.app().message).toEqual(['The paste is too long for the line.']);
  });

  test('what is copied reads back to the same grid', () => {
    const bench = fresh();
    bench.type('r5c5=2 r5c6:67');
    bench.press('c g');
    bench.press('c c');
    const [line, table] = bench.done.map((text) => readGrid(text));
    expect(line.ok && line.value.grid.givens[cell('r5c5')]).toBe(2);
    expect(table.ok && table.value.grid.marks?.[cell('r5c6')]).toBe(0b1100000);
    expect(bench.app().message).toEqual(['Candidates copied.']);
  });
});

describe('leaving', () => {
  test('without changes q quits at once; with changes it asks once', () => {
    const bench = fresh();
    bench.press('q');
    expect(bench.done).toEqual(['quit 0']);
    const other = fresh();
    other.press('2 q');
    expect(other.done).toEqual([]);
    expect(other.app().message[0]).toContain('not saved');
    other.press('left q');
    expect(other.done).toEqual([]);
    other.press('q');
    expect(other.done).toEqual(['quit 0']);
  });

  test('Ctrl-C leaves what is open, then quits', () => {
    const bench = fresh();
    bench.press('w ctrl+c');
    expect([bench.app().hint, bench.done]).toEqual([null, []]);
    bench.press('f ctrl+c ctrl+c');
    expect(bench.done).toEqual(['quit 130']);
  });

  test('help shows the keys of the mode it was called from, and goes back there', () => {
    const bench = fresh();
    bench.press('t ?');
    expect(bench.rows().join('\n')).toContain('next tag letter');
    bench.press('escape');
    expect(bench.app().mode.kind).toBe('tag');
  });

  test('escape never changes the sheet', () => {
    for (const keys of ['w', 'f', 'f 3', 'd 3', 'g', 'g 1', 'c', 't', 'e', ':', '?', 'b']) {
      const bench = fresh();
      bench.press(`2 ${keys}`);
      const { sheet } = bench.app();
      bench.press('escape');
      expect(bench.app().sheet === sheet, keys).toBe(true);
    }
  });
});

test('a line that is left comes back with the key for the line before', () => {
  const bench = fresh();
  bench.press(':');
  bench.store.send({ kind: 'typed', text: 'r5c3<>2 by 2@r7' });
  for (const key of ['escape', 'ctrl+c']) {
    bench.press(key);
    expect(bench.app().mode.kind).toBe('work');
    bench.press(': up');
    expect(bench.app().mode).toMatchObject({ text: 'r5c3<>2 by 2@r7' });
  }
  bench.press('escape');
  expect(bench.app().typedLines).toEqual(['r5c3<>2 by 2@r7']);
});

test('a key that waits for a digit gives way to any other key', () => {
  const bench = fresh();
  bench.press('f right');
  expect(at(bench)).toBe('r5c6');
  bench.press('g u');
  expect(bench.app().message).toEqual(['Nothing to undo.']);
});

test('a hint is asked for with what the marks claim', () => {
  const seen: number[] = [];
  const bench = openBench(sheetOf(grid1333), 80, 24, {
    findHint: (view) => {
      seen.push(view.claims.length);
      return hintFor(view);
    },
  });
  bench.press('n 2 3 w');
  expect(seen).toEqual([1]);
});
