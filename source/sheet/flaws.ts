import { leftOutBy, withClaims } from '../argument/claim.ts';
import { cellFact, factCandidates, factCount, factParts, houseFact } from '../argument/fact.ts';
import type { Fact } from '../argument/kernel.ts';
import { digitsIn, maskOf } from '../grid/candidates.ts';
import { findClashes } from '../grid/clashes.ts';
import type { Cell, Layout } from '../grid/layout.ts';
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
  /** Whether the fact has a place by digits and strikes, and only what the claims leave out takes it away. */
  readonly byMarks: boolean;
}

const kinds: readonly Slip['kind'][] = ['twice', 'no-digit', 'no-place', 'empty-claim'];

/** A number of its own for each flaw of a layout: the same for the same flaw in another state of the sheet. */
export const flawNumber = (layout: Layout, kind: Slip['kind'], fact: Fact): number =>
  kinds.indexOf(kind) * factCount(layout) + fact;

/** One digit in several cells of a house; where the same cells share a further house they are told once. */
function clashes(state: SheetState): Flaw[] {
  const { layout } = state;
  const placed = state.givens.map((_, cell) => placedAt(state, cell));
  const found: Flaw[] = [];
  for (const { house, digit, cells } of findClashes(layout, placed)) {
    const told = found.some((other) => cells.every((cell) => other.cells.includes(cell)));
    if (!told) found.push({ kind: 'twice', fact: houseFact(layout, house, digit), cells, byMarks: false });
  }
  return found;
}

/** The facts, ascending, that have no candidate in a position, and that no placed digit answers either. */
function withoutPlace({ layout, candidates, placed }: Position): Fact[] {
  const masks = candidates.toMasks();
  const facts: Fact[] = [];
  for (let cell = 0; cell < layout.cellCount; cell += 1) {
    if (placed[cell] !== 0) masks[cell] |= maskOf(placed[cell]);
    if (masks[cell] === 0) facts.push(cellFact(cell));
  }
  for (const house of layout.houses) {
    let found = 0;
    for (let i = 0; i < house.cells.length; i += 1) found |= masks[house.cells[i]];
    // Looked at with every key: most houses miss nothing.
    if (found === layout.allDigits) continue;
    for (const digit of digitsIn(layout.allDigits & ~found)) facts.push(houseFact(layout, house, digit));
  }
  return facts;
}

/** Ink on a candidate that has been struck: the sheet says both that it is and that it is not. */
function struckInk(state: SheetState): Flaw[] {
  return state.ink.flatMap((digit, cell) =>
    digit !== 0 && state.strikes.has(cell * state.layout.size + digit - 1)
      ? [{ kind: 'no-digit' as const, fact: cell, cells: [cell], byMarks: false }]
      : [],
  );
}

/**
 * Of the claims that leave out places of a fact, enough to leave it none, in the order in which they were
 * written; the later ones are spared first.
 */
export function blamedClaims(state: SheetState, fact: Fact, asking: Asking): Fact[] {
  const position = positionOf(state);
  const live = factCandidates(state.layout, fact).filter((c) => position.candidates.has(c));
  let blamed = claimsOf(state, asking)
    .filter((claim) => claim.places.length > 0)
    .map((claim) => ({ fact: claim.fact, out: leftOutBy(position, [claim]) }));
  for (const claim of [...blamed].reverse()) {
    const rest = blamed.filter((other) => other !== claim);
    if (live.every((candidate) => rest.some(({ out }) => out.includes(candidate)))) blamed = rest;
  }
  return blamed.map((claim) => claim.fact);
}

/** The state without the digits that clash: without those in ink, or, where only givens clash, without these. */
export function withoutClashes(state: SheetState): SheetState {
  const clashing = clashes(state);
  const inked = clashing.flatMap(({ cells }) => cells);
  const given = clashing.flatMap(({ cells }) => (cells.some((cell) => state.ink[cell] !== 0) ? [] : cells));
  return {
    ...state,
    ink: state.ink.map((digit, cell) => (inked.includes(cell) ? 0 : digit)),
    givens: state.givens.map((digit, cell) => (given.includes(cell) ? 0 : digit)),
  };
}

/**
 * Everything on a state that cannot be completed, follow-ups included, without looking for a solution: a
 * clash, a fact without a place in the position, one without a place beside what the claims leave out, and
 * a claim whose marked places have all gone. In each case the position with the claims has no solution.
 * Clashing digits count as placed. Empty claims do not count for what the other claims leave out.
 */
export function flawsOf(state: SheetState, { asking = false }: Asking = {}): Flaw[] {
  const { layout } = state;
  const position = positionOf(state);
  const claims = claimsOf(state, { asking });
  const standing = claims.filter((claim) => claim.places.length > 0);
  const seen = withClaims(position, standing);
  const flaws = [...clashes(state), ...struckInk(state)];
  for (const fact of withoutPlace(seen)) {
    const kind = fact < layout.cellCount ? 'no-digit' : 'no-place';
    const cells = fact < layout.cellCount ? [fact] : [];
    const byMarks = factCandidates(layout, fact).some((candidate) => position.candidates.has(candidate));
    flaws.push({ kind, fact, cells, byMarks });
  }
  for (const { fact, places } of claims) {
    if (places.length > 0) continue;
    const parts = factParts(layout, fact);
    const cells = parts.kind === 'cell' ? [parts.cell] : (state.spots.get(fact) ?? []);
    flaws.push({ kind: 'empty-claim', fact, cells, byMarks: false });
  }
  return flaws;
}
