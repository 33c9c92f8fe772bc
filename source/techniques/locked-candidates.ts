import { factParts, houseFact } from '../argument/fact.ts';
import { type Fact, placesOf } from '../argument/kernel.ts';
import { sayHouses, startSentence } from '../argument/words.ts';
import type { Candidate, House } from '../grid/layout.ts';
import { digitName, sayHouse } from '../grid/names.ts';
import { addStrikes, isSingle } from './finding.ts';
import { type Meeting, meetingsOf } from './meetings.ts';
import type { Finding, Technique } from './technique.ts';

/**
 * One fact whose places, two or more, all lie in another house too: that house has the digit nowhere else.
 * Where they lie in several others, all that goes is one instance. Pointing and claiming are this idea for two
 * ways in which houses meet; `meets` says which.
 */
export const lockedCandidates = (
  id: string,
  name: string,
  meets: (from: House, to: House) => boolean,
  say: (digit: string, from: string, to: string, has: 'has' | 'have') => string,
): Technique => {
  const chosen = new WeakMap<readonly Meeting[], readonly Meeting[]>();
  return {
    id,
    name,
    weight: 1,
    assumes: 'nothing',
    find: (board) => {
      const { layout, masks, tables } = board;
      const all = meetingsOf(layout);
      const meetings = chosen.get(all) ?? all.filter(({ from, to }) => meets(from, to));
      chosen.set(all, meetings);
      const findings: Finding[] = [];
      /** By fact, what it strikes: on some layouts its places lie in several other houses. */
      const struckBy = new Map<Fact, Candidate[]>();
      for (const { from, to, shared, sharedInTo } of meetings) {
        for (let digit = 1; digit <= layout.size; digit += 1) {
          const fact = houseFact(layout, from, digit);
          const mask = masks[fact];
          if ((mask & ~shared) !== 0 || mask === 0 || isSingle(mask)) continue;
          const other = houseFact(layout, to, digit);
          const struck = struckBy.get(fact) ?? [];
          for (let rest = masks[other] & ~sharedInTo; rest !== 0; rest &= rest - 1) {
            struck.push(tables.candidateAt[other * layout.size + 31 - Math.clz32(rest & -rest)]);
          }
          if (struck.length > 0) struckBy.set(fact, struck);
        }
      }
      for (const [fact, struck] of struckBy) addStrikes(findings, board, id, [fact], struck);
      return findings;
    },
    phrase: (position, { facts, conclusions }) => {
      const { layout } = position;
      const parts = factParts(layout, facts[0]);
      if (facts.length !== 1 || parts.kind !== 'house' || conclusions.kind === 'breaks') return null;
      const cellsOf = (candidates: readonly Candidate[]) =>
        candidates.map((candidate) => Math.floor(candidate / layout.size));
      const places = cellsOf(placesOf(position, facts[0]));
      const struck = cellsOf(conclusions.candidates);
      const others = layout.houses.filter(
        (house) => meets(parts.house, house) && places.every((cell) => house.cells.includes(cell)),
      );
      const whole = others.find((house) => struck.every((cell) => house.cells.includes(cell)));
      const to = whole ? [whole] : others.filter(({ cells }) => struck.some((cell) => cells.includes(cell)));
      if (!struck.every((cell) => to.some((house) => house.cells.includes(cell)))) return null;
      const has = to.length === 1 ? 'has' : 'have';
      return startSentence(say(digitName(parts.digit), sayHouse(parts.house), sayHouses(to), has));
    },
  };
};
