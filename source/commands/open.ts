import { parse as parsePath } from 'node:path';
import { plain } from '../grid/layout.ts';
import type { NamedGrid } from '../grid/read.ts';
import { sameHouses } from '../grid/same-houses.ts';
import { argueOnSheet } from '../hint/argue.ts';
import { hintFor } from '../hint/ladder.ts';
import { colourFlags, decideCapabilities, sayObstacle } from '../platform/capabilities.ts';
import { openKeyDevice, openTerminal } from '../platform/open-terminal.ts';
import { isRight } from '../sheet/look-over.ts';
import { newSheet } from '../sheet/sheet.ts';
import { runWorkbench } from '../terminal/run-workbench.ts';
import type { Services } from '../terminal/services.ts';
import { askSheet } from './ask-sheet.ts';
import { copyToClipboard } from './clipboard.ts';
import type { Run, Surroundings } from './command.ts';
import { complain } from './complain.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { type GridInput, gridsIn, sourceOf, UnreadableInput } from './input.ts';
import { findLayout } from './layouts.ts';
import { internalError, type Mistake, sayMistake } from './mistake.ts';
import { shippedPuzzles } from './puzzles.ts';

/** How much of a search *am I right so far?* may take before it says that it does not know. */
const budget = { nodes: 200_000 };

interface Opened {
  readonly named: NamedGrid;
  readonly title: string;
}

/** The first grid of an input, or what is wrong with it. */
async function readFirst(
  operand: string,
  title: string,
  stdin: NodeJS.ReadStream,
): Promise<Opened | Mistake> {
  const grids = gridsIn(sourceOf(operand, stdin));
  try {
    const first = await grids.next();
    // Where the input holds more, the title says so; what comes after is not read.
    const more: IteratorResult<GridInput> = await grids.next();
    await grids.return(undefined);
    if (first.done) return { message: 'there is no grid' };
    if (first.value.kind === 'bad') return first.value.mistake;
    const { named } = first.value;
    const name = named.name ?? title;
    return { named, title: more.done ? name : `${name} (first of several)` };
  } catch (error) {
    if (error instanceof UnreadableInput) return error.mistake;
    throw error;
  }
}

function readOperand(
  operand: string | undefined,
  { stdin, packageRoot }: Surroundings,
): Promise<Opened | Mistake> {
  if (operand === undefined) {
    const [path] = shippedPuzzles(packageRoot);
    if (path !== undefined) return readFirst(path, parsePath(path).name, stdin);
    return Promise.resolve({
      message: 'the puzzles that come with the program are missing',
      next: 'name a file: inkling FILE',
    });
  }
  if (operand === '-' && stdin.isTTY) {
    return Promise.resolve({
      message: "'-' reads the grid from stdin, but stdin is the terminal",
      next: 'pipe a grid in, or name a file: inkling FILE',
    });
  }
  const isName = operand !== '-' && sourceOf(operand, stdin).name !== 'GRID';
  return readFirst(operand, isName ? parsePath(operand).name : '', stdin);
}

/** Opens a grid in the workbench and stays until it is quit. */
export const run: Run = async ({ operands, flags }, surroundings): Promise<ExitCode> => {
  const { stdin, environment, notices } = surroundings;
  const layout = await findLayout(flags.get('layout') ?? plain.name, surroundings.packageRoot);
  if ('message' in layout) return complain(layout, surroundings);
  if (!sameHouses(layout, plain)) {
    return complain(
      {
        message: `the workbench can not draw the layout '${layout.name}': it draws the plain one of 9 by 9 alone`,
        next: 'check, hint, convert and make take every layout',
      },
      surroundings,
    );
  }
  const keyDevice = openKeyDevice(stdin);
  const can = decideCapabilities({
    env: environment,
    flags: {
      color: colourFlags.find((flag) => flag === flags.get('color')),
      ascii: flags.has('ascii'),
    },
    isTTY: {
      keys: keyDevice !== undefined,
      stdout: process.stdout.isTTY === true,
      stderr: process.stderr.isTTY === true,
    },
  });
  const leaveKeys = () => {
    if (keyDevice !== undefined && keyDevice !== stdin) keyDevice.destroy();
  };
  if (can.obstacle !== undefined || keyDevice === undefined) {
    await notices.line(sayObstacle(can.obstacle ?? 'stdin'));
    leaveKeys();
    return exitCodes.usage;
  }
  const opened = await readOperand(operands[0], surroundings);
  if ('message' in opened) {
    leaveKeys();
    return complain(opened, surroundings);
  }
  const { grid } = opened.named;
  const services: Services = {
    findHint: hintFor,
    argue: argueOnSheet,
    ask: askSheet,
    isRight: (state) => isRight(state, budget),
    copy: (text) => copyToClipboard(text, process.stdout.fd, environment),
  };
  const terminal = openTerminal({
    keyDevice,
    stdout: process.stdout,
    escapeWaitMs: can.escapeWaitMs,
    describeCrash: (error) => sayMistake(internalError(error)).join('\n'),
  });
  try {
    const code = await runWorkbench({
      terminal,
      sheet: newSheet(grid.layout, grid.givens, opened.title, grid.marks),
      services,
      theme: {
        depth: can.stdoutColour,
        background: can.background,
        linuxConsole: environment.TERM === 'linux',
      },
      ascii: !can.unicode,
    });
    await terminal.close();
    return code === 0 ? exitCodes.yes : exitCodes.interrupted;
  } catch (error) {
    // Ends the process by itself, with exit code 1, once the terminal has been given back.
    terminal.crash(error);
    return exitCodes.no;
  }
};
