import { factParts } from '../argument/fact.ts';
import type { Layout } from '../grid/layout.ts';
import { phraseOfChain } from './chain-words.ts';
import { findChains, houseFactsOf, type Link, linksOf } from './chains.ts';
import { groupedLinksOf } from './grouped-links.ts';
import type { Technique } from './technique.ts';

const mostLinks = 8;

/** Whether the links are those of an X-chain or an XY-chain, which have names of their own. */
function isPlainChain(layout: Layout, links: readonly Link[]): boolean {
  const parts = links.map(({ fact }) => factParts(layout, fact));
  const digits = new Set(parts.map((part) => (part.kind === 'cell' ? 0 : part.digit)));
  return digits.size === 1 && links.every(({ ends }) => ends.every((node) => node.length === 1));
}

/** The first link between each two nodes: a box and a line may have the same groups. */
const eachOnce = (links: readonly Link[]): Link[] => [
  ...new Map(links.map((link) => [link.ends.join(' | '), link] as const).reverse()).values(),
];

/**
 * A chain of three to eight facts of any kind: cells with two digits, houses with two places for a digit, and
 * houses whose places for it make two groups. See findChains.
 */
export const alternatingInferenceChain: Technique = {
  id: 'alternating-inference-chain',
  name: 'Alternating inference chain',
  weight: mostLinks,
  assumes: 'nothing',
  find: (board, most = mostLinks) => {
    const { layout } = board;
    const cells = Array.from({ length: layout.cellCount }, (_, cell) => cell);
    const houses = Array.from({ length: layout.size }, (_, i) => houseFactsOf(layout, i + 1)).flat();
    const links = [
      ...linksOf(board, [...houses, ...cells]),
      ...eachOnce(houses.flatMap((fact) => groupedLinksOf(board, fact))),
    ];
    return findChains(board, links, {
      technique: 'alternating-inference-chain',
      fewest: 3,
      most: Math.min(mostLinks, most),
      anyEnds: true,
      shortestOnly: true,
      accepts: (own) => !isPlainChain(layout, own),
    });
  },
  phrase: phraseOfChain,
};
