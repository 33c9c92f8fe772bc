import { describe, expect, test } from 'vitest';
import { askSheet } from '../../source/commands/ask-sheet.ts';
import { argueOnSheet } from '../../source/hint/argue.ts';
import { hintFor } from '../../source/hint/ladder.ts';
import { isRight } from '../../source/sheet/look-over.ts';
import { actionTable } from '../../source/terminal/keymap.ts';
import { PlainSession } from '../../source/terminal/plain/plain-session.ts';
import { inWords } from '../../source/terminal/plain/spoken.ts';
import { defaultSettings } from '../../source/terminal/settings.ts';
import { grid1333, openBench, sheetOf } from './bench.ts';

const open = (line = grid1333) =>
  new PlainSession(sheetOf(line), defaultSettings, {
    findHint: hintFor,
    argue: argueOnSheet,
    ask: askSheet,
    isRight: (state) => isRight(state),
  });

/** What is said to some lines, one after the other. */
const said = (session: PlainSession, ...lines: readonly string[]): string[] =>
  lines.flatMap((line) => session.line(line).lines);

describe('the notation in words', () => {
  test.each([
    ['r7c4=4', 'Row 7 column 4 is 4'],
    ['Took back r7c4=4.', 'Took back row 7 column 4 is 4.'],
    ['r3c5<>7', 'Row 3 column 5 is not 7'],
    ['r3c5<>27', 'Row 3 column 5 is not 2 7'],
    ['1 goes from r2c3 r2c7 r5c3.', '1 goes from row 2 column 3, row 2 column 7, row 5 column 3.'],
    ['1 of column 1: r2 or r5.', '1 of column 1: row 2 or row 5.'],
    ['by 7@c2 7@c8', 'by 7 of column 2, 7 of column 8'],
    ['r9c8 has nothing left. r1c1 is open.', 'Row 9 column 8 has nothing left. Row 1 column 1 is open.'],
    ['A@b12 in r16c10', 'A of box 12 in row 16 column 10'],
    ['X-wing, 2 facts.', 'X-wing, 2 facts.'],
  ])('%j', (text, words) => {
    expect(inWords(text)).toBe(words);
  });
});

describe('without a screen', () => {
  test('it says what is open, and what to do next', () => {
    expect(open().greeting()).toEqual([
      'a grid: 25 placed, 56 open.',
      'help tells what can be typed, show tells the grid, quit ends.',
    ]);
  });

  test.each([
    ['the grid', 'show', 'Row 3: 2, open, open, open, open, 5, open, open, 6.'],
    ['a row', 'row 3', 'Row 3: 2, open, open, open, open, 5, open, open, 6.'],
    ['a column', 'column 9', 'Column 9: open, open, 6, open, open, 2, 3, 5, 7.'],
    ['a box', 'show b1', 'Box 1: open, 4, 6, open, open, open, 2, open, open.'],
    ['a cell', 'show r1c2', 'Row 1 column 2 is 4, a given.'],
    ['a cell gone to', 'r5c5', 'Row 5 column 5 is open.'],
    ['placing', 'r5c4=2', 'Row 5 column 4 is 2.'],
    ['noting', 'r5c6:67', 'Row 5 column 6 is open: note 6 7.'],
    ['spots', '7@b5:r5c6,r6c6', '7 of box 5: spot in row 5 column 6 and row 6 column 6.'],
    ['striking', 'r5c6<>67', 'Struck: 6 in row 5 column 6, 7 in row 5 column 6.'],
    ['a pen', 'n', 'Pen: note.'],
    ['a pen by its name', 'strike', 'Pen: strike.'],
    ['a digit with the pen', '2', 'Row 5 column 5 is 2.'],
    ['a step', 'right', 'Row 5 column 6 is open.'],
    ['where a digit can go', 'find 4', 'In row 9: columns 3, 5 and 8.'],
    ['the marks', 'marks', 'No marks.'],
    ['all candidates', 'fill', 'All candidates are noted.'],
    ['all singles', 'singles', 'Row 5 column 4 is 2.'],
    ['a question', 'right-so-far', 'Right so far.'],
    ['a copy', 'copy-grid', grid1333],
    ['a theme', 'theme mono', 'Theme: mono.'],
  ])('%s: %s', (_, line, sentence) => {
    expect(said(open(), line)).toContain(sentence);
  });

  test('several marks of one cell on one line, but no two digits in ink', () => {
    const session = open();
    expect(said(session, 'n', '67').at(-1)).toBe('Row 5 column 5 is open: note 6 7.');
    expect(session.line('i').isWrong).toBe(false);
    expect(session.line('67').isWrong).toBe(true);
  });

  test('a slip is told at once, with the way out, and that it is gone', () => {
    const session = open();
    expect(said(session, 'r7c4=2')).toEqual([
      'Row 7 column 4 is 2.',
      'Slip: Row 7 has 2 twice: row 7 column 4 and row 7 column 6.',
      'undo takes back: row 7 column 4 is 2.',
    ]);
    said(session, 'r8c7=2');
    expect(said(session, 'z').at(-1)).toBe('No slip any more.');
  });

  test('a hint is told rung by rung and taken only when it is asked for', () => {
    const session = open();
    said(session, 'fill');
    const rungs = ['where', 'digits', 'pattern', 'cells', 'why'].map((rung, index) => {
      const lines = said(session, 'hint');
      expect(lines[0]).toBe(`Hint ${index + 1} of 5, ${rung}.`);
      return lines;
    });
    expect(rungs[0]).toHaveLength(3);
    expect(rungs[0][1]).toMatch(/^Look at (row|column|box) \d\.$/);
    expect(rungs[4].at(-1)).toBe('take takes the step.');
    const before = session.app.sheet;
    expect(said(session, 'hint')).toEqual(['The hint has said all of it.']);
    expect(session.app.sheet).toBe(before);
    expect(said(session, 'take')[0]).toMatch(/^(Row \d column \d is \d|Struck: )/);
  });

  test('an argument that fails comes with what it overlooked', () => {
    const lines = said(open(), 'r5c1<>3 by 3@r1 3@c8');
    expect(lines[0]).toBe('Does not hold.');
    expect(lines.join(' ')).toMatch(/Overlooked: row 3 column 8\./);
  });

  test('instances are gone through, by name and by key', () => {
    const session = open();
    expect(said(session, 'fill', 'find two-string-kite')[1]).toMatch(/^Two-string kite, 1 of 3\./);
    expect(said(session, 'next-shown')[0]).toMatch(/^Two-string kite, 2 of 3\./);
    expect(said(session, '.')[0]).toMatch(/^Two-string kite, 3 of 3\./);
    expect(said(session, 'leave')).toEqual(['Left.']);
  });

  test('a grid is pasted line by line, shown, and opened when asked', () => {
    const session = open();
    const rows = grid1333.match(/.{9}/g) ?? [];
    expect(said(session, 'paste', ...rows)).toEqual(['Type or paste the grid, then an empty line.']);
    expect(said(session, '')).toEqual([
      'Pasted grid: 25 givens, one solution.',
      'open opens it, leave leaves it.',
    ]);
    expect(session.line('undo').isWrong).toBe(true);
    expect(said(session, 'open')).toEqual(['That grid is open already. restart goes back to its givens.']);
    const other = grid1333.replace('461', '...');
    expect(said(session, other, 'open').at(-1)).toBe('Opened. undo takes it back.');
    expect(said(session, 'paste', '12', '')).toContain('The paste cannot be read.');
  });

  test('a grid is entered by hand, a row a line', () => {
    const session = open('.'.repeat(81));
    said(session, 'r1c1', 'enter', '.46 1..', '.5.');
    expect(said(session, 'lock')).toEqual(['4 givens locked.']);
    expect(said(session, 'row 1')).toEqual(['Row 1: open, 4, 6, 1, open, open, open, 5, open.']);
  });

  test('cells are picked and written at once', () => {
    const session = open();
    said(session, 'r6c5', 'pick', 'pick-right', 'n');
    expect(said(session, '7')).toEqual([
      'Row 6 column 5 is open: note 7.',
      'Row 6 column 6 is open: note 7.',
    ]);
    expect(said(session, 'undo')[0]).toMatch(/^Took back note row 6 column 5 7/);
  });

  test('what cannot be read is said in the notation to type, and the session goes on', () => {
    const session = open();
    const wrong = session.line('r4c7==3');
    expect(wrong.isWrong).toBe(true);
    expect(wrong.lines.join(' ')).toContain('a digit from 1 to 9');
    expect(session.line('put it in r1').lines.join(' ')).toContain('r4c7=3, r4c7<>3');
    expect(session.line('undoo').lines).toEqual(['No action is called "undoo". Did you mean undo?']);
    expect(session.line('r5c5').isWrong).toBe(false);
  });

  test('it asks before work is lost, and ends', () => {
    const session = open();
    said(session, 'r5c4=2');
    expect(session.line('quit')).toMatchObject({ quit: null });
    expect(session.line('quit')).toMatchObject({ quit: 0 });
  });

  test('every action can be done by its name in its mode, or is about the screen or a digit alone', () => {
    const screen = 'suspend redraw more palette type submit clear-line cancel count';
    const list = 'run next-listed previous-listed rub-letter earlier-line later-line';
    for (const { name, keys } of actionTable) {
      if (`${screen} ${list}`.split(' ').includes(name) || (keys as readonly string[]).includes('1-9'))
        continue;
      const help = open().line(`help ${name.replaceAll('-', ' ')}`).lines;
      const modes = ['find', 'copy', 'tag', 'enter', 'paste', 'hold'];
      const opened = modes.map((mode) => {
        const session = open();
        if (mode === 'paste') session.line(grid1333);
        else session.line(mode);
        return session.line('help').lines.join('\n');
      });
      const found = [...help, ...opened].join('\n');
      if (/shown|take|pick-(left|down|up|right)/.test(name)) continue;
      expect(found, name).toContain(name);
    }
  });

  test('the same lines come to the same sheet as on the screen', () => {
    const lines = ['r5c4=2', 'r5c6:67', '7@r1:c6,c7', 'r4c8<>4', 'fill', 'undo', 'redo', 'singles', 'erase'];
    const session = open();
    const bench = openBench(sheetOf(grid1333));
    for (const line of lines) {
      session.line(line);
      bench.type(line);
    }
    expect(session.app.sheet.state).toEqual(bench.app().sheet.state);
    expect(session.app.sheet.past).toHaveLength(bench.app().sheet.past.length);
  });

  test('whatever is typed, only plain text without escapes comes back', () => {
    const session = open();
    const odd = ['\u001b[31m', '\u001b]0;x\u0007', '\u202e', 'find \u001b[2J', 'theme \u0007', 'r1c1=\u001b'];
    for (const line of odd) {
      for (const text of session.line(line).lines)
        expect(text).toMatch(/^[^\u0000-\u001f\u007f-\u009f\u202e]*$/);
    }
  });
});
