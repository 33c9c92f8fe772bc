import type { Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import type { SearchState } from './fact-search-state.ts';
import { SPENT } from './fact-search-tables.ts';

/** How far the notes of a world went, to go back to. */
export interface Mark {
  readonly trail: number;
  readonly singles: number;
  readonly aligned: number;
}

/**
 * The position with some candidates assumed, entered and left again like a stack. Facts that an assumption
 * touches shrink; the facts that it is a place of are spent. A world *closes* by some facts if these have no
 * arrangement in it.
 *
 * At most two facts close a world if one has no place left, if two with a single place conflict, or if an
 * *aligned* fact, one whose places together rule something out, rules out all of another's places. One of
 * the two is touched by the last assumption, or they would close the world before it.
 */
export class World {
  readonly #state: SearchState;
  readonly masks: Int32Array;
  /** The facts that were written to, latest last, and what they were before. */
  readonly trailFact: Uint16Array;
  readonly #trailMask: Int32Array;
  #trail = 0;
  /** Facts down to one place, one for each such place, as they came up on the way to the world. */
  readonly singlePlace: Uint16Array;
  readonly singleFact: Uint16Array;
  #singles = 0;
  readonly #alignedNumber: Uint16Array;
  readonly #alignedFact: Uint16Array;
  readonly #alignedMask: Int32Array;
  #aligned = 0;
  /** The facts that closed the world looked at last, if it closed. */
  closedBy: Fact = -1;
  /** The second of them, or -1 where the first does alone. */
  andBy: Fact = -1;

  constructor(state: SearchState) {
    const { tables } = state;
    // No path is so long: each assumption writes to a fact at most once and notes it at most once.
    const room = tables.factCount * 16;
    this.#state = state;
    this.masks = state.masks;
    this.trailFact = new Uint16Array(room);
    this.#trailMask = new Int32Array(room);
    this.singlePlace = new Uint16Array(room);
    this.singleFact = new Uint16Array(room);
    this.#alignedNumber = new Uint16Array(room);
    this.#alignedFact = new Uint16Array(room);
    this.#alignedMask = new Int32Array(room);
  }

  /**
   * Starts with nothing assumed. Singles and aligned facts that still rule something out stay in play; a
   * position `closed` under one fact has none.
   */
  begin(closed: boolean): void {
    const { tables, live } = this.#state;
    const { factCount, candidateAt, size, cellCount, houseOf, digitOfFact, alignments, excludes } = tables;
    this.#trail = 0;
    this.#singles = 0;
    this.#aligned = 0;
    if (closed) return;
    for (let fact = 0; fact < factCount; fact += 1) {
      const mask = this.masks[fact];
      if (mask === 0) continue;
      if ((mask & (mask - 1)) === 0) {
        const place = candidateAt[fact * size + 31 - Math.clz32(mask)];
        if (excludes[place].some((other) => live[other] !== 0)) this.#noteSingle(fact, place);
      } else if (fact >= cellCount) {
        const number = alignments.of(houseOf[fact], mask);
        const telling = alignments.cells[number].some(
          (cell) => live[cell * size + digitOfFact[fact] - 1] !== 0,
        );
        if (telling) this.#noteAligned(fact, number, mask);
      }
    }
  }

  /** Where the notes stand. */
  mark(): Mark {
    return { trail: this.#trail, singles: this.#singles, aligned: this.#aligned };
  }

  /** Goes back to where the notes stood. */
  leave({ trail, singles, aligned }: Mark): void {
    for (let i = this.#trail - 1; i >= trail; i -= 1) this.masks[this.trailFact[i]] = this.#trailMask[i];
    this.#trail = trail;
    this.#singles = singles;
    this.#aligned = aligned;
  }

  get trailLength(): number {
    return this.#trail;
  }

  get singleCount(): number {
    return this.#singles;
  }

  /** Leaves a fact out: it is not used in this world and in those entered from it. */
  spend(fact: Fact): void {
    if (this.masks[fact] < SPENT) this.#write(fact, this.masks[fact] | SPENT);
  }

  /** Leaves out every fact that the candidate is a place of. */
  spendFactsOf(candidate: Candidate): void {
    const { ownStart, ownFact } = this.#state.tables;
    for (let i = ownStart[candidate]; i < ownStart[candidate + 1]; i += 1) this.spend(ownFact[i]);
  }

  /** Leaves out every fact whose one place is that of a single noted from `from` on. */
  spendSingles(from: number): void {
    const { ownStart, ownFact, ownBit } = this.#state.tables;
    for (let i = from; i < this.#singles; i += 1) {
      const place = this.singlePlace[i];
      for (let j = ownStart[place]; j < ownStart[place + 1]; j += 1) {
        if (this.masks[ownFact[j]] === ownBit[j]) this.spend(ownFact[j]);
      }
    }
  }

  #write(fact: Fact, mask: number): void {
    this.trailFact[this.#trail] = fact;
    this.#trailMask[this.#trail] = this.masks[fact];
    this.#trail += 1;
    this.masks[fact] = mask;
  }

  #noteSingle(fact: Fact, place: Candidate): void {
    this.singlePlace[this.#singles] = place;
    this.singleFact[this.#singles] = fact;
    this.#singles += 1;
  }

  #noteAligned(fact: Fact, number: number, mask: number): void {
    this.#alignedNumber[this.#aligned] = number;
    this.#alignedFact[this.#aligned] = fact;
    this.#alignedMask[this.#aligned] = mask;
    this.#aligned += 1;
  }

  /** Whether one fact closes the world in which the candidate is assumed as well; nothing changes. */
  closesByOne(candidate: Candidate): boolean {
    const { touchFact, touchMask, touchEnd, tables } = this.#state;
    for (let i = tables.touchStart[candidate]; i < touchEnd[candidate]; i += 1) {
      const before = this.masks[touchFact[i]];
      if (before !== 0 && (before & ~touchMask[i]) === 0) return this.#close(touchFact[i], -1);
    }
    return false;
  }

  /**
   * Whether at most two facts close the world in which the candidate is assumed as well; nothing changes. Of
   * the singles noted so far only those from `from` on are in play.
   */
  closesByTwo(candidate: Candidate, from: number): boolean {
    const singles = this.#singles;
    const aligned = this.#aligned;
    const closed = this.#look(candidate, from);
    this.#singles = singles;
    this.#aligned = aligned;
    return closed;
  }

  /** The same, and enters that world if it stays open. What the candidate touched is last on the trail. */
  enter(candidate: Candidate, from: number): boolean {
    const { touchFact, touchMask, touchEnd, tables } = this.#state;
    if (this.#look(candidate, from)) return true;
    this.spendFactsOf(candidate);
    for (let i = tables.touchStart[candidate]; i < touchEnd[candidate]; i += 1) {
      const before = this.masks[touchFact[i]];
      const after = before & ~touchMask[i];
      if (after !== before) this.#write(touchFact[i], after);
    }
    return false;
  }

  #close(fact: Fact, other: Fact): boolean {
    this.closedBy = fact;
    this.andBy = other;
    return true;
  }

  /** Notes the new singles and aligned facts; the inner loop of the search. */
  #look(candidate: Candidate, from: number): boolean {
    const { touchFact, touchMask, touchEnd, tables } = this.#state;
    const { candidateAt, size, cellCount, houseOf, conflict, conflictWords, alignments } = tables;
    const { masks, singlePlace } = this;
    const oldSingles = this.#singles;
    const oldAligned = this.#aligned;
    const spent = SPENT;
    const end = touchEnd[candidate];
    for (let i = tables.touchStart[candidate]; i < end; i += 1) {
      const fact = touchFact[i];
      const before = masks[fact];
      const after = before & ~touchMask[i];
      if (after === before) continue;
      if ((after & (after - 1)) === 0) {
        if (after === 0) return this.#close(fact, -1);
        const place = candidateAt[fact * size + 31 - Math.clz32(after)];
        const row = place * conflictWords;
        let known = false;
        for (let j = from; j < this.#singles; j += 1) {
          const other = singlePlace[j];
          if (((conflict[row + (other >> 5)] >>> (other & 31)) & 1) !== 0) {
            return this.#close(fact, this.singleFact[j]);
          }
          known ||= other === place;
        }
        if (!known) this.#noteSingle(fact, place);
      } else if (fact >= cellCount && after < spent) {
        const number = alignments.of(houseOf[fact], after);
        if (number > 0) this.#noteAligned(fact, number, after);
      }
    }
    if (this.#singles === oldSingles && this.#aligned === oldAligned) return false;
    return this.#lookAlong(from, oldSingles, oldAligned);
  }

  /** Whether an aligned fact rules out a single, or all places of another aligned fact, one of the two new. */
  #lookAlong(from: number, oldSingles: number, oldAligned: number): boolean {
    const { cellCount, houseCount, cellOf, digitOf, digitOfFact, houseOf, alignments } = this.#state.tables;
    const { sees, within } = alignments;
    const alignedFact = this.#alignedFact;
    const alignedNumber = this.#alignedNumber;
    const aligned = this.#aligned;
    for (let j = from; j < this.#singles; j += 1) {
      const place = this.singlePlace[j];
      const digit = digitOf[place];
      const cell = cellOf[place];
      for (let i = j < oldSingles ? oldAligned : 0; i < aligned; i += 1) {
        if (digitOfFact[alignedFact[i]] !== digit) continue;
        if (sees[alignedNumber[i] * cellCount + cell] === 0) continue;
        return this.#close(alignedFact[i], this.singleFact[j]);
      }
    }
    for (let i = oldAligned; i < aligned; i += 1) {
      const digit = digitOfFact[alignedFact[i]];
      const row = alignedNumber[i] * houseCount;
      for (let j = 0; j < i; j += 1) {
        const other = alignedFact[j];
        if (digitOfFact[other] !== digit) continue;
        if ((this.#alignedMask[j] & ~within[row + houseOf[other]]) !== 0) continue;
        return this.#close(alignedFact[i], other);
      }
    }
    return false;
  }
}
