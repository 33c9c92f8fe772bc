#!/usr/bin/env node
import { readFileSync } from 'node:fs';
import type { Surroundings } from './commands/command.ts';
import { type ExitCode, exitCodes } from './commands/exit-codes.ts';
import { makeOutput } from './commands/output.ts';

/** `dist/main.js` and `source/main.ts` lie equally deep below it. */
const packageRoot = new URL('../', import.meta.url);

const surroundings: Surroundings = {
  results: makeOutput(process.stdout),
  notices: makeOutput(process.stderr),
  get stdin() {
    return process.stdin;
  },
  environment: process.env,
  packageRoot,
};

async function printResults(lines: readonly string[]): Promise<ExitCode> {
  for (const line of lines) await surroundings.results.line(line);
  return exitCodes.yes;
}

function version(): string {
  const { version } = JSON.parse(readFileSync(new URL('package.json', packageRoot), 'utf8'));
  return `inkling ${version}`;
}

async function main(argv: readonly string[]): Promise<ExitCode> {
  if (argv.length === 1 && argv[0] === '--version') return printResults([version()]);
  const { parseCommandLine } = await import('./commands/parse.ts');
  const line = await parseCommandLine(argv);
  switch (line.kind) {
    case 'version':
      return printResults([version()]);
    case 'help': {
      const { commandHelp, programHelp } = await import('./commands/help.ts');
      return printResults(line.command ? commandHelp(line.command) : programHelp());
    }
    case 'mistake': {
      const { complain } = await import('./commands/complain.ts');
      return complain(line.mistake, surroundings);
    }
    case 'run': {
      const { run } = await line.invocation.command.load();
      return run(line.invocation, surroundings);
    }
  }
}

try {
  const code = await main(process.argv.slice(2));
  process.exitCode = surroundings.results.closed ? exitCodes.pipeClosed : code;
} catch (error) {
  const { internalError, sayMistake } = await import('./commands/mistake.ts');
  for (const line of sayMistake(internalError(error))) await surroundings.notices.line(line);
  if (process.env.DEBUG && error instanceof Error) await surroundings.notices.line(error.stack ?? '');
  process.exitCode = exitCodes.usage;
}
