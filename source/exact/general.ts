import { countDigits } from '../grid/candidates.ts';
import type { DigitMask, Layout } from '../grid/layout.ts';
import { type Meeting, meetingsOf, starts } from './general-tables.ts';
import { type Search, type SearchLimits, type SearchOutcome, soleDigit } from './search.ts';

/** With no more cells of two digits than this, digits with two places in a house are looked at as well. */
const fewTwos = 8;

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
  /** What a cell's losing a digit counts for, where the next choice is made: 3 if it has two digits, otherwise 1. */
  readonly #weights: Uint8Array;
  /** How often branching on a cell ended in a contradiction; steers later branching in the same run. */
  readonly #failures: Float64Array;
  #found = 0;
  /** How many solutions each one found now stands for. */
  #ways = 1;
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
    this.#weights = new Uint8Array(cellCount);
    this.#failures = new Float64Array(cellCount);
  }

  run(masks: ArrayLike<DigitMask>, limits: SearchLimits): SearchOutcome {
    this.#found = 0;
    this.#branched = 0;
    this.#ways = 1;
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
    const houseCells = this.#houseCells;
    for (let house = 0; house < this.#houseCount; house += 1) {
      if (this.#changed[house] === 0) continue;
      this.#changed[house] = 0;
      const open = nodes[base + this.#cellCount + house];
      if (open === 0) continue;
      const from = house * size;
      let once = 0;
      let twice = 0;
      for (let i = from; i < from + size; i += 1) {
        const mask = nodes[base + houseCells[i]];
        twice |= once & mask;
        once |= mask;
      }
      if ((open & ~once) !== 0) return false;
      const hidden = open & ~twice;
      if (hidden === 0) continue;
      for (let i = from; i < from + size; i += 1) {
        const cell = houseCells[i];
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
      if (this.#found >= 2 && this.#onlyTwos(base)) {
        // Each solution below stands for two: changing every open cell to its other digit gives another. (All
        // open digits then have two places in each house: there are as many as cells, and none has just one.)
        this.#nodes[base + cell] = bit;
        this.#note(cell, bit);
        if (!this.#propagate(base)) return true;
        this.#ways *= 2;
        const through = this.#search(base);
        this.#ways /= 2;
        return through;
      }
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
    this.#found = Math.min(this.#found + this.#ways, this.#limits.solutions);
  }

  #onlyTwos(base: number): boolean {
    for (let cell = 0; cell < this.#cellCount; cell += 1) {
      const rest = this.#nodes[base + cell] & (this.#nodes[base + cell] - 1);
      if ((rest & (rest - 1)) !== 0) return false;
    }
    return true;
  }

  /**
   * The candidate to branch on, as `cell * 32 + digit - 1`; -1 where every cell is settled. A cell with two
   * digits whose peers hold most of them, weighed by past contradictions; where such cells are few, perhaps a
   * digit with two places in a house; else a cell with fewest digits.
   */
  #choose(base: number): number {
    const nodes = this.#nodes;
    let best = -1;
    let bestScore = 0;
    let twos = 0;
    let smallest = -1;
    let fewest = 99;
    for (let cell = 0; cell < this.#cellCount; cell += 1) {
      const rest = nodes[base + cell] & (nodes[base + cell] - 1);
      this.#weights[cell] = (rest & (rest - 1)) === 0 ? 3 : 1;
    }
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
      twos += 1;
      const low = 31 - Math.clz32(mask & -mask);
      const high = 31 - Math.clz32(rest);
      const score =
        this.#effect(base, cell, low) * this.#effect(base, cell, high) * (1 + this.#failures[cell]);
      if (score > bestScore) {
        bestScore = score;
        best = cell * 32 + low;
      }
    }
    // Counting many solutions, a quick choice is worth more than a good one.
    if (twos > fewTwos || (best >= 0 && this.#found >= 2)) return best;
    if (best < 0 && smallest < 0) return -1;
    const pair = this.#choosePlacePair(base, 1.25 * bestScore);
    if (best >= 0) return pair >= 0 ? pair : best;
    return pair >= 0 ? pair : smallest * 32 + 31 - Math.clz32(nodes[base + smallest]);
  }

  /** How much placing a digit (from 0) would clear: peers with it, by weight; plus 1. No branch: none predicts it. */
  #effect(base: number, cell: number, digit: number): number {
    const nodes = this.#nodes;
    const peers = this.#peers;
    const weights = this.#weights;
    const end = this.#peersStart[cell + 1];
    let effect = 1;
    for (let i = this.#peersStart[cell]; i < end; i += 1) {
      const peer = peers[i];
      effect += Math.imul((nodes[base + peer] >>> digit) & 1, weights[peer]);
    }
    return effect;
  }

  /**
   * A place of some digit that has just two places in a house, the best by the same measure with the other
   * digits of the cell added; -1: none scores more than `toBeat`.
   */
  #choosePlacePair(base: number, toBeat: number): number {
    const nodes = this.#nodes;
    const size = this.#size;
    const houseCells = this.#houseCells;
    const failures = this.#failures;
    let best = -1;
    let bestScore = toBeat;
    for (let house = 0; house < this.#houseCount; house += 1) {
      const open = nodes[base + this.#cellCount + house];
      if (open === 0) continue;
      let once = 0;
      let twice = 0;
      let thrice = 0;
      for (let i = house * size; i < house * size + size; i += 1) {
        const mask = nodes[base + houseCells[i]];
        thrice |= twice & mask;
        twice |= once & mask;
        once |= mask;
      }
      for (let pairs = open & twice & ~thrice; pairs !== 0; pairs &= pairs - 1) {
        const bit = pairs & -pairs;
        const digit = 31 - Math.clz32(bit);
        let score = 1;
        let place = -1;
        for (let i = house * size; i < house * size + size; i += 1) {
          const cell = houseCells[i];
          if ((nodes[base + cell] & bit) === 0) continue;
          const others = countDigits(nodes[base + cell]) - 1;
          score *= (this.#effect(base, cell, digit) + others) * (1 + failures[cell]);
          place = cell;
        }
        if (score > bestScore) {
          bestScore = score;
          best = place * 32 + digit;
        }
      }
    }
    return best;
  }
}
