import { decideCapabilities, sayObstacle } from '../platform/capabilities.ts';
import { openTerminal } from '../platform/open-terminal.ts';
import { openTerminalLine } from '../platform/terminal-line.ts';
import { terminfoColours } from '../platform/terminfo.ts';
import { runWorkbench } from '../terminal/run-workbench.ts';
import type { Services } from '../terminal/services.ts';
import { copyToClipboard } from './clipboard.ts';
import type { Asked, Surroundings } from './command.ts';
import { complain } from './complain.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { systemLater } from './kept-sheet.ts';
import { pasteLimit } from './limits.ts';
import { internalError, sayMistake } from './mistake.ts';
import { openSheet, shelfOf } from './open-sheet.ts';
import { runProgram } from './program.ts';
import { SheetTable } from './sheet-table.ts';
import { Thinker } from './thinker.ts';
import { readWishes } from './wishes.ts';

/** Opens a grid in the workbench and stays until it is quit. */
export const run = async (invocation: Asked, surroundings: Surroundings): Promise<ExitCode> => {
  // Without a screen it is another script, which has the engine in it.
  if (invocation.flags.has('plain')) return (await import('./plain.ts')).run(invocation, surroundings);
  const { environment } = surroundings;
  const wishes = await readWishes(invocation, environment);
  if (!('settings' in wishes)) {
    for (const mistake of wishes) await complain(mistake, surroundings);
    return exitCodes.usage;
  }
  const line = openTerminalLine();
  const can = decideCapabilities({
    env: environment,
    flags: {
      color: wishes.colour,
      ascii: wishes.ascii,
    },
    terminfo: (term) => terminfoColours(term, environment),
    isTTY: {
      keys: line !== undefined,
      stdout: line?.hasScreen ?? process.stdout.isTTY === true,
      get stderr() {
        return process.stderr.isTTY === true;
      },
    },
  });
  if (can.obstacle !== undefined || line === undefined) {
    await surroundings.notices.line(sayObstacle(can.obstacle ?? 'stdin'));
    line?.close();
    return exitCodes.usage;
  }
  const opened = await openSheet(invocation, surroundings);
  if ('message' in opened) {
    line.close();
    return complain(opened, surroundings);
  }
  const table = new SheetTable(shelfOf(surroundings), opened);
  let thinker: Thinker | undefined;
  const services: Services = {
    think: (asking, hear) => {
      thinker ??= new Thinker(new URL('dist/think-worker.js', surroundings.packageRoot), {
        granted: wishes.granted,
        seconds: wishes.seconds,
      });
      thinker.think(asking, hear);
    },
    stop: () => thinker?.stop(),
    copy: (text) => copyToClipboard(text, 1, environment),
    keeper: table,
    table,
    later: systemLater,
  };
  const terminal = openTerminal({
    line,
    escapeWaitMs: can.escapeWaitMs,
    pasteLimit: pasteLimit.most,
    describeCrash: (error) => sayMistake(internalError(error)).join('\n'),
  });
  terminal.beforeExit(() => table.close());
  if (wishes.mouse) terminal.setMouse(true);
  try {
    const code = await runWorkbench({
      terminal,
      sheet: opened.sheet,
      services,
      greeting: opened.greeting,
      theme: {
        depth: can.stdoutColour,
        background: can.background,
        linuxConsole: environment.TERM === 'linux',
      },
      settings: wishes.settings,
      ascii: !can.unicode,
      digits: wishes.digits,
    });
    thinker?.close();
    await terminal.close();
    return code === 0 ? exitCodes.yes : exitCodes.interrupted;
  } catch (error) {
    // Ends the process by itself, with exit code 1, once the terminal has been given back.
    terminal.crash(error);
    return exitCodes.no;
  }
};

/** Opens what the one word of a command line names, if there is one. Nothing that reads flags need be loaded. */
export const start = (): Promise<void> =>
  runProgram((operands, surroundings) => run({ operands, flags: new Map() }, surroundings));
