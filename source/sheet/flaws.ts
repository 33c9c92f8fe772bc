import { type Claim, leftOutBy, withClaims } from '../argument/claim.ts';
import { factCandidates, factCount, factParts, houseFact } from '../argument/fact.ts';
import type { Fact } from '../argument/kernel.ts';
import { findClashes } from '../grid/clashes.ts';
import type { Candidate, Cell } from '../grid/layout.ts';
import type { Position } from '../grid/position.ts';
import { placedAt, positionOf } from './marks.ts';
import type { SheetState, Slip } from './state.ts';
import { type Asking, claimsOf } from './view.ts';

/** One thing on a sheet that cannot be completed, before it is known which move brought it in. */
export interface Flaw {
  readonly kind: Slip['kind'];
  /** The fact that fails: the digit in its house, the cell, or the claim. */
  readonly fact: Fact;
  /** Both cells of a clash or more, the cell with nothing left, the cells of the claim; none for `no-place`. */
  readonly cells: readonly Cell[];
  /** The claims without which the fact would still have a place; none where digits and strikes are enough. */
  readonly marks: readonly Fact[];
}

/** What makes a flaw the same flaw in another state of the sheet. */
export const flawKey = (kind: Slip['kind'], fact: Fact): string => `${kind} ${fact}`;

/** One digit in several cells of a house; where the same cells share a further house they are told once. */
function clashes(state: SheetState): Flaw[] {
  const { layout } = state;
  const placed = state.givens.map((_, cell) => placedAt(state, cell));
  const found: Flaw[] = [];
  for (const { house, digit, cells } of findClashes(layout, placed)) {
    const told = found.some((other) => cells.every((cell) => other.cells.includes(cell)));
    if (!told) found.push({ kind: 'twice', fact: houseFact(layout, house, digit), cells, marks: [] });
  }
  return found;
}

/** Whether a digit placed on the sheet answers the fact already, so that it needs no place any more. */
function isAnswered(state: SheetState, fact: Fact): boolean {
  const parts = factParts(state.layout, fact);
  if (parts.kind === 'cell') return placedAt(state, parts.cell) !== 0;
  return parts.house.cells.some((cell) => placedAt(state, cell) === parts.digit);
}

/** Ink on a candidate that has been struck: the sheet says both that it is and that it is not. */
function struckInk(state: SheetState): Flaw[] {
  return state.ink.flatMap((digit, cell) =>
    digit !== 0 && state.strikes.has(cell * state.layout.size + digit - 1)
      ? [{ kind: 'no-digit' as const, fact: cell, cells: [cell], marks: [] }]
      : [],
  );
}

/** Of the claims that leave out places of a fact, enough to leave it none; later ones are spared first. */
function blamedMarks(position: Position, claims: readonly Claim[], fact: Fact): Fact[] {
  const live = factCandidates(position.layout, fact).filter((c) => position.candidates.has(c));
  let blamed = claims
    .map((claim) => ({ fact: claim.fact, out: new Set<Candidate>(leftOutBy(position, [claim])) }))
    .filter(({ out }) => live.some((candidate) => out.has(candidate)));
  for (const claim of [...blamed].reverse()) {
    const rest = blamed.filter((other) => other !== claim);
    if (live.every((candidate) => rest.some(({ out }) => out.has(candidate)))) blamed = rest;
  }
  return blamed.map((claim) => claim.fact);
}

/** The state without the digits that clash: without those in ink, or, where only givens clash, without these. */
export function withoutClashes(state: SheetState): SheetState {
  const clashing = clashes(state);
  const inked = clashing.flatMap(({ cells }) => cells.filter((cell) => state.ink[cell] !== 0));
  const given = clashing.flatMap(({ cells }) => (cells.some((cell) => state.ink[cell] !== 0) ? [] : cells));
  return {
    ...state,
    ink: state.ink.map((digit, cell) => (inked.includes(cell) ? 0 : digit)),
    givens: state.givens.map((digit, cell) => (given.includes(cell) ? 0 : digit)),
  };
}

const known = { asked: new WeakMap<SheetState, Flaw[]>(), plain: new WeakMap<SheetState, Flaw[]>() };

/**
 * Everything on a state that cannot be completed, follow-ups included, without looking for a solution: a
 * clash, a fact without a place in the position, one without a place beside what the claims leave out, and
 * a claim whose marked places have all gone. In each case the position with the claims has no solution.
 * Clashing digits count as placed. Empty claims do not count for what the other claims leave out.
 */
export function flawsOf(state: SheetState, { asking = false }: Asking = {}): readonly Flaw[] {
  const cache = asking ? known.asked : known.plain;
  const cached = cache.get(state);
  if (cached) return cached;
  const { layout } = state;
  const position = positionOf(state);
  const claims = claimsOf(state, { asking });
  const standing = claims.filter((claim) => claim.places.length > 0);
  const seen = withClaims(position, standing);
  const flaws = [...clashes(state), ...struckInk(state)];
  const byMarks: Flaw[] = [];
  for (let fact = 0; fact < factCount(layout); fact += 1) {
    const candidates = factCandidates(layout, fact);
    if (candidates.some((candidate) => seen.candidates.has(candidate)) || isAnswered(state, fact)) continue;
    const kind = fact < layout.cellCount ? 'no-digit' : 'no-place';
    const cells = fact < layout.cellCount ? [fact] : [];
    if (candidates.some((candidate) => position.candidates.has(candidate))) {
      byMarks.push({ kind, fact, cells, marks: blamedMarks(position, standing, fact) });
    } else {
      flaws.push({ kind, fact, cells, marks: [] });
    }
  }
  for (const { fact, places } of claims) {
    if (places.length > 0) continue;
    const parts = factParts(layout, fact);
    const cells = parts.kind === 'cell' ? [parts.cell] : (state.spots.get(fact) ?? []);
    flaws.push({ kind: 'empty-claim', fact, cells, marks: [fact] });
  }
  flaws.push(...byMarks);
  cache.set(state, flaws);
  return flaws;
}
