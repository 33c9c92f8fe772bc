/**
 * The trusted kernel. It decides whether some facts support a conclusion, by looking at every way in which
 * the facts can come out. It knows no technique, and nothing else in the project can make a CheckedArgument:
 *
 *   check(position, argument, token?) → holds | breaks | refused (and why)
 *   placesOf(position, fact)          → the live candidates of a fact
 *   isChecked(value)                  → whether a value came out of `check`
 */
import { type Candidate, cellOf, conflicts, type Layout } from '../grid/layout.ts';
import type { Position } from '../grid/position.ts';

/** An exactly-one statement: `cell` has one digit; `cellCount + house * size + digit - 1`: house has digit. */
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
      /** The conclusion that does not follow. */
      readonly candidate: Candidate | undefined;
      /** With `open`: one candidate a fact, in the order of the facts (the axiom last), that leaves it open. */
      readonly arrangement: readonly Candidate[] | undefined;
    };

const seal = Symbol('made by check');
const frozen = <T>(value: T): T => {
  if (typeof value !== 'object' || value === null) return value;
  const copy = Array.isArray(value)
    ? Array.from(value, (part) => frozen(part))
    : Object.fromEntries(Object.entries(value).map(([key, part]) => [key, frozen(part)]));
  return Object.freeze(copy) as T;
};

/** An argument that the kernel has accepted in a position. */
export class CheckedArgument {
  readonly #sealed: symbol;
  readonly position: Position;
  readonly argument: Argument;
  constructor(key: symbol, position: Position, argument: Argument) {
    if (key !== seal) throw new TypeError('only the kernel makes a CheckedArgument');
    this.#sealed = key;
    this.position = position;
    this.argument = argument;
    Object.freeze(this);
  }
  static isOne = (value: unknown): value is CheckedArgument =>
    typeof value === 'object' && value !== null && #sealed in value && value.#sealed === seal;
}
export const isChecked = CheckedArgument.isOne;

/** The live candidates of a fact, ascending. Throws a RangeError on a number that is no fact of the layout. */
export function placesOf(position: Position, fact: Fact): Candidate[] {
  const { size, cellCount, houses, name } = position.layout;
  if (!Number.isInteger(fact) || fact < 0 || fact >= cellCount + houses.length * size) {
    throw new RangeError(`no fact ${fact} on the ${name} layout`);
  }
  const [house, digit] = [Math.floor((fact - cellCount) / size), (fact - cellCount) % size];
  const all = Array.from({ length: size }, (_, i) =>
    fact < cellCount ? fact * size + i : houses[house].cells[i] * size + digit,
  );
  return all.filter((candidate) => position.candidates.has(candidate));
}

/** One candidate a list, no two in conflict, none with those kept; in the order of the lists. Null: no way. */
function arrange(layout: Layout, lists: Candidate[][], ...kept: Candidate[]): Candidate[] | null {
  const chosen: Candidate[] = new Array(lists.length);
  const settle = (rest: readonly { index: number; places: Candidate[] }[]): boolean => {
    if (rest.length === 0) return true;
    const next = rest.reduce((a, b) => (b.places.length < a.places.length ? b : a));
    return next.places.some((candidate) => {
      chosen[next.index] = candidate;
      const fits = (place: Candidate) => !conflicts(layout, place, candidate);
      const others = rest.filter((list) => list !== next);
      return settle(others.map(({ index, places }) => ({ index, places: places.filter(fits) })));
    });
  };
  const fits = (place: Candidate) => kept.every((candidate) => !conflicts(layout, place, candidate));
  return settle(lists.map((places, index) => ({ index, places: places.filter(fits) }))) ? chosen : null;
}

/**
 * Whether a pattern is deadly: no cell of it is given, each has two digits of it, and each house has each
 * digit of it in no cell or in two. Then, were all its cells to hold digits of the pattern, changing every
 * one to its other digit would leave every house's digits unchanged: a second solution.
 */
function isDeadly(position: Position, pattern: readonly Candidate[]): boolean {
  const { layout, givens } = position;
  const counts = new Map<string, number>();
  const count = (key: string) => counts.set(key, (counts.get(key) ?? 0) + 1);
  for (const candidate of new Set(pattern)) {
    const cell = cellOf(layout, candidate);
    if (givens[cell] !== 0) return false;
    count(`cell ${cell}`);
    for (const house of layout.housesOf[cell]) count(`house ${house} digit ${candidate % layout.size}`);
  }
  return pattern.length > 0 && [...counts.values()].every((n) => n === 2);
}

/** Whether the facts of an argument, as they stand in the position, support its conclusions. */
export function check(position: Position, stated: Argument, token?: OneSolutionToken): Verdict {
  const argument = frozen(stated); // a copy of its own: what is looked at is what is sealed
  const { layout, candidates } = position;
  const { conclusions } = argument;
  const refuse = (reason: Refusal, candidate?: Candidate, arrangement?: readonly Candidate[]): Verdict =>
    ({ verdict: 'refused', reason, candidate, arrangement }) as const;
  const lists = argument.facts.map((fact) => placesOf(position, fact));
  if (argument.assumes === 'one-solution') {
    const pattern = argument.pattern ?? [];
    if (!token?.vouchesFor(position) || !isDeadly(position, pattern)) return refuse('not-one-solution');
    const cells = [...new Set(pattern.map((candidate) => cellOf(layout, candidate)))];
    lists.push(cells.flatMap((cell) => placesOf(position, cell)).filter((c) => !pattern.includes(c)));
  }
  const alone = arrange(layout, lists);
  if (conclusions.kind === 'breaks') {
    if (alone) return refuse('open', undefined, alone);
    return { verdict: 'breaks', checked: new CheckedArgument(seal, position, argument) };
  }
  if (!alone) return refuse('breaks');
  if (conclusions.candidates.length === 0) return refuse('no-fact-holds-it');
  for (const x of conclusions.candidates) {
    if (conclusions.kind === 'strikes') {
      if (!Number.isInteger(x) || !candidates.has(x)) return refuse('already-struck', x);
      const arrangement = arrange(layout, lists, x);
      if (arrangement) return refuse('open', x, arrangement);
      continue;
    }
    const holding = lists.slice(0, argument.facts.length).filter((places) => places.includes(x));
    if (holding.length === 0) return refuse('no-fact-holds-it', x);
    const rivals = holding.map((list) => list.filter((c) => c !== x).map((c) => arrange(layout, lists, c)));
    if (!rivals.some((found) => found.every((arrangement) => arrangement === null))) {
      return refuse('open', x, rivals.flat().find((arrangement) => arrangement !== null) ?? alone);
    }
  }
  return { verdict: 'holds', checked: new CheckedArgument(seal, position, argument) };
}
