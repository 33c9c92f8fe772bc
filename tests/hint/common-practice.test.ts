import { describe, expect, test } from 'vitest';
import type { CheckedArgument } from '../../source/argument/kernel.ts';
import type { Position } from '../../source/grid/position.ts';
import { hintFor } from '../../source/hint/ladder.ts';
import { pathOf } from '../../source/path/whole.ts';
import { factNames, strikeNames } from '../path/argue-notation.ts';
import { scene } from '../techniques/notation.ts';
import { toldLines } from './told.ts';

/** The first step of a path that rests on these facts. */
function stepBy(position: Position, facts: string): CheckedArgument {
  const steps = pathOf(position, { allNames: true }).steps;
  const step = steps.find(({ argument }) => factNames([...argument.facts].sort((a, b) => a - b)) === facts);
  if (!step) throw new Error(steps.map(({ argument }) => factNames(argument.facts)).join('; '));
  return step;
}

/** The lines below the facts. */
const why = (step: CheckedArgument): string[] =>
  toldLines(step)
    .filter((line) => !/^ {2}[A-Z]+ /.test(line))
    .map((line) => line.trim());

/** What the hint for a full sheet tells first. */
const hinted = (position: Position): CheckedArgument => {
  const step = hintFor({ position, claims: [], kind: 'full' })?.step;
  if (step?.kind !== 'step') throw new Error('no step');
  return step.parts[0];
};

/** Rules that teachers give, in positions of our own making: each found, weighed and told. Common practice, no source. */
describe('common practice, no source', () => {
  test('two rows in two boxes of a band leave the third row: one fact, told by the boxes', () => {
    const position = scene('5@b1:r1c1,r1c2,r2c3 5@b2:r1c4,r2c5,r2c6');
    const step = stepBy(position, '5@r3');
    expect(toldLines(step)).toEqual([
      'Claiming, one fact.',
      '  A  5 of row 3: c7, c8 or c9.',
      '  ×  5 goes from r1c7 r1c8 r1c9 r2c7 r2c8 r2c9.',
      '     Boxes 1 and 2 have their 5s in rows 1 and 2, one in each, so box 3 has its 5 in row 3.',
    ]);
    expect(toldLines(hinted(position))).toEqual(toldLines(step));
    // Columns and stacks alike.
    const turned = scene('5@b1:r1c1,r2c1,r3c2 5@b4:r4c1,r5c2,r6c2');
    expect(why(stepBy(turned, '5@c3')).at(-1)).toBe(
      'Boxes 1 and 4 have their 5s in columns 1 and 2, one in each, so box 7 has its 5 in column 3.',
    );
  });

  test('near it: where a digit stands in one of the boxes, the row tells it by itself', () => {
    const position = scene('r1c1=5 5@b2:r2c4,r2c5,r3c5 r2c7<>5 r2c8<>5 r2c9<>5');
    expect(why(stepBy(position, '5@r2')).at(-1)).toBe(
      'Row 2 has its 5 inside box 2, so box 2 has it nowhere else.',
    );
  });

  test('two cells that can hold none of three missing digits: the three fill the rest, two facts', () => {
    // Row 7 has five open cells; the 1, 5 and 9 of box 7 are below r7c1 and r7c2.
    const position = scene('r7c3=2 r7c5=4 r7c7=6 r7c9=8 r8c1=1 r8c2=5 r9c3=9');
    const step = stepBy(position, 'r7c1 r7c2');
    expect(toldLines(step)).toEqual([
      'Naked pair, two facts.',
      '  A  r7c1 is 3 or 7.',
      '  B  r7c2 is 3 or 7.',
      '  ×  3 goes from r7c4 r7c6 r7c8 r8c3 r9c1 r9c2.',
      '  ×  7 goes from r7c4 r7c6 r7c8 r8c3 r9c1 r9c2.',
      '     1, 5 and 9 are shut out of r7c1 and r7c2, so they fill the other three open cells of row 7, and nothing else fits there. r7c1 and r7c2 take 3 and 7 between them, so no other cell that sees both has one of these.',
    ]);
    const again = pathOf(position).steps.filter(({ argument: { conclusions } }) =>
      conclusions.kind === 'strikes' ? strikeNames(conclusions.candidates).includes('r7c4<>3') : false,
    );
    expect(again).toHaveLength(1);
  });

  test('near it: where the digits have gone by strikes, the pair is told by its own marks', () => {
    const position = scene('r7c3=2 r7c5=4 r7c7=6 r7c9=8 r7c1:37 r7c2:37 8@b7:r8c1,r9c1');
    expect(why(stepBy(position, 'r7c1 r7c2')).at(-1)).toMatch(
      /^r7c1 and r7c2 take 3 and 7 between them, so /,
    );
  });

  test('strikes of an X-wing that a given has made are not told, not even as gone before', () => {
    const position = scene('1@c1:r2c1,r5c1 1@c9:r2c9,r5c9 r8c4=1');
    for (const step of [stepBy(position, '1@c1 1@c9'), hinted(position)]) {
      expect(why(step).slice(0, -1)).toEqual([
        'X-wing, two facts.',
        '×  1 goes from r2c2 r2c3 r2c5 r2c6 r2c7 r2c8 r5c2 r5c3 r5c5 r5c6 r5c7 r5c8.',
      ]);
    }
    // What a strike has made before is told apart.
    const struck = scene('1@c1:r2c1,r5c1 1@c9:r2c9,r5c9 r8c4=1 r2c6<>1');
    expect(why(stepBy(struck, '1@c1 1@c9'))).toContain('/  1 had gone before from r2c6.');
  });

  test('a digit that would leave two cells for a pair which a third cell needs as well is not there, three facts', () => {
    const position = scene('1@r5:r5c1,r5c2,r5c5 2@r5:r5c1,r5c2,r5c5 r4c3:12');
    for (const step of [stepBy(position, 'r4c3 1@r5 2@r5'), hinted(position)]) {
      const told = why(step);
      expect(told[0]).toMatch(/, three facts\.$/);
      const at = told.indexOf('Suppose instead r5c5 were 3.');
      expect(told.slice(at + 1, at + 2)).toEqual([
        'Then 1 and 2 of row 5 fill r5c1 and r5c2 between them, and nothing is left for r4c3.',
      ]);
    }
  });
});
