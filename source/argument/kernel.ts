/**
 * The trusted kernel. It decides whether some facts support a conclusion, by looking at every way in which
 * the facts can come out. It knows no technique, and nothing else in the project can make a CheckedArgument:
 *   check(position, argument, token?) → holds | breaks | refused (and why)
 *   placesOf(position, fact)          → the live candidates of a fact
 *   isChecked(value)                  → whether a value came out of `check`
 */
import { type Candidate, cellOf, conflicts, type Layout, statementsOf } from '../grid/layout.ts';
import type { Position } from '../grid/position.ts';

/** An exactly-one statement, by its index in `statementsOf(layout)`. */
export type Fact = number;
/** What follows from the facts. */
export type Conclusions =
  | { readonly kind: 'placements' | 'strikes'; readonly candidates: readonly Candidate[] }
  | { readonly kind: 'breaks' };
/** Some facts plus what follows from them. `technique` is a label: the kernel never reads it. */
export interface Argument {
  readonly technique: string;
  readonly facts: readonly Fact[];
  readonly conclusions: Conclusions;
  readonly assumes: 'nothing' | 'one-solution';
  /** With one-solution only: a deadly pattern, two candidates a cell. Its axiom: some cell holds another digit. */
  readonly pattern?: readonly Candidate[];
}
declare const minted: unique symbol;
/** Says that a puzzle has exactly one solution. Only `exact/` mints one, after it has counted. */
export interface OneSolutionToken {
  readonly [minted]: true;
  /** Whether the token was minted for the givens of this position. */
  vouchesFor(position: Position): boolean;
}

export type Refusal = 'open' | 'already-struck' | 'no-fact-holds-it' | 'not-one-solution' | 'breaks';
export type Verdict =
  | { readonly verdict: 'holds' | 'breaks'; readonly checked: CheckedArgument }
  | {
      readonly verdict: 'refused';
      readonly reason: Refusal;
      readonly candidate: Candidate | undefined;
      /** With `open`: one candidate a fact, in the order of the facts (the axiom last), that leaves it open. */
      readonly arrangement: readonly Candidate[] | undefined;
    };

const seal = Symbol('made by check');
/** Lists of one, which most arguments have two of: made once, so that two of them with the same are the same. */
const ones = Array.from({ length: 1024 }, (_, n) => Object.freeze([n]));
const listOf = (items: readonly number[]): readonly number[] =>
  (items.length === 1 && ones[items[0]]) || Object.freeze(items.slice());
/** A copy that nobody can change, each part read once: what is looked at is what is sealed. */
function frozen({ technique, facts, conclusions, assumes, pattern }: Argument): Argument {
  const { kind } = conclusions;
  const copy = kind === 'breaks' ? { kind } : { kind, candidates: listOf(conclusions.candidates) };
  const bare = { technique, facts: listOf(facts), conclusions: Object.freeze(copy), assumes };
  return Object.freeze(pattern === undefined ? bare : { ...bare, pattern: listOf(pattern) });
}
/** An argument that the kernel has accepted in a position. */
export class CheckedArgument {
  readonly #sealed: symbol;
  constructor(
    key: symbol,
    readonly position: Position,
    readonly argument: Argument,
  ) {
    if (key !== seal) throw new TypeError('only the kernel makes a CheckedArgument');
    this.#sealed = key;
    Object.freeze(this);
  }
  static isOne = (value: unknown): value is CheckedArgument =>
    typeof value === 'object' && value !== null && #sealed in value && value.#sealed === seal;
}
export const isChecked = CheckedArgument.isOne;
/** The live candidates of a fact, ascending. Throws a RangeError on a number that is no fact of the layout. */
export function placesOf({ layout, candidates }: Position, fact: Fact): Candidate[] {
  const all = statementsOf(layout)[fact];
  if (!all) throw new RangeError(`no fact ${fact} on the ${layout.name} layout`);
  return candidates.among(all);
}

/** One candidate a list, no two in conflict, none with the one kept; -1 in `chosen`: yet to come. Null: no way. */
function arrange(layout: Layout, lists: Candidate[][], kept = -1, chosen = lists.map(() => -1)) {
  const fits = (place: Candidate) => !conflicts(layout, place, kept);
  const left = kept < 0 ? lists : lists.slice();
  let open = 0;
  let next = -1;
  for (let i = 0; i < left.length; i += 1) {
    if (chosen[i] >= 0) continue;
    if (kept >= 0 && !left[i].every(fits)) left[i] = left[i].filter(fits);
    if (next < 0 || left[i].length < left[next].length) next = i;
    open += 1;
  }
  if (open === 0) return chosen;
  for (const candidate of left[next]) {
    chosen[next] = candidate;
    if (open === 1 || arrange(layout, left, candidate, chosen)) return chosen;
  }
  chosen[next] = -1;
  return null;
}

/** An arrangement with another place of a list that has x; null if one of these allows none; else undefined. */
function arrangeRival(layout: Layout, lists: Candidate[][], some: number, x: Candidate) {
  let way: Candidate[] | null | undefined;
  for (const list of lists.slice(0, some).filter((one) => one.includes(x))) {
    const rival = list.find((place) => place !== x && arrange(layout, lists, place) !== null);
    if (rival === undefined) return null;
    way ??= arrange(layout, lists, rival);
  }
  return way;
}

/**
 * Whether a pattern is deadly: no cell of it is given, each has two digits of it, and each house has each of
 * them in none or two. Changing all its cells from these to their other digits would be a second solution.
 */
function isDeadly({ layout, givens }: Position, pattern: readonly Candidate[]): boolean {
  const met = [...new Set(pattern)].flatMap((candidate) => {
    const cell = cellOf(layout, candidate);
    return [`cell ${cell}`, ...layout.housesOf[cell].map((house) => `${house}: ${candidate % layout.size}`)];
  });
  const isOpen = pattern.length > 0 && pattern.every((candidate) => givens[cellOf(layout, candidate)] === 0);
  return isOpen && met.every((one) => met.filter((other) => other === one).length === 2);
}

/** Why the facts of an argument, as they stand in the position, do not support its conclusions; null: they do. */
function refusalOf(position: Position, argument: Argument, token?: OneSolutionToken): Verdict | null {
  const { layout, candidates } = position;
  const { facts, conclusions, assumes, pattern = [] } = argument;
  const refuse = (reason: Refusal, candidate?: Candidate, arrangement?: readonly Candidate[]): Verdict =>
    ({ verdict: 'refused', reason, candidate, arrangement }) as const;
  const lists = facts.map((fact) => placesOf(position, fact));
  if (assumes === 'one-solution') {
    if (!token?.vouchesFor(position) || !isDeadly(position, pattern)) return refuse('not-one-solution');
    const cells = [...new Set(pattern.map((candidate) => cellOf(layout, candidate)))];
    lists.push(cells.flatMap((cell) => placesOf(position, cell)).filter((c) => !pattern.includes(c)));
  }
  const alone = arrange(layout, lists);
  if (conclusions.kind === 'breaks') return alone && refuse('open', undefined, alone);
  if (!alone || conclusions.candidates.length === 0) return refuse(alone ? 'no-fact-holds-it' : 'breaks');
  for (const x of conclusions.candidates) {
    const strikes = conclusions.kind === 'strikes';
    if (strikes && !(Number.isInteger(x) && candidates.has(x))) return refuse('already-struck', x);
    const way = strikes ? arrange(layout, lists, x) : arrangeRival(layout, lists, facts.length, x);
    if (way === undefined) return refuse('no-fact-holds-it', x);
    if (way) return refuse('open', x, way);
  }
  return null;
}

/** Whether the facts of an argument, as they stand in the position, support its conclusions. */
export function check(position: Position, stated: Argument, token?: OneSolutionToken): Verdict {
  const argument = frozen(stated);
  const { facts, conclusions, assumes } = argument;
  // A fact that is down to one place puts it there: most arguments say this, and there are no ways to look at.
  const places = facts.length === 1 && assumes === 'nothing' ? placesOf(position, facts[0]) : [];
  const isSettled = conclusions.kind === 'placements' && conclusions.candidates === listOf(places);
  const refusal = isSettled ? null : refusalOf(position, argument, token);
  const verdict = conclusions.kind === 'breaks' ? 'breaks' : 'holds';
  return refusal ?? { verdict, checked: new CheckedArgument(seal, position, argument) };
}
