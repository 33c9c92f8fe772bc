import { factCount } from '../argument/fact.ts';
import type { Fact } from '../argument/kernel.ts';
import type { Layout } from '../grid/layout.ts';
import type { Board, FactWatch } from '../techniques/board.ts';
import { isSingle } from '../techniques/finding.ts';
import { isLine } from '../techniques/meetings.ts';

/** In which order facts with one place left are taken: those of regions, of lines, of cells. */
const REGION = 0;
const LINE = 1;
const CELL = 2;

/** For each fact of a layout of which kind it is. */
function kindsOf(layout: Layout): Uint8Array {
  const { cellCount, size, houses } = layout;
  return Uint8Array.from({ length: factCount(layout) }, (_, fact) => {
    if (fact < cellCount) return CELL;
    return isLine(houses[Math.floor((fact - cellCount) / size)]) ? LINE : REGION;
  });
}

/**
 * Where single facts may have something to do: those that are down to one place, and those of houses that have
 * shrunk and may be locked. It watches a board.
 */
export class OneFacts implements FactWatch {
  readonly #kinds: Uint8Array;
  /** Facts that have come down to one place, the latest taken first: of regions, of lines, of cells. */
  readonly #regions: Uint16Array;
  readonly #lines: Uint16Array;
  readonly #cells: Uint16Array;
  #regionCount = 0;
  #lineCount = 0;
  #cellCount = 0;
  /** As bits: facts with several places that have shrunk since they were last taken. Cells are never taken. */
  readonly #lockable: Int32Array;
  readonly #firstOfHouses: Fact;
  #isBroken = false;

  constructor(layout: Layout) {
    const count = factCount(layout);
    this.#kinds = kindsOf(layout);
    this.#regions = new Uint16Array(count);
    this.#lines = new Uint16Array(count);
    this.#cells = new Uint16Array(count);
    this.#lockable = new Int32Array((count + 31) >> 5);
    this.#firstOfHouses = layout.cellCount;
  }

  /** Starts with all facts of a board that are not settled, whatever it had watched before. */
  begin({ masks, placed, tables, layout }: Board): void {
    this.#regionCount = 0;
    this.#lineCount = 0;
    this.#cellCount = 0;
    this.#isBroken = false;
    this.#lockable.fill(0);
    const { candidateAt } = tables;
    const { size, cellAt } = layout;
    for (let fact = 0; fact < masks.length; fact += 1) {
      const mask = masks[fact];
      if (isSingle(mask) && placed[cellAt[candidateAt[fact * size + 31 - Math.clz32(mask)]]] !== 0) continue;
      this.note(fact, mask);
    }
  }

  note(fact: Fact, mask: number): void {
    if ((mask & (mask - 1)) !== 0) {
      this.#lockable[fact >> 5] |= 1 << (fact & 31);
      return;
    }
    const kind = this.#kinds[fact];
    if (mask === 0) this.#isBroken = true;
    else if (kind === REGION) this.#regions[this.#regionCount++] = fact;
    else if (kind === LINE) this.#lines[this.#lineCount++] = fact;
    else this.#cells[this.#cellCount++] = fact;
  }

  /** Whether a fact has no place left. */
  get isBroken(): boolean {
    return this.#isBroken;
  }

  /** A fact with one place, which may stand on the grid already, or -1: regions first, then lines, then cells. */
  takeSingle(): Fact {
    if (this.#regionCount > 0) return this.#regions[--this.#regionCount];
    if (this.#lineCount > 0) return this.#lines[--this.#lineCount];
    return this.#cellCount > 0 ? this.#cells[--this.#cellCount] : -1;
  }

  /** The first house fact after this one that has shrunk, or -1. It may have come down to one place since. */
  takeLockable(after: Fact): Fact {
    const lockable = this.#lockable;
    const from = Math.max(after + 1, this.#firstOfHouses);
    let due = -1 << (from & 31);
    for (let word = from >> 5; word < lockable.length; word += 1) {
      due &= lockable[word];
      if (due !== 0) {
        lockable[word] &= ~(due & -due);
        return (word << 5) + 31 - Math.clz32(due & -due);
      }
      due = -1;
    }
    return -1;
  }
}
