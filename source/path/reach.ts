import type { Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import type { Board } from '../techniques/board.ts';

/** More arrangements than this are not gone through. */
const mostArrangements = 256;

/**
 * All live candidates, ascending, that some facts rule out together: those in conflict with every one of
 * their arrangements. Null where there are too many arrangements to go through, or none.
 */
export function reachOf(board: Board, facts: readonly Fact[]): Candidate[] | null {
  const { live, tables } = board;
  const lists = facts.map((fact) => board.placesOf(fact)).sort((a, b) => a.length - b.length);
  const chosen: Candidate[] = [];
  /** In how many arrangements so far a candidate is ruled out; looked at only while that is all of them. */
  let left: Candidate[] | null = null;
  let arrangements = 0;
  const conflict = conflictsIn(board);
  const clash = (a: Candidate, b: Candidate) => conflict[a * tables.candidateCount + b] === 1;
  const record = (): void => {
    arrangements += 1;
    if (left === null) {
      const ruledOut = new Set<Candidate>();
      for (const place of chosen) {
        for (const other of tables.excludes[place]) if (live[other] === 1) ruledOut.add(other);
      }
      left = [...ruledOut];
    } else left = left.filter((candidate) => chosen.some((place) => clash(candidate, place)));
  };
  const go = (): boolean => {
    if (chosen.length === lists.length) {
      record();
      return arrangements <= mostArrangements;
    }
    for (const place of lists[chosen.length]) {
      if (chosen.some((other) => clash(other, place))) continue;
      chosen.push(place);
      const goOn = go();
      chosen.pop();
      if (!goOn) return false;
    }
    return true;
  };
  if (!go() || left === null) return null;
  return (left as Candidate[]).sort((a, b) => a - b);
}

const conflictTables = new WeakMap<object, Uint8Array>();

/** By `a * candidateCount + b`: 1 where the two candidates exclude each other. */
function conflictsIn({ tables }: Board): Uint8Array {
  let table = conflictTables.get(tables);
  if (!table) {
    table = new Uint8Array(tables.candidateCount ** 2);
    for (let a = 0; a < tables.candidateCount; a += 1) {
      for (const b of tables.excludes[a]) table[a * tables.candidateCount + b] = 1;
    }
    conflictTables.set(tables, table);
  }
  return table;
}
