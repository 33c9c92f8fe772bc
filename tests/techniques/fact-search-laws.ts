import { expect } from 'vitest';
import { factName } from '../../source/argument/fact.ts';
import { check, type Fact } from '../../source/argument/kernel.ts';
import type { Candidate } from '../../source/grid/layout.ts';
import type { Position } from '../../source/grid/position.ts';
import { Board } from '../../source/techniques/board.ts';
import { strikesUpTo } from '../../source/techniques/fact-search.ts';
import { type SlowSearch, slowFactSearch } from './slow-fact-search.ts';

const holds = (position: Position, candidate: Candidate, facts: readonly Fact[]): boolean =>
  check(position, {
    technique: 'none',
    facts,
    conclusions: { kind: 'strikes', candidates: [candidate] },
    assumes: 'nothing',
  }).verdict === 'holds';

/** What both searches found in the positions compared so far. */
export interface Totals {
  /** Strikes by their number of facts, as the search has them. */
  readonly strikes: number[];
  /** The same as the slow search has them. */
  readonly slow: number[];
  broken: number;
}

/** Nothing compared yet. */
export const noTotals = (): Totals => ({ strikes: [0, 0, 0, 0, 0], slow: [0, 0, 0, 0, 0], broken: 0 });

/**
 * Compares the search with a slow one in a position, strike by strike: the same candidates with the same
 * number of facts, or broken by the same number. The kernel accepts each set, and refuses it with any fact
 * dropped. The board is left as it was.
 */
export function expectSameAsSlow(
  position: Position,
  k: number,
  totals: Totals,
  slowly: (position: Position, k: number) => SlowSearch = slowFactSearch,
): void {
  const { layout } = position;
  const board = Board.from(position);
  const masks = board.masks.slice();
  const search = strikesUpTo(board, k);
  expect(board.masks).toEqual(masks);
  const slow = slowly(position, k);
  if (search.kind === 'broken') {
    expect(search.facts).toHaveLength(slow.broken ?? -1);
    const conclusions = { kind: 'breaks' } as const;
    const verdict = check(position, {
      technique: 'none',
      facts: search.facts,
      conclusions,
      assumes: 'nothing',
    });
    expect(verdict.verdict).toBe('breaks');
    totals.broken += 1;
    return;
  }
  expect(slow.broken).toBeNull();
  expect(search.complete).toBe(true);
  const found = search.strikes.map(({ candidate, facts }) => [candidate, facts.length] as const);
  expect(new Map(found)).toEqual(new Map(slow.fewest));
  for (const { candidate, facts } of search.strikes) {
    const names = facts.map((fact) => factName(layout, fact)).join(' ');
    expect(holds(position, candidate, facts), `${candidate} by ${names}`).toBe(true);
    for (const dropped of facts) {
      const rest = facts.filter((fact) => fact !== dropped);
      expect(holds(position, candidate, rest), `${candidate} by less than ${names}`).toBe(false);
    }
    totals.strikes[facts.length] += 1;
  }
  for (const size of slow.fewest.values()) totals.slow[size] += 1;
}
