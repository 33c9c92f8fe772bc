import { expect, it } from 'vitest';
import { check } from '../../source/argument/kernel.ts';
import { fuzzKernel } from '../argument/kernel-properties.ts';

const scale = Number(process.env.INKLING_DEEP ?? 1);
const seed = Number(process.env.INKLING_SEED ?? 20240611);
const rounds = Math.ceil(100_000 * scale);

it(`the kernel answers ${rounds} random and mutated arguments as an exact judge does, seed ${seed}`, () => {
  const { complaints, answers } = fuzzKernel(check, seed, rounds);
  console.log(`kernel fuzz, seed ${seed}: ${JSON.stringify(answers)}`);
  expect(complaints.slice(0, 5)).toEqual([]);
  expect(answers.holds).toBeGreaterThan(rounds / 10);
  expect(answers.breaks).toBeGreaterThan(rounds / 100);
});
