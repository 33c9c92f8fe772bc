import type { Fact } from '../argument/kernel.ts';
import { countDigits } from '../grid/candidates.ts';
import type { Layout } from '../grid/layout.ts';

/**
 * How many places of other facts it takes, at least, to rule out all places of a fact. A cell's candidates go
 * one at a time; a digit's places in a house go together where one cell outside sees several of them. A fact
 * that takes more than the others of a set can bring is of no use to the set.
 */
export class Demands {
  readonly #shift: number;
  /** By `row << size | mask`, row 0 for cells and row h + 1 for house h; 0 where nobody has asked yet. */
  readonly #table: Uint8Array | null;
  /** For each house the sets of its cells that one cell outside sees, as masks, the widest ones. */
  readonly #seen: readonly (readonly number[])[];
  readonly #widest: number;
  /** For each fact its row. */
  readonly #rowOf: Uint8Array;

  constructor(layout: Layout) {
    const { size, cellCount, houses, sees } = layout;
    this.#shift = size;
    this.#table = size <= 10 ? new Uint8Array((houses.length + 1) << size) : null;
    this.#seen = houses.map(({ cells }) => {
      const masks = new Set<number>();
      for (let outside = 0; outside < cellCount; outside += 1) {
        if (cells.includes(outside)) continue;
        masks.add(cells.reduce((mask, cell, bit) => mask | (sees[cell * cellCount + outside] << bit), 0));
      }
      return [...masks].filter((a) => a !== 0 && ![...masks].some((b) => b !== a && (a & ~b) === 0));
    });
    this.#widest = Math.max(1, ...this.#seen.flat().map(countDigits));
    this.#rowOf = Uint8Array.from({ length: cellCount + houses.length * size }, (_, fact) =>
      fact < cellCount ? 0 : Math.floor((fact - cellCount) / size) + 1,
    );
  }

  /** A lower bound; exact on layouts of up to ten digits. 0 for no places. */
  of(fact: Fact, mask: number): number {
    const row = this.#rowOf[fact];
    if (this.#table === null) {
      return row === 0 ? countDigits(mask) : Math.ceil(countDigits(mask) / this.#widest);
    }
    const known = this.#table[(row << this.#shift) | mask];
    return known > 0 ? known : this.#work(this.#table, row, mask);
  }

  #work(table: Uint8Array, row: number, mask: number): number {
    if (mask === 0) return 0;
    const at = (row << this.#shift) | mask;
    if (table[at] > 0) return table[at];
    const lowest = mask & -mask;
    let least = 1 + this.#work(table, row, mask & ~lowest);
    for (const seen of row === 0 ? [] : this.#seen[row - 1]) {
      if ((seen & lowest) !== 0) least = Math.min(least, 1 + this.#work(table, row, mask & ~seen));
    }
    table[at] = least;
    return least;
  }
}
