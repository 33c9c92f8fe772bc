import type { DigitMask, Layout } from '../grid/layout.ts';
import { type Search, type SearchLimits, type SearchOutcome, soleDigit } from './search.ts';

/**
 * Exact search over any layout, from its houses alone.
 *
 * A node is one mask of live digits a cell and one mask of digits still to be placed a house, side by side
 * in one array; a deeper node is a copy further along. Copying 81 + 27 numbers costs less than a trail of
 * changes to undo. Three rules run until nothing moves:
 *
 * - a cell with one digit left clears its peers (a worklist of cells);
 * - a digit with one cell left in a house is put there: two running masks, "seen once" and "seen twice",
 *   find all such digits of a house in one pass over its cells, and any digit without a cell as well;
 * - where two houses share two cells or more, a digit that one of them has only there leaves the rest of
 *   the other (locked candidates, for any two houses that meet).
 *
 * Only houses that changed are looked at again.
 */
export class GeneralSearch implements Search {
  readonly #layout: Layout;
  readonly #cellCount: number;
  readonly #houseCount: number;
  readonly #size: number;
  /** Numbers a node. */
  readonly #stride: number;
  readonly #nodes: Uint32Array;
  /** Flat tables: houses' cells, cells' houses and peers. `start` arrays have one more entry than rows. */
  readonly #houseCells: Uint16Array;
  readonly #cellHouses: Uint16Array;
  readonly #cellHousesStart: Uint16Array;
  readonly #peers: Uint16Array;
  readonly #peersStart: Uint32Array;
  /** Meetings: for each the two houses, then the shared cells, the rest of the first, the rest of the second. */
  readonly #meetings: readonly Meeting[];
  readonly #changed: Uint8Array;
  readonly #stale: Uint8Array;
  readonly #queue: Uint16Array;
  #queued = 0;
  readonly #witnesses: readonly [Uint8Array, Uint8Array];
  /** How often branching on a cell ended in a contradiction; steers later branching in the same run. */
  readonly #failures: Float64Array;
  #found = 0;
  #branched = 0;
  #limits: SearchLimits = { solutions: 2, nodes: Number.POSITIVE_INFINITY };

  constructor(layout: Layout) {
    const { cellCount, houses, housesOf, peers, size } = layout;
    this.#layout = layout;
    this.#cellCount = cellCount;
    this.#houseCount = houses.length;
    this.#size = size;
    this.#stride = cellCount + houses.length;
    this.#nodes = new Uint32Array(this.#stride * (cellCount + 2));
    this.#houseCells = Uint16Array.from(houses.flatMap((house) => [...house.cells]));
    this.#cellHouses = Uint16Array.from(housesOf.flat());
    this.#cellHousesStart = Uint16Array.from(starts(housesOf));
    this.#peers = Uint16Array.from(peers.flat());
    this.#peersStart = Uint32Array.from(starts(peers));
    this.#meetings = meetingsOf(layout);
    this.#changed = new Uint8Array(houses.length);
    this.#stale = new Uint8Array(houses.length);
    this.#queue = new Uint16Array(cellCount);
    this.#witnesses = [new Uint8Array(cellCount), new Uint8Array(cellCount)];
    this.#failures = new Float64Array(cellCount);
  }

  run(masks: ArrayLike<DigitMask>, limits: SearchLimits): SearchOutcome {
    this.#found = 0;
    this.#branched = 0;
    this.#limits = limits;
    this.#failures.fill(0);
    const finished = limits.solutions <= 0 || !this.#load(masks) || this.#search(0);
    return { found: this.#found, nodes: this.#branched, finished };
  }

  witness(which: 0 | 1): Uint8Array {
    return this.#witnesses[which].slice();
  }

  /** Sets up node 0; false where the masks are contradictory at once. */
  #load(masks: ArrayLike<DigitMask>): boolean {
    const { allDigits } = this.#layout;
    const nodes = this.#nodes;
    this.#queued = 0;
    nodes.fill(allDigits, this.#cellCount, this.#stride);
    for (let cell = 0; cell < this.#cellCount; cell += 1) {
      const mask = masks[cell] & allDigits;
      if (mask === 0) return false;
      nodes[cell] = mask;
      if ((mask & (mask - 1)) === 0) this.#queue[this.#queued++] = cell;
    }
    this.#changed.fill(1);
    this.#stale.fill(1);
    return this.#propagate(0);
  }

  /** Notes that a cell of the node lost digits. `mask` is what it has left, not 0. */
  #note(cell: number, mask: DigitMask): void {
    if ((mask & (mask - 1)) === 0) this.#queue[this.#queued++] = cell;
    const end = this.#cellHousesStart[cell + 1];
    for (let i = this.#cellHousesStart[cell]; i < end; i += 1) {
      this.#changed[this.#cellHouses[i]] = 1;
      this.#stale[this.#cellHouses[i]] = 1;
    }
  }

  /** Runs the rules on the node at `base` until nothing moves; false on a contradiction. */
  #propagate(base: number): boolean {
    for (;;) {
      if (!this.#clearPeers(base) || !this.#placeHidden(base)) return this.#forget();
      if (this.#queued > 0) continue;
      if (!this.#confine(base)) return this.#forget();
      if (this.#queued === 0 && !this.#changed.includes(1)) return true;
    }
  }

  /** Drops what is still queued after a contradiction. */
  #forget(): false {
    this.#queued = 0;
    this.#changed.fill(0);
    this.#stale.fill(0);
    return false;
  }

  /** First rule. */
  #clearPeers(base: number): boolean {
    const nodes = this.#nodes;
    while (this.#queued > 0) {
      const cell = this.#queue[--this.#queued];
      const bit = nodes[base + cell];
      const houseEnd = this.#cellHousesStart[cell + 1];
      for (let i = this.#cellHousesStart[cell]; i < houseEnd; i += 1) {
        const open = base + this.#cellCount + this.#cellHouses[i];
        if ((nodes[open] & bit) === 0) return false;
        nodes[open] ^= bit;
      }
      const end = this.#peersStart[cell + 1];
      for (let i = this.#peersStart[cell]; i < end; i += 1) {
        const peer = this.#peers[i];
        const mask = nodes[base + peer];
        if ((mask & bit) === 0) continue;
        if (mask === bit) return false;
        nodes[base + peer] = mask ^ bit;
        this.#note(peer, mask ^ bit);
      }
    }
    return true;
  }

  /** Second rule, over every house that changed. */
  #placeHidden(base: number): boolean {
    const nodes = this.#nodes;
    const size = this.#size;
    for (let house = 0; house < this.#houseCount; house += 1) {
      if (this.#changed[house] === 0) continue;
      this.#changed[house] = 0;
      const open = nodes[base + this.#cellCount + house];
      if (open === 0) continue;
      const from = house * size;
      let once = 0;
      let twice = 0;
      for (let i = from; i < from + size; i += 1) {
        const mask = nodes[base + this.#houseCells[i]];
        twice |= once & mask;
        once |= mask;
      }
      if ((open & ~once) !== 0) return false;
      const hidden = open & ~twice;
      if (hidden === 0) continue;
      for (let i = from; i < from + size; i += 1) {
        const cell = this.#houseCells[i];
        const mask = nodes[base + cell];
        const bit = mask & hidden;
        if (bit === 0 || mask === bit) continue;
        if ((bit & (bit - 1)) !== 0) return false;
        nodes[base + cell] = bit;
        this.#note(cell, bit);
      }
      if (this.#queued > 0) return true;
    }
    return true;
  }

  /** Third rule, over every two houses that meet and of which one changed. */
  #confine(base: number): boolean {
    const nodes = this.#nodes;
    const stale = this.#stale;
    for (const { first, second, shared, restOfFirst, restOfSecond } of this.#meetings) {
      if ((stale[first] | stale[second]) === 0) continue;
      const open = nodes[base + this.#cellCount + first] & nodes[base + this.#cellCount + second];
      if (open === 0) continue;
      let inShared = 0;
      for (let i = 0; i < shared.length; i += 1) inShared |= nodes[base + shared[i]];
      let inFirst = 0;
      for (let i = 0; i < restOfFirst.length; i += 1) inFirst |= nodes[base + restOfFirst[i]];
      let inSecond = 0;
      for (let i = 0; i < restOfSecond.length; i += 1) inSecond |= nodes[base + restOfSecond[i]];
      const locked = inShared & open;
      const fromSecond = locked & inSecond & ~inFirst;
      const fromFirst = locked & inFirst & ~inSecond;
      if (fromSecond !== 0 && !this.#clear(base, restOfSecond, fromSecond)) return false;
      if (fromFirst !== 0 && !this.#clear(base, restOfFirst, fromFirst)) return false;
    }
    // Houses that this pass itself changed are in `changed` too, so the next pass sees them again.
    for (let house = 0; house < this.#houseCount; house += 1) stale[house] = this.#changed[house];
    return true;
  }

  #clear(base: number, cells: Uint16Array, digits: DigitMask): boolean {
    for (let i = 0; i < cells.length; i += 1) {
      const mask = this.#nodes[base + cells[i]];
      if ((mask & digits) === 0) continue;
      const left = mask & ~digits;
      if (left === 0) return false;
      this.#nodes[base + cells[i]] = left;
      this.#note(cells[i], left);
    }
    return true;
  }

  /** Searches below the node at `base`, which is closed under the rules. False: stopped by the node limit. */
  #search(base: number): boolean {
    for (;;) {
      const choice = this.#choose(base);
      if (choice < 0) {
        this.#record(base);
        return true;
      }
      if (this.#branched >= this.#limits.nodes) return false;
      this.#branched += 1;
      const cell = Math.floor(choice / 32);
      const bit = 1 << (choice % 32);
      const next = base + this.#stride;
      this.#nodes.copyWithin(next, base, next);
      this.#nodes[next + cell] = bit;
      this.#note(cell, bit);
      if (this.#propagate(next)) {
        if (!this.#search(next)) return false;
        if (this.#found >= this.#limits.solutions) return true;
      } else {
        this.#failures[cell] += 1;
      }
      const left = this.#nodes[base + cell] & ~bit;
      this.#nodes[base + cell] = left;
      this.#note(cell, left);
      if (!this.#propagate(base)) {
        this.#failures[cell] += 1;
        return true;
      }
    }
  }

  #record(base: number): void {
    if (this.#found < 2) {
      const witness = this.#witnesses[this.#found];
      for (let cell = 0; cell < this.#cellCount; cell += 1) {
        witness[cell] = soleDigit(this.#nodes[base + cell]);
      }
    }
    this.#found += 1;
  }

  /**
   * The candidate to branch on, as `cell * 32 + digit - 1`; -1 where every cell is settled. A cell with two
   * digits whose peers hold most of them, weighed by past contradictions; where there is none, a digit with
   * two places in a house; else a cell with fewest digits.
   */
  #choose(base: number): number {
    const nodes = this.#nodes;
    let best = -1;
    let bestScore = 0;
    let smallest = -1;
    let fewest = 99;
    for (let cell = 0; cell < this.#cellCount; cell += 1) {
      const mask = nodes[base + cell];
      const rest = mask & (mask - 1);
      if (rest === 0) continue;
      if ((rest & (rest - 1)) !== 0) {
        if (best >= 0) continue;
        let count = 2;
        for (let r = rest & (rest - 1); r !== 0; r &= r - 1) count += 1;
        if (count < fewest) {
          fewest = count;
          smallest = cell;
        }
        continue;
      }
      const low = mask & -mask;
      const score =
        this.#effect(base, cell, low) * this.#effect(base, cell, rest) * (1 + this.#failures[cell]);
      if (score > bestScore) {
        bestScore = score;
        best = cell * 32 + 31 - Math.clz32(low);
      }
    }
    if (best >= 0) return best;
    if (smallest < 0) return -1;
    const pair = this.#choosePlacePair(base);
    return pair >= 0 ? pair : smallest * 32 + 31 - Math.clz32(nodes[base + smallest]);
  }

  /** How much placing the digit would clear: peers with it, those with two digits three times over; plus 1. */
  #effect(base: number, cell: number, bit: DigitMask): number {
    let effect = 1;
    const end = this.#peersStart[cell + 1];
    for (let i = this.#peersStart[cell]; i < end; i += 1) {
      const mask = this.#nodes[base + this.#peers[i]];
      if ((mask & bit) === 0) continue;
      const others = mask ^ bit;
      effect += (others & (others - 1)) === 0 ? 3 : 1;
    }
    return effect;
  }

  /** A place of some digit that has just two places in a house, the best by the same measure; -1: none. */
  #choosePlacePair(base: number): number {
    const nodes = this.#nodes;
    const size = this.#size;
    let best = -1;
    let bestScore = 0;
    for (let house = 0; house < this.#houseCount; house += 1) {
      const open = nodes[base + this.#cellCount + house];
      if (open === 0) continue;
      let once = 0;
      let twice = 0;
      let thrice = 0;
      for (let i = house * size; i < house * size + size; i += 1) {
        const mask = nodes[base + this.#houseCells[i]];
        thrice |= twice & mask;
        twice |= once & mask;
        once |= mask;
      }
      for (let pairs = open & twice & ~thrice; pairs !== 0; pairs &= pairs - 1) {
        const bit = pairs & -pairs;
        let score = 1;
        let place = -1;
        for (let i = house * size; i < house * size + size; i += 1) {
          const cell = this.#houseCells[i];
          if ((nodes[base + cell] & bit) === 0) continue;
          score *= this.#effect(base, cell, bit) * (1 + this.#failures[cell]);
          place = cell;
        }
        if (score > bestScore) {
          bestScore = score;
          best = place * 32 + 31 - Math.clz32(bit);
        }
      }
    }
    return best;
  }
}

interface Meeting {
  readonly first: number;
  readonly second: number;
  readonly shared: Uint16Array;
  readonly restOfFirst: Uint16Array;
  readonly restOfSecond: Uint16Array;
}

/** Every two houses that share two cells or more, and yet are not the same cells. */
function meetingsOf(layout: Layout): Meeting[] {
  return layout.houses.flatMap((a) =>
    layout.houses.slice(a.index + 1).flatMap((b) => {
      const shared = a.cells.filter((cell) => b.cells.includes(cell));
      if (shared.length < 2 || shared.length === layout.size) return [];
      return [
        {
          first: a.index,
          second: b.index,
          shared: Uint16Array.from(shared),
          restOfFirst: Uint16Array.from(a.cells.filter((cell) => !shared.includes(cell))),
          restOfSecond: Uint16Array.from(b.cells.filter((cell) => !shared.includes(cell))),
        },
      ];
    }),
  );
}

/** Where each row of a flattened table begins; one entry more than rows. */
function starts(rows: readonly (readonly number[])[]): number[] {
  const result = [0];
  for (const row of rows) result.push(result[result.length - 1] + row.length);
  return result;
}
