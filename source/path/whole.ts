import { weightOf } from '../argument/fact.ts';
import type { Argument, CheckedArgument, Fact, OneSolutionToken } from '../argument/kernel.ts';
import { decide } from '../exact/solve.ts';
import type { Candidate } from '../grid/layout.ts';
import type { Position } from '../grid/position.ts';
import { catalogue } from '../techniques/catalogue.ts';
import { closeUnder, lightestStrikes, SearchBudget } from '../techniques/fact-search.ts';
import { hardest } from './hardest.ts';
import { argumentsIn, unnamed } from './minimal.ts';
import { nameOf } from './name.ts';
import { Nets } from './nets.ts';
import { reachOf } from './reach.ts';
import { Working } from './working.ts';

/** How a position is led to its solution, one checked argument after the other. */
export interface Path {
  readonly start: Position;
  /** Each checked in the position that those before it leave. */
  readonly steps: readonly CheckedArgument[];
  /** Where the steps end. */
  readonly end: Position;
  readonly solved: boolean;
}

export interface PathOptions {
  /** Whether three and four facts are searched exactly at each step too, so that nothing lighter is missed. */
  readonly proved?: boolean;
  /** Lets techniques that assume one solution take part. */
  readonly token?: OneSolutionToken;
  /** Asked before each step: whether the path has gone far enough. */
  readonly enough?: (working: Working) => boolean;
}

/** How many worlds an exact search of one position for three and four facts may look at. */
const provedWorlds = 20_000_000;
/** How many of the lightest nets are worth the search for a minimal set of their facts. */
const netsShrunk = 4;

/**
 * The path from a position: at each step the lightest that the catalogue and the search of one and two facts
 * have, singles before everything else; where these have nothing, what follows from assuming a candidate, and
 * at last suppositions within suppositions. It ends in the solution of every position that has exactly one,
 * unless the bound on the latter is met; `solved` says so. A position with no solution gets no step, one
 * with several those that hold in all of them.
 */
export function pathOf(position: Position, options: PathOptions = {}): Path {
  const working = new Working(position);
  const pathfinder = new Pathfinder(working, options);
  if (decide(position).verdict !== 'none') pathfinder.go();
  return { start: position, steps: working.steps, end: working.position, solved: working.isSolved };
}

class Pathfinder {
  readonly #working: Working;
  readonly #proved: boolean;
  readonly #enough: () => boolean;
  readonly #token: OneSolutionToken | undefined;
  #nets: Nets | null = null;

  constructor(working: Working, { proved = false, enough, token }: PathOptions) {
    this.#token = token;
    this.#working = working;
    this.#proved = proved;
    this.#enough = enough ? () => enough(working) : () => false;
  }

  go(): void {
    const working = this.#working;
    for (;;) {
      working.followOne(this.#enough);
      if (working.isSolved || working.isBroken || this.#enough()) return;
      if (!this.#followTwo() && !this.#takeHeavy()) return;
      if (this.#enough()) return;
    }
  }

  /**
   * Takes every strike that two facts support, and what single facts make of it, as long as there are any.
   * False if there was none.
   */
  #followTwo(): boolean {
    const working = this.#working;
    const closure = closeUnder(working.board.copy(), 2);
    let taken = false;
    for (const { candidate, facts } of closure.steps) {
      if (facts.length !== 2 || working.board.live[candidate] === 0) continue;
      const strikes = reachOf(working.board, facts) ?? [candidate];
      taken = this.#strike(facts, strikes) || taken;
      working.followOne(this.#enough);
      if (working.isBroken || this.#enough()) break;
    }
    return taken;
  }

  /** Strikes candidates by facts that none of them can do without, under the name that this has. */
  #strike(facts: readonly Fact[], strikes: readonly Candidate[]): boolean {
    const named = nameOf(this.#working.board, facts, strikes);
    return this.#take({
      ...named,
      conclusions: { kind: 'strikes', candidates: strikes },
      assumes: 'nothing',
    });
  }

  #take(argument: Argument): boolean {
    return this.#working.take(argument, this.#token) !== null;
  }

  /** Takes the lightest step of a position in which two facts do nothing any more. */
  #takeHeavy(): boolean {
    if (this.#proved) {
      const search = lightestStrikes(this.#working.board, 4, new SearchBudget(provedWorlds));
      if (search.kind === 'broken') return false;
      const [first] = search.strikes;
      if (first) return this.#takeAllBy(first.facts, first.candidate);
    }
    if (this.#takeNamed(3, 3)) return true;
    this.#nets ??= new Nets(this.#working.board, this.#working.alignments);
    const { position } = this.#working;
    const nets = this.#nets.lightest(netsShrunk).flatMap(({ candidate, facts }) => {
      const conclusions = { kind: 'strikes' as const, candidates: [candidate] };
      const [checked] = argumentsIn(position, { technique: unnamed, facts, conclusions });
      return checked ? [{ candidate, facts: checked.argument.facts }] : [];
    });
    nets.sort((a, b) => a.facts.length - b.facts.length);
    const [net] = nets;
    if (
      !this.#proved &&
      (!net || net.facts.length > 4) &&
      this.#takeNamed(4, net ? net.facts.length - 1 : 99)
    ) {
      return true;
    }
    if (net) return this.#takeAllBy(net.facts, net.candidate);
    const last = hardest(this.#working.board);
    return last !== null && this.#takeAllBy(last.facts, last.candidate);
  }

  /** Strikes a candidate by facts that it can't do without, and with it all others of which the same is true. */
  #takeAllBy(facts: readonly Fact[], candidate: Candidate): boolean {
    const { board } = this.#working;
    const reach = facts.length > 12 ? null : reachOf(board, facts);
    if (reach === null || !reach.includes(candidate)) return this.#strike(facts, [candidate]);
    const needless = new Set<Candidate>();
    for (const fact of reach.length > 1 ? facts : []) {
      const fewer = reachOf(
        board,
        facts.filter((other) => other !== fact),
      );
      // Too many ways to look at: nothing is known of the others then.
      for (const other of fewer ?? reach) needless.add(other);
    }
    needless.delete(candidate);
    return this.#strike(
      facts,
      reach.filter((other) => !needless.has(other)),
    );
  }

  /** Takes the lightest instance that the catalogue's techniques of these weights have. */
  #takeNamed(from: number, to: number): boolean {
    const { board, position } = this.#working;
    let best: CheckedArgument | null = null;
    let most = to;
    for (const technique of catalogue) {
      if (technique.weight < from || (technique.assumes !== 'nothing' && !this.#token)) continue;
      if (technique.weight > from && most < from) break;
      for (const finding of technique.find(board)) {
        if (finding.conclusions.kind !== 'strikes') continue;
        for (const checked of argumentsIn(position, finding, this.#token)) {
          const weight = weightOf(position.layout, checked.argument);
          if (weight > most) continue;
          best = checked;
          most = weight - 1;
        }
      }
    }
    return best !== null && this.#take(best.argument);
  }
}
