import { type Claim, leftOutBy, withClaims } from '../argument/claim.ts';
import type { Fact } from '../argument/kernel.ts';
import { list, sayPlace, sayTopic } from '../argument/words.ts';
import { type Budget, decide } from '../exact/solve.ts';
import { type Candidate, type Cell, cellOf } from '../grid/layout.ts';
import { Position } from '../grid/position.ts';
import { isSettled, liveMarks, markedFacts, marksOf } from './marks.ts';
import type { SheetState } from './state.ts';
import { claimsOf, type View, viewOf } from './view.ts';

/** Something about the person's marks that may be meant, and may be an oversight. Made only on request. */
export interface Remark {
  /**
   * `left-out`: a claim leaves out places that nothing else on the sheet rules out.
   * `pending`: marks that were never claimed, so that nothing follows from them.
   * `contradicted`: marks of which a placed digit or a strike has left none.
   */
  readonly kind: 'left-out' | 'pending' | 'contradicted';
  readonly fact: Fact;
  /** The places left out, the pending marks, or the marks that are gone; ascending. */
  readonly candidates: readonly Candidate[];
  /** The cells of `candidates`, ascending. */
  readonly cells: readonly Cell[];
  readonly text: string;
}

function remark(
  state: SheetState,
  kind: Remark['kind'],
  fact: Fact,
  candidates: readonly Candidate[],
): Remark {
  const { layout } = state;
  const isCell = fact < layout.cellCount;
  const subject = sayTopic(layout, fact);
  const places = candidates.map((candidate) => sayPlace(layout, fact, candidate));
  const cells = [...new Set(candidates.map((candidate) => cellOf(layout, candidate)))];
  const marked = isCell ? 'noted' : 'marked in';
  const text = {
    'left-out': `${subject} could also ${isCell ? 'be' : 'go in'} ${list(places, 'or')}.`,
    pending: `${subject} is ${marked} ${list(places)} alone.`,
    contradicted: `${subject} was ${marked} ${list(places, isCell ? 'or' : 'and')}; nothing of it is left.`,
  };
  return { kind, fact, candidates, cells, text: text[kind] };
}

/**
 * The places that a claim leaves out although neither a digit, nor a strike, nor a claim written before it
 * rules them out. A later claim does not excuse an earlier one: it may have been drawn from it.
 */
function leftOut(state: SheetState, claims: readonly Claim[]): Remark[] {
  const { position } = viewOf(state);
  return claims.flatMap((claim, i) => {
    const open = leftOutBy(withClaims(position, claims.slice(0, i)), [claim]);
    return claim.places.length === 0 || open.length === 0
      ? []
      : [remark(state, 'left-out', claim.fact, open)];
  });
}

/**
 * The marks looked over, on request only: none of this need be wrong. Never looks at the solution. Asking ends
 * the fact in hand, so two marks of it or more count as a claim.
 */
export function lookOver(state: SheetState): Remark[] {
  const claims = claimsOf(state, { asking: true });
  const claimed = new Set(claims.map((claim) => claim.fact));
  const rest = markedFacts(state).filter((fact) => !isSettled(state, fact));
  return [
    ...leftOut(state, claims),
    ...rest
      .filter((fact) => !claimed.has(fact) && liveMarks(state, fact).length > 0)
      .map((fact) => remark(state, 'pending', fact, liveMarks(state, fact))),
    ...rest
      .filter((fact) => liveMarks(state, fact).length === 0)
      .map((fact) => remark(state, 'contradicted', fact, marksOf(state, fact))),
  ];
}

/**
 * Am I right so far?
 * `right`: the puzzle has one solution, and the sheet can still be completed to it. `wrong`: it cannot.
 * `can-be-completed`: the puzzle has several solutions, and the sheet agrees with one of them at least.
 * `no-solution`: the puzzle itself has none, so nobody could be right.
 * `undecided`: the budget ran out first.
 */
export type Standing = 'right' | 'wrong' | 'can-be-completed' | 'no-solution' | 'undecided';

/**
 * Whether givens, ink, strikes and claims can all be right, on request only. Says nothing of where they are
 * not. Asking ends the fact in hand, so two marks of it or more count as a claim. Without a budget it always
 * decides, however long that takes.
 */
export const isRight = (state: SheetState, budget?: Budget): Standing => standingOf(viewOf(state), budget);

/** The same of a sheet as hints and checks take it. */
export function standingOf({ position, claims }: View, budget?: Budget): Standing {
  const limit = budget ?? { nodes: Number.POSITIVE_INFINITY };
  const puzzle = decide(Position.from(position.layout, position.givens), limit);
  if (puzzle.verdict === 'none') return 'no-solution';
  const sheet = decide(withClaims(position, claims), limit);
  if (sheet.verdict === 'none') return puzzle.verdict === 'undecided' ? 'undecided' : 'wrong';
  if (sheet.verdict === 'undecided' || puzzle.verdict === 'undecided') return 'undecided';
  return puzzle.verdict === 'one' ? 'right' : 'can-be-completed';
}
