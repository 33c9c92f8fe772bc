import { factParts } from '../argument/fact.ts';
import type { Fact } from '../argument/kernel.ts';
import { type Candidate, cellOf, type Digit, digitOf, type Layout } from '../grid/layout.ts';
import { cellName, digitName, sayHouse } from '../grid/names.ts';

const numbers = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'];

/** `one` to `ten` in words, then in figures. */
export const sayNumber = (count: number): string => numbers[count] ?? String(count);

/** `one fact`, `two facts`, `12 facts`. */
export const sayFacts = (count: number): string => `${sayNumber(count)} ${count === 1 ? 'fact' : 'facts'}`;

/** A sentence starts with a capital; cells, houses and digits stay as they are. */
export const sentence = (words: string): string => {
  const dotted = /[.:]$/.test(words) ? words : `${words}.`;
  return /^[rcb]\d/.test(dotted) ? dotted : dotted.charAt(0).toUpperCase() + dotted.slice(1);
};

/** `a`, `a and b`, `a, b and c`. */
export function inARow(words: readonly string[], last: 'and' | 'or' = 'and'): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} ${last} ${words[words.length - 1]}`;
}

/** `r2c3 r2c7`: cells one after the other. */
export const cellsInARow = (layout: Layout, candidates: readonly Candidate[]): string =>
  candidates.map((candidate) => cellName(layout, cellOf(layout, candidate))).join(' ');

/** Candidates gathered by digit, digits ascending. */
export function byDigit(layout: Layout, candidates: readonly Candidate[]): [Digit, Candidate[]][] {
  const groups = new Map<Digit, Candidate[]>();
  for (const candidate of candidates) {
    const digit = digitOf(layout, candidate);
    groups.set(digit, [...(groups.get(digit) ?? []), candidate]);
  }
  return [...groups.entries()].sort(([a], [b]) => a - b);
}

/** A place of a fact, as short as it can be within the fact: `r5` in a column, `r5c8` in a box, `6` in a cell. */
export function sayPlace(layout: Layout, fact: Fact, candidate: Candidate): string {
  const parts = factParts(layout, fact);
  const cell = cellOf(layout, candidate);
  if (parts.kind === 'cell') return digitName(digitOf(layout, candidate));
  if (parts.house.kind === 'row') return `c${(cell % layout.size) + 1}`;
  if (parts.house.kind === 'column') return `r${Math.floor(cell / layout.size) + 1}`;
  return cellName(layout, cell);
}

/** What a fact is about, without its places: `1 of column 1`, `r4c8`. */
export function sayTopic(layout: Layout, fact: Fact): string {
  const parts = factParts(layout, fact);
  return parts.kind === 'cell'
    ? cellName(layout, parts.cell)
    : `${digitName(parts.digit)} of ${sayHouse(parts.house)}`;
}

/** A whole fact: `1 of column 1: r2 or r5`, `r4c8 is 1 or 6`, with the places given. */
export function sayFact(layout: Layout, fact: Fact, places: readonly Candidate[]): string {
  const where = inARow(
    places.map((candidate) => sayPlace(layout, fact, candidate)),
    'or',
  );
  const topic = sayTopic(layout, fact);
  if (places.length === 0) return `${topic}: nothing left`;
  return factParts(layout, fact).kind === 'cell' ? `${topic} is ${where}` : `${topic}: ${where}`;
}
