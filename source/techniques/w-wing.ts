import { factParts, houseFact } from '../argument/fact.ts';
import { startSentence } from '../argument/words.ts';
import { candidateOf } from '../grid/layout.ts';
import { cellName, digitName, sayHouse } from '../grid/names.ts';
import { addStrikes, bitCount, excludedByEach } from './finding.ts';
import { seenIn } from './lines.ts';
import { sayStruckSee } from './struck-words.ts';
import type { Finding, Technique } from './technique.ts';

/**
 * Two cells with the same two digits that do not see each other, and a house whose places for one of the
 * digits are all seen by them, by neither alone: not both cells have that digit, so one has the other, and
 * it goes where both are seen. Facts: the cells, the house's.
 */
export const wWing: Technique = {
  id: 'w-wing',
  name: 'W-wing',
  weight: 3,
  assumes: 'nothing',
  about: 'cells-and-houses',
  find: (board) => {
    const { layout, masks } = board;
    const { cellCount, sees, size, houses } = layout;
    const seen = seenIn(layout);
    const findings: Finding[] = [];
    for (let first = 0; first < cellCount; first += 1) {
      const pair = masks[first];
      if (bitCount(pair) !== 2) continue;
      for (let second = first + 1; second < cellCount; second += 1) {
        if (masks[second] !== pair || sees[first * cellCount + second] === 1) continue;
        for (let digit = 1; digit <= size; digit += 1) {
          if ((pair & (1 << (digit - 1))) === 0) continue;
          const other = 32 - Math.clz32(pair & ~(1 << (digit - 1)));
          const ends = [candidateOf(layout, first, other), candidateOf(layout, second, other)];
          const struck = excludedByEach(board, ends);
          if (struck.length === 0) continue;
          for (const house of houses) {
            const fact = houseFact(layout, house, digit);
            const unseenByFirst = masks[fact] & ~seen[first * houses.length + house.index];
            const unseenBySecond = masks[fact] & ~seen[second * houses.length + house.index];
            if (unseenByFirst === 0 || unseenBySecond === 0 || (unseenByFirst & unseenBySecond) !== 0)
              continue;
            addStrikes(findings, board, 'w-wing', [first, second, fact], struck);
          }
        }
      }
    }
    return findings;
  },
  phrase: ({ layout, candidates }, { facts, conclusions }) => {
    const [first, second, bridge] = facts;
    if (facts.length !== 3 || conclusions.kind !== 'strikes') return null;
    const parts = factParts(layout, bridge);
    if (parts.kind !== 'house' || first >= layout.cellCount || second >= layout.cellCount) return null;
    const pair = candidates.digitsAt(first);
    if (bitCount(pair) !== 2 || candidates.digitsAt(second) !== pair) return null;
    const digit = digitName(parts.digit);
    const other = digitName(32 - Math.clz32(pair & ~(1 << (parts.digit - 1))));
    const [a, b] = [cellName(layout, first), cellName(layout, second)];
    return `Were both ${a} and ${b} ${digit}, ${sayHouse(parts.house)} would have no place for its ${digit}: one of them is ${other}. ${startSentence(sayStruckSee(layout, conclusions.candidates))} both.`;
  },
};
