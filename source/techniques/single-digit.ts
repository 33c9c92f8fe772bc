import { factParts } from '../argument/fact.ts';
import { type Argument, placesOf } from '../argument/kernel.ts';
import { list, sayCell, startSentence } from '../argument/words.ts';
import { type Candidate, conflicts, type Digit, type House } from '../grid/layout.ts';
import { digitName } from '../grid/names.ts';
import type { Position } from '../grid/position.ts';
import { sayStruckSee } from './struck-words.ts';

/** What the phrases of patterns of one digit speak of. */
export interface SingleDigit {
  readonly digit: Digit;
  /** The digit as it is written. */
  readonly sign: string;
  /** The houses of the facts, and the live places in each, in the order of the facts. */
  readonly houses: readonly House[];
  readonly places: readonly (readonly Candidate[])[];
  /** What is struck. */
  readonly struck: readonly Candidate[];
  /** Candidates by cell: `r1c2`, `r1c2 and r5c2`. */
  readonly say: (candidates: readonly Candidate[], last?: 'and' | 'or') => string;
}

/** Takes an argument of house facts of one digit apart; null if it is none, or does not strike. */
export function singleDigit(position: Position, argument: Argument): SingleDigit | null {
  const { layout } = position;
  const parts = argument.facts.map((fact) => factParts(layout, fact));
  const houses = parts.flatMap((part) => (part.kind === 'house' ? [part.house] : []));
  const digits = new Set(parts.map((part) => (part.kind === 'house' ? part.digit : 0)));
  const [digit] = digits;
  if (digits.size !== 1 || houses.length !== parts.length || argument.conclusions.kind !== 'strikes')
    return null;
  return {
    digit,
    sign: digitName(digit),
    houses,
    places: argument.facts.map((fact) => placesOf(position, fact)),
    struck: argument.conclusions.candidates,
    say: (candidates, last = 'and') =>
      list(
        candidates.map((candidate) => sayCell(layout, candidate)),
        last,
      ),
  };
}

/** Two facts with two places each, tied by two places that exclude each other: skyscraper and kite. */
export function phraseOfTwoLinks(position: Position, argument: Argument): string | null {
  const shape = singleDigit(position, argument);
  if (!shape || shape.places.some((places) => places.length !== 2) || shape.houses.length !== 2) return null;
  const { sign, places, struck, say } = shape;
  const sees = (a: Candidate, b: Candidate) => conflicts(position.layout, a, b);
  for (const foot of places[0]) {
    for (const other of places[1]) {
      const tops = [...places[0], ...places[1]].filter((place) => place !== foot && place !== other);
      if (!sees(foot, other) || !struck.every((x) => tops.every((top) => sees(x, top)))) continue;
      return `${say([foot, other])} cannot both be ${sign}, so ${say(tops, 'or')} is. ${startSentence(sayStruckSee(position.layout, struck))} both.`;
    }
  }
  return null;
}
