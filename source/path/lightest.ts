import { weightOf } from '../argument/fact.ts';
import type { CheckedArgument, Fact, OneSolutionToken } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import type { Position } from '../grid/position.ts';
import { Board } from '../techniques/board.ts';
import { patterns } from '../techniques/catalogue.ts';
import { type FactStrike, lightestStrikes, SearchBudget } from '../techniques/fact-search.ts';
import type { Technique } from '../techniques/technique.ts';
import { hardest } from './hardest.ts';
import { argumentsIn, strikeBy, unnamed } from './minimal.ts';
import { Nested } from './nested.ts';
import { Nets } from './nets.ts';
import { shrink } from './shrink.ts';

/** The weight of a checked argument, in facts. */
export const weightOfChecked = ({ position, argument }: CheckedArgument): number =>
  weightOf(position.layout, argument);

/** The placements or strikes of an argument; none where it breaks. */
export const conclusionsOf = ({ argument }: CheckedArgument): readonly Candidate[] =>
  argument.conclusions.kind === 'breaks' ? [] : argument.conclusions.candidates;

/**
 * Every argument that some techniques make in a position, each conclusion on a minimal set of facts; or those
 * made by instances of so many facts alone.
 */
export function argumentsBy(
  position: Position,
  techniques: readonly Technique[],
  token?: OneSolutionToken,
  size?: number,
): CheckedArgument[] {
  const board = Board.from(position);
  const seen = new Set<string>();
  const found: CheckedArgument[] = [];
  for (const technique of techniques) {
    for (const finding of technique.find(board, size)) {
      if (size !== undefined && finding.facts.length !== size) continue;
      for (const checked of argumentsIn(position, finding, token)) {
        const { facts } = checked.argument;
        const key = `${[...facts].sort((a, b) => a - b).join(' ')}: ${conclusionsOf(checked).join(' ')}`;
        if (seen.has(key)) continue;
        seen.add(key);
        found.push(checked);
      }
    }
  }
  return found;
}

/** Up to how many facts a next step is searched exactly, and how long: the same position, the same answer. */
const searchedFacts = 3;
const searchedNodes = 50_000;

/**
 * The lightest arguments that the position has, all of one weight: up to three facts everything that so many
 * facts support, by name where the catalogue has one; beyond, what the catalogue has; where that is nothing,
 * the lightest refutations of single candidates. Empty where nothing can be shown: the position is solved,
 * or all its candidates can be completed.
 */
export function lightestArguments(position: Position, token?: OneSolutionToken): CheckedArgument[] {
  const offered = patterns.filter((technique) => technique.assumes === 'nothing' || token);
  /** Patterns of exactly so many facts, none of which a conclusion can do without: those have the name. */
  const namedBy = (size: number) =>
    argumentsBy(
      position,
      offered.filter(
        ({ assumes, weight }) => assumes === 'nothing' && (weight === size || weight > searchedFacts),
      ),
      undefined,
      size,
    ).filter((checked) => weightOfChecked(checked) === size && checked.argument.technique !== unnamed);
  const single = argumentsBy(
    position,
    offered.filter((technique) => technique.weight === 1),
  );
  if (single.length > 0) return single;
  const search = lightestStrikes(Board.from(position), searchedFacts, new SearchBudget(searchedNodes));
  if (search.kind === 'strikes' && search.strikes.length > 0) {
    const named = namedBy(search.strikes[0].facts.length);
    const covered = new Set(named.flatMap(conclusionsOf));
    const bare = search.strikes.filter(({ candidate }) => !covered.has(candidate));
    return [...named, ...unnamedArguments(position, bare)];
  }
  const found = argumentsBy(position, offered, token);
  if (found.length === 0) return lightestRefutations(position);
  const lightest = Math.min(...found.map(weightOfChecked));
  return found.filter((checked) => weightOfChecked(checked) === lightest);
}

/** Arguments for strikes found by their facts alone: one for all strikes that rest on the same facts. */
function unnamedArguments(position: Position, strikes: readonly FactStrike[]): CheckedArgument[] {
  const groups = new Map<string, { facts: readonly Fact[]; candidates: Candidate[] }>();
  for (const { candidate, facts } of strikes) {
    const key = facts.join(' ');
    const group = groups.get(key) ?? { facts, candidates: [] };
    group.candidates.push(candidate);
    groups.set(key, group);
  }
  return [...groups.values()].flatMap(({ facts, candidates }) => {
    const checked = strikeBy(position, candidates, facts);
    return checked ? [checked] : [];
  });
}

/** How many refutations are compared, and of how many facts one is taken at once. */
const compared = 4;
const lightEnough = 4;

/**
 * Strikes found by assuming a candidate, for positions in which no technique finds anything: the lightest few
 * of what follows from it, or one by suppositions within it; each on facts none of which it can do without,
 * lightest first.
 */
export function lightestRefutations(position: Position): CheckedArgument[] {
  const board = Board.from(position);
  const nets = new Nets(board);
  nets.load();
  const followed = nets.lightest(compared, lightEnough);
  const nested = followed.length > 0 ? null : hardest(board, new Nested(board, nets.worlds));
  return [...followed, ...(nested ? [nested] : [])]
    .flatMap(({ candidate, facts }) => {
      const needed = shrink(board, candidate, facts) ?? facts;
      const checked = strikeBy(position, [candidate], needed);
      return checked ? [checked] : [];
    })
    .sort((a, b) => weightOfChecked(a) - weightOfChecked(b));
}
