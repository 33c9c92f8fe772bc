import { list, listDigits, startSentence } from '../argument/words.ts';
import { cellName } from '../grid/names.ts';
import { findChains, linksOf } from './chains.ts';
import { bitCount } from './finding.ts';
import { sayStruckSee } from './struck-words.ts';
import type { Technique } from './technique.ts';

const mostLinks = 8;

/**
 * A chain of four, six or eight cells that have the same two digits: they alternate, so both digits go where
 * the two outer cells are seen. See findChains.
 */
export const remotePairs: Technique = {
  id: 'remote-pairs',
  name: 'Remote pairs',
  weight: mostLinks,
  assumes: 'nothing',
  find: (board, most = mostLinks) => {
    const { layout, masks } = board;
    const pairs = new Map<number, number[]>();
    for (let cell = 0; cell < layout.cellCount; cell += 1) {
      if (bitCount(masks[cell]) !== 2) continue;
      pairs.set(masks[cell], [...(pairs.get(masks[cell]) ?? []), cell]);
    }
    return [...pairs.values()].flatMap((cells) =>
      cells.length < 4
        ? []
        : findChains(board, linksOf(board, cells), {
            technique: 'remote-pairs',
            fewest: 4,
            most: Math.min(mostLinks, most),
          }),
    );
  },
  phrase: ({ layout, candidates }, { facts, conclusions }) => {
    if (facts.some((fact) => fact >= layout.cellCount) || conclusions.kind !== 'strikes') return null;
    const pair = candidates.digitsAt(facts[0]);
    if (facts.some((cell) => candidates.digitsAt(cell) !== pair) || facts.length % 2 !== 0) return null;
    const digits = listDigits(pair);
    const [first, last] = [facts[0], facts[facts.length - 1]].map((cell) => cellName(layout, cell));
    return `${digits} alternate along ${list(facts.map((cell) => cellName(layout, cell)))}, so ${first} and ${last} differ. ${startSentence(sayStruckSee(layout, conclusions.candidates))} both.`;
  },
};
