import { randomInt } from 'node:crypto';
import { generate, type Symmetry } from '../exact/generate.ts';
import { seededRandom } from '../exact/random.ts';
import { type Layout, plain } from '../grid/layout.ts';
import { findGridForm, type GridForm, gridForms, writeGrid } from '../grid/write.ts';
import type { Run } from './command.ts';
import { complain } from './complain.ts';
import { exitCodes } from './exit-codes.ts';
import { lineOf } from './grid-text.ts';
import { sayWithin, withinSeconds } from './in-time.ts';
import { findLayout } from './layouts.ts';

/** What decides which puzzles are made: the same of it makes the same puzzles. */
export interface MakeOptions {
  readonly layout: Layout;
  /** From 0 to 2^32 - 1. */
  readonly seed: number;
  readonly symmetry: Symmetry;
}

/** A puzzle in its form, and what JSON says of it. */
export interface MadePuzzle {
  readonly json: Readonly<Record<string, unknown>>;
  readonly lines: readonly string[];
}

/** The puzzles of a seed, one after the other, without end. Throws a RangeError where no grid fits the layout. */
export function* makePuzzles(
  { layout, seed, symmetry }: MakeOptions,
  form: GridForm,
): Generator<MadePuzzle, never> {
  const random = seededRandom(seed);
  for (let number = 1; ; number += 1) {
    const { givens, solution } = generate(layout, random, symmetry);
    const grid = { layout, givens: Array.from(givens) };
    yield {
      json: {
        schema: 1,
        puzzle: lineOf(givens),
        givens: grid.givens.filter((digit) => digit !== 0).length,
        solution: lineOf(solution),
        symmetry,
        seed,
        number,
      },
      lines: writeGrid(form, grid).replace(/\n$/, '').split('\n'),
    };
  }
}

const seedLimit = 2 ** 32;

export const run: Run = async ({ flags }, surroundings) => {
  const { results, notices } = surroundings;
  const [json, jsonl] = [flags.has('json'), flags.has('jsonl')];
  if (json && jsonl) {
    return complain({ message: '--json and --jsonl are both given', next: 'give one of them' }, surroundings);
  }
  const count = Number(flags.get('count'));
  if (json && count > 1) {
    return complain(
      {
        message: `--json prints one object, and --count asks for ${count} puzzles`,
        next: 'with --jsonl each puzzle gets an object on a line of its own',
      },
      surroundings,
    );
  }
  const layout = await findLayout(flags.get('layout') ?? plain.name, surroundings.packageRoot);
  if ('message' in layout) return complain(layout, surroundings);
  const asked = flags.get('seed');
  const seed = asked === undefined ? randomInt(seedLimit) : Number(asked);
  if (asked === undefined) await notices.line(`inkling: seed ${seed}`);
  const form = findGridForm(flags.get('form') ?? '') ?? gridForms[0];
  // The command line has been checked against the very list of these names.
  const symmetry = flags.get('symmetry') as Symmetry;
  const between = json || jsonl || form.name === 'line' ? [] : [''];
  let made = 0;
  const seconds = Number(flags.get('seconds'));
  const puzzles = makePuzzles({ layout, seed, symmetry }, form);
  for (;;) {
    const next = withinSeconds(seconds, () => puzzles.next());
    if (!next) {
      const message = `puzzle ${made + 1} of seed ${seed} was not made ${sayWithin(seconds)}`;
      await complain(
        { message, next: '--seconds N allows for more, another --seed may be quicker' },
        surroundings,
      );
      return exitCodes.no;
    }
    const puzzle = next.value.value;
    const lines = json || jsonl ? [JSON.stringify(puzzle.json)] : puzzle.lines;
    const going = await results.line([...(made > 0 ? between : []), ...lines].join('\n'));
    made += 1;
    if (!going || made === count) break;
  }
  return exitCodes.yes;
};
