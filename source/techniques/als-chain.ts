import { findSetChains } from './als-chains.ts';
import { phraseOfSets } from './als-words.ts';
import type { Technique } from './technique.ts';

const mostFacts = 10;

/** Four almost locked sets, each tied to the next. See findSetChains. */
export const alsChain: Technique = {
  id: 'als-chain',
  name: 'ALS chain',
  weight: mostFacts,
  assumes: 'nothing',
  find: (board, most = mostFacts) =>
    findSetChains(board, {
      technique: 'als-chain',
      fewestSets: 4,
      mostSets: 4,
      mostCells: 3,
      mostFacts: Math.min(mostFacts, most),
    }),
  phrase: phraseOfSets,
};
