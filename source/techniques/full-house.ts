import { factParts, houseFact } from '../argument/fact.ts';
import { sayCell } from '../argument/words.ts';
import { digitName, sayHouse } from '../grid/names.ts';
import { firstPlace, isSingle, placementBy } from './finding.ts';
import type { Finding, Technique } from './technique.ts';

/**
 * A house with one open cell: it takes the one digit that the house lacks. Told by the house's fact, since
 * one looks along the house for what is missing; the cell's own fact would do as well.
 */
export const fullHouse: Technique = {
  id: 'full-house',
  name: 'Full house',
  weight: 1,
  assumes: 'nothing',
  find: (board) => {
    const { layout, placed, masks } = board;
    const findings: Finding[] = [];
    for (const house of layout.houses) {
      let open = 0;
      let missing = layout.allDigits;
      for (const cell of house.cells) {
        if (placed[cell] === 0) open += 1;
        else missing &= ~(1 << (placed[cell] - 1));
      }
      if (open !== 1 || !isSingle(missing)) continue;
      const fact = houseFact(layout, house, 32 - Math.clz32(missing));
      if (masks[fact] !== 0) findings.push(placementBy('full-house', fact, firstPlace(board, fact)));
    }
    return findings;
  },
  phrase: ({ layout }, { facts, conclusions }) => {
    const parts = factParts(layout, facts[0]);
    if (parts.kind !== 'house' || conclusions.kind === 'breaks') return null;
    const cell = sayCell(layout, conclusions.candidates[0]);
    return `${cell} is the last open cell of ${sayHouse(parts.house)}, and ${digitName(parts.digit)} is the digit it lacks.`;
  },
};
