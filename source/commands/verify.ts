import type { Layout } from '../grid/layout.ts';
import { sayNumber, sentence } from '../hint/words.ts';
import { type RefusedStep, type Verified, type VerifiedSoFar, verifyPath } from '../path/verify.ts';
import { safeText } from '../text/safe.ts';
import type { Run, Surroundings } from './command.ts';
import { complain } from './complain.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { sayWithin, withinSeconds } from './in-time.ts';
import { type GridSource, sourceOf, UnreadableInput } from './input.ts';
import { findLayout } from './layouts.ts';
import { fileLimit, sayRaise } from './limits.ts';
import { LineSplitter, type NumberedLine } from './line-splitter.ts';
import type { Mistake } from './mistake.ts';
import { helpFor } from './usage.ts';

const schema = 1;

/** Why a step is refused, after its number. */
function sayReason({ reason, candidate, fact, arrangement }: RefusedStep): string {
  const about = candidate === undefined ? '' : `${safeText(candidate)} `;
  const named = safeText(fact ?? '');
  switch (reason) {
    case 'open':
      return `${about}is left open${fact === undefined ? '' : ` by ${named}`}${arrangement ? `, with ${arrangement.join(' ')}` : ''}`;
    case 'already-struck':
      return `${about}was so before the step${fact === undefined ? '' : `, and ${named} shows nothing new`}`;
    case 'no-fact-holds-it':
      return `${about}is a place of none of its facts${fact === undefined ? '' : `, not of ${named} either`}`;
    case 'not-one-solution':
      return `${about}rests on the grid having one solution, which does not bear it out`;
    case 'breaks':
      return `${about}cannot be shown: its facts${fact === undefined ? '' : `, ${named} among them,`} cannot all be met`;
    case 'cell-taken':
      return `${about}stands on the grid already`;
    case 'wrong-weight':
      return `${about}has another weight than is written there`;
    case 'no-such-fact':
      return `there is no fact ${named} on this layout`;
    case 'repeated-fact':
      return `${named} is given twice among the facts`;
    case 'no-such-conclusion':
      return `${about}is no conclusion of its kind`;
    case 'no-step':
      return `${about}cannot be read`;
    case 'not-solved':
      return 'the steps do not end in a full grid';
  }
}

function sayAccepted(steps: number, accepted: number): string {
  if (steps === 0) return 'there are no steps';
  if (steps === 1) return `the only step is ${accepted === 1 ? 'accepted' : 'refused'}`;
  const count = accepted === steps ? 'all' : `${sayNumber(accepted)} of`;
  return `${count} ${sayNumber(steps)} steps accepted`;
}

/** What `verify` says of a path: as text, one line a refused step. */
export const verifiedText = ({ steps, accepted, refused }: Verified): string[] => [
  sentence(sayAccepted(steps, accepted)),
  ...sayRefused(refused),
];

const sayRefused = (refused: readonly RefusedStep[]): string[] =>
  refused.map((one) => {
    const why = sayReason(one);
    return sentence(one.step === 0 ? why : `step ${one.step}: ${why}`);
  });

/** What `verify` says where time ran out: what has come of the steps that were judged. */
export function verifiedSoFar(soFar: VerifiedSoFar, seconds: number) {
  const { steps, judged, accepted, refused } = soFar;
  return {
    json: { schema, ...soFar, stopped: seconds },
    lines: [
      sentence(`${judged} of ${steps} steps judged ${sayWithin(seconds)}, ${accepted} of them accepted`),
      ...sayRefused(refused),
    ],
  };
}

/** One path's answer, on the layout given or that it says, so far as there was time, or what is wrong with its text. */
function answer(
  layout: Layout | undefined,
  text: string,
  seconds: number,
): Verified | VerifiedSoFar | { readonly message: string } {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    return { message: `this is no JSON: ${safeText(error instanceof Error ? error.message : '')}` };
  }
  let soFar = (): VerifiedSoFar => ({ steps: 0, judged: 0, accepted: 0, refused: [] });
  const watch = (known: () => VerifiedSoFar) => {
    soFar = known;
  };
  return withinSeconds(seconds, () => verifyPath(layout, value, watch))?.value ?? soFar();
}

/** What `verify --json` prints for a path. Throws where the text is no path. */
export function verifyJson(text: string, layout?: Layout): Record<string, unknown> {
  const verified = answer(layout, text, 60);
  if ('judged' in verified) throw new Error('out of time');
  if ('message' in verified) throw new Error(verified.message);
  return jsonOf(verified);
}

const jsonOf = (verified: Verified) => ({ schema, ...verified });

/** A path as it stands in the input, or why it is not read. */
interface PathText {
  readonly place: string;
  readonly text: string;
}

const isTooLong = (text: string): boolean => text.length > fileLimit.most;

/** The one text of a source, of which no more is read than may be. */
async function* wholeText({ name, chunks }: GridSource): AsyncGenerator<PathText> {
  let text = '';
  for await (const chunk of chunks) {
    text += chunk;
    if (isTooLong(text)) break;
  }
  yield { place: name, text };
}

/** Each line of a source that is not blank, as soon as it is there. */
async function* eachLine({ name, chunks }: GridSource): AsyncGenerator<PathText> {
  const splitter = new LineSplitter(fileLimit.most);
  const filled = ({ line, number }: NumberedLine): PathText[] =>
    line.trim() === '' ? [] : [{ place: `${name}:${number}`, text: line }];
  for await (const chunk of chunks) {
    for (const line of splitter.push(chunk)) yield* filled(line);
  }
  for (const line of splitter.end()) yield* filled(line);
}

async function verifyEach(
  layout: Layout | undefined,
  texts: AsyncIterable<PathText>,
  { asJson, seconds, nothing }: { asJson: boolean; seconds: number; nothing: Mistake },
  surroundings: Surroundings,
): Promise<ExitCode> {
  let read = 0;
  let negatives = 0;
  let bad = 0;
  for await (const { place, text } of texts) {
    read += 1;
    if (isTooLong(text)) {
      bad += 1;
      const most = fileLimit.most.toLocaleString('en-US');
      await complain(
        { place, message: `it has more than ${most} characters`, next: sayRaise(fileLimit) },
        surroundings,
      );
      continue;
    }
    const verified = answer(layout, text, seconds);
    if ('judged' in verified) {
      negatives += 1;
      const next = '--seconds N allows for more';
      await complain(
        { place, message: `not all steps were judged ${sayWithin(seconds)}`, next },
        surroundings,
      );
      const { json, lines } = verifiedSoFar(verified, seconds);
      for (const line of asJson ? [JSON.stringify(json)] : lines) {
        if (!(await surroundings.results.line(line))) return exitCodes.yes;
      }
      continue;
    }
    if ('message' in verified) {
      bad += 1;
      const next = "'inkling path --json' makes one";
      await complain({ place, message: verified.message, next }, surroundings);
      continue;
    }
    if (verified.refused.length > 0) negatives += 1;
    for (const line of asJson ? [JSON.stringify(jsonOf(verified))] : verifiedText(verified)) {
      if (!(await surroundings.results.line(line))) return exitCodes.yes;
    }
  }
  if (read === 0) return complain(nothing, surroundings);
  if (bad === read) return exitCodes.usage;
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
  const asked = flags.get('layout');
  const layout = asked === undefined ? undefined : await findLayout(asked, surroundings.packageRoot);
  if (layout !== undefined && 'message' in layout) return complain(layout, surroundings);
  const seconds = Number(flags.get('seconds'));
  const source = sourceOf(operand ?? '-', surroundings.stdin);
  const isMany = flags.has('jsonl');
  const nothing: Mistake = { place: source.name, message: 'there is no path', next: helpFor(command) };
  const how = { asJson: isMany || flags.has('json'), seconds, nothing };
  try {
    return await verifyEach(layout, isMany ? eachLine(source) : wholeText(source), how, surroundings);
  } catch (error) {
    if (error instanceof UnreadableInput) return complain(error.mistake, surroundings);
    throw error;
  }
};
