import { factCount } from '../argument/fact.ts';
import type { Fact } from '../argument/kernel.ts';
import type { Layout } from '../grid/layout.ts';
import type { Board, FactWatch } from '../techniques/board.ts';
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
  /** 1 for facts with several places that have shrunk since they were last taken. Cells are never taken. */
  readonly #lockable: Uint8Array;
  readonly #firstOfHouses: Fact;
  #isBroken = false;

  constructor(layout: Layout) {
    const count = factCount(layout);
    this.#kinds = kindsOf(layout);
    this.#regions = new Uint16Array(count);
    this.#lines = new Uint16Array(count);
    this.#cells = new Uint16Array(count);
    this.#lockable = new Uint8Array(count);
    this.#firstOfHouses = layout.cellCount;
  }

  /** Starts with all facts of a board, whatever it had watched before. */
  begin({ masks }: Board): void {
    this.#regionCount = 0;
    this.#lineCount = 0;
    this.#cellCount = 0;
    this.#isBroken = false;
    this.#lockable.fill(0);
    for (let fact = 0; fact < masks.length; fact += 1) this.note(fact, masks[fact]);
  }

  note(fact: Fact, mask: number): void {
    if ((mask & (mask - 1)) !== 0) {
      this.#lockable[fact] = 1;
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
    for (let fact = Math.max(after + 1, this.#firstOfHouses); fact < lockable.length; fact += 1) {
      if (lockable[fact] === 0) continue;
      lockable[fact] = 0;
      return fact;
    }
    return -1;
  }
}
