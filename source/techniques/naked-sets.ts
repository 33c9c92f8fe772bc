import { list, listDigits } from '../argument/words.ts';
import { type Candidate, candidateOf, type House, type Layout } from '../grid/layout.ts';
import { cellName } from '../grid/names.ts';
import { addStrikes, bitCount, excludedByEach } from './finding.ts';
import type { Finding, Technique } from './technique.ts';
import { eachTightSet } from './tight-sets.ts';

const all = ['none', 'it', 'both', 'all three', 'all four'];

/**
 * k cells of a house that have k digits between them: each of these digits is in one of them, so it goes
 * from every cell that sees all of them. Each cell has two digits or more, or a single would go by this name.
 * Facts: the cells, ascending.
 */
export const nakedSet = (id: string, name: string, k: number): Technique => ({
  id,
  name,
  weight: k,
  assumes: 'nothing',
  find: (board) => {
    const { layout, masks } = board;
    const { size } = layout;
    const findings: Finding[] = [];
    const cells: number[] = new Array(size);
    const own: number[] = new Array(size);
    for (const house of layout.houses) {
      let count = 0;
      for (const cell of house.cells) {
        const digits = bitCount(masks[cell]);
        if (digits < 2 || digits > k) continue;
        cells[count] = cell;
        own[count] = masks[cell];
        count += 1;
      }
      eachTightSet(own, count, k, k, (chosen, union) => {
        const set = chosen.map((i) => cells[i]).sort((a, b) => a - b);
        if (firstHouseOf(layout, set) !== house) return;
        const struck: Candidate[] = [];
        for (let digit = 1; digit <= size; digit += 1) {
          if ((union & (1 << (digit - 1))) === 0) continue;
          const places = set.map((cell) => candidateOf(layout, cell, digit));
          struck.push(...excludedByEach(board, places));
        }
        addStrikes(findings, board, id, set, struck);
      });
    }
    return findings;
  },
  phrase: ({ layout, candidates }, { facts }) => {
    if (facts.length !== k || facts.some((fact) => fact >= layout.cellCount)) return null;
    const union = facts.reduce((digits, cell) => digits | candidates.digitsAt(cell), 0);
    if (bitCount(union) !== k) return null;
    const cells = list(facts.map((cell) => cellName(layout, cell)));
    return `${cells} take ${listDigits(union)} between them, so a cell that sees ${all[k]} has none of these.`;
  },
});

/** The first house, in the layout's order, that has all the cells: a set is found there and nowhere else. */
const firstHouseOf = (layout: Layout, cells: readonly number[]): House | undefined =>
  layout.houses.find((house) => cells.every((cell) => layout.housesOf[cell].includes(house.index)));
