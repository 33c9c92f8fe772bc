import type { Fact } from '../argument/kernel.ts';
import { type Candidate, conflicts } from '../grid/layout.ts';
import type { Board } from './board.ts';
import type { Finding } from './technique.ts';

/** How many bits a mask has. */
export function bitCount(mask: number): number {
  let rest = mask - ((mask >>> 1) & 0x55555555);
  rest = (rest & 0x33333333) + ((rest >>> 2) & 0x33333333);
  return Math.imul((rest + (rest >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
}

/** Whether a mask has exactly one bit. */
export const isSingle = (mask: number): boolean => mask !== 0 && (mask & (mask - 1)) === 0;

/** The candidate behind the lowest place of a fact. The fact must have one. */
export const firstPlace = (board: Board, fact: Fact): Candidate =>
  board.tables.candidateAt[
    fact * board.layout.size + 31 - Math.clz32(board.masks[fact] & -board.masks[fact])
  ];

/** The live candidates that cannot be true together with any of those given, ascending. At least one given. */
export function excludedByEach(board: Board, candidates: readonly Candidate[]): Candidate[] {
  const excluded: Candidate[] = [];
  const { live, layout, tables } = board;
  const around = tables.excludes[candidates[0]];
  next: for (let n = 0; n < around.length; n += 1) {
    const x = around[n];
    if (live[x] === 0) continue;
    for (let i = 1; i < candidates.length; i += 1) if (!conflicts(layout, x, candidates[i])) continue next;
    excluded.push(x);
  }
  return excluded;
}

/** Whether the facts can come out together: one place of each, no two in conflict. */
export function canHoldTogether(board: Board, facts: readonly Fact[]): boolean {
  const places = (fact: Fact) => bitCount(board.masks[fact]);
  const inTurn = facts.length < 3 ? facts : [...facts].sort((a, b) => places(a) - places(b));
  return canGoOn(board, inTurn, []);
}

/** Whether the facts that come after those chosen for can come out with these. */
function canGoOn(board: Board, facts: readonly Fact[], chosen: Candidate[]): boolean {
  if (chosen.length === facts.length) return true;
  const { layout, masks, tables } = board;
  const fact = facts[chosen.length];
  next: for (let rest = masks[fact]; rest !== 0; rest &= rest - 1) {
    const place = tables.candidateAt[fact * layout.size + 31 - Math.clz32(rest & -rest)];
    for (let i = 0; i < chosen.length; i += 1) if (conflicts(layout, place, chosen[i])) continue next;
    chosen.push(place);
    if (canGoOn(board, facts, chosen)) return true;
    chosen.pop();
  }
  return false;
}

/**
 * Adds an instance that strikes the candidates given (in any order, also more than once), unless there are
 * none or the facts cannot hold together: a broken position proves anything.
 */
export function addStrikes(
  findings: Finding[],
  board: Board,
  technique: string,
  facts: readonly Fact[],
  struck: readonly Candidate[],
): void {
  if (struck.length === 0 || !canHoldTogether(board, facts)) return;
  const candidates = [...new Set(struck)].sort((a, b) => a - b);
  findings.push({ technique, facts, conclusions: { kind: 'strikes', candidates } });
}

/**
 * Findings of strikes on the same facts made one, with all that they strike: on layouts where houses meet in
 * more ways than rows, columns and boxes do, one set of facts can be met in several of them.
 */
export function withFactsOnce(findings: readonly Finding[]): readonly Finding[] {
  if (findings.length < 2) return findings;
  const byFacts = new Map<string, Finding>();
  for (const finding of findings) {
    const key = [...finding.facts].sort((a, b) => a - b).join(' ');
    const known = byFacts.get(key);
    const { kind, candidates } = finding.conclusions;
    const all = known ? [...new Set([...known.conclusions.candidates, ...candidates])] : candidates;
    const conclusions = { kind, candidates: [...all].sort((a, b) => a - b) };
    byFacts.set(key, known ? { ...known, conclusions } : finding);
  }
  return byFacts.size === findings.length ? findings : [...byFacts.values()];
}

/** A finding that places one candidate by one fact. */
export const placementBy = (technique: string, fact: Fact, candidate: Candidate): Finding => ({
  technique,
  facts: [fact],
  conclusions: { kind: 'placements', candidates: [candidate] },
});
