import type { Surroundings } from './commands/command.ts';
import { complain } from './commands/complain.ts';
import { type ExitCode, exitCodes } from './commands/exit-codes.ts';
import { commandHelp, programHelp } from './commands/help.ts';
import { parseCommandLine } from './commands/parse.ts';
import { runProgram, version } from './commands/program.ts';

async function main(argv: readonly string[], surroundings: Surroundings): Promise<ExitCode> {
  const printResults = async (lines: readonly string[]) => {
    for (const line of lines) await surroundings.results.line(line);
    return exitCodes.yes;
  };
  if (argv.length === 1 && argv[0] === '--version') return printResults([version()]);
  const line = await parseCommandLine(argv);
  switch (line.kind) {
    case 'version':
      return printResults([version()]);
    case 'help': {
      return printResults(line.command ? commandHelp(line.command) : programHelp());
    }
    case 'mistake': {
      return complain(line.mistake, surroundings);
    }
    case 'run': {
      const { run } = await line.invocation.command.load();
      return run(line.invocation, surroundings);
    }
  }
}

/** Runs whatever the words of the command line ask for. */
export const start = (): Promise<void> => runProgram(main);
