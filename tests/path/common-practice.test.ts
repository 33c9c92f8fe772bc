import { describe, expect, test } from 'vitest';
import { factName } from '../../source/argument/fact.ts';
import { plain } from '../../source/grid/layout.ts';
import { instancesOf } from '../../source/path/find.ts';
import { techniqueById } from '../../source/techniques/catalogue.ts';
import { scene } from '../techniques/notation.ts';
import { expectHolds, expectRefused, factNames, stated, strikeNames } from './argue-notation.ts';

/** What teachers of the game say, in positions of our own making: common practice, no source. */
describe('common practice, no source', () => {
  test('strikes of an X-wing that a given has made already are not what it does', () => {
    // Columns 1 and 9 have their 1s in rows 2 and 5; the 1 given in r8c4 has taken r2c4 and r5c4 before.
    const position = scene('1@c1:r2c1,r5c1 1@c9:r2c9,r5c9 r8c4=1');
    const technique = techniqueById('x-wing');
    if (!technique) throw new Error('no X-wing');
    const [{ finding, fresh }, ...more] = instancesOf(position, technique);
    expect(more).toEqual([]);
    expect(finding.facts.map((fact) => factName(plain, fact))).toEqual(['1@c1', '1@c9']);
    const done =
      'r2c2<>1 r2c3<>1 r2c5<>1 r2c6<>1 r2c7<>1 r2c8<>1 r5c2<>1 r5c3<>1 r5c5<>1 r5c6<>1 r5c7<>1 r5c8<>1';
    expect(strikeNames(finding.conclusions.candidates)).toBe(done);
    expect(strikeNames(fresh)).toBe(done);

    const { checked, alreadyStruck } = expectHolds(position, 'r2c3<>1 r2c4<>1 r5c4<>1 by 1@c1 1@c9');
    expect(checked.argument.conclusions).toEqual(stated('r2c3<>1 by 1@c1').conclusions);
    expect(strikeNames(alreadyStruck)).toBe('r2c4<>1 r5c4<>1');
    expect(expectRefused(position, 'r2c4<>1 r5c4<>1 by 1@c1 1@c9').reason).toBe('already-struck');
  });

  test('what pointing shows anyway is not what an X-wing does', () => {
    // The 1 of box 2 is in row 2 as well, so by itself it takes the 1s from the rest of row 2.
    const position = scene('1@c1:r2c1,r5c1 1@c9:r2c9,r5c9 1@b2:r2c4,r2c5');
    const technique = techniqueById('x-wing');
    if (!technique) throw new Error('no X-wing');
    const [{ finding, fresh }] = instancesOf(scene('1@c1:r2c1,r5c1 1@c9:r2c9,r5c9'), technique);
    expect(fresh).toEqual(finding.conclusions.candidates);
    const [first] = instancesOf(position, technique);
    const others = first.finding.conclusions.candidates.filter((x) => !first.fresh.includes(x));
    expect(strikeNames(others)).toBe('r2c2<>1 r2c3<>1 r2c7<>1 r2c8<>1');
  });

  test('a digit that would leave two cells for a pair which a third cell needs as well is not there', () => {
    // Were r5c5 neither 1 nor 2, both would be in r5c1 and r5c2, and r4c3 would have nothing: three facts.
    const position = scene('1@r5:r5c1,r5c2,r5c5 2@r5:r5c1,r5c2,r5c5 r4c3:12');
    const strikes = 'r5c5<>3456789';
    const { checked, needed, parts } = expectHolds(position, `${strikes} by 1@r5 2@r5 r4c3`);
    expect(checked.argument.facts).toHaveLength(3);
    expect([factNames(needed), parts.length]).toEqual(['1@r5 2@r5 r4c3', 1]);
    for (const two of ['1@r5 2@r5', '1@r5 r4c3', '2@r5 r4c3']) {
      const refused = expectRefused(position, `${strikes} by ${two}`);
      expect([refused.reason, refused.isRepairable]).toEqual(['open', true]);
    }
  });

  test('the same told of three cells: two would be left with a pair that the third needs', () => {
    const position = scene('r1c1:12 r2c2:123 r3c2:123');
    expect(factNames(expectHolds(position, 'r7c2<>3 by r2c2 r3c2 r1c1').needed)).toBe('r2c2 r3c2 r1c1');
    for (const two of ['r2c2 r3c2', 'r2c2 r1c1', 'r3c2 r1c1']) {
      expect(expectRefused(position, `r7c2<>3 by ${two}`).isRepairable).toBe(true);
    }
  });

  test('a digit confined to the same two rows in two boxes of a band: the third row claims it', () => {
    // The 5 of boxes 1 and 2 is in rows 1 and 2, so row 3 has it in box 3: one fact, told by the row.
    const position = scene('5@b1:r1c1,r1c2,r2c3 5@b2:r1c4,r2c5,r2c6');
    const strikes = 'r1c7<>5 r1c8<>5 r1c9<>5 r2c7<>5 r2c8<>5 r2c9<>5';
    const byBoxes = expectHolds(position, `${strikes} by 5@b1 5@b2`);
    expect(byBoxes.needed).toHaveLength(2);
    const byRow = expectHolds(position, `${strikes} by 5@b1 5@b2 5@r3`);
    expect([byRow.checked.argument.technique, factNames(byRow.needed)]).toEqual(['claiming', '5@r3']);
  });

  test('two cells that can hold none of three missing digits hold the other two, the three fill the rest', () => {
    // Row 7 lacks 1, 3, 5, 7 and 9; r7c1 and r7c2 can hold none of 1, 5 and 9.
    const position = scene('r7c3=2 r7c5=4 r7c7=6 r7c9=8 r7c1<>1 r7c1<>5 r7c1<>9 r7c2<>1 r7c2<>5 r7c2<>9');
    const strikes = 'r7c4<>37 r7c6<>37 r7c8<>37';
    const pair = expectHolds(position, `${strikes} by r7c1 r7c2`);
    expect([pair.checked.argument.technique, pair.notNeeded]).toEqual(['naked-pair', []]);
    const triple = expectHolds(position, `${strikes} by 1@r7 5@r7 9@r7`);
    expect([triple.checked.argument.technique, triple.notNeeded]).toEqual(['hidden-triple', []]);
    expect(factNames(expectHolds(position, `${strikes} by 1@r7 5@r7 9@r7 r7c1 r7c2`).needed)).toBe(
      'r7c1 r7c2',
    );
  });
});
