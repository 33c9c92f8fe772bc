import type { Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import type { Board } from './board.ts';
import { SearchBudget, strikesUpTo } from './fact-search.ts';
import { type Following, follow, reasonsFor } from './following.ts';
import { isBroken } from './refute.ts';
import { phraseOfForcing } from './supposition-words.ts';
import type { Finding, Technique } from './technique.ts';

const most = 82;

/** A fact with more places than this is not followed. */
const mostPlaces = 4;

/** Each place of a fact is followed so many rounds of singles. */
const rounds = 5;

/** What so few facts strike is not worth following every place of a fact for. */
const lightFacts = 2;
const lightWorlds = 2_000_000;

/**
 * A fact with two to four places of which every one, followed by singles, strikes the same candidate: whichever is true, that goes.
 * What two facts strike anyway is left out. For each candidate the fact that needs the fewest others. Facts: that one, then those along the branches.
 */
export const forcing = (
  id: string,
  name: string,
  isStart: (board: Board, fact: Fact) => boolean,
): Technique => ({
  id,
  name,
  weight: most,
  assumes: 'nothing',
  supposes: true,
  find: (board) => {
    if (isBroken(board)) return [];
    const { tables } = board;
    const followed = new Map<Candidate, Following>();
    const of = (place: Candidate): Following => {
      const following = followed.get(place) ?? follow(board, place, rounds);
      followed.set(place, following);
      return following;
    };
    const light = strikesUpTo(board, lightFacts, new SearchBudget(lightWorlds));
    if (light.kind === 'broken') return [];
    const isLight = new Set(light.strikes.map(({ candidate }) => candidate));
    const best = new Map<Candidate, readonly Fact[]>();
    for (let fact = 0; fact < tables.factCount; fact += 1) {
      const places = board.placesOf(fact);
      if (places.length < 2 || places.length > mostPlaces || !isStart(board, fact)) continue;
      const branches = places.map(of);
      if (branches.some(({ end }) => end >= 0)) continue;
      for (const x of branches[0].gone) {
        if (isLight.has(x) || branches.some(({ killer }) => killer[x] === -1)) continue;
        const reasons = branches.map((branch) => reasonsFor(board, branch, x));
        if (reasons.every((facts) => facts.length === 0)) continue;
        const facts = [...new Set([fact, ...reasons.flat()])];
        const known = best.get(x);
        if (!known || facts.length < known.length) best.set(x, facts);
      }
    }
    const found = new Map<string, { facts: readonly Fact[]; struck: Candidate[] }>();
    for (const [x, facts] of best) {
      const key = [...facts].sort((a, b) => a - b).join(' ');
      const known = found.get(key) ?? { facts, struck: [] };
      known.struck.push(x);
      found.set(key, known);
    }
    const findings: Finding[] = [];
    for (const { facts, struck } of found.values()) {
      const candidates = struck.sort((a, b) => a - b);
      findings.push({ technique: id, facts, conclusions: { kind: 'strikes', candidates } });
    }
    return findings;
  },
  phrase: phraseOfForcing,
});
