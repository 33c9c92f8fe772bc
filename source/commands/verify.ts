import { type Layout, plain } from '../grid/layout.ts';
import { sayNumber, sentence } from '../hint/words.ts';
import { type RefusedStep, type Verified, verifyPath } from '../path/verify.ts';
import { safeText } from '../text/safe.ts';
import type { Run, Surroundings } from './command.ts';
import { complain } from './complain.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { sourceOf, UnreadableInput } from './input.ts';
import { findLayout } from './layouts.ts';
import { helpFor } from './usage.ts';

const schema = 1;

/** Why a step is refused, after its number. */
function sayReason({ reason, candidate, fact, arrangement }: RefusedStep): string {
  const about = candidate === undefined ? '' : `${safeText(candidate)} `;
  const by = fact === undefined ? '' : ` by ${safeText(fact)}`;
  switch (reason) {
    case 'open':
      return `${about}is left open${by}${arrangement ? `, with ${arrangement.join(' ')}` : ''}`;
    case 'already-struck':
      return `${about}had gone before${by}`;
    case 'no-fact-holds-it':
      return `${about}is in none of the facts${by}`;
    case 'not-one-solution':
      return `${about}rests on one solution, and that is not known${by}`;
    case 'breaks':
      return `${about}can not be shown: the facts can not all be met${by}`;
    case 'cell-taken':
      return `${about}stands on the grid already${by}`;
    case 'wrong-weight':
      return `${about}does not have the weight that is written there${by}`;
    case 'no-such-fact':
      return `there is no fact ${safeText(fact ?? '')}`;
    case 'no-such-conclusion':
      return `${about}is no conclusion of its kind`;
    case 'no-step':
      return `${about}can not be read`;
    case 'not-solved':
      return 'the steps do not end in a full grid';
  }
}

/** What `verify` says of a path: as text, one line a refused step. */
export function verifiedText({ steps, accepted, refused }: Verified): string[] {
  const count = `${sayNumber(steps)} ${steps === 1 ? 'step' : 'steps'}`;
  if (refused.length === 0) return [sentence(`all of ${count} accepted`)];
  return [
    sentence(`${sayNumber(accepted)} of ${count} accepted`),
    ...refused.map((one) =>
      sentence(one.step === 0 ? sayReason(one) : `step ${one.step}: ${sayReason(one)}`),
    ),
  ];
}

/** One path's answer, or what is wrong with its text. */
function answer(layout: Layout, text: string): Verified | { readonly message: string } {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    return { message: `this is no JSON: ${safeText(error instanceof Error ? error.message : '')}` };
  }
  return verifyPath(layout, value);
}

/** What `verify --json` prints for a path. Throws where the text is no path. */
export function verifyJson(text: string, layout: Layout = plain): Record<string, unknown> {
  const verified = answer(layout, text);
  if ('message' in verified) throw new Error(verified.message);
  return jsonOf(verified);
}

const jsonOf = (verified: Verified) => ({ schema, ...verified });

async function verifyEach(
  layout: Layout,
  texts: readonly { readonly place: string; readonly text: string }[],
  asJson: boolean,
  surroundings: Surroundings,
): Promise<ExitCode> {
  let negatives = 0;
  let bad = 0;
  for (const { place, text } of texts) {
    const verified = answer(layout, text);
    if ('message' in verified) {
      bad += 1;
      await complain(
        { place, message: verified.message, next: "'inkling path --json' makes one" },
        surroundings,
      );
      continue;
    }
    if (verified.refused.length > 0) negatives += 1;
    for (const line of asJson ? [JSON.stringify(jsonOf(verified))] : verifiedText(verified)) {
      if (!(await surroundings.results.line(line))) return exitCodes.yes;
    }
  }
  if (bad === texts.length) return exitCodes.usage;
  return bad + negatives > 0 ? exitCodes.no : exitCodes.yes;
}

/** Reads one path, or with `--jsonl` one a line. */
export const run: Run = async (invocation, surroundings) => {
  const { command, operands, flags } = invocation;
  if (flags.has('json') && flags.has('jsonl')) {
    const mistake = { message: '--json and --jsonl are both given', next: 'give one of them' };
    return complain(mistake, surroundings);
  }
  const [operand] = operands;
  if (operand === undefined && surroundings.stdin.isTTY) {
    return complain({ message: `'inkling verify' needs a file`, next: helpFor(command) }, surroundings);
  }
  const layout = await findLayout(flags.get('layout') ?? plain.name, surroundings.packageRoot);
  if ('message' in layout) return complain(layout, surroundings);
  const source = sourceOf(operand ?? '-', surroundings.stdin);
  let text = '';
  try {
    for await (const chunk of source.chunks) text += chunk;
  } catch (error) {
    if (error instanceof UnreadableInput) return complain(error.mistake, surroundings);
    throw error;
  }
  if (!flags.has('jsonl')) {
    return verifyEach(layout, [{ place: source.name, text }], flags.has('json'), surroundings);
  }
  const lines = text.split('\n').flatMap((line, index) => {
    return line.trim() === '' ? [] : [{ place: `${source.name}:${index + 1}`, text: line }];
  });
  if (lines.length === 0) {
    return complain(
      { place: source.name, message: 'there is no path', next: helpFor(command) },
      surroundings,
    );
  }
  return verifyEach(layout, lines, true, surroundings);
};
