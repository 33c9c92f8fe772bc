import { expect, test } from 'vitest';
import { randomGrid } from '../../source/exact/generate.ts';
import { randomBelow, seededRandom, shuffled } from '../../source/exact/random.ts';
import { type Decision, decideDigits } from '../../source/exact/solve.ts';
import { plain } from '../../source/grid/layout.ts';
import { coverCount } from '../judges/exact-cover.ts';
import { naiveSolutions } from '../judges/naive.ts';

const seed = Number(process.env.INKLING_SEED ?? 20_261_125);
/** A million: INKLING_GRIDS=1000000. */
const rounds = Number(
  process.env.INKLING_GRIDS ?? Math.round(50_000 * Number(process.env.INKLING_DEEP ?? 1)),
);
/** Nodes after which the naive judge gives a grid up. */
const nodeCap = 1_500_000;

type Kind = 'valid' | 'broken' | 'sparse' | 'noise';
/** Noise is rare: contradictions that are spread thin are what the naive judge takes longest for. */
const kinds: readonly Kind[] = ['valid', 'broken', 'sparse', 'valid', 'broken', 'sparse', 'valid', 'noise'];

/** A random grid of a kind: givens of a full grid, one of them changed, few of them, or digits from anywhere. */
function randomGivens(kind: Kind, random: () => number): number[] {
  const below = (limit: number) => randomBelow(random, limit);
  const solution = randomGrid(plain, random);
  const cells = shuffled([...solution.keys()], random);
  const keep = (count: number): number[] => {
    const kept = new Set(cells.slice(0, count));
    return Array.from(solution, (digit, cell) => (kept.has(cell) ? digit : 0));
  };
  switch (kind) {
    case 'valid':
      return keep(26 + below(26));
    case 'broken': {
      const count = 20 + below(25);
      const givens = keep(count);
      for (let change = 1 + below(2); change > 0; change -= 1) givens[cells[below(count)]] = 1 + below(9);
      return givens;
    }
    case 'sparse':
      return keep(below(18));
    case 'noise': {
      const givens = new Array<number>(81).fill(0);
      for (const cell of cells.slice(0, 5 + below(22))) {
        const peers = plain.peers[cell].map((peer) => givens[peer]);
        const free = [1, 2, 3, 4, 5, 6, 7, 8, 9].filter((digit) => !peers.includes(digit));
        if (free.length > 0) givens[cell] = free[below(free.length)];
      }
      return givens;
    }
  }
}

/** Whether a witness is a completion of the givens, judged by rows, columns and boxes of its own. */
function completes(givens: readonly number[], digits: Uint8Array): boolean {
  const seen = new Set<number>();
  digits.forEach((digit, cell) => {
    const [row, column] = [Math.floor(cell / 9), cell % 9];
    const box = Math.floor(row / 3) * 3 + Math.floor(column / 3);
    for (const house of [row, 9 + column, 18 + box]) seen.add(house * 10 + digit);
  });
  return seen.size === 243 && givens.every((digit, cell) => digit === 0 || digits[cell] === digit);
}

const witnessesOf = (decision: Decision): readonly Uint8Array[] => {
  switch (decision.verdict) {
    case 'none':
      return [];
    case 'one':
      return [decision.solution];
    case 'several':
      return decision.witnesses;
  }
};

test(`${rounds} random grids: the verdict of a naive search and of exact cover, witnesses valid; seed ${seed}`, () => {
  const random = seededRandom(seed);
  const verdicts = new Map<string, number>();
  let capped = 0;
  for (let round = 0; round < rounds; round += 1) {
    const kind = kinds[round % kinds.length];
    const givens = randomGivens(kind, random);
    const told = () => `seed ${seed}, round ${round}: ${givens.join('').replaceAll('0', '.')}`;
    const decision = decideDigits(plain, givens);
    const witnesses = witnessesOf(decision);
    const name = `${kind} ${decision.verdict}`;
    verdicts.set(name, (verdicts.get(name) ?? 0) + 1);
    if (new Set(witnesses.map((digits) => digits.join(''))).size !== witnesses.length) {
      expect.fail(`the witnesses are the same: ${told()}`);
    }
    if (!witnesses.every((digits) => completes(givens, digits))) expect.fail(`a witness is none: ${told()}`);
    const naive = naiveSolutions(givens, 2, nodeCap);
    if (naive === null) {
      // Exact cover has no cap of its own: what the naive search gives up is not asked of it either.
      capped += 1;
      continue;
    }
    if (naive.length !== witnesses.length) expect.fail(`naive search finds ${naive.length}, ${told()}`);
    const cover = coverCount(givens.join(''));
    if (cover !== witnesses.length) expect.fail(`exact cover finds ${cover}, ${told()}`);
  }
  console.log(
    `seed ${seed}: ${[...verdicts].map(([name, n]) => `${name} ${n}`).join(', ')}; capped ${capped}`,
  );
  expect(capped / rounds).toBeLessThan(0.001);
  for (const verdict of ['none', 'one', 'several']) {
    const count = [...verdicts].reduce((sum, [name, n]) => (name.endsWith(verdict) ? sum + n : sum), 0);
    expect(count / rounds, verdict).toBeGreaterThan(0.03);
  }
});
