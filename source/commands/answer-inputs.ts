import type { NamedGrid } from '../grid/read.ts';
import type { Answer } from './answer.ts';
import type { GridInput } from './input.ts';
import type { Mistake } from './mistake.ts';
import { wholeWrite } from './output.ts';

/** A line of JSON lines to print, or something bad to tell of. Text ends without a line end. */
export type BlockPart = { readonly text: string } | { readonly mistake: Mistake };

/** How many grids were answered, how many of them in the negative, and how many lines were bad. */
export interface Tally {
  readonly answered: number;
  readonly negatives: number;
  readonly bad: number;
}

export const emptyTally: Tally = { answered: 0, negatives: 0, bad: 0 };

export const addTallies = (a: Tally, b: Tally): Tally => ({
  answered: a.answered + b.answered,
  negatives: a.negatives + b.negatives,
  bad: a.bad + b.bad,
});

/**
 * Answers each grid with a line of JSON, in order; lines go together where that loses no time.
 * `now` tells milliseconds: an answer waits for others no longer than `patience`, and the time that the next takes. Returns the tally.
 */
export function* answerInputs(
  inputs: Iterable<GridInput>,
  answer: (named: NamedGrid) => Answer,
  now: () => number,
  patience = 50,
): Generator<BlockPart, Tally> {
  let [answered, negatives, bad] = [0, 0, 0];
  let lines: string[] = [];
  let length = 0;
  let since = now();
  const flush = (): BlockPart => {
    const text = lines.join('\n');
    lines = [];
    length = 0;
    since = now();
    return { text };
  };
  for (const input of inputs) {
    if (input.kind === 'bad') {
      bad += 1;
      if (lines.length > 0) yield flush();
      yield { mistake: input.mistake };
      continue;
    }
    const { json, negative } = answer(input.named);
    const line = JSON.stringify(json);
    answered += 1;
    if (negative) negatives += 1;
    if (lines.length > 0 && length + line.length > wholeWrite) yield flush();
    lines.push(line);
    length += line.length + 1;
    if (now() - since > patience) yield flush();
  }
  if (lines.length > 0) yield flush();
  return { answered, negatives, bad };
}
