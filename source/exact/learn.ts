import type { DigitMask, Layout } from '../grid/layout.ts';
import type { Search, SearchLimits, SearchOutcome } from './search.ts';

/** What a candidate is known to be. */
const OPEN = 0;
const TRUE = 1;
const FALSE = 2;

/** Why a candidate has its value, where it was not a clause: chosen or given, or excluded by a true one. */
const NONE = -1;
const excludedBy = (candidate: number): number => -2 - candidate;

/** A clause is a list of literals: `2 * candidate` says that it is true, `2 * candidate + 1` that it is not. */
type Clause = number[] & { activity?: number };

/** Conflicts before the first restart; later ones follow the Luby sequence (Luby, Sinclair, Zuckerman 1993). */
const restartUnit = 128;

/**
 * Exact search that learns from every contradiction (conflict-driven clause learning: first unique
 * implication point, activity-ordered choices, restarts; Marques-Silva and Sakallah 1996, Moskewicz and
 * others 2001). Much slower than the other searches on what they are good at, but hard to lead astray: on
 * sparse grids without a solution, where backtracking repeats one refutation millions of times, it states
 * that refutation once. Its nodes are contradictions.
 *
 * The facts of the layout are clauses. That two candidates exclude each other is not written down: a true
 * candidate simply excludes its rivals, with itself as the reason.
 */
export class LearningSearch implements Search {
  readonly #layout: Layout;
  readonly #count: number;
  /** For each candidate those that conflict with it, flat. */
  readonly #rivals: readonly Uint16Array[];
  readonly #facts: readonly (readonly number[])[];
  readonly #value: Uint8Array;
  readonly #level: Int32Array;
  readonly #reason: Int32Array;
  readonly #activity: Float64Array;
  readonly #seen: Uint8Array;
  readonly #trail: Uint16Array;
  #trailSize = 0;
  #propagated = 0;
  /** Where on the trail each level of choices begins. */
  #choices: number[] = [];
  #clauses: Clause[] = [];
  /** For each literal the clauses that watch it: one of the first two places of each is it. */
  #watches: number[][] = [];
  #learnt: number[] = [];
  #bump = 1;
  #solutions: Uint8Array[] = [];

  constructor(layout: Layout) {
    const { cellCount, size, houses, housesOf } = layout;
    this.#layout = layout;
    this.#count = cellCount * size;
    const digits = Array.from({ length: size }, (_, i) => i);
    this.#rivals = Array.from({ length: this.#count }, (_, candidate) => {
      const cell = Math.floor(candidate / size);
      const digit = candidate % size;
      const here = digits.filter((d) => d !== digit).map((d) => cell * size + d);
      return Uint16Array.from([...here, ...layout.peers[cell].map((peer) => peer * size + digit)]);
    });
    this.#facts = [
      ...housesOf.map((_, cell) => digits.map((digit) => cell * size + digit)),
      ...houses.flatMap((house) => digits.map((digit) => house.cells.map((cell) => cell * size + digit))),
    ];
    this.#value = new Uint8Array(this.#count);
    this.#level = new Int32Array(this.#count);
    this.#reason = new Int32Array(this.#count);
    this.#activity = new Float64Array(this.#count);
    this.#seen = new Uint8Array(this.#count);
    this.#trail = new Uint16Array(this.#count);
  }

  witness(which: 0 | 1): Uint8Array {
    return this.#solutions[which].slice();
  }

  run(masks: ArrayLike<DigitMask>, limits: SearchLimits): SearchOutcome {
    this.#reset();
    const { size } = this.#layout;
    let found = 0;
    let conflicts = 0;
    let restarts = 0;
    let untilRestart = restartUnit;
    const done = (finished: boolean): SearchOutcome => ({ found, nodes: conflicts, finished });
    if (limits.solutions <= 0) return done(true);
    for (let candidate = 0; candidate < this.#count; candidate += 1) {
      if ((masks[Math.floor(candidate / size)] & (1 << (candidate % size))) === 0) {
        this.#assign(candidate, FALSE, NONE);
      }
    }
    if (!this.#facts.every((fact) => this.#add(fact.map((candidate) => 2 * candidate)) !== null))
      return done(true);
    for (;;) {
      const conflict = this.#propagate();
      if (conflict) {
        if (this.#choices.length === 0) return done(true);
        conflicts += 1;
        untilRestart -= 1;
        const { clause, level } = this.#analyse(conflict);
        this.#undo(level);
        const index = this.#add(clause);
        if (index === null) return done(true);
        if (index >= 0) this.#learnt.push(index);
        this.#bump *= 1.05;
        if (this.#bump > 1e100) this.#rescale();
        if (conflicts >= limits.nodes) return done(false);
        continue;
      }
      if (untilRestart <= 0) {
        restarts += 1;
        untilRestart = restartUnit * luby(restarts);
        this.#undo(0);
        if (this.#learnt.length > 2000 + 20 * restarts) this.#forget();
        continue;
      }
      const choice = this.#choose();
      if (choice >= 0) {
        this.#choices.push(this.#trailSize);
        this.#assign(choice, TRUE, NONE);
        continue;
      }
      const solution = this.#solution();
      if (found < 2) this.#solutions.push(solution);
      found += 1;
      if (found >= limits.solutions) return done(true);
      // Not this one again.
      const again = Array.from(solution, (digit, cell) => 2 * (cell * size + digit - 1) + 1);
      this.#undo(0);
      if (this.#add(again.filter((literal) => this.#value[literal >> 1] === OPEN)) === null)
        return done(true);
    }
  }

  #reset(): void {
    this.#value.fill(OPEN);
    this.#activity.fill(0);
    this.#trailSize = 0;
    this.#propagated = 0;
    this.#choices = [];
    this.#clauses = [];
    this.#learnt = [];
    this.#watches = Array.from({ length: 2 * this.#count }, () => []);
    this.#bump = 1;
    this.#solutions = [];
  }

  #assign(candidate: number, value: number, reason: number): void {
    this.#value[candidate] = value;
    this.#level[candidate] = this.#choices.length;
    this.#reason[candidate] = reason;
    this.#trail[this.#trailSize++] = candidate;
  }

  /** 1: the literal holds; 2: it does not; 0: open. */
  #holds(literal: number): number {
    const value = this.#value[literal >> 1];
    return value === OPEN || (literal & 1) === 0 ? value : 3 - value;
  }

  /**
   * Adds a clause, in a state where at most its first literal is not false or at level 0: settles that
   * literal where it is the only one left. Answers the clause's index, -1 where it needs no watching, null
   * where nothing is left.
   */
  #add(clause: Clause): number | null {
    const live =
      this.#choices.length > 0 ? clause : clause.filter((literal) => this.#holds(literal) !== FALSE);
    if (live.length === 0) return null;
    if (live.length === 1) {
      // Only at level 0: a learnt clause of one literal goes back there first.
      if (this.#holds(live[0]) === OPEN) this.#assign(live[0] >> 1, 1 + (live[0] & 1), NONE);
      return -1;
    }
    const index = this.#clauses.length;
    this.#clauses.push(live);
    this.#watches[live[0]].push(index);
    this.#watches[live[1]].push(index);
    if (this.#holds(live[0]) === OPEN && this.#holds(live[1]) === FALSE) {
      this.#assign(live[0] >> 1, 1 + (live[0] & 1), index);
    }
    return index;
  }

  /** Follows every consequence; the literals of a broken clause where there is one, all false. */
  #propagate(): readonly number[] | null {
    while (this.#propagated < this.#trailSize) {
      const candidate = this.#trail[this.#propagated++];
      const isTrue = this.#value[candidate] === TRUE;
      if (isTrue) {
        for (const rival of this.#rivals[candidate]) {
          const value = this.#value[rival];
          if (value === OPEN) this.#assign(rival, FALSE, excludedBy(candidate));
          else if (value === TRUE) return [2 * candidate + 1, 2 * rival + 1];
        }
      }
      const broken = this.#visit(isTrue ? 2 * candidate + 1 : 2 * candidate);
      if (broken) return broken;
    }
    return null;
  }

  /** Looks at the clauses that watch a literal which has just become false. */
  #visit(literal: number): readonly number[] | null {
    const watching = this.#watches[literal];
    let kept = 0;
    for (let i = 0; i < watching.length; i += 1) {
      const index = watching[i];
      const clause = this.#clauses[index];
      if (clause[0] === literal) {
        clause[0] = clause[1];
        clause[1] = literal;
      }
      const first = this.#holds(clause[0]);
      if (first !== TRUE) {
        let k = 2;
        while (k < clause.length && this.#holds(clause[k]) === FALSE) k += 1;
        if (k < clause.length) {
          clause[1] = clause[k];
          clause[k] = literal;
          this.#watches[clause[1]].push(index);
          continue;
        }
        if (first === FALSE) {
          while (i < watching.length) watching[kept++] = watching[i++];
          watching.length = kept;
          return clause;
        }
        this.#assign(clause[0] >> 1, 1 + (clause[0] & 1), index);
      }
      watching[kept++] = index;
    }
    watching.length = kept;
    return null;
  }

  /** The false literals that made a candidate what it is. */
  #because(candidate: number): readonly number[] {
    const reason = this.#reason[candidate];
    if (reason >= 0) {
      const clause = this.#clauses[reason];
      clause.activity = this.#bump;
      return clause.filter((literal) => literal >> 1 !== candidate);
    }
    return reason === NONE ? [] : [2 * (-2 - reason) + 1];
  }

  /** The clause that a contradiction teaches, its one literal of the last level first, and where to go back to. */
  #analyse(conflict: readonly number[]): { clause: Clause; level: number } {
    const seen = this.#seen;
    const top = this.#choices.length;
    const clause: Clause = [0];
    let open = 0;
    let at = this.#trailSize;
    let reason = conflict;
    for (;;) {
      for (const literal of reason) {
        const candidate = literal >> 1;
        if (seen[candidate] === 1 || this.#level[candidate] === 0) continue;
        seen[candidate] = 1;
        this.#activity[candidate] += this.#bump;
        if (this.#level[candidate] === top) open += 1;
        else clause.push(literal);
      }
      do at -= 1;
      while (seen[this.#trail[at]] === 0);
      const candidate = this.#trail[at];
      seen[candidate] = 0;
      open -= 1;
      if (open === 0) {
        clause[0] = 2 * candidate + (this.#value[candidate] === TRUE ? 1 : 0);
        break;
      }
      reason = this.#because(candidate);
    }
    let level = 0;
    for (let i = 1; i < clause.length; i += 1) {
      const candidate = clause[i] >> 1;
      seen[candidate] = 0;
      if (this.#level[candidate] <= level) continue;
      level = this.#level[candidate];
      // Watched second: the literal that is undone last.
      [clause[1], clause[i]] = [clause[i], clause[1]];
    }
    clause.activity = this.#bump;
    return { clause, level };
  }

  #undo(level: number): void {
    if (this.#choices.length <= level) return;
    const size = this.#choices[level];
    for (let i = size; i < this.#trailSize; i += 1) this.#value[this.#trail[i]] = OPEN;
    this.#trailSize = size;
    this.#propagated = size;
    this.#choices.length = level;
  }

  /** The open candidate met most in recent contradictions; -1: none is open. */
  #choose(): number {
    let best = -1;
    let most = -1;
    for (let candidate = 0; candidate < this.#count; candidate += 1) {
      if (this.#value[candidate] !== OPEN || this.#activity[candidate] <= most) continue;
      most = this.#activity[candidate];
      best = candidate;
    }
    return best;
  }

  /** Drops half of what was learnt, the least recently used; only at level 0, where nothing is a reason. */
  #forget(): void {
    const used = (index: number) => this.#clauses[index].activity ?? 0;
    const byUse = this.#learnt.toSorted((a, b) => used(b) - used(a));
    const dropped = new Set(
      byUse.slice(byUse.length >> 1).filter((index) => this.#clauses[index].length > 2),
    );
    this.#learnt = this.#learnt.filter((index) => !dropped.has(index));
    for (const watching of this.#watches) {
      let kept = 0;
      for (const index of watching) if (!dropped.has(index)) watching[kept++] = index;
      watching.length = kept;
    }
    for (const index of dropped) this.#clauses[index] = [];
  }

  #rescale(): void {
    for (let candidate = 0; candidate < this.#count; candidate += 1) this.#activity[candidate] *= 1e-100;
    for (const index of this.#learnt) {
      const clause = this.#clauses[index];
      clause.activity = (clause.activity ?? 0) * 1e-100;
    }
    this.#bump *= 1e-100;
  }

  #solution(): Uint8Array {
    const { cellCount, size } = this.#layout;
    const digits = new Uint8Array(cellCount);
    for (let candidate = 0; candidate < this.#count; candidate += 1) {
      if (this.#value[candidate] === TRUE) digits[Math.floor(candidate / size)] = (candidate % size) + 1;
    }
    return digits;
  }
}

/** The Luby sequence, from 1: 1 1 2 1 1 2 4 1 1 2 ... */
function luby(i: number): number {
  let k = 1;
  while (2 ** k - 1 < i) k += 1;
  return 2 ** k - 1 === i ? 2 ** (k - 1) : luby(i - 2 ** (k - 1) + 1);
}
