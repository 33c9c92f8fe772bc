import { readFileSync } from 'node:fs';
import type { Surroundings } from './command.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { internalError, sayMistake } from './mistake.ts';
import { makeOutput, type Output, UnwritableOutput } from './output.ts';

/** Each script of the program lies in a folder of the package. */
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

/** `inkling 1.2.3` */
export function version(): string {
  const { version } = JSON.parse(readFileSync(new URL('package.json', findRoot()), 'utf8'));
  return `inkling ${version}`;
}

/**
 * Runs the program with the words of the command line, and leaves its exit code. Never rejects: what goes wrong in
 * the program itself is said on stderr.
 */
export async function runProgram(
  main: (argv: readonly string[], surroundings: Surroundings) => Promise<ExitCode>,
): Promise<void> {
  try {
    const code = await main(process.argv.slice(2), surroundings);
    process.exitCode = results?.closed ? exitCodes.pipeClosed : code;
  } catch (error) {
    const mistake = error instanceof UnwritableOutput ? { message: error.message } : internalError(error);
    for (const line of sayMistake(mistake)) await surroundings.notices.line(line);
    if (process.env.DEBUG && error instanceof Error) await surroundings.notices.line(error.stack ?? '');
    process.exitCode = exitCodes.usage;
  }
}
