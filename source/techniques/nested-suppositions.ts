import type { Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import { bitCount } from './finding.ts';
import { follow } from './following.ts';
import { factsThatRefute, isBroken, refutationNodes } from './refute.ts';
import { phraseOfSupposition } from './supposition-words.ts';
import type { Finding, Technique } from './technique.ts';

const most = 324;

/**
 * The last resort: a candidate of a fact with two places is supposed, and where singles come to no end, each
 * place of some further fact in turn, until all of these end. A bound on the choices makes the answer the
 * same everywhere. Facts: those on which the ends rest. What singles alone refute is a net and left to it.
 */
export const nestedSuppositions: Technique = {
  id: 'nested-suppositions',
  name: 'Nested suppositions',
  weight: most,
  assumes: 'nothing',
  supposes: true,
  find: (board, _, watch) => {
    if (isBroken(board)) return [];
    const nodes = refutationNodes(board.layout);
    const tried = new Set<Candidate>();
    const found = new Map<string, { facts: readonly Fact[]; struck: Candidate[] }>();
    const findings = () =>
      [...found.values()].map(
        ({ facts, struck }): Finding => ({
          technique: 'nested-suppositions',
          facts,
          conclusions: { kind: 'strikes', candidates: struck.toSorted((a, b) => a - b) },
        }),
      );
    watch?.(findings);
    for (let fact = 0; fact < board.tables.factCount; fact += 1) {
      if (bitCount(board.masks[fact]) !== 2) continue;
      for (const candidate of board.placesOf(fact)) {
        if (tried.has(candidate)) continue;
        tried.add(candidate);
        if (follow(board, candidate, Number.POSITIVE_INFINITY).end >= 0) continue;
        const facts = factsThatRefute(board, candidate, nodes);
        if (!facts) continue;
        const key = facts.join(' ');
        const known = found.get(key) ?? { facts, struck: [] };
        known.struck.push(candidate);
        found.set(key, known);
      }
    }
    return findings();
  },
  phrase: phraseOfSupposition,
};
