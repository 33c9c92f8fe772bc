import {
  type Argument,
  type CheckedArgument,
  check,
  type Fact,
  type OneSolutionToken,
} from '../argument/kernel.ts';
import { type Candidate, cellOf } from '../grid/layout.ts';
import type { Position } from '../grid/position.ts';
import { Board } from '../techniques/board.ts';
import { techniqueById } from '../techniques/catalogue.ts';
import { chainNameOf } from '../techniques/chain-names.ts';
import type { Finding } from '../techniques/technique.ts';

/** The id of an argument that no technique of the catalogue names. */
export const unnamed = 'facts';

type Bare = Omit<Argument, 'facts' | 'conclusions'>;

/**
 * Drops facts, last first, as long as the kernel still accepts the conclusion. Null if it refuses at once. The
 * cells of a deadly pattern are leant on anyway and stay.
 */
function dropNeedless(
  position: Position,
  bare: Bare,
  facts: readonly Fact[],
  conclusions: Argument['conclusions'],
  token?: OneSolutionToken,
): readonly Fact[] | null {
  const accepts = (some: readonly Fact[]) =>
    check(position, { ...bare, facts: some, conclusions }, token).verdict !== 'refused';
  if (!accepts(facts)) return null;
  const leantOn = new Set((bare.pattern ?? []).map((candidate) => cellOf(position.layout, candidate)));
  let needed = facts;
  for (let i = facts.length - 1; i >= 0 && needed.length > 0; i -= 1) {
    if (leantOn.has(facts[i])) continue;
    const fewer = needed.filter((fact) => fact !== facts[i]);
    if (fewer.length < needed.length && accepts(fewer)) needed = fewer;
  }
  return needed;
}

/** The name of an argument on some of a pattern's facts: the pattern's, if it can be told so, or a chain's. */
function nameOfFewer(position: Position, argument: Argument): string {
  const { technique, facts, conclusions, assumes } = argument;
  if (typeof techniqueById(technique)?.phrase?.(position, argument) === 'string') return technique;
  if (conclusions.kind !== 'strikes' || assumes !== 'nothing') return unnamed;
  return chainNameOf(Board.from(position), facts, conclusions.candidates) ?? unnamed;
}

/**
 * The arguments in a finding: each conclusion on a minimal set of the finding's facts, conclusions that rest
 * on the same facts together. Where facts could be dropped, it keeps the name if it can still be told as that
 * pattern, as a shorter chain can; otherwise the pattern is no longer what makes the point, and it goes by the
 * name of a chain or without.
 */
export function argumentsIn(
  position: Position,
  finding: Finding,
  token?: OneSolutionToken,
): CheckedArgument[] {
  const { facts, conclusions, pattern, technique } = finding;
  const bare: Bare = {
    technique,
    assumes: pattern ? 'one-solution' : 'nothing',
    ...(pattern && { pattern }),
  };
  const groups = new Map<string, { needed: readonly Fact[]; candidates: Candidate[] }>();
  for (const candidate of conclusions.candidates) {
    const one = { kind: conclusions.kind, candidates: [candidate] };
    const needed = dropNeedless(position, bare, facts, one, token);
    if (!needed) continue;
    const key = [...needed].sort((a, b) => a - b).join(' ');
    const group = groups.get(key) ?? { needed, candidates: [] };
    group.candidates.push(candidate);
    groups.set(key, group);
  }
  return [...groups.values()].flatMap(({ needed, candidates }) => {
    const argument: Argument = {
      ...bare,
      facts: needed,
      conclusions: { kind: conclusions.kind, candidates },
    };
    const name = needed.length === facts.length ? technique : nameOfFewer(position, argument);
    const verdict = check(position, { ...argument, technique: name }, token);
    return verdict.verdict === 'holds' ? [verdict.checked] : [];
  });
}

/** An unnamed argument for strikes on facts that refute each of them; null if they do not. */
export function strikeBy(
  position: Position,
  candidates: readonly Candidate[],
  facts: readonly Fact[],
): CheckedArgument | null {
  const verdict = check(position, {
    technique: unnamed,
    assumes: 'nothing',
    facts,
    conclusions: { kind: 'strikes', candidates },
  });
  return verdict.verdict === 'holds' ? verdict.checked : null;
}

/** A checked `breaks` on facts that cannot all hold; null if they can. */
export function breakBy(position: Position, facts: readonly Fact[]): CheckedArgument | null {
  const verdict = check(position, {
    technique: unnamed,
    assumes: 'nothing',
    facts,
    conclusions: { kind: 'breaks' },
  });
  return verdict.verdict === 'breaks' ? verdict.checked : null;
}
