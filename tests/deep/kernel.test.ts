import { beforeAll, describe, expect, it } from 'vitest';
import { check } from '../../source/argument/kernel.ts';
import { fuzzKernel, type KernelRun } from '../argument/kernel-properties.ts';
import { origins } from '../argument/minimal-arguments.ts';

const scale = Number(process.env.INKLING_DEEP ?? 1);
const seed = Number(process.env.INKLING_SEED ?? 20240611);
const rounds = Math.ceil(1_000_000 * scale);

describe(`the kernel against an exact judge, ${rounds} arguments, seed ${seed}`, () => {
  let run: KernelRun;
  beforeAll(() => {
    run = fuzzKernel(check, seed, rounds);
    console.log(
      `kernel fuzz, seed ${seed}: ${JSON.stringify({ ...run, complaints: run.complaints.length })}`,
    );
  });

  it('none is accepted that does not follow, none refused that does, and each refusal is the right one', () => {
    expect(run.complaints.slice(0, 5)).toEqual([]);
    expect(run.answers.holds).toBeGreaterThan(rounds / 10);
    expect(run.answers.breaks).toBeGreaterThan(rounds / 100);
    expect(run.answers['refused: open']).toBeGreaterThan(rounds / 10);
  });

  it('true minimal ones from everywhere are among them, of one fact to many, and all that lack one fact', () => {
    expect(run.kinds.minimal).toBeGreaterThan(rounds / 10);
    expect(run.kinds['one fact less']).toBeGreaterThan(run.kinds.minimal);
    for (const origin of origins) expect(run.origins[origin], origin).toBeGreaterThan(rounds / 100);
    for (const facts of [1, 2, 3, 4]) expect(run.minimalOf[facts]).toBeGreaterThan(rounds / 500);
    const many = run.minimalOf.slice(5).reduce((sum, count) => sum + (count ?? 0), 0);
    expect(many).toBeGreaterThan(rounds / 1000);
  });
});
