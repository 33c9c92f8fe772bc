import { houseFact } from '../argument/fact.ts';
import { type Candidate, candidateOf } from '../grid/layout.ts';
import { addStrikes, bitCount, excludedByEach, isSingle } from './finding.ts';
import { linesOf } from './lines.ts';
import { phraseOfTwoLinks } from './single-digit.ts';
import type { Finding, Technique } from './technique.ts';

/**
 * Two rows (or two columns) with two places each for a digit, of which two stand in one line across: not
 * both of these, so one of the other two, and what sees both of those goes. Facts: the two lines, ascending.
 */
export const skyscraper: Technique = {
  id: 'skyscraper',
  name: 'Skyscraper',
  weight: 2,
  assumes: 'nothing',
  about: 'one-digit',
  mostPlaces: 2,
  find: (board) => {
    const { layout, masks, liveDigits } = board;
    const { size } = layout;
    const findings: Finding[] = [];
    for (const { along } of linesOf(layout).sides) {
      for (let digit = 1; digit <= size; digit += 1) {
        if ((liveDigits & (1 << (digit - 1))) === 0) continue;
        for (let i = 0; i < size - 1; i += 1) {
          const first = masks[houseFact(layout, along[i], digit)];
          if (bitCount(first) !== 2) continue;
          for (let j = i + 1; j < size; j += 1) {
            const second = masks[houseFact(layout, along[j], digit)];
            const shared = first & second;
            if (bitCount(second) !== 2 || !isSingle(shared)) continue;
            const at = (line: number, mask: number): Candidate =>
              candidateOf(layout, along[line].cells[31 - Math.clz32(mask)], digit);
            const tops = [at(i, first & ~shared), at(j, second & ~shared)];
            const facts = [houseFact(layout, along[i], digit), houseFact(layout, along[j], digit)];
            addStrikes(findings, board, 'skyscraper', facts, excludedByEach(board, tops));
          }
        }
      }
    }
    return findings;
  },
  phrase: phraseOfTwoLinks,
};
