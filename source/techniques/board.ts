import { factCandidates, factCount, factsOf } from '../argument/fact.ts';
import type { Fact } from '../argument/kernel.ts';
import { CandidateSet } from '../grid/candidates.ts';
import type { Candidate, Layout } from '../grid/layout.ts';
import { Position } from '../grid/position.ts';

/** What never changes for a layout: which candidates each fact has, and which facts each candidate touches. */
export interface BoardTables {
  readonly layout: Layout;
  readonly factCount: number;
  readonly candidateCount: number;
  /** `candidateAt[fact * size + bit]`: the candidate behind a bit of the fact's mask. */
  readonly candidateAt: Uint16Array;
  /** For each candidate the facts that it is a place of (its cell's, then one a house) and its bit in each. */
  readonly placesIn: readonly { readonly fact: Fact; readonly bit: number }[][];
  /** For each candidate those that it excludes, ascending. */
  readonly excludes: readonly Uint16Array[];
}

const cache = new WeakMap<Layout, BoardTables>();

/** The tables of a layout, made once. */
export function tablesOf(layout: Layout): BoardTables {
  const known = cache.get(layout);
  if (known) return known;
  const { size } = layout;
  const count = factCount(layout);
  const candidateCount = layout.cellCount * size;
  const candidateAt = new Uint16Array(count * size);
  for (let fact = 0; fact < count; fact += 1) candidateAt.set(factCandidates(layout, fact), fact * size);
  const candidates = Array.from({ length: candidateCount }, (_, candidate) => candidate);
  const placesIn = candidates.map((candidate) =>
    factsOf(layout, candidate).map((fact) => ({
      fact,
      bit: 1 << factCandidates(layout, fact).indexOf(candidate),
    })),
  );
  const excludes = candidates.map((candidate) => {
    const others = new Set(factsOf(layout, candidate).flatMap((fact) => factCandidates(layout, fact)));
    others.delete(candidate);
    return Uint16Array.from([...others].sort((a, b) => a - b));
  });
  const tables = { layout, factCount: count, candidateCount, candidateAt, placesIn, excludes };
  cache.set(layout, tables);
  return tables;
}

/**
 * The mutable working board that techniques search on: one mask of live places a fact, kept up to date on
 * every strike. Built from a position and handed only to `path/`.
 */
export class Board {
  readonly tables: BoardTables;
  readonly layout: Layout;
  readonly givens: Uint8Array;
  readonly placed: Uint8Array;
  /** 1 where the candidate is live. Written only by this class. */
  readonly live: Uint8Array;
  /** For each fact its live places, as bits over the fact's candidates in ascending order. */
  readonly masks: Uint32Array;

  private constructor(tables: BoardTables, givens: Uint8Array, placed: Uint8Array) {
    this.tables = tables;
    this.layout = tables.layout;
    this.givens = givens;
    this.placed = placed;
    this.live = new Uint8Array(tables.candidateCount);
    this.masks = new Uint32Array(tables.factCount);
  }

  static from(position: Position): Board {
    const board = new Board(tablesOf(position.layout), position.givens.slice(), position.placed.slice());
    for (const candidate of position.candidates) {
      board.live[candidate] = 1;
      for (const { fact, bit } of board.tables.placesIn[candidate]) board.masks[fact] |= bit;
    }
    return board;
  }

  /** Strikes a candidate; says whether it was live. */
  strike(candidate: Candidate): boolean {
    if (this.live[candidate] === 0) return false;
    this.live[candidate] = 0;
    for (const { fact, bit } of this.tables.placesIn[candidate]) this.masks[fact] &= ~bit;
    return true;
  }

  /** Places a digit, live or not, and clears its cell and its peers. */
  place(candidate: Candidate): void {
    const { size } = this.layout;
    this.placed[Math.floor(candidate / size)] = (candidate % size) + 1;
    for (const other of this.tables.excludes[candidate]) this.strike(other);
  }

  /** The live places of a fact, ascending. */
  placesOf(fact: Fact): Candidate[] {
    const places: Candidate[] = [];
    const base = fact * this.layout.size;
    for (let rest = this.masks[fact]; rest !== 0; rest &= rest - 1) {
      places.push(this.tables.candidateAt[base + 31 - Math.clz32(rest & -rest)]);
    }
    return places;
  }

  /** Whether the fact is settled: its one place stands on the grid. */
  isSettled(fact: Fact): boolean {
    const mask = this.masks[fact];
    if (mask === 0 || (mask & (mask - 1)) !== 0) return false;
    const candidate = this.tables.candidateAt[fact * this.layout.size + 31 - Math.clz32(mask)];
    return this.placed[Math.floor(candidate / this.layout.size)] !== 0;
  }

  /** The position that the board stands in now. */
  toPosition(): Position {
    const { layout } = this;
    const dead: Candidate[] = [];
    for (let candidate = 0; candidate < this.live.length; candidate += 1) {
      if (this.live[candidate] === 0) dead.push(candidate);
    }
    return Position.from(layout, this.givens, this.placed, CandidateSet.of(layout, dead));
  }
}
