import { list, listDigits, startSentence } from '../argument/words.ts';
import { digitsIn } from '../grid/candidates.ts';
import { type Candidate, type Cell, candidateOf, conflicts } from '../grid/layout.ts';
import { cellName } from '../grid/names.ts';
import { hasNakedSet } from './almost-locked-sets.ts';
import type { Board } from './board.ts';
import { addStrikes, bitCount, excludedByEach } from './finding.ts';
import { cellsAt } from './lines.ts';
import { meetingsOf } from './meetings.ts';
import { sayStruckSee } from './struck-words.ts';
import type { Finding, Technique } from './technique.ts';

/** How many cells of each house beyond those that both share, at most. */
const mostBeside = 3;
const most = 7;

/** All choices of so many of the cells, at least and at most, with the digits that they have. */
function choices(
  { masks }: Board,
  cells: readonly Cell[],
  fewest: number,
  most: number,
): { readonly cells: readonly Cell[]; readonly digits: number }[] {
  const open = cells.filter((cell) => bitCount(masks[cell]) >= 2);
  const chosen: { cells: readonly Cell[]; digits: number }[] = [];
  for (let bits = 0; bits < 1 << open.length; bits += 1) {
    const count = bitCount(bits);
    if (count < fewest || count > most) continue;
    const own = open.filter((_, i) => (bits & (1 << i)) !== 0);
    chosen.push({ cells: own, digits: own.reduce((union, cell) => union | masks[cell], 0) });
  }
  return chosen;
}

/**
 * Cells that two houses share, with more cells of each, that have as many digits as cells, none of which could
 * be there twice: those of the one house beyond the shared cells have no digit in common with those of the
 * other. So every digit is there once, and goes where all its places are seen. Facts: the shared cells, then
 * those of each house.
 */
export const twoSectorDisjointSubsets: Technique = {
  id: 'two-sector-disjoint-subsets',
  name: 'Two-sector disjoint subsets',
  weight: most,
  assumes: 'nothing',
  find: (board) => {
    const { layout, masks } = board;
    const found = new Map<string, { facts: readonly Cell[]; struck: Candidate[] }>();
    for (const { from, to, shared, sharedInTo } of meetingsOf(layout)) {
      if (from.index > to.index) continue;
      const middles = choices(board, cellsAt(from, shared), 2, layout.size).filter(
        ({ cells, digits }) => bitCount(digits) >= cells.length + 2,
      );
      if (middles.length === 0) continue;
      const ones = choices(board, cellsAt(from, ~shared), 1, mostBeside);
      const others = choices(board, cellsAt(to, ~sharedInTo), 1, mostBeside);
      for (const middle of middles) {
        for (const one of ones) {
          const room = middle.cells.length + one.cells.length;
          const near = middle.digits | one.digits;
          if (room >= most || bitCount(near) > room + mostBeside) continue;
          for (const other of others) {
            if ((one.digits & other.digits) !== 0 || room + other.cells.length > most) continue;
            const union = near | other.digits;
            const facts = [...middle.cells, ...one.cells, ...other.cells];
            if (bitCount(union) !== facts.length || hasNakedSet(facts.map((cell) => masks[cell]))) continue;
            const struck = digitsIn(union).flatMap((digit) =>
              excludedByEach(
                board,
                facts
                  .filter((cell) => (masks[cell] & (1 << (digit - 1))) !== 0)
                  .map((cell) => candidateOf(layout, cell, digit)),
              ),
            );
            if (struck.length > 0) found.set([...facts].sort((a, b) => a - b).join(' '), { facts, struck });
          }
        }
      }
    }
    const findings: Finding[] = [];
    for (const { facts, struck } of found.values()) {
      addStrikes(findings, board, 'two-sector-disjoint-subsets', facts, struck);
    }
    return findings;
  },
  phrase: ({ layout, candidates }, { facts, conclusions }) => {
    if (facts.some((fact) => fact >= layout.cellCount) || conclusions.kind !== 'strikes') return null;
    const union = facts.reduce((digits, cell) => digits | candidates.digitsAt(cell), 0);
    if (bitCount(union) !== facts.length) return null;
    const isOnce = digitsIn(union).every((digit) => {
      const places = facts
        .map((cell) => candidateOf(layout, cell, digit))
        .filter((candidate) => candidates.has(candidate));
      return places.every((a) => places.every((b) => a === b || conflicts(layout, a, b)));
    });
    if (!isOnce) return null;
    const cells = list(facts.map((cell) => cellName(layout, cell)));
    const gone = listDigits(
      conclusions.candidates.reduce((mask, x) => mask | (1 << (x % layout.size)), 0),
      'or',
    );
    return `${cells} have only ${listDigits(union)}, and none of these fits there twice, so each is there once. ${startSentence(sayStruckSee(layout, conclusions.candidates))} every place there for ${gone}.`;
  },
};
