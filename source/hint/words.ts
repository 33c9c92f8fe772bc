import { startSentence } from '../argument/words.ts';
import { type Candidate, cellOf, type Digit, digitOf, type Layout } from '../grid/layout.ts';
import { cellName } from '../grid/names.ts';

const numbers = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'];

/** `one` to `ten` in words, then in figures. */
export const sayNumber = (count: number): string => numbers[count] ?? String(count);

/** `one fact`, `two facts`, `12 facts`. */
export const sayFacts = (count: number): string => `${sayNumber(count)} ${count === 1 ? 'fact' : 'facts'}`;

/** A sentence starts with a capital; cells, houses and digits stay as they are. */
export const sentence = (words: string): string => startSentence(/[.:]$/.test(words) ? words : `${words}.`);

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
