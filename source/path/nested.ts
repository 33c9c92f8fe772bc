import type { Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import { Board } from '../techniques/board.ts';
import { type SearchTables, searchTablesOf } from '../techniques/fact-search-tables.ts';
import { Following } from './following.ts';
import type { Refutation } from './nets.ts';

const noLimit = Number.POSITIVE_INFINITY;
/** An inner supposition that needs more facts than this is not built upon. */
const mostInner = 60;

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
 * Refutes candidates by suppositions within a supposition: what follows from the candidate is followed to its
 * end, then each member of a fact with two places is assumed as well; what is refuted there goes, and what
 * follows from that is followed again.
 */
export class Nested {
  readonly #board: Board;
  readonly #tables: SearchTables;
  readonly #outer: Following;
  readonly #inner: Following;
  /** Where the outer supposition has led to. */
  readonly #world: Board;

  constructor(board: Board) {
    this.#board = board;
    this.#tables = searchTablesOf(board.layout);
    this.#world = Board.bare(board.layout);
    this.#outer = new Following(this.#tables, board);
    this.#inner = new Following(this.#tables, this.#world);
  }

  /** Takes over the position that the board stands in now. Due before every search. */
  load(): void {
    this.#outer.load(this.#board);
  }

  /** Facts that refute a live candidate, more than needed perhaps; null where nothing comes of it. */
  refute(candidate: Candidate): Refutation | null {
    const told = (end: Fact): Refutation | null => {
      const facts = this.#outer.coreOf(end, this.#tables.factCount);
      return facts && { candidate, facts };
    };
    const first = this.#outer.assume(candidate, noLimit);
    if (first >= 0) return told(first);
    for (let changed = true; changed; ) {
      changed = false;
      this.#enterWorld();
      for (const member of membersOfPairs(this.#world)) {
        if (!this.#outer.isLive(member)) continue;
        const end = this.#inner.assume(member, noLimit);
        const facts = end >= 0 ? this.#inner.coreOf(end, mostInner) : null;
        if (facts === null) continue;
        const next = this.#outer.rule(member, facts);
        if (next >= 0) return told(next);
        changed = true;
        this.#enterWorld();
      }
    }
    return null;
  }

  #enterWorld(): void {
    const { masks, live } = this.#world;
    const { factCount, candidateCount } = this.#tables;
    for (let fact = 0; fact < factCount; fact += 1) masks[fact] = this.#outer.leftOf(fact);
    for (let c = 0; c < candidateCount; c += 1) live[c] = this.#outer.isLive(c) ? 1 : 0;
    this.#inner.load(this.#world);
  }
}
