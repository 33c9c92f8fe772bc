import fc from 'fast-check';
import { expect, test } from 'vitest';
import { plain } from '../../source/grid/layout.ts';
import { writeLayout } from '../../source/grid/layout-text.ts';
import { parseMoves } from '../../source/sheet/moves.ts';
import { sayEvent } from '../../source/sheet/say.ts';
import type { SheetEvent } from '../../source/sheet/state.ts';
import { sixteen } from '../exact/grids.ts';
import { anyEvent, seed } from './fixture.ts';

console.log(`moves.test.ts: seed ${seed}`);

/** What a line does, in the words of the moves themselves. */
function read(text: string, layout = plain): string {
  const result = parseMoves(text, layout);
  if (!result.ok)
    return `${result.error.code} ${result.error.line}:${result.error.column} ${result.error.message}`;
  return result.value
    .map((move) =>
      move.kind === 'go' ? `go ${move.cell}` : `${move.event.kind} ${sayEvent(layout, move.event)}`,
    )
    .join('; ');
}

test.each([
  ['', ''],
  [' ,; ', ''],
  ['r4c7=3', 'ink r4c7=3'],
  ['R4C7 = 3', 'ink r4c7=3'],
  ['r4c7<>3', 'take r4c7<>3'],
  ['r4c7!=3', 'take r4c7<>3'],
  ['r4c7 ≠ 3', 'take r4c7<>3'],
  ['r4c7<>369', 'take r4c7<>3 r4c7<>6 r4c7<>9'],
  ['r4c8:16', 'set-note note r4c8 1 6'],
  ['r4c8: 61', 'set-note note r4c8 1 6'],
  ['r4c8:-', 'set-note no note r4c8'],
  ['5@b2:r1c4,r2c4', 'set-spots 5@b2 r1c4 r2c4'],
  ['5b2:r1c4,r2c4', 'set-spots 5@b2 r1c4 r2c4'],
  ['7c2:r3,r8 5B2:-', 'set-spots 7@c2 r3 r8; set-spots no spots 5@b2'],
  ['5@r4:c1,7c2:r3', 'set-spots 5@r4 c1; set-spots 7@c2 r3'],
  ['5@B2:R2C4,r1c4,r1c4', 'set-spots 5@b2 r1c4 r2c4'],
  ['7@c2:r3,r8', 'set-spots 7@c2 r3 r8'],
  ['7@c2:r3, r8', 'set-spots 7@c2 r3 r8'],
  ['7@c2 : r3,r8', 'set-spots 7@c2 r3 r8'],
  ['7@c2:r3c2,r8', 'set-spots 7@c2 r3 r8'],
  ['5@r4:c1,c2', 'set-spots 5@r4 c1 c2'],
  ['5@r4:r4c1,c2,R4C3', 'set-spots 5@r4 c1 c2 c3'],
  ['5@b2:-', 'set-spots no spots 5@b2'],
  ['r4c7', 'go 33'],
  ['r1c1=1 r1c2=2,r1c3=3;r1c4', 'ink r1c1=1; ink r1c2=2; ink r1c3=3; go 3'],
  ['5@b2:r1c4,r2c4=3', 'set-spots 5@b2 r1c4; ink r2c4=3'],
  ['5@b2:r1c4,r2c4;r2c4', 'set-spots 5@b2 r1c4 r2c4; go 12'],
  ['5@b2:r1c4, r9c9', 'set-spots 5@b2 r1c4; go 80'],
  ['5@b2:r1c4, 6@b2:r1c5', 'set-spots 5@b2 r1c4; set-spots 6@b2 r1c5'],
  ['7@c2:r3,r8,', 'set-spots 7@c2 r3 r8'],
  ['r1c1=1\nr2c2', 'ink r1c1=1; go 10'],
])('reads %j', (text, moves) => {
  expect(read(text)).toBe(moves);
});

test.each([
  ['hello', 'no-move 1:1', 'found "hello"; expected a move such as r4c7=3'],
  ['r1c1=1 what', 'no-move 1:8', 'found "what"'],
  ['r4', 'no-move 1:1', 'found "r4"'],
  ['r10c4=3', 'no-cell 1:1', 'found "r10c4"; expected a cell from r1c1 to r9c9.'],
  ['r1c1=1 r0c4', 'no-cell 1:8', 'found "r0c4"'],
  ['r4c7=', 'no-digit 1:6', 'found nothing more; expected a digit from 1 to 9.'],
  ['r4c7=0', 'no-digit 1:6', 'found "0"'],
  ['r4c7=34', 'unexpected 1:7', 'found "4"; expected a space after the digit.'],
  ['r4c7<>', 'no-digit 1:7', 'found nothing more'],
  ['r4c8:1x', 'no-digit 1:7', 'found "x"'],
  ['r4c8:-1', 'unexpected 1:7', 'found "1"; expected a space after the note.'],
  ['r4c7+3', 'unexpected 1:5', 'found "+3"; expected =, <>, : or a space after the cell.'],
  ['x@b2:r1c4', 'no-digit 1:1', 'found "x@b2:r1c4"; expected a digit from 1 to 9.'],
  ['5@b10:r1c4', 'no-house 1:3', 'found "b10"; expected a house such as r4, c2 or b5.'],
  ['5@', 'no-house 1:3', 'found nothing more'],
  ['5@b2', 'unexpected 1:5', 'expected a colon and the cells, such as 5@b2:r1c4,r1c5.'],
  ['7@c2 r3', 'unexpected 1:5', 'expected a colon and the cells, such as 7@c2:r1,r2.'],
  ['5@r4', 'unexpected 1:5', 'expected a colon and the cells, such as 5@r4:c1,c2.'],
  ['5@b2:', 'no-cell 1:6', 'found nothing more; expected a cell of box 2, such as r1c4.'],
  ['5@b2:r1', 'not-in-house 1:6', 'found "r1"'],
  ['5@b2:r1c4,r9c9', 'not-in-house 1:11', 'found "r9c9"; expected a cell of box 2'],
  ['5@r4:c1,r3', 'not-in-house 1:9', 'found "r3"; expected a cell of row 4, such as c5.'],
  ['7@c2:c2', 'not-in-house 1:6', 'found "c2"; expected a cell of column 2, such as r3.'],
  ['7@c2:r3x', 'unexpected 1:8', 'found "x"; expected a comma or a space.'],
  ['5@b2:r1c4, r2c4', 'two-readings 1:12', 'r2c4 can be one more place of 5@b2, or a move of the cursor'],
  ['ä🙂 r1c1', 'no-move 1:1', 'found "ä🙂"'],
  ['r1c1=1 \u{1f642}', 'no-move 1:8', 'found "🙂"'],
  ['r1c1 \u001b[2J', 'no-move 1:6', 'found "\\x1b[2J"'],
  ['r1c1=1\n r9c0', 'no-cell 2:2', 'Line 2, column 2: found "r9c0"'],
])('refuses %j', (text, place, message) => {
  const told = read(text);
  expect(told.startsWith(`${place} `), told).toBe(true);
  expect(told).toContain(message);
});

test('the message begins with the place: the column, and the line where it is not the first', () => {
  expect(read('r4c7=')).toBe('no-digit 1:6 Column 6: found nothing more; expected a digit from 1 to 9.');
  expect(read('r1c1\nr9c0')).toBe(
    'no-cell 2:1 Line 2, column 1: found "r9c0"; expected a cell from r1c1 to r9c9.',
  );
});

test('larger digits are letters', () => {
  expect(read('r16c16=G A@r10:c1,c16', sixteen)).toBe('ink r16c16=G; set-spots A@r10 c1 c16');
});

test('so have cells two digits a number, in spots as elsewhere', () => {
  expect(read('G@b16:r13c13,r16c16 r10c12', sixteen)).toBe('set-spots G@b16 r13c13 r16c16; go 155');
  expect(read('A@r10:r10c4,c16;A@c16:r1c16,r10', sixteen)).toBe(
    'set-spots A@r10 c4 c16; set-spots A@c16 r1 r10',
  );
});

test('what an event is called reads back as the same event, wherever it can be typed', () => {
  const typed = (event: SheetEvent): string | null => {
    const said = sayEvent(plain, event);
    switch (event.kind) {
      case 'ink':
        return said;
      case 'take':
        return event.placements.length > 0 || event.strikes.length === 0 ? null : said;
      case 'set-note':
        return event.digits === 0
          ? null
          : said.replace(/^note (\S+) (.*)$/, (_, cell, ds) => `${cell}:${ds.replaceAll(' ', '')}`);
      case 'set-spots':
        return event.cells.length === 0 ? null : said.replace(' ', ':').replaceAll(' ', ',');
      default:
        return null;
    }
  };
  let compared = 0;
  fc.assert(
    fc.property(anyEvent(plain), (event) => {
      const text = typed(event);
      if (text === null) return;
      compared += 1;
      const result = parseMoves(text, plain);
      if (!result.ok) throw new Error(result.error.message);
      const events = result.value.flatMap((move) => (move.kind === 'event' ? [move.event] : []));
      if (event.kind === 'take') {
        const strikes = events.flatMap((each) => (each.kind === 'take' ? each.strikes : []));
        expect(strikes).toEqual(event.strikes);
      } else if (event.kind === 'set-spots') {
        expect(events).toEqual([{ ...event, cells: [...event.cells].sort((a, b) => a - b) }]);
      } else expect(events).toEqual([event]);
    }),
    { numRuns: 2000, seed },
  );
  expect(compared).toBeGreaterThan(300);
});

test.each<[SheetEvent, string]>([
  [{ kind: 'ink-all', candidates: [0, 10] }, 'r1c1=1 r1c2=2'],
  [{ kind: 'ink-all', candidates: [0, 10, 20, 30] }, '4 placements'],
  [{ kind: 'note', cell: 34, digits: 0b10100100 }, 'note r4c8 3 6 8'],
  [{ kind: 'spot', fact: 81 + 10 * 9 + 6, cell: 19 }, '7@c2 r3'],
  [{ kind: 'strike', candidates: [0, 1, 2, 3] }, '4 strikes'],
  [{ kind: 'take', placements: [0], strikes: [30] }, 'r1c1=1, r1c4<>4'],
  [{ kind: 'erase', cell: 80 }, 'erase r9c9'],
  [{ kind: 'fill' }, 'all candidates'],
  [{ kind: 'tag', candidate: 10, tag: 't' }, 'tag t r1c2 2'],
  [{ kind: 'tag', candidate: 10, tag: null }, 'no tag r1c2 2'],
  [{ kind: 'restart' }, 'restart'],
  [{ kind: 'lock' }, 'locking the givens'],
  [
    { kind: 'open', layout: writeLayout(plain), name: '\u001b[2J', givens: [], notes: [] },
    'opening another grid',
  ],
])('%j is called %s', (event, words) => {
  expect(sayEvent(plain, event)).toBe(words);
});

test('any text is moves or a located error within it, never a throw', () => {
  const piece = fc.constantFrom(
    ...[
      'r4c7',
      '=',
      '<>',
      '!=',
      '≠',
      ':',
      '-',
      ',',
      ';',
      ' ',
      '\n',
      '@',
      'b2',
      'c2',
      'r3',
      '5',
      '16',
      'x',
      '🙂',
      '\u001b',
    ],
  );
  const text = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 40 }),
    fc.array(piece, { maxLength: 14 }).map((pieces) => pieces.join('')),
  );
  let good = 0;
  fc.assert(
    fc.property(text, (line) => {
      const result = parseMoves(line, plain);
      if (result.ok) {
        good += 1;
        return;
      }
      const { line: row, column, message } = result.error;
      const length = [...(line.split('\n')[row - 1] ?? '')].length;
      const inside = row >= 1 && row <= line.split('\n').length && column >= 1 && column <= length + 1;
      if (!inside || /[\u0000-\u001f]/.test(message)) throw new Error(message);
    }),
    { numRuns: 5000, seed },
  );
  expect(good).toBeGreaterThan(20);
});
