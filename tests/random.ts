/** Seeded randomness for tests: the same seed gives the same numbers on every machine. Print the seed. */
export class Random {
  #state: number;

  constructor(seed: number) {
    this.#state = seed >>> 0;
  }

  /** From 0 up to, not including, 1 (mulberry32, public domain). */
  unit(): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0;
    let t = this.#state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  }

  /** A whole number from 0 up to, not including, the limit. */
  below(limit: number): number {
    return Math.floor(this.unit() * limit);
  }

  /** One of the items; there must be one. */
  pick<T>(items: readonly T[]): T {
    return items[this.below(items.length)];
  }

  /** A copy in random order. */
  shuffle<T>(items: readonly T[]): T[] {
    const copy = [...items];
    for (let i = copy.length - 1; i > 0; i -= 1) {
      const j = this.below(i + 1);
      [copy[i], copy[j]] = [copy[j], copy[i]];
    }
    return copy;
  }
}
