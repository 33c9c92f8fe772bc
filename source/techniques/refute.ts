import type { Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import type { Board } from './board.ts';

const allFacts = (board: Board): Fact[] => Array.from({ length: board.tables.factCount }, (_, fact) => fact);

const LIVE = -1;
const DEAD_BEFORE = -2;
const BY_ASSUMPTION = -3;

/**
 * Facts that together refute an assumption, or that cannot all hold if nothing is assumed: an exact search
 * over all facts of the board, or over those allowed, fewest places first, that keeps only what its dead ends
 * rest on. The answer is sufficient, not yet minimal. Null where the assumption can be completed, or where the search would take
 * more than `nodes` choices; the board is not changed.
 */
export function factsThatRefute(
  board: Board,
  assumed: Candidate | null,
  nodes: number,
  allowed: readonly Fact[] = allFacts(board),
): Fact[] | null {
  const { tables, layout } = board;
  const { candidateAt, placesIn, excludes, factCount } = tables;
  const { size } = layout;
  /** For each candidate: live, dead before, or the fact whose choice excludes it. */
  const killer = new Int32Array(tables.candidateCount);
  const killTime = new Int32Array(tables.candidateCount);
  const count = new Int32Array(factCount);
  /** For each fact: when a place of it was chosen, or 0. */
  const chosenAt = new Int32Array(factCount);
  const trail: Candidate[] = [];
  let clock = 0;
  let spent = 0;
  for (let candidate = 0; candidate < killer.length; candidate += 1) {
    killer[candidate] = board.live[candidate] === 1 ? LIVE : DEAD_BEFORE;
    if (board.live[candidate] === 1) for (const { fact } of placesIn[candidate]) count[fact] += 1;
  }

  for (let fact = 0; fact < factCount; fact += 1) {
    if (board.isSettled(fact)) chosenAt[fact] = 1;
  }
  clock = 1;

  const exclude = (candidate: Candidate, by: number) => {
    for (const other of excludes[candidate]) {
      if (killer[other] !== LIVE) continue;
      killer[other] = by;
      killTime[other] = clock;
      trail.push(other);
      for (const { fact } of placesIn[other]) count[fact] -= 1;
    }
  };

  /** Adds a fact and, for the places that it had lost by `before`, the facts whose choices took them. */
  const addWithReasons = (core: Set<Fact>, fact: Fact, before: number) => {
    if (core.has(fact)) return;
    core.add(fact);
    for (let i = 0; i < size; i += 1) {
      const candidate = candidateAt[fact * size + i];
      const by = killer[candidate];
      if (by >= 0 && killTime[candidate] < before) addWithReasons(core, by, chosenAt[by]);
    }
  };

  const choose = (fact: Fact, candidate: Candidate) => {
    clock += 1;
    chosenAt[fact] = clock;
    exclude(candidate, fact);
  };

  const undoTo = (length: number, chosen: Fact[]) => {
    while (trail.length > length) {
      const candidate = trail.pop() as Candidate;
      killer[candidate] = LIVE;
      for (const { fact } of placesIn[candidate]) count[fact] += 1;
    }
    for (const fact of chosen) chosenAt[fact] = 0;
  };

  /** The facts that the dead ends below rest on; null where there is a way through or the budget is spent. */
  const search = (): Set<Fact> | null => {
    const mark = trail.length;
    const chosen: Fact[] = [];
    for (;;) {
      let next = -1;
      for (const fact of allowed) {
        if (chosenAt[fact] !== 0) continue;
        if (next < 0 || count[fact] < count[next]) next = fact;
        if (count[fact] === 0) break;
      }
      if (next < 0) return null;
      if (count[next] === 0) {
        const core = new Set<Fact>();
        clock += 1;
        addWithReasons(core, next, clock);
        undoTo(mark, chosen);
        return core;
      }
      spent += 1;
      if (spent > nodes) return null;
      const places: Candidate[] = [];
      for (let i = 0; i < size; i += 1) {
        const candidate = candidateAt[next * size + i];
        if (killer[candidate] === LIVE) places.push(candidate);
      }
      if (places.length === 1) {
        choose(next, places[0]);
        chosen.push(next);
        continue;
      }
      const whole = new Set<Fact>();
      const before = clock + 1;
      for (const place of places) {
        const depth = trail.length;
        choose(next, place);
        const core = search();
        if (!core) return null;
        undoTo(depth, [next]);
        if (!core.has(next)) {
          undoTo(mark, chosen);
          return core;
        }
        for (const fact of core) whole.add(fact);
      }
      whole.delete(next);
      addWithReasons(whole, next, before);
      undoTo(mark, chosen);
      return whole;
    }
  };

  if (assumed !== null) {
    if (board.live[assumed] === 0) return null;
    clock += 1;
    exclude(assumed, BY_ASSUMPTION);
  }
  const core = search();
  return core && [...core].sort((a, b) => a - b);
}

/** A bound on the choices of one refutation that no grid of the open sets comes near. */
export const refutationNodes = (layout: { readonly cellCount: number }): number => layout.cellCount * 400;

/** Whether no way to complete the board is left, as far as the bound goes: then anything would follow. */
export const isBroken = (board: Board): boolean =>
  factsThatRefute(board, null, refutationNodes(board.layout)) !== null;

/**
 * Leaves out of some refuting facts every one that is not needed: tries to do without each, and keeps what
 * the refutation without it rests on. What is left is minimal, unless the bound cuts a trial short.
 */
export function fewestOf(
  board: Board,
  assumed: Candidate | null,
  nodes: number,
  facts: readonly Fact[],
): Fact[] {
  let kept = [...facts];
  for (const fact of [...facts].reverse()) {
    if (!kept.includes(fact)) continue;
    const others = kept.filter((other) => other !== fact);
    kept = factsThatRefute(board, assumed, nodes, others) ?? kept;
  }
  return kept;
}
