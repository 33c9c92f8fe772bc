import { describe, expect, it } from 'vitest';
import { plain } from '../../source/grid/layout.ts';
import { analyse } from '../../source/path/analysis.ts';
import { makePathJson, makeStepJson, parseStep, type StepJson } from '../../source/path/path-json.ts';
import { type Verified, verifyPath } from '../../source/path/verify.ts';
import { pathOf } from '../../source/path/whole.ts';
import { Random } from '../random.ts';
import { positionOf, sourcedGrids } from './grids.ts';
import { faultOfPath } from './judge-path.ts';

interface Printed {
  readonly puzzle: string;
  readonly solved: boolean;
  readonly steps: readonly StepJson[];
}

const path = pathOf(positionOf(sourcedGrids[1]));
const printed = JSON.parse(JSON.stringify(makePathJson(path, analyse(path)))) as Printed;

function verify(value: unknown): Verified {
  const verified = verifyPath(plain, JSON.parse(JSON.stringify(value)));
  if ('message' in verified) throw new Error(verified.message);
  return verified;
}

const withStep = (index: number, step: unknown) => ({
  ...printed,
  steps: printed.steps.map((old, i) => (i === index ? step : old)),
});

describe('verifying a path', () => {
  it('accepts every step as it was printed', () => {
    expect(faultOfPath(path)).toBeNull();
    const { length } = printed.steps;
    expect(verify(printed)).toEqual({ steps: length, accepted: length, refused: [] });
  });

  it('reads back what is printed', () => {
    for (const step of path.steps) {
      const { technique, facts, conclusions, assumes } = step.argument;
      expect(parseStep(plain, makeStepJson(step))).toEqual({ technique, facts, conclusions, assumes });
    }
  });

  it('refuses a step with a fact changed, and names a fact and the candidate', () => {
    const index = printed.steps.findIndex(({ facts }) => facts.length === 2);
    const step = printed.steps[index];
    const changed = { ...step, facts: [step.facts[0], 'r9c3'] };
    const { refused } = verify(withStep(index, changed));
    expect(refused[0]).toMatchObject({ step: index + 1, reason: 'open', candidate: step.strikes[0] });
    expect(changed.facts).toContain(refused[0].fact);
    expect(refused[0].arrangement).toHaveLength(2);
  });

  it('refuses a placement of another digit, a strike of what is true, and a step without its facts', () => {
    const placing = printed.steps[0];
    const other = placing.placements[0].replace(/\d$/, (digit) => String((Number(digit) % 9) + 1));
    const first = verify(withStep(0, { ...placing, placements: [other] })).refused[0];
    expect(first).toMatchObject({ step: 1, candidate: other, fact: placing.facts[0] });
    const index = printed.steps.findIndex(({ strikes }) => strikes.length > 0);
    const step = printed.steps[index];
    const wrong = {
      ...step,
      strikes: [printed.steps[printed.steps.length - 1].placements[0].replace('=', '<>')],
    };
    expect(verify(withStep(index, wrong)).refused[0]).toMatchObject({
      step: index + 1,
      candidate: wrong.strikes[0],
      reason: 'open',
    });
    expect(verify(withStep(index, { ...step, facts: [] })).refused[0]).toMatchObject({ step: index + 1 });
  });

  it('refuses steps in another order as soon as one needs what comes after it', () => {
    const random = new Random(9);
    let refusals = 0;
    for (let round = 0; round < 30; round += 1) {
      const steps = random.shuffle(printed.steps);
      const verified = verify({ ...printed, steps });
      expect(verified.accepted).toBe(steps.length - verified.refused.filter(({ step }) => step > 0).length);
      for (const { step, candidate, fact } of verified.refused) {
        if (step === 0) continue;
        const { placements, strikes, facts } = steps[step - 1];
        expect([...placements, ...strikes]).toContain(candidate);
        expect(facts).toContain(fact);
        refusals += 1;
      }
    }
    expect(refusals).toBeGreaterThan(100);
  });

  it('never accepts a false conclusion, whatever is changed', () => {
    const random = new Random(4);
    const pool = printed.steps.flatMap(({ facts }) => facts);
    const truths = new Set(printed.steps.flatMap(({ placements }) => placements));
    for (let round = 0; round < 400; round += 1) {
      const index = random.below(printed.steps.length);
      const step = printed.steps[index];
      const lie = `r${1 + random.below(9)}c${1 + random.below(9)}=${1 + random.below(9)}`;
      const isTrue = truths.has(lie);
      const facts = step.facts.map((fact) => (random.below(2) === 0 ? fact : random.pick(pool)));
      const placing = random.below(2) === 0;
      const changed = placing
        ? { ...step, facts, placements: [lie], strikes: [] }
        : { ...step, facts, placements: [], strikes: [lie.replace('=', '<>')] };
      const { refused } = verify(withStep(index, changed));
      if (placing !== isTrue) expect(refused.some((one) => one.step === index + 1)).toBe(true);
    }
  });

  it('names what can not be read, a placement made twice, a wrong weight and a grid not filled', () => {
    const [first] = printed.steps;
    const reasonOf = (step: unknown) => verify(withStep(0, step)).refused[0];
    expect(reasonOf({ ...first, facts: ['7@k2'] })).toMatchObject({ reason: 'no-such-fact', fact: '7@k2' });
    const repeated = { ...first, facts: new Array(100_000).fill(first.facts[0]) };
    expect(reasonOf(repeated)).toMatchObject({ reason: 'repeated-fact', fact: first.facts[0] });
    expect(reasonOf({ ...first, placements: ['r1c1=0'] })).toMatchObject({ candidate: 'r1c1=0' });
    expect(reasonOf({ ...first, weight: 2 })).toMatchObject({ reason: 'wrong-weight', step: 1 });
    expect(reasonOf(null)).toMatchObject({ reason: 'no-step' });
    expect(reasonOf('x')).toMatchObject({ reason: 'no-step' });
    const twice = verify({ ...printed, steps: [first, ...printed.steps] });
    expect(twice.refused).toEqual([
      { step: 2, reason: 'cell-taken', candidate: first.placements[0], fact: first.facts[0] },
    ]);
    const short = verify({ ...printed, steps: printed.steps.slice(0, -1) });
    expect(short.refused).toEqual([{ step: 0, reason: 'not-solved' }]);
  });

  it('says where there is no path at all', () => {
    for (const value of [
      null,
      3,
      [],
      {},
      { puzzle: '12' },
      { puzzle: printed.puzzle, steps: 7 },
      { ...printed, schema: 2 },
    ]) {
      expect(verifyPath(plain, value)).toHaveProperty('message');
    }
  });
});
