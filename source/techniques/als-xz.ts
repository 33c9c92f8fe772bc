import type { Candidate } from '../grid/layout.ts';
import {
  type AlmostLockedSet,
  almostLockedSets,
  isInOneHouse,
  liveBits,
  restrictedCommons,
  struckBySets,
} from './almost-locked-sets.ts';
import { phraseOfSets } from './als-words.ts';
import type { Board } from './board.ts';
import { addStrikes, isSingle } from './finding.ts';
import type { Finding, Technique } from './technique.ts';

/** Sets have at most so many cells. */
const mostCells = 4;

/**
 * Two almost locked sets with a digit that cannot be in both: one of them goes without it, so it has all its
 * other digits. What is in both sets, then, goes where all its places are seen. With two such digits each set
 * goes without one of them, and all the others stay where they are. Facts: the cells of the sets.
 */
export const alsXz: Technique = {
  id: 'als-xz',
  name: 'ALS-XZ',
  weight: 2 * mostCells,
  assumes: 'nothing',
  find: (board, most = 2 * mostCells) => {
    const { layout } = board;
    const live = liveBits(board);
    const sets = almostLockedSets(board, Math.min(mostCells, most - 1));
    const found = new Map<string, { facts: number[]; struck: Candidate[] }>();
    for (let i = 0; i < sets.length; i += 1) {
      const a = sets[i];
      for (let j = i + 1; j < sets.length; j += 1) {
        const b = sets[j];
        const common = a.digits & b.digits;
        if (common === 0 || isSingle(common) || a.cells.length + b.cells.length > most) continue;
        const restricted = restrictedCommons(a, b);
        if (restricted === 0 || a.cells.some((cell) => b.cells.includes(cell))) continue;
        const struck = strikes(board, live, a, b, restricted);
        if (struck.length === 0) continue;
        const facts = [...a.cells, ...b.cells];
        if (isInOneHouse(layout, facts)) continue;
        const key = [...facts].sort((one, other) => one - other).join(' ');
        const known = found.get(key) ?? { facts, struck: [] };
        known.struck.push(...struck);
        found.set(key, known);
      }
    }
    const findings: Finding[] = [];
    for (const { facts, struck } of found.values()) addStrikes(findings, board, 'als-xz', facts, struck);
    return findings;
  },
  phrase: phraseOfSets,
};

function strikes(
  { layout }: Board,
  live: ReturnType<typeof liveBits>,
  a: AlmostLockedSet,
  b: AlmostLockedSet,
  restricted: number,
): Candidate[] {
  const common = a.digits & b.digits;
  if (isSingle(restricted)) return struckBySets(layout, live, [a, b], common & ~restricted);
  return [
    ...struckBySets(layout, live, [a, b], restricted),
    ...struckBySets(layout, live, [a], a.digits & ~restricted),
    ...struckBySets(layout, live, [b], b.digits & ~restricted),
  ];
}
