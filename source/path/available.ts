import { weightOf } from '../argument/fact.ts';
import type { CheckedArgument } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import { Board } from '../techniques/board.ts';
import { SearchBudget, strikesUpTo } from '../techniques/fact-search.ts';
import { isSingle } from '../techniques/finding.ts';
import { Nets, type Refutation } from './nets.ts';

/** What can be struck in a position by at most so many facts. */
export interface Available {
  /** Distinct candidates. */
  readonly candidates: number;
  /** Arguments among them after which, alone, some fact is down to a single place. */
  readonly releases: number;
  /** False where there may be more: so many facts are not searched exactly. */
  readonly exact: boolean;
}

/** Up to so many facts are searched exactly, and how many worlds that may take with this many candidates. */
const searchedFacts = 4;
const searchedWorlds = 400_000;
const usualCandidates = 729;

/** Fewer where there are more candidates, each of which takes longer: a path has more steps there, too. */
const worldsFor = ({ tables }: Board): number =>
  Math.floor(searchedWorlds * Math.min(1, (usualCandidates / tables.candidateCount) ** 2));

/**
 * Everything that at most as many facts as a step has strike in its position: exactly to four facts; beyond,
 * what the step itself strikes and what nets find.
 */
export function availableTo({ position, argument }: CheckedArgument): Available {
  const weight = weightOf(position.layout, argument);
  const board = Board.from(position);
  const search = strikesUpTo(board, Math.min(weight, searchedFacts), new SearchBudget(worldsFor(board)));
  if (search.kind === 'broken') return { candidates: 0, releases: 0, exact: true };
  const struck = new Map<Candidate, Refutation>(search.strikes.map((strike) => [strike.candidate, strike]));
  const beyond = weight > searchedFacts || !search.complete;
  if (beyond) {
    if (argument.conclusions.kind === 'strikes') {
      for (const candidate of argument.conclusions.candidates) {
        struck.set(candidate, { candidate, facts: argument.facts });
      }
    }
    const nets = new Nets(board);
    nets.load();
    for (const net of nets.upTo(weight)) {
      if (!struck.has(net.candidate)) struck.set(net.candidate, net);
    }
  }
  return { candidates: struck.size, releases: releasesAmong(board, [...struck.values()]), exact: !beyond };
}

/** How many of the arguments, those on the same facts taken together, leave some fact with a single place. */
function releasesAmong(board: Board, strikes: readonly Refutation[]): number {
  const groups = new Map<string, Candidate[]>();
  for (const { candidate, facts } of strikes) {
    const key = facts.join(' ');
    groups.set(key, [...(groups.get(key) ?? []), candidate]);
  }
  return [...groups.values()].filter((group) => releases(board, group)).length;
}

/** Whether some fact is down to a single place once the candidates are gone, and was not before. */
function releases(board: Board, group: readonly Candidate[]): boolean {
  const left = new Map<number, number>();
  for (const candidate of group) {
    for (const { fact, bit } of board.tables.placesIn[candidate]) {
      left.set(fact, (left.get(fact) ?? board.masks[fact]) & ~bit);
    }
  }
  return [...left].some(([fact, mask]) => isSingle(mask) && !isSingle(board.masks[fact]));
}
