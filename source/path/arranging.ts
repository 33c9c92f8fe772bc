import type { Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import type { Board, BoardTables } from '../techniques/board.ts';

const LIVE = -1;

/**
 * Some facts of a board and what their places exclude once a candidate is true, flat and small: asked again and
 * again whether some of the facts can come out together. Places and facts are numbered from 0 as they turn up here.
 */
export class Arranging {
  #factCount = 0;
  /** The places of fact f: `placeOf[i]`, `placesFrom[f] <= i < placesFrom[f + 1]`; the next two alike. */
  readonly #placesFrom: Int32Array;
  readonly #placeOf: Int32Array;
  /** The facts of a place. */
  readonly #factsFrom: Int32Array;
  readonly #factOf: Int32Array;
  /** The places that a place excludes. */
  readonly #excludedFrom: Int32Array;
  readonly #excluded: Int32Array;
  readonly #allowed: Uint8Array;
  /** For each place: live, or the fact whose choice took it, and when. */
  readonly #killer: Int32Array;
  readonly #killTime: Int32Array;
  /** For each fact how many live places it has, when a place of it was chosen (0: not), and which. */
  readonly #count: Int32Array;
  readonly #chosenAt: Int32Array;
  readonly #choice: Int32Array;
  /** How often a fact was a dead end, and one: such facts are looked at earlier. */
  readonly #weight: Float64Array;
  /** Places taken and facts chosen, in order. */
  readonly #taken: Int32Array;
  #takenCount = 0;
  readonly #chosen: Int32Array;
  #chosenCount = 0;
  /** Facts that have come down to one place and wait. */
  readonly #forced: Int32Array;
  #forcedHead = 0;
  #forcedTail = 0;
  /** For each depth of the search the facts that its dead end rests on: `core[depth * factCount + fact]`. */
  #core: Uint8Array;
  readonly #stack: Int32Array;
  /** In rotations: marks the places that a place excludes. */
  readonly #mark: Int32Array;
  #marks = 0;
  #clock = 0;
  #spent = 0;

  /** The number of a candidate while it is a place, -1 where it is none. */
  readonly #numbers: Int32Array;

  /** Room for any facts of a layout. */
  constructor({ candidateCount, factCount, excludes, layout }: BoardTables) {
    const pairs = excludes.reduce((sum, others) => sum + others.length, 0);
    this.#placesFrom = new Int32Array(factCount + 1);
    this.#placeOf = new Int32Array(factCount * layout.size);
    this.#factsFrom = new Int32Array(candidateCount + 1);
    this.#factOf = new Int32Array(factCount * layout.size);
    this.#excludedFrom = new Int32Array(candidateCount + 1);
    this.#excluded = new Int32Array(pairs);
    this.#allowed = new Uint8Array(factCount);
    this.#killer = new Int32Array(candidateCount);
    this.#killTime = new Int32Array(candidateCount);
    this.#count = new Int32Array(factCount);
    this.#chosenAt = new Int32Array(factCount);
    this.#choice = new Int32Array(factCount);
    this.#weight = new Float64Array(factCount);
    this.#taken = new Int32Array(candidateCount);
    this.#chosen = new Int32Array(factCount);
    this.#forced = new Int32Array(factCount);
    this.#core = new Uint8Array(factCount * 4);
    this.#stack = new Int32Array(factCount);
    this.#mark = new Int32Array(candidateCount);
    this.#numbers = new Int32Array(candidateCount).fill(-1);
  }

  /** Goes over to some facts of a board; all of them are allowed. */
  take(board: Board, assumed: Candidate, facts: readonly Fact[]): void {
    const { excludes, candidateAt } = board.tables;
    const { size } = board.layout;
    const numbers = this.#numbers;
    const count = facts.length;
    this.#factCount = count;
    const shut = -2;
    for (const candidate of excludes[assumed]) numbers[candidate] = shut;
    const candidates: Candidate[] = [];
    let end = 0;
    for (let fact = 0; fact < count; fact += 1) {
      for (let rest = board.masks[facts[fact]]; rest !== 0; rest &= rest - 1) {
        const candidate = candidateAt[facts[fact] * size + 31 - Math.clz32(rest & -rest)];
        if (numbers[candidate] === shut) continue;
        if (numbers[candidate] < 0) {
          numbers[candidate] = candidates.length;
          candidates.push(candidate);
        }
        this.#placeOf[end] = numbers[candidate];
        end += 1;
      }
      this.#placesFrom[fact + 1] = end;
      this.#count[fact] = end - this.#placesFrom[fact];
    }
    const places = candidates.length;
    this.#factsFrom.fill(0, 0, places + 1);
    for (let i = 0; i < end; i += 1) this.#factsFrom[this.#placeOf[i] + 1] += 1;
    for (let place = 0; place < places; place += 1) this.#factsFrom[place + 1] += this.#factsFrom[place];
    const filled = this.#mark;
    for (let place = 0; place < places; place += 1) filled[place] = this.#factsFrom[place];
    for (let fact = 0; fact < count; fact += 1) {
      for (let i = this.#placesFrom[fact]; i < this.#placesFrom[fact + 1]; i += 1) {
        const place = this.#placeOf[i];
        this.#factOf[filled[place]] = fact;
        filled[place] += 1;
      }
    }
    let excluded = 0;
    for (let place = 0; place < places; place += 1) {
      const others = excludes[candidates[place]];
      for (let i = 0; i < others.length; i += 1) {
        if (numbers[others[i]] < 0) continue;
        this.#excluded[excluded] = numbers[others[i]];
        excluded += 1;
      }
      this.#excludedFrom[place + 1] = excluded;
    }
    for (const candidate of excludes[assumed]) numbers[candidate] = -1;
    for (const candidate of candidates) numbers[candidate] = -1;
    this.#allowed.fill(1, 0, count);
    this.#killer.fill(LIVE, 0, places);
    this.#chosenAt.fill(0, 0, count);
    this.#weight.fill(1, 0, count);
    this.#mark.fill(0, 0, places);
    this.#marks = 0;
  }

  isAllowed(fact: number): boolean {
    return this.#allowed[fact] !== 0;
  }

  leaveOut(fact: number): void {
    this.#allowed[fact] = 0;
  }

  putBack(fact: number): void {
    this.#allowed[fact] = 1;
  }

  /** Leaves out all facts that the last clash did not rest on. */
  keepCore(): void {
    for (let fact = 0; fact < this.#factCount; fact += 1) this.#allowed[fact] = this.#core[fact];
  }

  /**
   * Whether the facts allowed clash, or can come out together: then each has its choice until something is asked
   * again. `spent`: that takes more choices than `nodes`.
   */
  decide(nodes: number): 'clash' | 'arranged' | 'spent' {
    this.#spent = nodes;
    this.#clock = 1;
    this.#chosenCount = 0;
    this.#forcedHead = 0;
    this.#forcedTail = 0;
    let empty = -1;
    for (let fact = 0; fact < this.#factCount; fact += 1) {
      if (this.#allowed[fact] === 0) continue;
      if (this.#count[fact] === 0) empty = fact;
      else if (this.#count[fact] === 1) this.#wait(fact);
    }
    const outcome = this.#search(0, empty);
    if (outcome === 'arranged') {
      for (let fact = 0; fact < this.#factCount; fact += 1) {
        if (this.#allowed[fact] === 0) this.#choice[fact] = -1;
      }
    }
    this.#undoTo(0, 0);
    return outcome;
  }

  #wait(fact: number): void {
    this.#forced[this.#forcedTail] = fact;
    this.#forcedTail += 1;
  }

  /** Goes on from here; `empty` is a fact without a place, or -1. Undoes nothing where all are arranged. */
  #search(depth: number, empty: number): 'clash' | 'arranged' | 'spent' {
    let dead = empty;
    while (dead < 0 && this.#forcedHead < this.#forcedTail) {
      const fact = this.#forced[this.#forcedHead];
      this.#forcedHead += 1;
      if (this.#chosenAt[fact] !== 0) continue;
      this.#spent -= 1;
      if (this.#spent < 0) return 'spent';
      dead = this.#choose(fact, this.#firstPlace(fact));
    }
    const core0 = depth * this.#factCount;
    if (dead >= 0) {
      this.#weight[dead] += 1;
      this.#core.fill(0, core0, core0 + this.#factCount);
      this.#addWithReasons(core0, dead, this.#clock + 1);
      return 'clash';
    }
    let next = -1;
    let best = Number.POSITIVE_INFINITY;
    for (let fact = 0; fact < this.#factCount; fact += 1) {
      if (this.#allowed[fact] === 0 || this.#chosenAt[fact] !== 0) continue;
      const rank = this.#count[fact] / this.#weight[fact];
      if (rank >= best) continue;
      best = rank;
      next = fact;
    }
    if (next < 0) return 'arranged';
    this.#spent -= 1;
    if (this.#spent < 0) return 'spent';
    return this.#branch(depth, next);
  }

  /** Tries each place of a fact. */
  #branch(depth: number, next: number): 'clash' | 'arranged' | 'spent' {
    const count = this.#factCount;
    const core0 = depth * count;
    const inner0 = core0 + count;
    if (this.#core.length < inner0 + count) {
      const core = new Uint8Array(this.#core.length * 2);
      core.set(this.#core);
      this.#core = core;
    }
    this.#core.fill(0, core0, core0 + count);
    const before = this.#clock + 1;
    const taken = this.#takenCount;
    const chosen = this.#chosenCount;
    const head = this.#forcedHead;
    for (let i = this.#placesFrom[next]; i < this.#placesFrom[next + 1]; i += 1) {
      const place = this.#placeOf[i];
      if (this.#killer[place] !== LIVE) continue;
      const outcome = this.#search(depth + 1, this.#choose(next, place));
      if (outcome !== 'clash') return outcome;
      this.#undoTo(taken, chosen);
      this.#forcedHead = head;
      this.#forcedTail = head;
      if (this.#core[inner0 + next] === 0) {
        // The dead end does without this choice: the others would end alike.
        this.#core.copyWithin(core0, inner0, inner0 + count);
        return 'clash';
      }
      for (let fact = 0; fact < count; fact += 1) this.#core[core0 + fact] |= this.#core[inner0 + fact];
    }
    this.#core[core0 + next] = 0;
    this.#addWithReasons(core0, next, before);
    return 'clash';
  }

  #firstPlace(fact: number): number {
    let i = this.#placesFrom[fact];
    while (this.#killer[this.#placeOf[i]] !== LIVE) i += 1;
    return this.#placeOf[i];
  }

  /** Chooses a place of a fact; the first allowed fact that is left without any, or -1. */
  #choose(fact: number, place: number): number {
    this.#clock += 1;
    this.#chosenAt[fact] = this.#clock;
    this.#choice[fact] = place;
    this.#chosen[this.#chosenCount] = fact;
    this.#chosenCount += 1;
    let empty = -1;
    for (let i = this.#excludedFrom[place]; i < this.#excludedFrom[place + 1]; i += 1) {
      const other = this.#excluded[i];
      if (this.#killer[other] !== LIVE) continue;
      this.#killer[other] = fact;
      this.#killTime[other] = this.#clock;
      this.#taken[this.#takenCount] = other;
      this.#takenCount += 1;
      for (let j = this.#factsFrom[other]; j < this.#factsFrom[other + 1]; j += 1) {
        const one = this.#factOf[j];
        const left = this.#count[one] - 1;
        this.#count[one] = left;
        if (left > 1 || this.#allowed[one] === 0) continue;
        if (left === 0) empty = one;
        else if (this.#chosenAt[one] === 0) this.#wait(one);
      }
    }
    return empty;
  }

  #undoTo(taken: number, chosen: number): void {
    while (this.#takenCount > taken) {
      this.#takenCount -= 1;
      const place = this.#taken[this.#takenCount];
      this.#killer[place] = LIVE;
      for (let j = this.#factsFrom[place]; j < this.#factsFrom[place + 1]; j += 1) {
        this.#count[this.#factOf[j]] += 1;
      }
    }
    while (this.#chosenCount > chosen) {
      this.#chosenCount -= 1;
      this.#chosenAt[this.#chosen[this.#chosenCount]] = 0;
    }
  }

  /** Adds a fact and, for the places that it had lost by `before`, the facts whose choices took them. */
  #addWithReasons(core0: number, first: number, before: number): void {
    if (this.#core[core0 + first] !== 0) return;
    this.#core[core0 + first] = 1;
    this.#stack[0] = first;
    let waiting = 1;
    while (waiting > 0) {
      waiting -= 1;
      const fact = this.#stack[waiting];
      const until = fact === first ? before : this.#chosenAt[fact];
      for (let i = this.#placesFrom[fact]; i < this.#placesFrom[fact + 1]; i += 1) {
        const place = this.#placeOf[i];
        const by = this.#killer[place];
        if (by === LIVE || this.#killTime[place] >= until || this.#core[core0 + by] !== 0) continue;
        this.#core[core0 + by] = 1;
        this.#stack[waiting] = by;
        waiting += 1;
      }
    }
  }

  /**
   * Marks as needed the facts of which an arrangement of all others is there: from the last one found, which
   * leaves `missing` out, by letting it have a place and seeing whether that leaves out exactly one other.
   */
  rotate(missing: number, isNeeded: Uint8Array): void {
    for (let i = this.#placesFrom[missing]; i < this.#placesFrom[missing + 1]; i += 1) {
      const place = this.#placeOf[i];
      this.#marks += 1;
      for (let j = this.#excludedFrom[place]; j < this.#excludedFrom[place + 1]; j += 1) {
        this.#mark[this.#excluded[j]] = this.#marks;
      }
      let clashing = -1;
      for (let fact = 0; fact < this.#factCount; fact += 1) {
        const choice = this.#choice[fact];
        if (fact === missing || choice < 0 || this.#mark[choice] !== this.#marks) continue;
        clashing = clashing === -1 ? fact : -2;
        if (clashing === -2) break;
      }
      if (clashing < 0 || isNeeded[clashing] !== 0) continue;
      isNeeded[clashing] = 1;
      const old = this.#choice[clashing];
      this.#choice[missing] = place;
      this.#choice[clashing] = -1;
      this.rotate(clashing, isNeeded);
      this.#choice[clashing] = old;
      this.#choice[missing] = -1;
    }
  }
}
