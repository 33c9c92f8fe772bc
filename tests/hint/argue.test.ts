import { describe, expect, test } from 'vitest';
import type { Claim } from '../../source/argument/claim.ts';
import { plain } from '../../source/grid/layout.ts';
import { cellName, parseCell } from '../../source/grid/names.ts';
import type { Position } from '../../source/grid/position.ts';
import { argueOnSheet } from '../../source/hint/argue.ts';
import type { ArgueAnswer } from '../../source/hint/argue-words.ts';
import { showInstance } from '../../source/hint/find-words.ts';
import { instancesOf } from '../../source/path/find.ts';
import { techniqueById } from '../../source/techniques/catalogue.ts';
import { candidateIn, claimOf } from '../path/argue-notation.ts';
import { positionOf } from '../path/grids.ts';
import { scene } from '../techniques/notation.ts';

function answer(position: Position, text: string, claims: readonly Claim[] = []): ArgueAnswer {
  const answered = argueOnSheet({ position, claims, kind: 'full' }, text);
  if (!answered.ok) throw new Error(answered.error.message);
  return answered.value;
}

/** The answer as lines of text, the headline first. */
const said = (position: Position, text: string, claims: readonly Claim[] = []): string[] => {
  const { headline, lines } = answer(position, text, claims);
  return [headline, ...lines.map((each) => `${each.sign.padEnd(2)}${each.text}`)];
};

/** `r5c1#3 placement`: what is drawn, facts with their letters. */
const drawn = ({ drawing }: ArgueAnswer): string[] =>
  drawing.candidates
    .map(({ candidate, role, letter = '' }) => {
      const name = `${cellName(plain, Math.floor(candidate / 9))}#${(candidate % 9) + 1}`;
      return `${name} ${role} ${letter}`.trim();
    })
    .sort();

/**
 * The sheet of the screen study: a random minimal grid (own construction, line 1333 of the set) with five
 * digits in ink.
 */
const study = ['r1c5=2', 'r5c4=2', 'r8c7=2', 'r9c2=2', 'r9c6=6'].reduce(
  (position, word) => position.place(parseCell(plain, word.slice(0, 4)) ?? -1, Number(word[5])),
  positionOf('.461...5......4.2.2....5..67.2..1....8.......4......92.1...2..3..7..3..5...8..9.7'),
);
const xWing = scene('1@c1:r2c1,r5c1 1@c9:r2c9,r5c9');

describe('what is said of an argument that holds', () => {
  test('its name, its facts, what goes', () => {
    expect(said(xWing, 'r2c3<>1 r2c7<>1 by 1@c1 1@c9')).toEqual([
      'Holds. X-wing, 2 facts.',
      'A 1 of column 1: r2 or r5.',
      'B 1 of column 9: r2 or r5.',
      '× 1 goes from r2c3 r2c7.',
    ]);
  });

  test('what was not needed, and what was known', () => {
    const position = scene('1@b9:r7c9,r8c9');
    expect(said(position, 'r3c9<>1 r7c8<>1 by 2@r1 1@b9 r5c5')).toEqual([
      'Holds, and 1@b9 alone is enough. Pointing, 1 fact.',
      'A 1 of box 9: r7c9 or r8c9.',
      '× 1 goes from r3c9.',
      '/ r7c8 had lost its 1 already.',
      '  Not needed: 2@r1 r5c5.',
    ]);
    expect(said(xWing, 'r2c3<>1 by 1@c1 2@c2 1@c9')[0]).toBe(
      'Holds, and 1@c1 and 1@c9 are enough. X-wing, 2 facts.',
    );
  });

  test('several in one are told one by one', () => {
    const position = scene('1@r1:r1c1,r1c2 2@r9:r9c7,r9c8');
    expect(said(position, 'r2c3<>1 r8c9<>2 by 1@r1 2@r9').slice(-2)).toEqual([
      '  r2c3<>1 by 1@r1: Claiming, 1 fact.',
      '  r8c9<>2 by 2@r9: Claiming, 1 fact.',
    ]);
  });

  test('a placement; facts that cannot all be met', () => {
    expect(said(scene('7@r4:r4c7'), 'r4c7=7 by 7@r4')).toEqual([
      'Holds. Hidden single, 1 fact.',
      'A 7 of row 4: only c7.',
      '= r4c7 is 7.',
    ]);
    expect(said(scene('r1c1:12 r1c2:12 r1c3:12'), 'breaks by r1c1 r1c2 r1c3')[0]).toBe(
      'Holds. These three facts cannot all be met.',
    );
    const empty = scene('7@r4:r4c7').strike([candidateIn('r4c7<>7')]);
    expect(said(empty, 'breaks by r1c1 7@r4').slice(0, 2)).toEqual([
      'Holds, and 7@r4 alone is enough. This fact cannot be met.',
      'A 7 of row 4: no place.',
    ]);
  });

  test('the weak spot: a claim that the sheet does not bear out', () => {
    const position = scene('1@c9:r2c9,r5c9 1@c1:r2c1,r5c1,r7c1');
    const claims = [claimOf('1@c1: r2c1=1 r5c1=1')];
    expect(said(position, 'r2c3<>1 by 1@c1 1@c9', claims)).toEqual([
      'Holds. X-wing, 2 facts.',
      '! Weak spot: 1 of column 1. The marks say r2 or r5, and nothing rules out r7.',
      'A 1 of column 1: r2 or r5.',
      'B 1 of column 9: r2 or r5.',
      '× 1 goes from r2c3.',
    ]);
  });

  test('everything that is said is drawn', () => {
    expect(drawn(answer(xWing, 'r2c3<>1 r3c1<>1 by 1@c1 1@c9'))).toEqual([
      'r2c1#1 fact A',
      'r2c3#1 strike',
      'r2c9#1 fact B',
      'r3c1#1 out-already',
      'r5c1#1 fact A',
      'r5c9#1 fact B',
    ]);
  });
});

describe('what is said of an argument that does not hold', () => {
  test("the screen study's: what was overlooked, and how the candidate stays", () => {
    expect(said(study, 'r5c1<>3 by 3@r1 3@c8')).toEqual([
      'Does not hold.',
      'A 3 of row 1: c1 or c7.',
      'B 3 of column 8: r3, r4 or r5.',
      '* Overlooked: r4c8.',
      '= With 3 in r1c7 and r4c8, both facts hold and r5c1 can be 3.',
    ]);
    expect(drawn(answer(study, 'r5c1<>3 by 3@r1 3@c8'))).toEqual([
      'r1c1#3 fact-not-chosen A',
      'r1c7#3 fact A',
      'r3c8#3 fact-not-chosen B',
      'r4c8#3 overlooked B',
      'r5c1#3 placement',
      'r5c8#3 fact-not-chosen B',
    ]);
  });

  test('one fact more would do, and it is not named', () => {
    const lines = said(xWing, 'r2c3<>1 by 1@c1');
    expect(lines).toEqual([
      'Does not hold.',
      'A 1 of column 1: r2 or r5.',
      '* Overlooked: r5c1.',
      '= With 1 in r5c1, the fact holds and r2c3 can be 1.',
      '  One more fact of the grid would make it hold.',
    ]);
    expect(lines.join(' ')).not.toMatch(/c9|column 9/);
  });

  test('places of several digits are told by digit', () => {
    const position = scene('r1c1:12 r1c5:13 r5c1:24');
    expect(said(position, 'r5c5<>3 by r1c1 r1c5 r5c1').slice(-2)).toEqual([
      '* Overlooked: 4 in r5c1.',
      '= With 1 in r1c5, 2 in r1c1 and 4 in r5c1, all three facts hold and r5c5 can be 3.',
    ]);
  });

  test('a place of the fact itself; a placement; facts that can all be met', () => {
    expect(said(xWing, 'r2c1<>1 by 1@c1').slice(2)).toEqual(
      ['= 1 in r2c1 is itself a place of 1@c1.', '  One more fact of the grid would make it hold.'].slice(
        0,
        1,
      ),
    );
    expect(said(xWing, 'r2c1=1 by 1@c1').slice(2)).toEqual([
      '* Overlooked: r5c1.',
      '= With 1 in r5c1, the fact holds and r2c1 is not 1.',
    ]);
    expect(said(xWing, 'breaks by 1@c1').slice(2)).toEqual(['= With 1 in r2c1, the fact holds.']);
    expect(said(xWing, 'r7c7=3 by 1@c1').slice(2)).toEqual([
      '! None of the facts has 3 in r7c7 among its places.',
    ]);
  });

  test('what of it does follow, and what says nothing new', () => {
    expect(said(xWing, 'r2c3<>1 r3c3<>1 by 1@c1 1@c9').at(-1)).toBe('  r2c3<>1 does follow.');
    const position = scene('1@c1:r2c1,r5c1 r9c9=4');
    expect(said(position, 'r3c1<>1 r4c1<>1 r9c9<>1 by 1@c1')).toEqual([
      'Nothing new.',
      'A 1 of column 1: r2 or r5.',
      '/ r3c1 and r4c1 had lost their 1 already.',
      '/ r9c9 is 4.',
    ]);
    expect(said(scene(''), 'r3c1<>1 by 1@c1', [claimOf('1@c1: r2c1=1 r5c1=1')])).toEqual([
      'Nothing new.',
      'A 1 of column 1: r2 or r5.',
      '! 1 in r3c1 is left out by the marks, and nothing else rules it out.',
    ]);
  });

  test('facts that cannot all be met show nothing', () => {
    expect(said(scene('r1c1:12 r1c2:12 r1c3:12'), 'r5c5<>5 by r1c1 r1c2 r1c3').at(-1)).toBe(
      '! The facts cannot all be met, so nothing can be shown by them but that something is wrong.',
    );
  });

  test('a line that cannot be read is an error with its place', () => {
    const answered = argueOnSheet({ position: xWing, claims: [], kind: 'full' }, 'r2c3<>1 by 1@q1');
    expect(!answered.ok && answered.error).toMatchObject({ code: 'no-house', column: 14 });
  });
});

test('an instance of a pattern: what is new in it told from what lighter arguments show', () => {
  const position = scene('1@c1:r2c1,r5c1 1@c9:r2c9,r5c9 1@b2:r2c4,r2c5 1@r5:r5c1,r5c3,r5c9');
  const technique = techniqueById('x-wing');
  const [instance] = technique ? instancesOf(position, technique) : [];
  const { headline, does, facts, drawing } = showInstance(position, instance);
  expect([headline, ...facts.map(({ sign, text }) => `${sign} ${text}`)]).toEqual([
    '1@c1 1@c9, 2 facts',
    'A 1 of column 1: r2 or r5.',
    'B 1 of column 9: r2 or r5.',
  ]);
  expect(does.map(({ sign, text }) => `${sign} ${text}`)).toEqual([
    '× 1 goes from r2c4 r2c5 r5c3.',
    '/ 1 goes from r2c2 r2c3 r2c7 r2c8, as a lighter argument shows anyway.',
  ]);
  expect(drawing.candidates.filter(({ role }) => role === 'out-already')).toHaveLength(4);
});
