import type { Claim } from '../argument/claim.ts';
import type { Fact } from '../argument/kernel.ts';
import type { Position } from '../grid/position.ts';
import { isSettled, liveMarks, liveNote, placedAt, positionOf } from './marks.ts';
import type { SheetState } from './state.ts';

/** Whether the person has asked for something, and so has gone on from the fact in hand. */
export interface Asking {
  readonly asking?: boolean;
}

/** What a person has before them: their position, what their marks claim, and how they keep marks. */
export interface View {
  /** Givens, ink and strikes, without the claims. */
  readonly position: Position;
  readonly claims: readonly Claim[];
  /** `full`: every open cell lists what it can be. */
  readonly kind: 'full' | 'sparse';
}

/**
 * The facts that the marks claim, in the order in which they were last written, with their live marked
 * places: none where the last one has gone. Settled claims are left out. With `asking`, the fact in hand
 * counts as claimed if it has two live marks or more.
 */
export function claimsOf(state: SheetState, { asking = false }: Asking = {}): Claim[] {
  const facts: Fact[] = [...state.claimed];
  const { inHand } = state;
  if (asking && inHand !== null && !state.claimed.has(inHand) && liveMarks(state, inHand).length >= 2) {
    facts.push(inHand);
  }
  return facts
    .filter((fact) => !isSettled(state, fact))
    .map((fact) => ({ fact, places: liveMarks(state, fact) }));
}

/**
 * The sheet as hints and checks take it. It is `full` if each open cell has a live note, or nothing that a
 * note could show. Whoever looks at it has asked, so the fact in hand counts as claimed unless told otherwise.
 */
export function viewOf(state: SheetState, { asking = true }: Asking = {}): View {
  const position = positionOf(state);
  const full = state.givens.every(
    (_, cell) =>
      placedAt(state, cell) !== 0 || liveNote(state, cell) !== 0 || position.candidates.digitsAt(cell) === 0,
  );
  return { position, claims: claimsOf(state, { asking }), kind: full ? 'full' : 'sparse' };
}
