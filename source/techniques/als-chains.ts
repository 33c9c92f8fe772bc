import type { Candidate } from '../grid/layout.ts';
import {
  type AlmostLockedSet,
  almostLockedSets,
  isInOneHouse,
  liveBits,
  restrictedCommons,
  struckBySets,
} from './almost-locked-sets.ts';
import type { Board } from './board.ts';
import { addStrikes } from './finding.ts';
import type { Finding } from './technique.ts';

export interface SetChainRule {
  readonly technique: string;
  /** How many sets a chain has, at least and at most. */
  readonly fewestSets: number;
  readonly mostSets: number;
  /** How many cells a set has, and all sets together, at most. */
  readonly mostCells: number;
  readonly mostFacts: number;
}

/**
 * Almost locked sets, each tied to the next by a digit that can be in only one of the two, no two ties in a
 * row by the same digit: if the first lacks some digit it has the tie, so the next lacks that and has the next
 * tie, and so on. A digit of the first and last sets that ties neither is in one of them. Sets of one cell each make an
 * XY-chain and are left out, and so is a chain if chains with fewer facts strike all that it strikes. Facts: the cells, set after set.
 */
export function findSetChains(board: Board, rule: SetChainRule): Finding[] {
  const { layout } = board;
  // Every set has a cell at least, and sets of one cell each are left out.
  if (rule.mostFacts <= rule.fewestSets) return [];
  const sets = almostLockedSets(board, Math.min(rule.mostCells, rule.mostFacts - rule.fewestSets + 1));
  const live = liveBits(board);
  const next = neighboursOf(sets);
  const fewest = new Map<Candidate, number>();
  const found = new Map<string, { facts: number[]; struck: Candidate[] }>();
  const extend = (path: readonly number[], cells: readonly number[], first: number, last: number): void => {
    const end = sets[path[path.length - 1]];
    const isOfCells = cells.length === path.length;
    if (path.length >= rule.fewestSets && path[0] < path[path.length - 1] && !isOfCells) {
      const start = sets[path[0]];
      const digits = start.digits & end.digits & ~first & ~last;
      const struck = digits === 0 ? [] : struckBySets(layout, live, [start, end], digits);
      if (struck.length > 0 && !isInOneHouse(layout, cells)) {
        for (const x of struck) fewest.set(x, Math.min(cells.length, fewest.get(x) ?? cells.length));
        const key = [...cells].sort((a, b) => a - b).join(' ');
        const known = found.get(key) ?? { facts: [...cells], struck: [] };
        known.struck.push(...struck);
        found.set(key, known);
      }
    }
    if (path.length === rule.mostSets) return;
    for (const { set, ties } of next[path[path.length - 1]]) {
      const own = sets[set].cells;
      if (cells.length + own.length > rule.mostFacts) continue;
      if (own.some((cell) => cells.includes(cell))) continue;
      for (let rest = ties & ~last; rest !== 0; rest &= rest - 1) {
        const tie = rest & -rest;
        extend([...path, set], [...cells, ...own], first === 0 ? tie : first, tie);
      }
    }
  };
  sets.forEach(({ cells }, start) => {
    extend([start], cells, 0, 0);
  });
  const findings: Finding[] = [];
  for (const { facts, struck } of found.values()) {
    if (struck.every((x) => (fewest.get(x) ?? 0) < facts.length)) continue;
    addStrikes(findings, board, rule.technique, facts, struck);
  }
  return findings;
}

/** For each set those that share no cell with it and are tied to it, and the digits that tie them. */
function neighboursOf(
  sets: readonly AlmostLockedSet[],
): readonly { readonly set: number; readonly ties: number }[][] {
  const next: { set: number; ties: number }[][] = sets.map(() => []);
  sets.forEach((a, i) => {
    for (let j = i + 1; j < sets.length; j += 1) {
      const b = sets[j];
      if ((a.digits & b.digits) === 0) continue;
      const ties = restrictedCommons(a, b);
      if (ties === 0 || a.cells.some((cell) => b.cells.includes(cell))) continue;
      next[i].push({ set: j, ties });
      next[j].push({ set: i, ties });
    }
  });
  return next;
}
