import type { Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import { Cover } from './fact-search-cover.ts';
import type { SearchState } from './fact-search-state.ts';
import { SPENT } from './fact-search-tables.ts';

/**
 * How much a search may do, counted in worlds looked at: the same on every machine. A search that runs out
 * says so instead of guessing.
 */
export class SearchBudget {
  #left: number;
  constructor(worlds = Number.POSITIVE_INFINITY) {
    this.#left = worlds;
  }
  get left(): number {
    return this.#left;
  }
  get isSpent(): boolean {
    return this.#left < 0;
  }
  /** Takes one world; false when there is none left. */
  spend(): boolean {
    this.#left -= 1;
    return this.#left >= 0;
  }
}

/**
 * Refutes candidates by facts. A *world* is the position with some candidates assumed; it closes when some
 * facts have no arrangement in it. Under an assumption the other facts that it touches shrink, the facts
 * that it is a place of are spent. Exactly the smallest sets are found: `refute` is asked for k facts only
 * after fewer have failed.
 *
 * In a world, the facts that close it (no smaller set of them does) contain one with a single place, or only
 * facts with several. In the first case each single in turn is assumed as well, with one fact less to go; a
 * single that has failed is left out for those after it. In the second case one of the facts is touched by
 * the last assumption, and each of its places opens a world; each of these must close by itself before it is
 * worth looking for facts that close them all.
 */
export class Worlds {
  readonly #state: SearchState;
  #budget = new SearchBudget();
  /** The facts that closed the last world, in the order in which they were used. */
  found: Fact[] = [];

  #masks: Int32Array;
  readonly #trailFact: Uint16Array;
  readonly #trailMask: Int32Array;
  #trail = 0;
  /** Facts down to one place, one for each such place, as they came up on the way to the world. */
  readonly #singlePlace: Uint16Array;
  readonly #singleFact: Uint16Array;
  #singles = 0;
  /** House facts down to places that together rule something out. */
  readonly #alignedNumber: Uint16Array;
  readonly #alignedFact: Uint16Array;
  readonly #alignedMask: Int32Array;
  #aligned = 0;
  /** 1 for a fact that has been tried in vain for some worlds together. */
  readonly #leftOut: Uint8Array;
  readonly #pool: Int32Array[] = [];
  readonly #covers: Cover[] = [];
  #pooled = 0;

  constructor(state: SearchState) {
    const { factCount } = state.tables;
    this.#state = state;
    this.#masks = state.masks;
    this.#leftOut = new Uint8Array(factCount);
    this.#trailFact = new Uint16Array(factCount * 16);
    this.#trailMask = new Int32Array(factCount * 16);
    this.#singlePlace = new Uint16Array(factCount * 16);
    this.#singleFact = new Uint16Array(factCount * 16);
    this.#alignedNumber = new Uint16Array(factCount * 16);
    this.#alignedFact = new Uint16Array(factCount * 16);
    this.#alignedMask = new Int32Array(factCount * 16);
  }

  /**
   * Starts on the position that the state stands in. Singles and aligned facts that still rule something out
   * there stay in play; a position `closed` under one fact has none.
   */
  begin(budget: SearchBudget, closed: boolean): void {
    this.#budget = budget;
    this.#masks = this.#state.masks;
    this.#trail = 0;
    this.#singles = 0;
    this.#aligned = 0;
    this.#pooled = 0;
    if (closed) return;
    const { factCount } = this.#state.tables;
    for (let fact = 0; fact < factCount; fact += 1) this.#noteIfTelling(fact, this.#masks[fact]);
  }

  /** Notes a fact as a single or as aligned, if it rules out anything that is live in the position. */
  #noteIfTelling(fact: Fact, mask: number): void {
    const { tables, live } = this.#state;
    const { candidateAt, size, cellCount, houseOf, digitOfFact, alignments, excludes } = tables;
    if (mask === 0 || mask >= SPENT) return;
    if ((mask & (mask - 1)) === 0) {
      const place = candidateAt[fact * size + 31 - Math.clz32(mask)];
      if (excludes[place].some((other) => live[other] !== 0)) this.#noteSingle(fact, place);
    } else if (fact >= cellCount) {
      const number = alignments.of(houseOf[fact], mask);
      if (number === 0) return;
      for (const cell of alignments.cells[number]) {
        if (live[cell * size + digitOfFact[fact] - 1] === 0) continue;
        this.#noteAligned(fact, number, mask);
        return;
      }
    }
  }

  #noteSingle(fact: Fact, place: Candidate): void {
    this.#singlePlace[this.#singles] = place;
    this.#singleFact[this.#singles] = fact;
    this.#singles += 1;
  }

  #noteAligned(fact: Fact, number: number, mask: number): void {
    this.#alignedNumber[this.#aligned] = number;
    this.#alignedFact[this.#aligned] = fact;
    this.#alignedMask[this.#aligned] = mask;
    this.#aligned += 1;
  }

  /** Whether some k facts, and no fewer, refute a live candidate; then they are in `found`. */
  refute(candidate: Candidate, k: number): boolean {
    this.found = [];
    if (!this.#budget.spend()) return false;
    if (k === 1) return this.#emptiesOne(candidate);
    if (k === 2) return this.#closesByTwo(candidate, 0);
    const { trail, singles, aligned } = this.#mark();
    let closed = this.#enter(candidate, 0);
    if (!closed) closed = this.#close(k, 0, 0, trail + this.#ownCount(candidate), this.#trail);
    this.#leave(trail, singles, aligned);
    return closed;
  }

  /**
   * Whether some k facts close every world that one of a fact's places opens: then these and the fact have
   * no arrangement, and the position is broken. They are in `found`.
   */
  refuteFact(fact: Fact, k: number): boolean {
    this.found = [];
    return this.#closeTogether(fact, k);
  }

  #ownCount(candidate: Candidate): number {
    const { ownStart } = this.#state.tables;
    return ownStart[candidate + 1] - ownStart[candidate];
  }

  #mark() {
    return { trail: this.#trail, singles: this.#singles, aligned: this.#aligned };
  }

  #leave(trail: number, singles: number, aligned: number): void {
    const masks = this.#masks;
    for (let i = this.#trail - 1; i >= trail; i -= 1) masks[this.#trailFact[i]] = this.#trailMask[i];
    this.#trail = trail;
    this.#singles = singles;
    this.#aligned = aligned;
  }

  #write(fact: Fact, mask: number): void {
    this.#trailFact[this.#trail] = fact;
    this.#trailMask[this.#trail] = this.#masks[fact];
    this.#trail += 1;
    this.#masks[fact] = mask;
  }

  /** Whether assuming the candidate leaves some fact without a place. */
  #emptiesOne(candidate: Candidate): boolean {
    const { touchFact, touchMask, touchEnd, tables } = this.#state;
    for (let i = tables.touchStart[candidate]; i < touchEnd[candidate]; i += 1) {
      const before = this.#masks[touchFact[i]];
      if (before === 0 || (before & ~touchMask[i]) !== 0) continue;
      this.found.push(touchFact[i]);
      return true;
    }
    return false;
  }

  /**
   * Whether at most two facts close the world in which the candidate is assumed as well. Of the singles so
   * far only those from `from` on are in play. Nothing is written.
   */
  #closesByTwo(candidate: Candidate, from: number): boolean {
    const singles = this.#singles;
    const aligned = this.#aligned;
    const closed = this.#look(candidate, from, false) || this.#alignedClose(from, singles, aligned);
    this.#singles = singles;
    this.#aligned = aligned;
    return closed;
  }

  /** Enters the world in which the candidate is assumed as well; true if at most two facts close it. */
  #enter(candidate: Candidate, from: number): boolean {
    const { ownStart, ownFact } = this.#state.tables;
    const singles = this.#singles;
    const aligned = this.#aligned;
    for (let i = ownStart[candidate]; i < ownStart[candidate + 1]; i += 1) {
      this.#write(ownFact[i], this.#masks[ownFact[i]] | SPENT);
    }
    return this.#look(candidate, from, true) || this.#alignedClose(from, singles, aligned);
  }

  /**
   * What the candidate does to the facts that it touches: notes new singles and aligned facts. True if a fact
   * is left without a place or two singles conflict.
   */
  #look(candidate: Candidate, from: number, write: boolean): boolean {
    const { touchFact, touchMask, touchEnd, tables } = this.#state;
    const { candidateAt, size, cellCount, houseOf, conflict, conflictWords, alignments } = tables;
    const masks = this.#masks;
    const singlePlace = this.#singlePlace;
    const end = touchEnd[candidate];
    for (let i = tables.touchStart[candidate]; i < end; i += 1) {
      const fact = touchFact[i];
      const before = masks[fact];
      const after = before & ~touchMask[i];
      if (after === before) continue;
      if (write) this.#write(fact, after);
      if ((after & (after - 1)) === 0) {
        if (after === 0) {
          this.found.push(fact);
          return true;
        }
        const place = candidateAt[fact * size + 31 - Math.clz32(after)];
        const row = place * conflictWords;
        let known = false;
        for (let j = from; j < this.#singles; j += 1) {
          const other = singlePlace[j];
          if (other === place) {
            known = true;
            break;
          }
          if (((conflict[row + (other >> 5)] >>> (other & 31)) & 1) !== 0) {
            this.found.push(fact, this.#singleFact[j]);
            return true;
          }
        }
        if (!known) this.#noteSingle(fact, place);
      } else if (fact >= cellCount && after < SPENT) {
        const number = alignments.of(houseOf[fact], after);
        if (number > 0) this.#noteAligned(fact, number, after);
      }
    }
    return false;
  }

  /** Whether an aligned fact rules out a single, or all places of another aligned fact, one of the two new. */
  #alignedClose(from: number, oldSingles: number, oldAligned: number): boolean {
    const { cellCount, houseCount, cellOf, digitOf, digitOfFact, houseOf, alignments } = this.#state.tables;
    const { sees, within } = alignments;
    for (let i = 0; i < this.#aligned; i += 1) {
      const fact = this.#alignedFact[i];
      const number = this.#alignedNumber[i];
      const digit = digitOfFact[fact];
      for (let j = i < oldAligned ? Math.max(from, oldSingles) : from; j < this.#singles; j += 1) {
        const place = this.#singlePlace[j];
        if (digitOf[place] !== digit || sees[number * cellCount + cellOf[place]] === 0) continue;
        this.found.push(fact, this.#singleFact[j]);
        return true;
      }
      if (i < oldAligned) continue;
      for (let j = 0; j < i; j += 1) {
        const other = this.#alignedFact[j];
        if (digitOfFact[other] !== digit) continue;
        if ((this.#alignedMask[j] & ~within[number * houseCount + houseOf[other]]) !== 0) continue;
        this.found.push(fact, other);
        return true;
      }
    }
    return false;
  }

  /**
   * Whether at most k facts (three or more) close the world that has just been entered, given that two do
   * not. Singles count from `from` on, and are tried from `untried` on; the trail from `start` to `end` holds
   * what the last assumption touched.
   */
  #close(k: number, from: number, untried: number, start: number, end: number): boolean {
    const tried = this.#singles;
    for (let i = untried; i < tried; i += 1) {
      const place = this.#singlePlace[i];
      if (!this.#budget.spend()) return false;
      if (!this.#closesUnder(place, k - 1, from, i + 1)) continue;
      this.found.push(this.#singleFact[i]);
      return true;
    }
    return this.#closeBySeveral(k, from, start, end);
  }

  /** Whether at most k facts close the world in which the candidate is assumed as well. */
  #closesUnder(candidate: Candidate, k: number, from: number, untried: number): boolean {
    if (k === 1) return this.#emptiesOne(candidate);
    if (k === 2) return this.#closesByTwo(candidate, from);
    const { trail, singles, aligned } = this.#mark();
    const closed =
      this.#enter(candidate, from) ||
      this.#close(k, from, untried, trail + this.#ownCount(candidate), this.#trail);
    this.#leave(trail, singles, aligned);
    return closed;
  }

  /**
   * The same by facts that all have several places here; singles are left out. A place that stays open when
   * it is assumed rules out every fact that it is a place of, so those of most touched facts come first.
   */
  #closeBySeveral(k: number, from: number, start: number, end: number): boolean {
    const { ownStart, ownFact, ownBit, demands } = this.#state.tables;
    const { trail, singles, aligned } = this.#mark();
    const masks = this.#masks;
    const trailFact = this.#trailFact;
    for (let i = from; i < singles; i += 1) {
      const place = this.#singlePlace[i];
      for (let j = ownStart[place]; j < ownStart[place + 1]; j += 1) {
        if (masks[ownFact[j]] === ownBit[j]) this.#write(ownFact[j], ownBit[j] | SPENT);
      }
    }
    const cover = this.#coverOf(k);
    cover.begin();
    for (let i = start; i < end; i += 1) {
      const fact = trailFact[i];
      const mask = masks[fact];
      if (mask >= SPENT) continue;
      if (demands.of(fact, mask) < k) cover.add(fact, mask);
      else this.#write(fact, mask | SPENT);
    }
    for (let place = cover.next(masks); place >= 0; place = cover.next(masks)) {
      const closes =
        this.#budget.spend() &&
        (k === 3 ? this.#mayClose(place) : this.#closesUnder(place, k - 1, singles, singles));
      if (closes) this.found.length = 0;
      else this.#spend(place);
    }
    let closed = false;
    for (let i = start; i < end && !closed; i += 1) {
      const fact = trailFact[i];
      if (masks[fact] >= SPENT) continue;
      closed = this.#closeTogether(fact, k - 1);
      this.#write(fact, masks[fact] | SPENT);
    }
    this.#leave(trail, singles, aligned);
    return closed;
  }

  /** The cover that the search for k facts works with: one for each k, since they nest. */
  #coverOf(k: number): Cover {
    this.#covers[k] ??= new Cover(this.#state.tables);
    return this.#covers[k];
  }

  /**
   * Whether at most two facts close the world in which the candidate is assumed as well, singles so far left
   * out. Most worlds are looked at here and nearly all of them stay open, so this one writes down nothing.
   */
  #mayClose(candidate: Candidate): boolean {
    const { touchFact, touchMask, touchEnd, tables } = this.#state;
    const { candidateAt, size, cellCount, houseOf, conflict, conflictWords, alignments } = tables;
    const masks = this.#masks;
    const singlePlace = this.#singlePlace;
    const first = this.#singles;
    let singles = first;
    let aligned = this.#aligned;
    const end = touchEnd[candidate];
    for (let i = tables.touchStart[candidate]; i < end; i += 1) {
      const fact = touchFact[i];
      const before = masks[fact];
      const after = before & ~touchMask[i];
      if ((after & (after - 1)) === 0) {
        if (after === before) continue;
        if (after === 0) return true;
        const place = candidateAt[fact * size + 31 - Math.clz32(after)];
        const row = place * conflictWords;
        let known = false;
        for (let j = first; j < singles; j += 1) {
          const other = singlePlace[j];
          if (((conflict[row + (other >> 5)] >>> (other & 31)) & 1) !== 0) return true;
          known ||= other === place;
        }
        if (known) continue;
        singlePlace[singles] = place;
        singles += 1;
      } else if (fact >= cellCount && after < SPENT && after !== before) {
        const number = alignments.of(houseOf[fact], after);
        if (number === 0) continue;
        this.#alignedNumber[aligned] = number;
        this.#alignedFact[aligned] = fact;
        this.#alignedMask[aligned] = after;
        aligned += 1;
      }
    }
    if (singles === first && aligned === this.#aligned) return false;
    return this.#alignedConflict(first, singles, aligned);
  }

  /** As `#alignedClose`, for facts just written down beyond the ones that count. */
  #alignedConflict(first: number, singles: number, aligned: number): boolean {
    const { cellCount, houseCount, cellOf, digitOf, digitOfFact, houseOf, alignments } = this.#state.tables;
    const { sees, within } = alignments;
    const alignedFact = this.#alignedFact;
    const alignedNumber = this.#alignedNumber;
    const old = this.#aligned;
    for (let j = first; j < singles; j += 1) {
      const place = this.#singlePlace[j];
      const digit = digitOf[place];
      const cell = cellOf[place];
      for (let i = 0; i < aligned; i += 1) {
        if (digitOfFact[alignedFact[i]] !== digit) continue;
        if (sees[alignedNumber[i] * cellCount + cell] !== 0) return true;
      }
    }
    for (let i = old; i < aligned; i += 1) {
      const digit = digitOfFact[alignedFact[i]];
      const row = alignedNumber[i] * houseCount;
      for (let j = 0; j < i; j += 1) {
        const other = alignedFact[j];
        if (digitOfFact[other] !== digit) continue;
        if ((this.#alignedMask[j] & ~within[row + houseOf[other]]) === 0) return true;
      }
    }
    return false;
  }

  /** Leaves out every fact that the candidate is a place of. */
  #spend(candidate: Candidate): void {
    const { ownStart, ownFact } = this.#state.tables;
    for (let i = ownStart[candidate]; i < ownStart[candidate + 1]; i += 1) {
      const mask = this.#masks[ownFact[i]];
      if (mask < SPENT) this.#write(ownFact[i], mask | SPENT);
    }
  }

  /** Whether at most k facts together close every world that a place of the fact opens; adds the fact. */
  #closeTogether(fact: Fact, k: number): boolean {
    const { candidateAt, size } = this.#state.tables;
    const pooled = this.#pooled;
    const worlds: Int32Array[] = [];
    for (let left = this.#masks[fact]; left !== 0; left &= left - 1) {
      worlds.push(this.#copyUnder(this.#masks, candidateAt[fact * size + 31 - Math.clz32(left & -left)]));
    }
    const closed = this.#closeAll(worlds, k);
    if (closed) this.found.push(fact);
    this.#pooled = pooled;
    return closed;
  }

  /** A copy of a world with one more candidate assumed. */
  #copyUnder(world: Int32Array, candidate: Candidate): Int32Array {
    const { touchFact, touchMask, touchEnd, tables } = this.#state;
    if (this.#pooled === this.#pool.length) this.#pool.push(new Int32Array(tables.factCount));
    const copy = this.#pool[this.#pooled];
    this.#pooled += 1;
    copy.set(world);
    for (let i = tables.touchStart[candidate]; i < touchEnd[candidate]; i += 1) {
      copy[touchFact[i]] &= ~touchMask[i];
    }
    for (let i = tables.ownStart[candidate]; i < tables.ownStart[candidate + 1]; i += 1) {
      copy[tables.ownFact[i]] |= SPENT;
    }
    return copy;
  }

  /** Whether the candidate, assumed in a world, leaves a fact without a place there. */
  #emptiesIn(world: Int32Array, candidate: Candidate): boolean {
    const { touchFact, touchMask, touchEnd, tables } = this.#state;
    for (let i = tables.touchStart[candidate]; i < touchEnd[candidate]; i += 1) {
      if ((world[touchFact[i]] & ~touchMask[i]) === 0) return true;
    }
    return false;
  }

  /**
   * Whether at most k facts close all of the worlds. A set that does, and of which none can be dropped, has a
   * fact that shrank in the first world since these worlds parted.
   */
  #closeAll(worlds: readonly Int32Array[], k: number): boolean {
    const { factCount } = this.#state.tables;
    if (worlds.length === 0) return true;
    if (k === 0) return false;
    const first = worlds[0];
    if (k === 1) {
      for (let fact = 0; fact < factCount; fact += 1) {
        if (first[fact] !== 0 || !worlds.every((world) => world[fact] === 0)) continue;
        this.found.push(fact);
        return true;
      }
      return false;
    }
    const leftOut: Fact[] = [];
    let closed = false;
    for (let fact = 0; fact < factCount && !closed; fact += 1) {
      if (first[fact] >= SPENT || first[fact] === this.#masks[fact] || this.#leftOut[fact] !== 0) continue;
      if (!this.#budget.spend()) break;
      const pooled = this.#pooled;
      const opened = this.#open(worlds, fact, k);
      closed = opened !== null && this.#closeAll(opened, k - 1);
      if (closed) this.found.push(fact);
      this.#pooled = pooled;
      leftOut.push(fact);
      this.#leftOut[fact] = 1;
    }
    for (const fact of leftOut) this.#leftOut[fact] = 0;
    return closed;
  }

  /** The worlds that a fact's places open in each of these; null if k facts in all can't close one of them. */
  #open(worlds: readonly Int32Array[], fact: Fact, k: number): Int32Array[] | null {
    const { candidateAt, size } = this.#state.tables;
    const opened: Int32Array[] = [];
    for (const world of worlds) {
      if (world[fact] >= SPENT) {
        opened.push(world);
        continue;
      }
      const mustEmpty = k === 2 && !world.includes(0);
      for (let left = world[fact]; left !== 0; left &= left - 1) {
        const place = candidateAt[fact * size + 31 - Math.clz32(left & -left)];
        if (mustEmpty && !this.#emptiesIn(world, place)) return null;
        opened.push(this.#copyUnder(world, place));
      }
    }
    return opened;
  }
}
