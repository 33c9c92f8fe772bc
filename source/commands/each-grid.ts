import type { Layout } from '../grid/layout.ts';
import type { NamedGrid } from '../grid/read.ts';
import type { Answer } from './answer.ts';
import type { Invocation, Surroundings } from './command.ts';
import { complain } from './complain.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { sayOutOfTime, withinSeconds } from './in-time.ts';
import { type GridInput, gridsIn, UnreadableInput } from './input.ts';
import { openOnLayout } from './layouts.ts';
import { answerLines, type ManyLinesOptions } from './many-lines.ts';
import type { Mistake } from './mistake.ts';
import { helpFor, usageLine } from './usage.ts';

export type { Answer } from './answer.ts';

export interface EachGridOptions {
  /** What is said of a grid for which `--seconds` were not enough: what is known then. */
  readonly unfinished?: (named: NamedGrid, seconds: number) => Answer;
  /** Whether the text form takes many grids too; `between` stands between two of them. */
  readonly manyInText?: { readonly between: readonly string[] };
  /** With it, `--jsonl` answers by blocks of lines, on several threads where there are many. */
  readonly threads?: Pick<ManyLinesOptions, 'jobs' | 'startCrew'>;
}

/**
 * Runs a command over its input: one grid as text or with `--json`, any number with `--jsonl`, each answered
 * before the next is read.
 */
export const eachGrid = (
  invocation: Invocation,
  surroundings: Surroundings,
  answer: (named: NamedGrid) => Answer,
  options: EachGridOptions = {},
): Promise<ExitCode> => eachGridOn(invocation, surroundings, () => answer, options);

/** The same for a command that must know the layout before it can say what it answers, or that it can't. */
export async function eachGridOn(
  invocation: Invocation,
  surroundings: Surroundings,
  answerOn: (layout: Layout) => ((named: NamedGrid) => Answer) | Mistake,
  options: EachGridOptions = {},
): Promise<ExitCode> {
  const { command, operands, flags } = invocation;
  const { results } = surroundings;
  if (flags.has('json') && flags.has('jsonl')) {
    const mistake = { message: '--json and --jsonl are both given', next: 'give one of them' };
    return complain(mistake, surroundings);
  }
  const [operand] = operands;
  if (operand === undefined && surroundings.stdin.isTTY) {
    const mistake = {
      message: `'inkling ${command.name}' has nothing to read: name a file, - for stdin, or a grid`,
      next: `${usageLine(command)}\n${helpFor(command)}`,
    };
    return complain(mistake, surroundings);
  }
  const readsStdin = operand === undefined || operand === '-';
  if (readsStdin) results.onClose(() => surroundings.stdin.destroy());
  // Made where it is read, which takes a moment.
  const stdin = { [Symbol.asyncIterator]: () => surroundings.stdin[Symbol.asyncIterator]() };
  try {
    const opened = await openOnLayout(operand ?? '-', stdin, flags.get('layout'), surroundings.packageRoot);
    if ('message' in opened) return complain(opened, surroundings);
    const { layout, source } = opened;
    const whole = answerOn(layout);
    if ('message' in whole) return complain(whole, surroundings);
    const { unfinished } = options;
    const answer = unfinished ? inTime(whole, unfinished, flags) : whole;
    if (flags.has('jsonl') && options.threads) {
      return await answerLines(source, surroundings, { answer, layout, ...options.threads });
    }
    const grids = gridsIn(source, layout);
    if (flags.has('jsonl')) {
      return await answerAll(grids, surroundings, (named) => {
        const { json, negative, notice } = answer(named);
        const lines = [JSON.stringify(json)];
        return { json, lines, negative, ...(notice !== undefined && { notice }) };
      });
    }
    if (options.manyInText && !flags.has('json')) {
      return await answerAll(grids, surroundings, answer, options.manyInText.between);
    }
    return await answerOne(grids, invocation, surroundings, source.name, answer);
  } catch (error) {
    if (error instanceof UnreadableInput) return complain(error.mistake, surroundings);
    throw error;
  }
}

/** Answers within the time that there is for a grid; where that is not enough, what is known says so. */
function inTime(
  answer: (named: NamedGrid) => Answer,
  unfinished: (named: NamedGrid, seconds: number) => Answer,
  flags: Invocation['flags'],
): (named: NamedGrid) => Answer {
  const seconds = Number(flags.get('seconds'));
  const asJson = flags.has('json') || flags.has('jsonl');
  return (named) => {
    const done = withinSeconds(seconds, () => {
      const whole = answer(named);
      // What is put into words only when it is asked for takes its time too.
      return asJson ? whole : { ...whole, lines: whole.lines };
    });
    if (done) return done.value;
    const known = unfinished(named, seconds);
    return {
      ...known,
      json: { ...known.json, stopped: seconds },
      negative: true,
      notice: sayOutOfTime(seconds),
    };
  };
}

async function answerOne(
  grids: AsyncGenerator<GridInput>,
  { command, flags }: Invocation,
  surroundings: Surroundings,
  sourceName: string,
  answer: (named: NamedGrid) => Answer,
): Promise<ExitCode> {
  const { value: first } = await grids.next();
  if (!first || first.kind === 'bad') {
    await grids.return(undefined);
    return first ? complain(first.mistake, surroundings) : exitCodes.usage;
  }
  const { done } = await grids.next();
  await grids.return(undefined);
  if (!done) {
    const what = flags.has('json') ? '--json prints one object' : `'inkling ${command.name}' answers for one`;
    return complain(
      {
        place: sourceName,
        message: `there is more than one grid, and ${what}`,
        next: 'with --jsonl each grid gets an object on a line of its own',
      },
      surroundings,
    );
  }
  const { json, lines, negative, notice } = answer(first.named);
  if (notice !== undefined) await surroundings.notices.line(`inkling: ${notice}`);
  for (const line of flags.has('json') ? [JSON.stringify(json)] : lines) {
    await surroundings.results.line(line);
  }
  return negative ? exitCodes.no : exitCodes.yes;
}

async function answerAll(
  grids: AsyncGenerator<GridInput>,
  surroundings: Surroundings,
  answer: (named: NamedGrid) => Answer,
  between: readonly string[] = [],
): Promise<ExitCode> {
  const { results, notices } = surroundings;
  let answered = 0;
  let bad = 0;
  let negatives = 0;
  for await (const grid of grids) {
    if (results.closed) break;
    if (grid.kind === 'bad') {
      bad += 1;
      await complain(grid.mistake, surroundings);
      continue;
    }
    const { lines, negative, notice } = answer(grid.named);
    if (notice !== undefined) await notices.line(`inkling: ${notice}`);
    const text = [...(answered > 0 ? between : []), ...lines];
    answered += 1;
    if (negative) negatives += 1;
    if (!(await results.line(text.join('\n')))) break;
  }
  if (answered === 0 && bad > 0) return exitCodes.usage;
  return bad + negatives > 0 ? exitCodes.no : exitCodes.yes;
}
