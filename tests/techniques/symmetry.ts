import { factCandidates, factCount } from '../../source/argument/fact.ts';
import type { Fact } from '../../source/argument/kernel.ts';
import { CandidateSet } from '../../source/grid/candidates.ts';
import { type Candidate, plain } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';
import type { Finding } from '../../source/techniques/technique.ts';
import type { Random } from '../random.ts';

/** A symmetry of the plain grid: where each cell and each digit goes. */
export interface Symmetry {
  readonly cell: readonly number[];
  /** For each digit, from 1; index 0 stays 0. */
  readonly digit: readonly number[];
}

/** Digits renamed, bands, rows, stacks and columns exchanged, now and then the grid turned over its diagonal. */
export function randomSymmetry(random: Random): Symmetry {
  const lines = () =>
    random.shuffle([0, 1, 2]).flatMap((band) => random.shuffle([0, 1, 2]).map((line) => band * 3 + line));
  const rows = lines();
  const columns = lines();
  const turned = random.below(2) === 1;
  return {
    cell: plain.boxOf.map((_, cell) => {
      const [row, column] = [rows[Math.floor(cell / 9)], columns[cell % 9]];
      return turned ? column * 9 + row : row * 9 + column;
    }),
    digit: [0, ...random.shuffle([1, 2, 3, 4, 5, 6, 7, 8, 9])],
  };
}

export const moveCandidate = ({ cell, digit }: Symmetry, candidate: Candidate): Candidate =>
  cell[Math.floor(candidate / 9)] * 9 + digit[(candidate % 9) + 1] - 1;

const keyOf = (candidates: readonly Candidate[]): string => [...candidates].sort((a, b) => a - b).join(' ');
const factByCandidates: ReadonlyMap<string, Fact> = new Map(
  Array.from({ length: factCount(plain) }, (_, fact) => [keyOf(factCandidates(plain, fact)), fact]),
);

/** The fact whose candidates are those of the fact, moved. */
export function moveFact(symmetry: Symmetry, fact: Fact): Fact {
  const moved = factCandidates(plain, fact).map((candidate) => moveCandidate(symmetry, candidate));
  const found = factByCandidates.get(keyOf(moved));
  if (found === undefined) throw new Error(`no symmetry of the grid: fact ${fact} becomes none`);
  return found;
}

/** The same position, moved. */
export function movePosition(symmetry: Symmetry, position: Position): Position {
  const move = (digits: Uint8Array): Uint8Array => {
    const moved = new Uint8Array(81);
    digits.forEach((digit, cell) => {
      moved[symmetry.cell[cell]] = symmetry.digit[digit];
    });
    return moved;
  };
  const dead = CandidateSet.full(plain).without(position.candidates);
  const struck = CandidateSet.of(
    plain,
    Array.from(dead, (candidate) => moveCandidate(symmetry, candidate)),
  );
  return Position.from(plain, move(position.givens), move(position.placed), struck);
}

/** The same finding, moved; facts and conclusions ascending. */
export const moveFinding = (
  symmetry: Symmetry,
  { technique, facts, conclusions, pattern }: Finding,
): Finding => ({
  technique,
  facts: facts.map((fact) => moveFact(symmetry, fact)).sort((a, b) => a - b),
  conclusions: {
    kind: conclusions.kind,
    candidates: conclusions.candidates.map((x) => moveCandidate(symmetry, x)).sort((a, b) => a - b),
  },
  ...(pattern && { pattern: pattern.map((x) => moveCandidate(symmetry, x)).sort((a, b) => a - b) }),
});
