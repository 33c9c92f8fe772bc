import type { Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import type { Board } from './board.ts';

/** Nothing that follows: the candidate lives, was dead before, or goes with the assumption itself. */
const LIVES = -1;
const ASSUMED = -2;

/** What has followed from an assumption: see `follow`. */
export interface Following {
  readonly assumed: Candidate;
  /** The fact that is left without a place, or -1. */
  readonly end: Fact;
  /** The live candidates that have gone, in the order in which they went. */
  readonly gone: readonly Candidate[];
  /** For each candidate: -1 where it lives, -2 where the assumption excludes it, else the fact that does. */
  readonly killer: Int16Array;
  /** For each fact that has come down to one place: when, as a count of the candidates gone by then. */
  readonly settledAt: Int32Array;
  /** For each candidate that has gone: its number in `gone`. */
  readonly goneAt: Int32Array;
}

/**
 * What follows from a candidate by singles: a fact that it leaves one place makes that true, which excludes
 * others in turn, round after round, at most so many rounds, until a fact has no place. Which candidates go,
 * and whether the end comes, does not depend on any order. Only the facts allowed are looked at, if not all.
 */
export function follow(
  board: Board,
  assumed: Candidate,
  rounds: number,
  allowed: Uint8Array | null = null,
): Following {
  const { tables, live, masks, layout } = board;
  const { excludes, ownStart, ownFact, ownBit, candidateAt, factCount, candidateCount } = tables;
  const killer = new Int16Array(candidateCount).fill(LIVES);
  const goneAt = new Int32Array(candidateCount);
  const settledAt = new Int32Array(factCount);
  const left = masks.slice();
  const gone: Candidate[] = [];
  const isTrue = new Uint8Array(candidateCount);
  isTrue[assumed] = 1;
  let front: { by: number; place: Candidate }[] = [{ by: ASSUMED, place: assumed }];
  for (let round = 0; front.length > 0 && round <= rounds; round += 1) {
    const next: { by: number; place: Candidate }[] = [];
    for (const { by, place } of front) {
      for (const other of excludes[place]) {
        if (live[other] === 0 || killer[other] !== LIVES) continue;
        killer[other] = by;
        goneAt[other] = gone.length;
        gone.push(other);
        for (let i = ownStart[other]; i < ownStart[other + 1]; i += 1) {
          const fact = ownFact[i];
          const rest = left[fact] & ~ownBit[i];
          left[fact] = rest;
          if (allowed !== null && allowed[fact] === 0) continue;
          if (rest === 0) {
            settledAt[fact] = gone.length;
            return { assumed, end: fact, gone, killer, settledAt, goneAt };
          }
          if ((rest & (rest - 1)) !== 0) continue;
          const sole = candidateAt[fact * layout.size + 31 - Math.clz32(rest)];
          if (isTrue[sole] === 1) continue;
          isTrue[sole] = 1;
          settledAt[fact] = gone.length;
          next.push({ by: fact, place: sole });
        }
      }
    }
    front = next;
  }
  return { assumed, end: -1, gone, killer, settledAt, goneAt };
}

/** Adds the facts that have led to some candidates' going, to a set. */
function addReasons(
  { tables, live, layout }: Board,
  { killer, settledAt, goneAt }: Following,
  candidates: readonly Candidate[],
  reasons: Set<Fact>,
): void {
  const waiting = [...candidates];
  for (let x = waiting.pop(); x !== undefined; x = waiting.pop()) {
    const by = killer[x];
    if (by < 0 || reasons.has(by)) continue;
    reasons.add(by);
    for (let i = 0; i < layout.size; i += 1) {
      const place = tables.candidateAt[by * layout.size + i];
      if (live[place] === 1 && killer[place] !== LIVES && goneAt[place] < settledAt[by]) waiting.push(place);
    }
  }
}

/** The facts by which a candidate has gone, ascending; none if the assumption excludes it. */
export function reasonsFor(board: Board, following: Following, x: Candidate): Fact[] {
  const reasons = new Set<Fact>();
  addReasons(board, following, [x], reasons);
  return [...reasons].sort((a, b) => a - b);
}

/** The facts on which the end rests, that without a place among them, ascending. */
export function reasonsForEnd(board: Board, following: Following): Fact[] {
  const { end } = following;
  const reasons = new Set<Fact>([end]);
  addReasons(board, following, board.placesOf(end), reasons);
  return [...reasons].sort((a, b) => a - b);
}
