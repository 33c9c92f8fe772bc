import { viewOf } from '../sheet/view.ts';
import { PlainSession, type Spoken } from '../terminal/plain/plain-session.ts';
import type { Asked, Surroundings } from './command.ts';
import { complain } from './complain.ts';
import { engineHere } from './engine-here.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { pasteLimit } from './limits.ts';
import { LineSplitter } from './line-splitter.ts';
import { openSheet, shelfOf } from './open-sheet.ts';
import type { OpenedSheet } from './resume.ts';
import { SheetTable } from './sheet-table.ts';
import { printsUnicode } from './signed-lines.ts';
import { nothingSoFar } from './so-far.ts';
import { thinkHere } from './think-here.ts';
import { readWishes, type Wishes } from './wishes.ts';

/**
 * The workbench without a screen: lines from stdin, sentences to stdout, nothing moved or drawn over. Ends with
 * the input or with `quit`. Exit code 1 where a script had lines that could not be read.
 */
export const run = async (invocation: Asked, surroundings: Surroundings): Promise<ExitCode> => {
  const wishes = await readWishes(invocation, surroundings.environment);
  if (!('settings' in wishes)) {
    for (const mistake of wishes) await complain(mistake, surroundings);
    return exitCodes.usage;
  }
  if (invocation.operands[0] === '-') {
    const message = "with --plain stdin has the lines, so '-' cannot have the grid";
    return complain({ message, next: 'name a file' }, surroundings);
  }
  const opened = await openSheet(invocation, surroundings);
  if ('message' in opened) return complain(opened, surroundings);
  const ascii = wishes.ascii || !printsUnicode(surroundings);
  return listen(opened, { ...wishes, ascii }, surroundings);
};

async function listen(
  opened: OpenedSheet,
  { settings, granted, ascii, seconds }: Wishes,
  surroundings: Surroundings,
): Promise<ExitCode> {
  const { stdin, results } = surroundings;
  const table = new SheetTable(shelfOf(surroundings), opened);
  const soFar = nothingSoFar();
  const session = new PlainSession(opened.sheet, settings, engineHere(granted, soFar), {
    keeper: table,
    pasteLimit: pasteLimit.most,
    answer: (asking, answer) =>
      thinkHere(
        { ...asking, view: 'view' in asking ? asking.view : viewOf(asking.state) },
        soFar,
        seconds,
        answer,
      ),
  });
  // Somebody who types sees when the next line may come; a script has no use for it.
  const isTyped = stdin.isTTY === true && results.isTerminal;
  const prompt = () => {
    if (isTyped && !session.isPasting) process.stdout.write(': ');
  };
  // Only what somebody has typed or named can hold other signs.
  const say = (line: string) => results.line(ascii ? line.replace(/[^ -~]/gu, '?') : line);
  let wrong = 0;
  const tell = async ({ lines, isWrong }: Spoken): Promise<void> => {
    if (isWrong) wrong += 1;
    for (const line of lines) await say(line);
  };
  for (const line of [...opened.greeting, ...session.greeting()]) await say(line);
  prompt();
  const splitter = new LineSplitter();
  stdin.setEncoding('utf8');
  stdin.resume();
  const over = () => results.closed;
  const take = async (lines: Iterable<{ readonly line: string }>): Promise<number | null> => {
    for (const { line } of lines) {
      const spoken = session.line(line);
      await tell(spoken);
      if (spoken.quit !== null || over()) return spoken.quit ?? exitCodes.pipeClosed;
      prompt();
    }
    return null;
  };
  try {
    let quit: number | null = null;
    for await (const piece of stdin) {
      quit = await take(splitter.push(String(piece)));
      if (quit !== null) break;
    }
    quit ??= await take(splitter.end());
    if (quit === null) await tell(session.end());
    if (quit === exitCodes.interrupted) return exitCodes.interrupted;
  } finally {
    table.close();
    stdin.pause();
  }
  return wrong > 0 && stdin.isTTY !== true ? exitCodes.no : exitCodes.yes;
}
