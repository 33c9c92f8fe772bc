import { weightOf } from '../argument/fact.ts';
import type { Argument, CheckedArgument, Fact, OneSolutionToken } from '../argument/kernel.ts';
import { countSolutions } from '../exact/solve.ts';
import type { Candidate, Layout } from '../grid/layout.ts';
import type { Position } from '../grid/position.ts';
import type { Board } from '../techniques/board.ts';
import { patterns } from '../techniques/catalogue.ts';
import { FactPursuit } from '../techniques/fact-pursuit.ts';
import { lightestStrike, SearchBudget } from '../techniques/fact-search.ts';
import { hardest } from './hardest.ts';
import { argumentsIn } from './minimal.ts';
import { largestSized, nameOf } from './name.ts';
import { Nested } from './nested.ts';
import { Nets, type Refutation } from './nets.ts';
import { PatternPursuit } from './pattern-pursuit.ts';
import { reachOf } from './reach.ts';
import { shrink } from './shrink.ts';
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
  /** Whether chains and other patterns of open size give their names too. It takes longer and changes nothing else. */
  readonly allNames?: boolean;
  /** Lets techniques that assume one solution take part. */
  readonly token?: OneSolutionToken;
  /** Asked before each step: whether the path has gone far enough. */
  readonly enough?: (working: Working) => boolean;
}

/** How many worlds an exact search of one position for three and four facts may look at. */
const provedWorlds = 20_000_000;
/** The facts of the lightest net where two facts do nothing any more. */
const lightestNet = 3;
/** How many of the lightest nets are worth the search for a minimal set of their facts. */
const netsShrunk = 5;

/**
 * The path from a position: at each step singles before everything else, then locked candidates, then what two
 * facts support, searched exactly. Where these have nothing: the lightest net of what follows from assuming a
 * candidate, which is what chains of any kind come to, or a set, fish or wing of fewer facts than that; at
 * last suppositions within suppositions. Almost locked sets are not looked for by themselves: where no net
 * sees them, `proved` finds those of up to four facts. The path ends in the solution of every position that
 * has exactly one, unless the bound on suppositions is met; `solved` says so. A position with no solution
 * gets no step, one with several those that hold in all of them.
 */
export function pathOf(position: Position, options: PathOptions = {}): Path {
  const working = new Working(position);
  const pathfinder = new Pathfinder(working, options);
  const isOpen = pathfinder.go();
  const { steps, position: end, isSolved: solved } = working;
  working.leave();
  return isOpen
    ? { start: position, steps, end, solved }
    : { start: position, steps: [], end: position, solved: false };
}

/** Nets have a long memory, which is used again by the paths of a layout. */
const netsOf = new WeakMap<Layout, Nets>();

/** Nets on a board that know nothing yet. Those handed out before for the layout are at an end. */
function netsOn(board: Board): Nets {
  const used = netsOf.get(board.layout);
  if (used) {
    used.start(board);
    return used;
  }
  const nets = new Nets(board);
  netsOf.set(board.layout, nets);
  return nets;
}

class Pathfinder {
  readonly #working: Working;
  readonly #proved: boolean;
  readonly #allNames: boolean;
  readonly #enough: () => boolean;
  readonly #token: OneSolutionToken | undefined;
  #nets: Nets | null = null;
  #pursuit: FactPursuit | null = null;
  #patterns: PatternPursuit | null = null;
  #nested: Nested | null = null;

  constructor(working: Working, { proved = false, allNames = false, enough, token }: PathOptions) {
    this.#allNames = allNames;
    this.#token = token;
    this.#working = working;
    this.#proved = proved;
    this.#enough = enough ? () => enough(working) : () => false;
  }

  /** Goes as far as wanted. False: the position has no solution, so that its steps say nothing. */
  go(): boolean {
    const working = this.#working;
    let isOpen = false;
    for (;;) {
      working.followOne(this.#enough);
      // A full grid without clashes is a solution: nothing to ask of the start.
      if (working.isSolved) return true;
      // Every step keeps all solutions: asked of what they have come to, the answer is the start's.
      isOpen ||= countSolutions(working.position, 1) > 0;
      if (!isOpen || this.#enough()) return isOpen;
      if (!this.#takeTwo() && !this.#takeHeavy()) return true;
    }
  }

  /** Takes all that two facts strike in the position as it stands; false if that is nothing. */
  #takeTwo(): boolean {
    const { board } = this.#working;
    this.#pursuit ??= new FactPursuit(board);
    const strike = this.#pursuit.next();
    if (strike === null) return false;
    const { candidate, facts } = strike;
    // Single facts do nothing here, so none of what the two reach can do with fewer.
    return this.#strike(facts, reachOf(board, facts) ?? [candidate]);
  }

  /** Strikes candidates by facts that none of them can do without, under the name that this has. */
  #strike(facts: readonly Fact[], strikes: readonly Candidate[]): boolean {
    const named = nameOf(this.#working.board, facts, strikes, this.#allNames);
    return this.#take({
      technique: named.technique,
      facts: named.facts,
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
      const search = lightestStrike(this.#working.board, 4, new SearchBudget(provedWorlds));
      if (search.kind === 'broken') return false;
      const [first] = search.strikes;
      if (first) return this.#takeAllBy(first.facts, first.candidate);
    }
    const { board } = this.#working;
    this.#nets ??= netsOn(board);
    this.#nets.load();
    const found = this.#nets.lightest(netsShrunk, lightestNet);
    if (found[0]?.facts.length === lightestNet) return this.#takeAllBy(found[0].facts, found[0].candidate);
    const [net] = found;
    if (this.#takePattern(net ? net.facts.length - 1 : Number.POSITIVE_INFINITY)) return true;
    if (net) return this.#takeAllBy(net.facts, net.candidate);
    this.#nested ??= new Nested(board, this.#nets.worlds);
    const last = hardest(board, this.#nested);
    const [shrunk] = last ? this.#shrink(last) : [];
    return shrunk !== undefined && this.#takeAllBy(shrunk.facts, shrunk.candidate);
  }

  /** A refutation on a minimal set of its facts; nothing where that is not found within the bound. */
  #shrink({ candidate, facts }: Refutation): Refutation[] {
    const fewer = shrink(this.#working.board, candidate, facts);
    return fewer ? [{ candidate, facts: fewer }] : [];
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

  /**
   * Takes the lightest instance of a pattern of fixed size, of at most so many facts. Chains and the like are
   * what follows from an assumption, and nets find them.
   */
  #takePattern(most: number): boolean {
    const { board, position } = this.#working;
    this.#patterns ??= new PatternPursuit(board);
    this.#patterns.load();
    for (const technique of sizedPatterns) {
      if (technique.weight > most || (technique.assumes !== 'nothing' && !this.#token)) continue;
      for (const finding of this.#patterns.find(technique)) {
        for (const checked of argumentsIn(position, finding, this.#token)) {
          if (weightOf(position.layout, checked.argument) <= most) return this.#take(checked.argument);
        }
      }
      this.#patterns.nothingBy(technique);
    }
    return false;
  }
}

/** Patterns of more than two facts whose instances all have the same number, lightest first. */
const sizedPatterns = patterns.filter(({ weight }) => weight > 2 && weight <= largestSized);
