import type { Claim } from '../../source/argument/claim.ts';
import { factName, parseFact } from '../../source/argument/fact.ts';
import type { Fact } from '../../source/argument/kernel.ts';
import { type Candidate, plain } from '../../source/grid/layout.ts';
import { parseConclusion, placementName, strikeName } from '../../source/grid/names.ts';
import type { Position } from '../../source/grid/position.ts';
import { parseStatement } from '../../source/hint/statement.ts';
import { type ArgueOptions, argue, type Holds, type Refused, type Stated } from '../../source/path/argue.ts';
import { excludeEachOther, livePlaces } from '../judges/arguments.ts';

/** A statement on the plain layout from its text, which must be right. */
export function stated(text: string): Stated {
  const read = parseStatement(text, plain);
  if (!read.ok) throw new Error(`${text}: ${read.error.message}`);
  return read.value;
}

/** A candidate from `r4c7=3` or `r4c7<>3`. */
export function candidateIn(text: string): Candidate {
  const read = parseConclusion(plain, text);
  if (!read) throw new Error(`no candidate: ${text}`);
  return read.candidate;
}

/** `7@c2: r3c2=7 r8c2=7` as a claim. */
export function claimOf(text: string): Claim {
  const [name, places] = text.split(': ');
  const fact = parseFact(plain, name);
  if (fact === null) throw new Error(`no fact: ${name}`);
  return { fact, places: places.split(' ').map(candidateIn) };
}

export const factNames = (facts: readonly Fact[]): string =>
  facts.map((fact) => factName(plain, fact)).join(' ');
export const strikeNames = (candidates: readonly Candidate[]): string =>
  candidates.map((candidate) => strikeName(plain, candidate)).join(' ');
export const placementNames = (candidates: readonly Candidate[]): string =>
  candidates.map((candidate) => placementName(plain, candidate)).join(' ');

export function expectHolds(position: Position, text: string | Stated, options: ArgueOptions = {}): Holds {
  const argued = argue(position, typeof text === 'string' ? stated(text) : text, options);
  if (argued.kind !== 'holds') throw new Error(`refused: ${argued.reason}`);
  return argued;
}

export function expectRefused(
  position: Position,
  text: string | Stated,
  options: ArgueOptions = {},
): Refused {
  const argued = argue(position, typeof text === 'string' ? stated(text) : text, options);
  if (argued.kind !== 'refused') throw new Error('it holds');
  return argued;
}

/**
 * What is wrong with the arrangement of a refused strike, by the judge's own arithmetic: one live place for
 * each stated fact, no two excluding each other, none excluding the candidate, which is live. Null: nothing.
 */
export function faultOfArrangement(
  position: Position,
  facts: readonly Fact[],
  { reason, candidate, arrangement }: Refused,
): string | null {
  if (reason !== 'open') return `refused as ${reason}`;
  if (candidate === undefined || !position.candidates.has(candidate)) return 'the candidate is not live';
  if (arrangement?.length !== facts.length) return 'not one place a fact';
  const strange = facts.find((fact, i) => !livePlaces(position, fact).includes(arrangement[i]));
  if (strange !== undefined) return `${factNames([strange])} has no such place`;
  const all = [...arrangement, candidate];
  const clash = all.some((a, i) => all.some((b, j) => j > i && excludeEachOther(a, b)));
  return clash ? 'two of the places exclude each other' : null;
}
