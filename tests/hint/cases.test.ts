import { describe, expect, it } from 'vitest';
import { parseFact } from '../../source/argument/fact.ts';
import { candidateOf, plain } from '../../source/grid/layout.ts';
import { sayCases } from '../../source/hint/cases.ts';
import { unnamed } from '../../source/path/minimal.ts';
import { nextStep, take } from '../../source/path/next.ts';
import { positionOf, sourcedGrids } from '../path/grids.ts';

describe('prose from the order in which the cases close', () => {
  const facts = (...names: string[]) => names.map((name) => parseFact(plain, name) ?? -1);

  it('tells forced places in one sentence, then what is left with nothing', () => {
    // r1c1 is 1 or 2, r1c2 is 2 or 3, r2c2 is 1 or 3: with 2 in r1c3 none of the three comes out.
    const keep: Record<number, number[]> = { 0: [1, 2], 1: [2, 3], 10: [1, 3] };
    const struck = Object.entries(keep).flatMap(([cell, digits]) =>
      [1, 2, 3, 4, 5, 6, 7, 8, 9]
        .filter((d) => !digits.includes(d))
        .map((d) => candidateOf(plain, Number(cell), d)),
    );
    const said = sayCases(positionOf('.'.repeat(81)).strike(struck), {
      technique: unnamed,
      facts: facts('r1c1', 'r1c2', 'r2c2'),
      conclusions: { kind: 'strikes', candidates: [candidateOf(plain, 2, 2)] },
      assumes: 'nothing',
    });
    expect(said).toEqual([
      'Suppose r1c3 were 2.',
      'Then r1c1 is 1, r1c2 is 3, and nothing is left for r2c2.',
    ]);
  });

  it('is never a wall, not even on the hardest grids', () => {
    // The first line of the published set hard-187, and the SageMath grid.
    const hard = '........2..8.1.9..5....3.4....1.93...6..3..8...37......4......53.1.7.8..2........';
    let long = 0;
    for (const line of [hard, sourcedGrids[3]]) {
      let position = positionOf(line);
      for (;;) {
        const step = nextStep({ position, claims: [], kind: 'full' });
        if (step?.kind !== 'step') break;
        for (const part of step.parts) {
          const said = sayCases(part.position, part.argument);
          expect(said.length).toBeLessThanOrEqual(27);
          if (part.argument.facts.length > 12) long += 1;
          position = take(position, part);
        }
      }
    }
    expect(long).toBeGreaterThan(0);
  }, 60_000);
});
