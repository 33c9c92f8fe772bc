import { phraseOfChain } from './chain-words.ts';
import { findChains, houseFactsOf, linksOf } from './chains.ts';
import type { Technique } from './technique.ts';

const mostLinks = 8;

/** A chain of houses that have a digit in two places each, at most eight of them. See findChains. */
export const xChain: Technique = {
  id: 'x-chain',
  name: 'X-chain',
  weight: mostLinks,
  assumes: 'nothing',
  find: (board, most = mostLinks) => {
    const { layout } = board;
    return Array.from({ length: layout.size }, (_, i) => i + 1).flatMap((digit) =>
      findChains(board, linksOf(board, houseFactsOf(layout, digit)), {
        technique: 'x-chain',
        fewest: 2,
        most: Math.min(mostLinks, most),
      }),
    );
  },
  phrase: phraseOfChain,
};
