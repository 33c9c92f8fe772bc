import { readFileSync } from 'node:fs';
import type { Surroundings } from './commands/command.ts';
import { complain } from './commands/complain.ts';
import { type ExitCode, exitCodes } from './commands/exit-codes.ts';
import { commandHelp, programHelp } from './commands/help.ts';
import { internalError, sayMistake } from './commands/mistake.ts';
import { makeOutput, type Output, UnwritableOutput } from './commands/output.ts';
import { parseCommandLine } from './commands/parse.ts';

/** `dist/main.js` and `source/main.ts` lie equally deep below it. */
let root: URL | undefined;
const findRoot = (): URL => {
  root ??= new URL('../', import.meta.url);
  return root;
};

let results: Output | undefined;
let notices: Output | undefined;
/** Each is made when it is first asked for: a start goes without most of them. */
const surroundings: Surroundings = {
  get results() {
    results ??= makeOutput(process.stdout);
    return results;
  },
  get notices() {
    notices ??= makeOutput(process.stderr);
    return notices;
  },
  get stdin() {
    return process.stdin;
  },
  environment: process.env,
  get packageRoot() {
    return findRoot();
  },
};

async function printResults(lines: readonly string[]): Promise<ExitCode> {
  for (const line of lines) await surroundings.results.line(line);
  return exitCodes.yes;
}

function version(): string {
  const { version } = JSON.parse(readFileSync(new URL('package.json', findRoot()), 'utf8'));
  return `inkling ${version}`;
}

async function main(argv: readonly string[]): Promise<ExitCode> {
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

/** Never rejects. */
async function runProgram(): Promise<void> {
  try {
    const code = await main(process.argv.slice(2));
    process.exitCode = results?.closed ? exitCodes.pipeClosed : code;
  } catch (error) {
    const mistake = error instanceof UnwritableOutput ? { message: error.message } : internalError(error);
    for (const line of sayMistake(mistake)) await surroundings.notices.line(line);
    if (process.env.DEBUG && error instanceof Error) await surroundings.notices.line(error.stack ?? '');
    process.exitCode = exitCodes.usage;
  }
}

void runProgram();
