import { colourFlags, decideCapabilities, sayObstacle } from '../platform/capabilities.ts';
import { openKeyDevice, openTerminal } from '../platform/open-terminal.ts';
import {
  colourWanted,
  drawingWanted,
  mouseWanted,
  oneSolutionWanted,
  settingsOf,
} from '../terminal/preferences.ts';
import { runWorkbench } from '../terminal/run-workbench.ts';
import type { Services } from '../terminal/services.ts';
import { themeNames } from '../terminal/settings.ts';
import { copyToClipboard } from './clipboard.ts';
import type { Run } from './command.ts';
import { complain } from './complain.ts';
import { readPreferences } from './config.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { internalError, sayMistake } from './mistake.ts';
import { openSheet } from './open-sheet.ts';
import { Thinker } from './thinker.ts';

/** Opens a grid in the workbench and stays until it is quit. */
export const run: Run = async (invocation, surroundings): Promise<ExitCode> => {
  const { operands, flags } = invocation;
  const { stdin, environment, notices } = surroundings;
  const preferences = await readPreferences(flags.get('config') ?? 'own', environment);
  if (!('bindings' in preferences)) {
    for (const mistake of preferences) await complain(mistake, surroundings);
    return exitCodes.usage;
  }
  const own = settingsOf(preferences);
  const settings = { ...own, theme: themeNames.find((name) => name === flags.get('theme')) ?? own.theme };
  const granted = { oneSolution: flags.get('assume') === 'one-solution' || oneSolutionWanted(preferences) };
  if (flags.has('plain')) {
    if (operands[0] === '-') {
      return complain(
        { message: "with --plain stdin has the lines, so '-' can not have the grid", next: 'name a file' },
        surroundings,
      );
    }
    const opened = await openSheet(invocation, surroundings);
    if ('message' in opened) return complain(opened, surroundings);
    const { runPlain } = await import('./plain.ts');
    return runPlain(opened, settings, granted, surroundings);
  }
  const drawn = drawingWanted(preferences);
  const colour = colourFlags.find((flag) => flag === flags.get('color'));
  const keyDevice = openKeyDevice(stdin);
  const can = decideCapabilities({
    env: environment,
    flags: {
      color: colour === 'auto' ? (colourWanted(preferences) ?? colour) : colour,
      ascii: flags.has('ascii') || drawn.ascii,
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
  const opened = await openSheet(invocation, surroundings);
  if ('message' in opened) {
    leaveKeys();
    return complain(opened, surroundings);
  }
  const thinker = new Thinker(new URL('dist/think-worker.js', surroundings.packageRoot), granted);
  const services: Services = {
    think: thinker.think,
    stop: thinker.stop,
    copy: (text) => copyToClipboard(text, process.stdout.fd, environment),
    keeper: opened.keeper,
  };
  const terminal = openTerminal({
    keyDevice,
    stdout: process.stdout,
    escapeWaitMs: can.escapeWaitMs,
    describeCrash: (error) => sayMistake(internalError(error)).join('\n'),
  });
  terminal.beforeExit(() => opened.close());
  if (mouseWanted(preferences)) terminal.setMouse(true);
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
      settings,
      ascii: !can.unicode,
      digits: drawn.digits,
    });
    thinker.close();
    await terminal.close();
    return code === 0 ? exitCodes.yes : exitCodes.interrupted;
  } catch (error) {
    // Ends the process by itself, with exit code 1, once the terminal has been given back.
    terminal.crash(error);
    return exitCodes.no;
  }
};
