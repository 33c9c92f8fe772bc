import type { Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import type { SearchTables } from '../techniques/fact-search-tables.ts';
import { bitCount } from '../techniques/finding.ts';
import { meetingsOf } from '../techniques/meetings.ts';

/**
 * What some places of a fact say: nothing; that none is left; that they may be aligned, which is still to be asked.
 * More than SAYS_NOTHING: one place is left, at this bit, counted from 1. Less than MAY_BE_ALIGNED: they are, see
 * `effectOf`.
 */
export const SAYS_NOTHING = 0;
export const IS_EMPTY = -1;
export const MAY_BE_ALIGNED = -2;

/** Layouts with more digits have no table: it would be too large. */
const mostInTable = 10;

/** Effects beyond this number are looked up each time: the table has 16 bits. */
const mostNoted = 32_000;

/**
 * What follows at once, for all that may follow in a layout: from what a fact is left with to an effect, and from
 * an effect to the places that go. An effect is a number: candidate `c` is true; `candidateCount + c`: it is out;
 * those after it: the places of a digit are aligned.
 */
export class Effects {
  readonly #tables: SearchTables;
  /** Effect e takes the places `mask[i]` of `fact[i]`, `start[e] <= i < start[e + 1]`. */
  readonly start: number[] = [0];
  readonly fact: number[] = [];
  readonly mask: number[] = [];
  /** By `row[fact] + places`: what these places say; null where `sayOf` is to be asked. */
  readonly said: Int16Array | null;
  readonly row: Int32Array;
  /** The most places that can be aligned: the most cells that two houses share. */
  readonly #mostAligned: number;
  /** For the number of an alignment the effect before that of its first digit. */
  readonly #before: number[] = [];

  constructor(tables: SearchTables) {
    const { layout, size, cellCount, houseCount, houseOf, factCount, candidateCount } = tables;
    const { ownStart, ownFact, ownBit } = tables;
    this.#tables = tables;
    this.#mostAligned = Math.max(0, ...meetingsOf(layout).map(({ shared }) => bitCount(shared)));
    const whole = 2 ** size - 1;
    for (let c = 0; c < candidateCount; c += 1) {
      for (let i = ownStart[c]; i < ownStart[c + 1]; i += 1) this.#add(ownFact[i], whole & ~ownBit[i]);
      this.start.push(this.fact.length);
    }
    for (let c = 0; c < candidateCount; c += 1) {
      this.#add(ownFact[ownStart[c]], ownBit[ownStart[c]]);
      this.start.push(this.fact.length);
    }
    const rowOf = (fact: Fact) => (fact < cellCount ? houseCount : houseOf[fact]) * 2 ** size;
    this.row = Int32Array.from({ length: factCount }, (_, fact) => rowOf(fact));
    this.said = null;
    if (size > mostInTable) return;
    this.said = new Int16Array((houseCount + 1) * 2 ** size);
    for (let i = 0; i < this.said.length; i += 1) {
      this.said[i] = this.#firstSayOf(i & whole, i >> size === houseCount);
    }
  }

  #add(fact: Fact, mask: number): void {
    this.fact.push(fact);
    this.mask.push(mask);
  }

  #firstSayOf(places: number, isCell: boolean): number {
    if (places === 0) return IS_EMPTY;
    if ((places & (places - 1)) === 0) return 32 - Math.clz32(places);
    return isCell || bitCount(places) > this.#mostAligned ? SAYS_NOTHING : MAY_BE_ALIGNED;
  }

  /** What a fact says that is left with some places, where there is no table. */
  sayOf(fact: Fact, places: number): number {
    return this.#firstSayOf(places, fact < this.#tables.cellCount);
  }

  /** The effect of places that say less than IS_EMPTY, or -1 where they are not aligned after all. */
  effectOf(fact: Fact, places: number, says: number): number {
    const { alignments, houseOf, digitOfFact } = this.#tables;
    if (says < MAY_BE_ALIGNED) return MAY_BE_ALIGNED - says + digitOfFact[fact];
    const number = alignments.of(houseOf[fact], places);
    const before = number === 0 ? 0 : (this.#before[number] ?? this.#work(number));
    if (this.said !== null && before <= mostNoted) {
      this.said[this.row[fact] + places] = number === 0 ? SAYS_NOTHING : MAY_BE_ALIGNED - before;
    }
    return number === 0 ? -1 : before + digitOfFact[fact];
  }

  /** Makes the effects of an alignment, one a digit; the number before the first of them. */
  #work(number: number): number {
    const { alignments, size, cellCount, layout } = this.#tables;
    const parts: { readonly house: number; readonly mask: number }[] = [];
    const left = new Set(alignments.cells[number]);
    for (const cell of left) {
      const within = (house: number) =>
        layout.houses[house].cells.reduce((mask, other, bit) => mask | (left.has(other) ? 1 << bit : 0), 0);
      const houses = layout.housesOf[cell].map((house) => ({ house, mask: within(house) }));
      const best = houses.reduce((a, b) => (bitCount(b.mask) > bitCount(a.mask) ? b : a));
      for (const other of layout.houses[best.house].cells) left.delete(other);
      parts.push(best);
    }
    const before = this.start.length - 2;
    this.#before[number] = before;
    for (let digit = 0; digit < size; digit += 1) {
      for (const { house, mask } of parts) this.#add(cellCount + house * size + digit, mask);
      this.start.push(this.fact.length);
    }
    return before;
  }

  /** The candidate that an effect rules out by itself. */
  readonly outOf = (candidate: Candidate): number => this.#tables.candidateCount + candidate;
}

const cache = new WeakMap<SearchTables, Effects>();

/** The effects of the tables' layout, worked out once. */
export function effectsOf(tables: SearchTables): Effects {
  const known = cache.get(tables);
  if (known) return known;
  const effects = new Effects(tables);
  cache.set(tables, effects);
  return effects;
}
