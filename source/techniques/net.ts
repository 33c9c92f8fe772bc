import type { Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import type { Board } from './board.ts';
import { follow, reasonsForEnd } from './following.ts';
import { isBroken } from './refute.ts';
import { phraseOfSupposition } from './supposition-words.ts';
import type { Finding, Technique } from './technique.ts';

const most = 82;

/**
 * A candidate from which one single after the other leads to a fact without a place: it goes. Facts: those on
 * which the end rests, none of which the singles can do without.
 */
export const net: Technique = {
  id: 'net',
  name: 'Net',
  weight: most,
  assumes: 'nothing',
  supposes: true,
  find: (board) => {
    if (isBroken(board)) return [];
    const found = new Map<string, { facts: readonly Fact[]; struck: Candidate[] }>();
    for (const { candidate, facts } of refutedBySingles(board)) {
      const key = facts.join(' ');
      const known = found.get(key) ?? { facts, struck: [] };
      known.struck.push(candidate);
      found.set(key, known);
    }
    const findings: Finding[] = [];
    for (const { facts, struck } of found.values()) {
      findings.push({ technique: 'net', facts, conclusions: { kind: 'strikes', candidates: struck } });
    }
    return findings;
  },
  phrase: phraseOfSupposition,
};

/** Every candidate of an open cell that singles refute, ascending, with facts that do, none to spare. */
function refutedBySingles(
  board: Board,
): { readonly candidate: Candidate; readonly facts: readonly Fact[] }[] {
  const { live, placed, layout } = board;
  const refuted: { candidate: Candidate; facts: readonly Fact[] }[] = [];
  for (let candidate = 0; candidate < live.length; candidate += 1) {
    if (live[candidate] === 0 || placed[Math.floor(candidate / layout.size)] !== 0) continue;
    const following = follow(board, candidate, Number.POSITIVE_INFINITY);
    if (following.end < 0) continue;
    refuted.push({ candidate, facts: fewest(board, candidate, reasonsForEnd(board, following)) });
  }
  return refuted;
}

/** Leaves out, last first, every fact that the singles can do without. */
function fewest(board: Board, candidate: Candidate, facts: readonly Fact[]): readonly Fact[] {
  const allowed = new Uint8Array(board.tables.factCount);
  for (const fact of facts) allowed[fact] = 1;
  let kept = facts;
  for (const fact of [...facts].reverse()) {
    if (allowed[fact] === 0) continue;
    allowed[fact] = 0;
    const following = follow(board, candidate, Number.POSITIVE_INFINITY, allowed);
    if (following.end < 0) {
      allowed[fact] = 1;
      continue;
    }
    kept = reasonsForEnd(board, following);
    allowed.fill(0);
    for (const other of kept) allowed[other] = 1;
  }
  return kept;
}
