/**
 * How much a search may do, counted in worlds looked at: the same on every machine. A search that runs out
 * says so instead of guessing. On a plain grid a world takes the time of about a hundredth of an exact solve
 * of a random minimal grid.
 */
export class SearchBudget {
  #left: number;

  constructor(worlds = Number.POSITIVE_INFINITY) {
    this.#left = worlds;
  }

  /** Worlds left to look at. */
  get left(): number {
    return Math.max(0, this.#left);
  }

  /** Whether a world was asked for after the last one was taken. */
  get isSpent(): boolean {
    return this.#left < 0;
  }

  /** Takes one world; false when there is none left. */
  spend(): boolean {
    this.#left -= 1;
    return this.#left >= 0;
  }
}
