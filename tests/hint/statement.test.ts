import { describe, expect, test } from 'vitest';
import { factName } from '../../source/argument/fact.ts';
import { makeLayout, plain, rectangularBoxes } from '../../source/grid/layout.ts';
import { placementName, strikeName } from '../../source/grid/names.ts';
import { isStatement, parseStatement } from '../../source/hint/statement.ts';

/** A statement as it would be written plainly. */
function plainly(text: string, layout = plain): string {
  const read = parseStatement(text, layout);
  if (!read.ok) return read.error.message;
  const { facts, conclusions } = read.value;
  const name = conclusions.kind === 'placements' ? placementName : strikeName;
  const concluded =
    conclusions.kind === 'breaks' ? ['breaks'] : conclusions.candidates.map((x) => name(layout, x));
  return `${concluded.join(' ')} by ${facts.map((fact) => factName(layout, fact)).join(' ')}`;
}

describe('statements', () => {
  test.each([
    ['r3c5<>7 by 7@c2 7@c8', 'r3c5<>7 by 7@c2 7@c8'],
    ['  R3C5 != 7,r5c5≠7 ; BY 7@C2, r4c8;', 'r3c5<>7 r5c5<>7 by 7@c2 r4c8'],
    ['r3c5<>47 by 4@b5', 'r3c5<>4 r3c5<>7 by 4@b5'],
    ['r3c5<>7 r3c5<>7 by 7@c2 7@c2', 'r3c5<>7 by 7@c2'],
    ['r4c7=3 by r4c7', 'r4c7=3 by r4c7'],
    ['breaks by r1c1\n3@b1', 'breaks by r1c1 3@b1'],
    ['r3c5<>7 by 9@r1 1@r9 r9c9', 'r3c5<>7 by 9@r1 1@r9 r9c9'],
    ['r3c5<>7 by 7c2 r4c8,7C8 7@b1', 'r3c5<>7 by 7@c2 r4c8 7@c8 7@b1'],
  ])('%j', (text, written) => {
    expect(plainly(text)).toBe(written);
    expect(plainly(written)).toBe(written);
  });

  test('are read on other layouts', () => {
    const four = makeLayout({ name: '4x4', size: 4, boxOf: rectangularBoxes(2, 2) });
    expect(plainly('r4c4<>4 by 4@b4', four)).toBe('r4c4<>4 by 4@b4');
    const wide = makeLayout({ name: '16x16', size: 16, boxOf: rectangularBoxes(4, 4) });
    expect(plainly('r4c4<>d by dr14 cc4 bb2', wide)).toBe('r4c4<>D by D@r14 C@c4 B@b2');
    expect(plainly('r4c5<>4 by 4@b4', four)).toBe(
      'Column 1: found "r4c5"; expected a cell from r1c1 to r4c4.',
    );
    expect(plainly('r4c4<>5 by 4@b4', four)).toBe('Column 7: found "5"; expected a digit from 1 to 4.');
  });

  test('are told from moves by their word', () => {
    expect(['r3c5<>7 by 7@c2', 'by', 'r1c1 BY'].map(isStatement)).toEqual([true, true, true]);
    expect(['r3c5<>7', 'ruby r1c1', '5@b2:r1c4', ''].map(isStatement)).toEqual([false, false, false, false]);
  });
});

describe('what is no statement says where, what stands there, and what could', () => {
  const conclusion = 'a conclusion such as r3c5<>7, r4c7=3 or breaks';
  test.each([
    ['', 1, 'no-conclusion', 'nothing more', conclusion],
    ['by 7@c2', 1, 'no-conclusion', '"by"', conclusion],
    ['X-wing by 7@c2', 1, 'no-conclusion', '"X-wing"', conclusion],
    ['r3c5 7 by 7@c2', 6, 'unexpected', '"7"', '<> or = after the cell'],
    ['r3c5<>x by 7@c2', 7, 'no-digit', '"x"', 'a digit from 1 to 9'],
    ['r3c5<>7x by 7@c2', 8, 'no-digit', '"x"', 'a digit from 1 to 9'],
    ['r3c5=78 by 7@c2', 7, 'unexpected', '"8"', 'a space after the digit'],
    ['r0c5<>7 by 7@c2', 1, 'no-cell', '"r0c5"', 'a cell from r1c1 to r9c9'],
    ['r3c5<>7', 8, 'no-by', 'nothing more', "'by' and the facts, such as by 7@c2 7@c8"],
    ['r3c5<>7 because 7@c2', 9, 'no-conclusion', '"because"', conclusion],
    ['r3c5<>7 by', 11, 'no-fact', 'nothing more', 'a fact such as 7@c2 or r4c8'],
    ['r3c5<>7 by 7@c2 and', 17, 'no-fact', '"and"', 'a fact such as 7@c2 or r4c8'],
    ['r3c5<>7 by 0@c2', 12, 'no-digit', '"0@c2"', 'a digit from 1 to 9'],
    ['r3c5<>7 by 7@c0', 14, 'no-house', '"c0"', 'a house such as r4, c2 or b5'],
    ['r3c5<>7 by 7@', 14, 'no-house', 'nothing more', 'a house such as r4, c2 or b5'],
    ['r3c5<>7 by r4c8:16', 16, 'unexpected', '":16"', 'a space after the cell'],
  ])('%j', (text, column, code, found, expected) => {
    const read = parseStatement(text, plain);
    const message = `Column ${column}: found ${found}; expected ${expected}.`;
    expect(read).toEqual({ ok: false, error: { code, line: 1, column, found, expected, message } });
  });

  test('conclusions of two kinds, or breaks with others, are not mixed', () => {
    for (const text of ['r1c1=1 r1c2<>3 by r1c1', 'breaks r1c1=1 by r1c1', 'breaks breaks by r1c1']) {
      const read = parseStatement(text, plain);
      expect(!read.ok && read.error).toMatchObject({ code: 'mixed', column: 8 });
    }
  });

  test('a hundred facts are enough', () => {
    const facts = plain.houses.flatMap(({ name }) => [1, 2, 3, 4].map((digit) => `${digit}@${name}`));
    expect(parseStatement(`breaks by ${facts.slice(0, 100).join(' ')}`, plain).ok).toBe(true);
    const read = parseStatement(`breaks by ${facts.slice(0, 101).join(' ')}`, plain);
    expect(!read.ok && read.error).toMatchObject({ code: 'too-many-facts', column: 511, found: '"1@b8"' });
  });

  test('columns count signs, lines count from one, and what is shown is safe', () => {
    const read = parseStatement('r3c5≠7\nby \u{1F9E9}\u001b[2J', plain);
    expect(!read.ok && read.error).toMatchObject({ line: 2, column: 4, found: '"\u{1F9E9}\\x1b[2J"' });
  });
});
