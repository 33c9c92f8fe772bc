import type { Candidate, Cell } from '../grid/layout.ts';
import { candidateOf, cellOf } from '../grid/layout.ts';
import type { Position } from '../grid/position.ts';
import { decide } from './solve.ts';

/** What would leave a position that has several completions with one. */
export interface Settling {
  /** The cells that hold different digits in different completions, ascending. */
  readonly differ: readonly Cell[];
  /** At least so many further givens are needed; 3 stands for more than two. */
  readonly atLeast: 1 | 2 | 3;
  /** Sets of so many candidates that settle it, in order, as many as asked for; empty where none was found. */
  readonly sets: readonly (readonly Candidate[])[];
}

export interface SettleLimits {
  /** How many sets are wanted. */
  readonly sets: number;
  /** How many pairs may be decided by search before pairs are given up. */
  readonly pairs: number;
}

/** Completions that are remembered, to see without a search that a pair leaves two of them. */
const remembered = 512;

/** For each candidate, in which of the remembered completions it is true, as bits. */
class Completions {
  readonly #size: number;
  readonly #words = remembered / 32;
  readonly #bits: Uint32Array;
  readonly #seen = new Set<string>();

  constructor({ layout }: Position) {
    this.#size = layout.size;
    this.#bits = new Uint32Array(layout.cellCount * layout.size * this.#words);
  }

  add(digits: Uint8Array): void {
    const index = this.#seen.size;
    const name = digits.join();
    if (index === remembered || this.#seen.has(name)) return;
    this.#seen.add(name);
    digits.forEach((digit, cell) => {
      this.#bits[(cell * this.#size + digit - 1) * this.#words + (index >> 5)] |= 1 << (index & 31);
    });
  }

  /** Whether two of them have both candidates. */
  twoHave(a: Candidate, b: Candidate): boolean {
    let met = false;
    for (let word = 0; word < this.#words; word += 1) {
      const both = this.#bits[a * this.#words + word] & this.#bits[b * this.#words + word];
      if (both === 0) continue;
      if (met || (both & (both - 1)) !== 0) return true;
      met = true;
    }
    return false;
  }
}

/** A position in which a live candidate has been placed. */
function placing(position: Position, candidate: Candidate): Position {
  const { layout } = position;
  const digit = (candidate % layout.size) + 1;
  const cell = cellOf(layout, candidate);
  const out: Candidate[] = [];
  for (let other = 1; other <= layout.size; other += 1) {
    if (other !== digit) out.push(candidateOf(layout, cell, other));
  }
  return position.strike([...out, ...layout.peers[cell].map((peer) => candidateOf(layout, peer, digit))]);
}

/** How many digits at most can go in the very same cells. Exchanging two of them in a completion gives another. */
function interchangeable({ layout, candidates }: Position): number {
  const digitsWith = new Map<string, number>();
  let most = 0;
  for (let digit = 1; digit <= layout.size; digit += 1) {
    const cells: Cell[] = [];
    for (let cell = 0; cell < layout.cellCount; cell += 1) {
      if (candidates.has(candidateOf(layout, cell, digit))) cells.push(cell);
    }
    const count = (digitsWith.get(cells.join()) ?? 0) + 1;
    digitsWith.set(cells.join(), count);
    most = Math.max(most, count);
  }
  return most;
}

/**
 * Where the completions of a position differ, and the fewest further givens, up to two, that leave exactly
 * one of them. For a position with several completions; deterministic.
 */
export function settle(position: Position, limits: SettleLimits): Settling {
  const { layout } = position;
  const completions = new Completions(position);
  /** For each cell the digits that it holds in completions, as far as they are known. */
  const held = new Uint32Array(layout.cellCount);
  const learn = (found: Position): ReturnType<typeof decide>['verdict'] => {
    const decision = decide(found);
    const known =
      decision.verdict === 'several'
        ? decision.witnesses
        : decision.verdict === 'one'
          ? [decision.solution]
          : [];
    for (const digits of known) {
      completions.add(digits);
      digits.forEach((digit, cell) => {
        held[cell] |= 1 << (digit - 1);
      });
    }
    return decision.verdict;
  };
  learn(position);
  /** Candidates that are true in some completion and not in all, with whether one alone settles it. */
  const open: Candidate[] = [];
  const single: (readonly Candidate[])[] = [];
  const differ: Cell[] = [];
  for (let cell = 0; cell < layout.cellCount; cell += 1) {
    const mask = position.candidates.digitsAt(cell);
    const possible: Candidate[] = [];
    for (let digit = 1; digit <= layout.size; digit += 1) {
      if ((mask & (1 << (digit - 1))) === 0 || (mask & (mask - 1)) === 0) continue;
      const candidate = candidateOf(layout, cell, digit);
      const verdict = learn(placing(position, candidate));
      if (verdict !== 'none') possible.push(candidate);
      if (verdict === 'one') single.push([candidate]);
    }
    if (possible.length < 2) continue;
    differ.push(cell);
    open.push(...possible);
  }
  if (single.length > 0) return { differ, atLeast: 1, sets: single.slice(0, limits.sets) };
  // Two givens leave two of four such digits as alike as they were.
  if (interchangeable(position) >= 4) return { differ, atLeast: 3, sets: [] };
  const pairs: (readonly Candidate[])[] = [];
  let searched = 0;
  for (const [index, a] of open.entries()) {
    const withA = placing(position, a);
    for (const b of open.slice(index + 1)) {
      if (!withA.candidates.has(b) || cellOf(layout, a) === cellOf(layout, b) || completions.twoHave(a, b))
        continue;
      if (searched === limits.pairs) return { differ, atLeast: 2, sets: pairs };
      searched += 1;
      if (learn(placing(withA, b)) !== 'one') continue;
      pairs.push([a, b]);
      if (pairs.length === limits.sets) return { differ, atLeast: 2, sets: pairs };
    }
  }
  return { differ, atLeast: pairs.length > 0 ? 2 : 3, sets: pairs };
}
