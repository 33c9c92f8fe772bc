/**
 * A seeded stream of numbers in [0, 1): the same seed gives the same stream on every machine. SplitMix32, a
 * 32-bit counter put through a mixing function (after Steele, Lea and Flood, Fast Splittable Pseudorandom
 * Number Generators, 2014, with the 32-bit finalizer of MurmurHash3). Good enough to pick cells and digits;
 * not for secrets.
 */
export function seededRandom(seed: number): () => number {
  let state = seed | 0;
  return () => {
    state = (state + 0x9e3779b9) | 0;
    let mixed = state ^ (state >>> 16);
    mixed = Math.imul(mixed, 0x85ebca6b);
    mixed ^= mixed >>> 13;
    mixed = Math.imul(mixed, 0xc2b2ae35);
    mixed ^= mixed >>> 16;
    return (mixed >>> 0) / 2 ** 32;
  };
}

/** An integer from 0 to `below - 1`. */
export const randomBelow = (random: () => number, below: number): number => Math.floor(random() * below);

/** A copy in random order, each order as likely as the stream is fair. */
export function shuffled<T>(items: readonly T[], random: () => number): T[] {
  const result = items.slice();
  for (let i = result.length - 1; i > 0; i -= 1) {
    const j = randomBelow(random, i + 1);
    [result[i], result[j]] = [result[j], result[i]];
  }
  return result;
}
