import { phraseOfChain } from './chain-words.ts';
import { findChains, linksOf } from './chains.ts';
import type { Technique } from './technique.ts';

const mostLinks = 8;

/** A chain of three to eight cells with two digits each. See findChains. */
export const xyChain: Technique = {
  id: 'xy-chain',
  name: 'XY-chain',
  weight: mostLinks,
  assumes: 'nothing',
  find: (board, most = mostLinks) => {
    const cells = Array.from({ length: board.layout.cellCount }, (_, cell) => cell);
    return findChains(board, linksOf(board, cells), {
      technique: 'xy-chain',
      fewest: 3,
      most: Math.min(mostLinks, most),
    });
  },
  phrase: phraseOfChain,
};
