import type { Fact } from '../argument/kernel.ts';
import { list, listDigits } from '../argument/words.ts';
import { digitsIn } from '../grid/candidates.ts';
import { type Candidate, candidateOf, type House, type Layout } from '../grid/layout.ts';
import { cellName, sayHouse } from '../grid/names.ts';
import type { Position } from '../grid/position.ts';
import { addStrikes, bitCount, excludedByEach } from './finding.ts';
import { sidesOf } from './other-side.ts';
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
  about: 'cells',
  mostPlaces: k,
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
        if (isInEarlier(layout, set, house)) return;
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
  phrase: (position, { facts, conclusions }) => {
    const { layout, candidates } = position;
    if (facts.length !== k || facts.some((fact) => fact >= layout.cellCount)) return null;
    const union = facts.reduce((digits, cell) => digits | candidates.digitsAt(cell), 0);
    if (bitCount(union) !== k) return null;
    const cells = list(facts.map((cell) => cellName(layout, cell)));
    const between = `${cells} take ${listDigits(union)} between them, so no other cell that sees ${all[k]} has one of these.`;
    const struck = conclusions.kind === 'strikes' ? conclusions.candidates : [];
    const shutOut = sayShutOut(position, facts, struck);
    if (shutOut === null) return between;
    return shutOut.isAll ? shutOut.words : `${shutOut.words} ${between}`;
  },
});

/** So few digits, shut out of the set's cells, are taken in at a glance. */
const fewShutOut = 3;
const numbers = ['no', 'one', 'two', 'three'];

/**
 * A naked set from its other side, where that is seen first: in a house where it strikes, the few other digits
 * that the house lacks are each shut out of the set's cells by digits on the grid. `isAll`: it strikes nothing
 * outside that house. Null elsewhere.
 */
function sayShutOut(
  position: Position,
  facts: readonly Fact[],
  struck: readonly Candidate[],
): { readonly words: string; readonly isAll: boolean } | null {
  const { layout, placed } = position;
  for (const { house, cells, others, otherDigits } of sidesOf(position, facts)) {
    if (others.length < 2 || others.length > fewShutOut) continue;
    const inHouse = struck.filter((x) => house.cells.includes(Math.floor(x / layout.size)));
    if (inHouse.length === 0) continue;
    const isShutOut = (cell: number, digit: number) =>
      layout.peers[cell].some((peer) => placed[peer] === digit);
    if (!digitsIn(otherDigits).every((digit) => cells.every((cell) => isShutOut(cell, digit)))) continue;
    const names = list(cells.map((cell) => cellName(layout, cell)));
    const fill = `they fill the other ${numbers[others.length]} open cells of ${sayHouse(house)}`;
    return {
      words: `${listDigits(otherDigits)} are shut out of ${names}, so ${fill}, and nothing else fits there.`,
      isAll: inHouse.length === struck.length,
    };
  }
  return null;
}

/** Whether a house before this one, in the layout's order, has all the cells: a set is found there alone. */
const isInEarlier = ({ housesOf }: Layout, cells: readonly number[], { index }: House): boolean =>
  housesOf[cells[0]].some((other) => other < index && cells.every((cell) => housesOf[cell].includes(other)));
