import { describe, expect, test } from 'vitest';
import { fewestFacts } from '../../source/path/fewest-facts.ts';
import { scene } from '../techniques/notation.ts';
import {
  candidateIn,
  claimOf,
  expectHolds,
  expectRefused,
  factNames,
  faultOfArrangement,
  placementNames,
  stated,
  strikeNames,
} from './argue-notation.ts';
import { positionOf } from './grids.ts';

/** An X-wing of 1s, and nothing else: the 1s of columns 1 and 9 are in rows 2 and 5. */
const xWing = scene('1@c1:r2c1,r5c1 1@c9:r2c9,r5c9');

describe('the smallest sufficient part of some facts', () => {
  const contains = (some: readonly number[], ...sets: number[][]) =>
    sets.some((set) => set.every((fact) => some.includes(fact)));

  test('nothing is left out where all is needed', () => {
    expect(fewestFacts([5, 3, 8], (some) => contains(some, [3, 5, 8]))).toEqual([5, 3, 8]);
  });

  test('the smaller of two, wherever it stands', () => {
    expect(fewestFacts([1, 2, 3, 4, 5], (some) => contains(some, [1, 2, 3], [4, 5]))).toEqual([4, 5]);
  });

  test('of equally small ones the one written first, whatever the numbers are', () => {
    const accepts = (some: readonly number[]) => contains(some, [1, 9], [4, 7], [4, 2]);
    expect(fewestFacts([9, 4, 2, 7, 1], accepts)).toEqual([9, 1]);
    expect(fewestFacts([4, 7, 2, 9, 1], accepts)).toEqual([4, 7]);
    expect(fewestFacts([2, 4, 7, 9, 1], accepts)).toEqual([2, 4]);
  });

  test('every set of facts, against a slow search over all parts', () => {
    const facts = [3, 1, 4, 15, 9, 2];
    const parts = Array.from({ length: 64 }, (_, bits) => facts.filter((_, i) => bits & (1 << i)));
    const byOrder = (part: number[]) => part.map((fact) => String(facts.indexOf(fact))).join('');
    for (let a = 1; a < 64; a += 5) {
      for (let b = 2; b < 64; b += 3) {
        const accepts = (some: readonly number[]) => contains(some, parts[a], parts[b]);
        const [best] = parts
          .filter(accepts)
          .sort((p, q) => p.length - q.length || (byOrder(p) < byOrder(q) ? -1 : 1));
        expect(fewestFacts(facts, accepts)).toEqual(best);
      }
    }
  });

  test('up to 12 facts the smallest is found; beyond, none of what is kept can be left out', () => {
    const twelve = Array.from({ length: 12 }, (_, i) => i);
    const accepts = (some: readonly number[]) => contains(some, [0, 1, 2], [10, 11]);
    expect(fewestFacts(twelve, accepts)).toEqual([10, 11]);
    expect(fewestFacts([...twelve, 12], accepts)).toEqual([0, 1, 2]);
  });
});

describe('an argument that holds', () => {
  test('is named, and its strikes are sealed by the kernel', () => {
    const { checked, needed, notNeeded, parts } = expectHolds(xWing, 'r2c3<>1 r5c7<>1 by 1@c1 1@c9');
    expect(checked.argument.technique).toBe('x-wing');
    expect([factNames(needed), notNeeded]).toEqual(['1@c1 1@c9', []]);
    expect(checked.argument.conclusions).toEqual(stated('r2c3<>1 r5c7<>1 by 1@c1').conclusions);
    expect(parts).toEqual([checked]);
  });

  test('the facts that were not needed are told, and the name is that of what was', () => {
    const { checked, needed, notNeeded } = expectHolds(xWing, 'r2c3<>1 by 3@b5 1@c1 r9c9 1@c9');
    expect([factNames(needed), factNames(notNeeded)]).toEqual(['1@c1 1@c9', '3@b5 r9c9']);
    expect(checked.argument.technique).toBe('x-wing');
  });

  test('facts with the same places say the same, and go by the same name', () => {
    const position = scene('1@r2:r2c1,r2c2 2@r2:r2c1,r2c2 1@b1:r2c1,r2c2 2@b1:r2c1,r2c2');
    const technique = (text: string) => expectHolds(position, text).checked.argument.technique;
    expect(technique('r2c1<>3 by 1@r2 2@r2')).toBe('hidden-pair');
    expect(technique('r2c1<>3 by 1@b1 2@r2')).toBe('hidden-pair');
    expect(factNames(expectHolds(position, 'r2c1<>3 by 1@b1 2@r2 1@r2 2@b1').needed)).toBe('1@b1 2@r2');
  });

  test('several conclusions on different facts are several arguments in one', () => {
    const position = scene('1@r1:r1c1,r1c2 2@r9:r9c7,r9c8');
    const { checked, parts } = expectHolds(position, 'r2c3<>1 r8c9<>2 by 1@r1 2@r9');
    expect(checked.argument.technique).toBe('facts');
    expect(parts.map(({ argument }) => [argument.technique, factNames(argument.facts)])).toEqual([
      ['claiming', '1@r1'],
      ['claiming', '2@r9'],
    ]);
  });

  test('a conclusion that could rest on either of two facts takes the one that is needed anyway', () => {
    // r3c3 is shut by the 1 of row 1 and by that of box 3, r3c5 by the latter alone.
    const position = scene('1@r1:r1c1,r1c2 1@b3:r3c7,r3c8');
    const { parts, needed } = expectHolds(position, 'r3c3<>1 r3c5<>1 by 1@r1 1@b3');
    expect(factNames(needed)).toBe('1@b3');
    expect(parts.map(({ argument }) => argument.technique)).toEqual(['pointing']);
    expect(factNames(expectHolds(position, 'r3c3<>1 by 1@r1 1@b3').needed)).toBe('1@r1');
  });

  test('a placement, and facts that cannot all be met', () => {
    const single = scene('7@r4:r4c7');
    expect(expectHolds(single, 'r4c7=7 by 7@r4').checked.argument.technique).toBe('hidden-single');
    const broken = scene('r1c1:12 r1c2:12 r1c3:12');
    const { checked, notNeeded } = expectHolds(broken, 'breaks by r1c1 r1c9 r1c2 r1c3');
    expect(checked.argument.conclusions.kind).toBe('breaks');
    expect(factNames(notNeeded)).toBe('r1c9');
  });

  test('of two strikes one was known before: told apart, and not part of what is shown', () => {
    const { checked, alreadyStruck } = expectHolds(
      xWing.strike([candidateIn('r2c4<>1')]),
      'r2c3<>1 r2c4<>1 by 1@c1 1@c9',
    );
    expect(strikeNames(alreadyStruck)).toBe('r2c4<>1');
    expect(checked.argument.conclusions).toEqual(stated('r2c3<>1 by 1@c1').conclusions);
  });
});

describe('an argument that does not hold', () => {
  test('comes with an arrangement that keeps the candidate', () => {
    const statement = stated('r2c3<>1 by 1@c1 r9c9');
    const refused = expectRefused(xWing, statement);
    expect(faultOfArrangement(xWing, statement.facts, refused)).toBeNull();
    expect(placementNames([refused.arrangement?.[0] ?? -1])).toBe('r5c1=1');
  });

  test('what of it does follow is told', () => {
    const { candidate, supported } = expectRefused(xWing, 'r2c3<>1 r3c3<>1 by 1@c1 1@c9');
    expect([strikeNames([candidate ?? -1]), strikeNames(supported)]).toEqual(['r3c3<>1', 'r2c3<>1']);
  });

  test('with one fact less it can be repaired by one more', () => {
    expect(expectRefused(xWing, 'r2c3<>1 by 1@c1').isRepairable).toBe(true);
  });

  test('what can be completed cannot be repaired', () => {
    expect(expectRefused(xWing, 'r3c3<>1 by 1@c1 1@c9').isRepairable).toBe(false);
    expect(expectRefused(xWing, 'breaks by 1@c1 1@c9').isRepairable).toBe(false);
  });

  test('where two facts are missing, one does not repair it', () => {
    const swordfish = scene('1@c1:r2c1,r5c1 1@c5:r5c5,r8c5 1@c9:r2c9,r8c9');
    expect(expectHolds(swordfish, 'r2c3<>1 by 1@c1 1@c5 1@c9').checked.argument.technique).toBe('swordfish');
    expect(expectRefused(swordfish, 'r2c3<>1 by 1@c1 1@c5').isRepairable).toBe(true);
    expect(expectRefused(swordfish, 'r2c3<>1 by 1@c1').isRepairable).toBe(false);
  });

  test('every other refusal has its reason', () => {
    const reason = (text: string) => expectRefused(xWing, text).reason;
    expect(reason('r4c1<>1 by 1@c1')).toBe('already-struck');
    expect(reason('r7c7=3 by 1@c1')).toBe('no-fact-holds-it');
    expect(reason('r2c1=1 by 1@c1')).toBe('open');
    const broken = scene('r1c1:12 r1c2:12 r1c3:12');
    expect(expectRefused(broken, 'r5c5<>5 by r1c1 r1c2 r1c3').reason).toBe('breaks');
  });

  test('strikes that hold do not carry one that is known along', () => {
    expect(expectRefused(xWing, 'r4c1<>1 r6c9<>1 by 1@c1 1@c9')).toMatchObject({
      reason: 'already-struck',
      supported: [],
    });
  });
});

describe('claims cited as facts', () => {
  const open = scene('1@c9:r2c9,r5c9');
  const claims = [claimOf('1@c1: r2c1=1 r5c1=1')];

  test('a cited claim has the places of the marks, and is the weak spot where the sheet has more', () => {
    expect(expectRefused(open, 'r2c3<>1 by 1@c1 1@c9').reason).toBe('open');
    const { checked, weakSpots } = expectHolds(open, 'r2c3<>1 by 1@c1 1@c9', { claims });
    expect(checked.argument.technique).toBe('x-wing');
    expect(weakSpots.map(({ fact }) => factNames([fact]))).toEqual(['1@c1']);
    expect(placementNames(weakSpots[0].marked)).toBe('r2c1=1 r5c1=1');
    expect(weakSpots[0].leftOut).toHaveLength(7);
  });

  test('a claim that the sheet bears out is no weak spot', () => {
    expect(expectHolds(xWing, 'r2c3<>1 by 1@c1 1@c9', { claims }).weakSpots).toEqual([]);
  });

  test('nor is one that is not needed, or without whose marks the argument holds', () => {
    const position = scene('1@r2:r2c1,r2c2,r2c3');
    const marks = [claimOf('1@r2: r2c1=1 r2c2=1'), claimOf('5@b9: r9c9=5 r8c8=5')];
    expect(expectHolds(position, 'r3c3<>1 by 1@r2 5@b9', { claims: marks }).weakSpots).toEqual([]);
  });

  test('claims that are not cited change nothing, but one may be the fact that is missing', () => {
    const refused = expectRefused(open, 'r2c3<>1 by 1@c9', { claims });
    expect([refused.reason, refused.isRepairable]).toEqual(['open', true]);
    expect(expectRefused(open, 'r2c3<>1 by 1@c9').isRepairable).toBe(false);
  });

  test('what only the marks of a cited fact leave out is told apart from what was struck', () => {
    const refused = expectRefused(open, 'r3c1<>1 r3c9<>1 by 1@c1', { claims });
    expect(refused.reason).toBe('already-struck');
    expect([strikeNames(refused.leftOut), strikeNames(refused.alreadyStruck)]).toEqual([
      'r3c1<>1',
      'r3c9<>1',
    ]);
  });
});

describe('published arguments', () => {
  // An enthusiast discussion reproduced in the open Nemotron-CC-Math corpus ("Weird Fish"): these cells are
  // not a fish that removes 2 from r9c3, which is 2 in the one solution.
  test.each([
    'r9c3<>2 by 2@r5 2@r8',
    'r9c3<>2 by 2@r5 2@r8 2@r9',
    'r9c3<>2 by 2@c2 2@c3 2@c5',
    'r9c3<>2 by 2@r5 2@r8 2@c2 2@c5',
    'r9c3<>2 by 2@r5 2@r8 2@r9 2@c2 2@c3 2@c5 2@b4 2@b7 2@b8',
  ])('not a swordfish: %s', (text) => {
    const position = positionOf(
      '69..782...7...2.6.2...46..9.1.26.3.....415.....68...2.7...8...2.4.6...5....7...83',
    );
    const statement = stated(text);
    const refused = expectRefused(position, statement);
    expect(faultOfArrangement(position, statement.facts, refused)).toBeNull();
    expect(refused.isRepairable).toBe(false);
  });
});
