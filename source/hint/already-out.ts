import { factCandidates } from '../argument/fact.ts';
import { type Argument, check } from '../argument/kernel.ts';
import { CandidateSet } from '../grid/candidates.ts';
import type { Candidate } from '../grid/layout.ts';
import { Position } from '../grid/position.ts';

/**
 * Candidates that the facts of an argument would strike as well, had they not been struck before. What a
 * placed digit rules out is not counted: nobody would look for it.
 */
export function alreadyOut(position: Position, argument: Argument): Candidate[] {
  if (argument.conclusions.kind !== 'strikes' || argument.assumes !== 'nothing') return [];
  const { layout, givens, placed, candidates } = position;
  const untouched = Position.from(layout, givens, placed).candidates;
  const own = new Set(argument.facts.flatMap((fact) => factCandidates(layout, fact)));
  const struck = [...untouched.without(candidates)];
  const digits = new Set(argument.conclusions.candidates.map((candidate) => candidate % layout.size));
  return struck.filter((candidate) => {
    const open = placed[Math.floor(candidate / layout.size)] === 0;
    if (!open || own.has(candidate) || !digits.has(candidate % layout.size)) return false;
    const others = struck.filter((other) => other !== candidate);
    const revived = Position.from(layout, givens, placed, CandidateSet.of(layout, others));
    const conclusions = { kind: 'strikes' as const, candidates: [candidate] };
    return check(revived, { ...argument, conclusions }).verdict === 'holds';
  });
}
