import type { Layout } from '../../source/grid/layout.ts';
import { digitOf } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';

/** A seeded source of numbers in [0, 1): Tommy Ettinger's mulberry32 (public domain). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** The items in random order. */
export function shuffled<T>(items: readonly T[], random: () => number): T[] {
  const result = [...items];
  for (let i = result.length - 1; i > 0; i -= 1) {
    const j = Math.floor(random() * (i + 1));
    [result[i], result[j]] = [result[j], result[i]];
  }
  return result;
}

/**
 * A position around a full solution: `open` cells are emptied, then each candidate that is not in the
 * solution is struck with chance `struck`, and each one that is with chance `wrong`.
 */
export function randomPosition(
  layout: Layout,
  solution: ArrayLike<number>,
  random: () => number,
  { open, struck, wrong = 0 }: { open: number; struck: number; wrong?: number },
): Position {
  const emptied = new Set(
    shuffled(
      Array.from(solution, (_, cell) => cell),
      random,
    ).slice(0, open),
  );
  const givens = Array.from(solution, (digit, cell) => (emptied.has(cell) ? 0 : digit));
  const position = Position.from(layout, givens);
  return position.strike(
    [...position.candidates].filter((candidate) => {
      const cell = Math.floor(candidate / layout.size);
      if (!emptied.has(cell)) return false;
      return random() < (solution[cell] === digitOf(layout, candidate) ? wrong : struck);
    }),
  );
}
