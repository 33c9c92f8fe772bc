import { findSetChains } from './als-chains.ts';
import { phraseOfSets } from './als-words.ts';
import type { Technique } from './technique.ts';

const mostFacts = 9;

/** Three almost locked sets, the middle one tied to both others. See findSetChains. */
export const alsXyWing: Technique = {
  id: 'als-xy-wing',
  name: 'ALS-XY-wing',
  weight: mostFacts,
  assumes: 'nothing',
  find: (board, most = mostFacts) =>
    findSetChains(board, {
      technique: 'als-xy-wing',
      fewestSets: 3,
      mostSets: 3,
      mostCells: 4,
      mostFacts: Math.min(mostFacts, most),
    }),
  phrase: phraseOfSets,
};
