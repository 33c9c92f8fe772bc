import type { Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import { Board } from '../techniques/board.ts';
import { type SearchTables, searchTablesOf } from '../techniques/fact-search-tables.ts';
import { type Explain, Following } from './following.ts';
import type { Refutation } from './nets.ts';
import type { Worlds } from './worlds.ts';

const noLimit = Number.POSITIVE_INFINITY;
/** Within a supposition, places of facts that are left with so many are supposed. */
const mostPlaces = 2;
/** How many suppositions within suppositions one search makes, at most: the bound that makes it end in time. */
const mostJoins = 40_000;
/** Of what is found so many are compared. */
const compared = 6;

/** The members of facts with two places left, in the order of the facts, each once. */
export function membersOfPairs(board: Board): Candidate[] {
  const { masks, tables, layout } = board;
  const members = new Set<Candidate>();
  for (let fact = 0; fact < tables.factCount; fact += 1) {
    const rest = masks[fact] & (masks[fact] - 1);
    if (rest === 0 || (rest & (rest - 1)) !== 0) continue;
    for (let mask = masks[fact]; mask !== 0; mask &= mask - 1) {
      members.add(tables.candidateAt[fact * layout.size + 31 - Math.clz32(mask & -mask)]);
    }
  }
  return [...members];
}

/**
 * Refutes candidates by suppositions within a supposition: where what follows from the candidate comes to no end,
 * each member of a fact that is left with two places is supposed as well, joined with what follows from it by
 * itself; what comes to an end there goes, and what follows from that is followed again.
 */
export class Nested {
  readonly #board: Board;
  readonly #worlds: Worlds;
  readonly #tables: SearchTables;
  readonly #outer: Following;
  readonly #inner: Following;
  /** Where the outer supposition has led to. */
  readonly #world: Board;
  /** Candidates that can be refuted, and what is ruled out one after the other in what follows from them. */
  #found: { readonly candidate: Candidate; readonly ruled: readonly Candidate[] }[] = [];

  /** The worlds of all candidates of the board must have been followed to their ends before each search. */
  constructor(board: Board, worlds: Worlds) {
    this.#board = board;
    this.#worlds = worlds;
    this.#tables = searchTablesOf(board.layout);
    this.#world = Board.bare(board.layout);
    this.#outer = new Following(this.#tables, board);
    this.#inner = new Following(this.#tables, this.#world);
  }

  /**
   * A light refutation by suppositions within a supposition; null where no candidate has one. What is found beside
   * it is kept: it stays true, and is used up before anything is searched again.
   */
  lightest(): Refutation | null {
    this.#outer.load(this.#board);
    const { live, placed } = this.#board;
    const isOpen = (candidate: Candidate) =>
      live[candidate] !== 0 && placed[this.#tables.cellOf[candidate]] === 0;
    this.#found = this.#found.filter(({ candidate }) => live[candidate] !== 0);
    if (this.#found.length > 0) return this.#lightestFound();
    const members = membersOfPairs(this.#board).filter(isOpen);
    this.#search(members);
    if (this.#found.length > 0) return this.#lightestFound();
    const others: Candidate[] = [];
    for (let candidate = 0; candidate < live.length; candidate += 1) {
      if (isOpen(candidate) && !members.includes(candidate)) others.push(candidate);
    }
    this.#search(others);
    return this.#lightestFound();
  }

  #search(candidates: readonly Candidate[]): void {
    const enough = this.#worlds.joins + mostJoins;
    for (const candidate of candidates) {
      if (this.#worlds.joins > enough) break;
      const ruled = this.#worlds.suppose(candidate, mostPlaces);
      if (ruled !== null) this.#found.push({ candidate, ruled });
    }
    this.#found.sort((a, b) => a.ruled.length - b.ruled.length);
  }

  #lightestFound(): Refutation | null {
    let best: Refutation | null = null;
    for (const { candidate, ruled } of this.#found.slice(0, compared)) {
      const facts = this.#factsThatRefute(candidate, ruled);
      if (facts !== null && (best === null || facts.length < best.facts.length)) best = { candidate, facts };
    }
    return best;
  }

  /** The facts by which a candidate is refuted once others are ruled out one by one in what follows from it. */
  #factsThatRefute(candidate: Candidate, ruled: readonly Candidate[]): readonly Fact[] | null {
    let end = this.#outer.assume(candidate, noLimit);
    for (let i = 0; end < 0 && i < ruled.length; i += 1) {
      if (this.#outer.isLive(ruled[i])) end = this.#outer.rule(ruled[i]);
    }
    return end < 0 ? null : this.#outer.coreOf(end, this.#tables.factCount, this.#explain);
  }

  readonly #explain: Explain = (candidate, time) => {
    this.#outer.standAt(time, this.#world);
    this.#inner.load(this.#world);
    const end = this.#inner.assume(candidate, noLimit);
    return (end < 0 ? null : this.#inner.coreOf(end, this.#tables.factCount)) ?? [];
  };
}
