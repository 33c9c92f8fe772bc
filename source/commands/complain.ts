import type { Surroundings } from './command.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { type Mistake, sayMistake } from './mistake.ts';

/** Tells of a mistake on stderr and answers with its exit code. */
export async function complain(mistake: Mistake, { notices }: Surroundings): Promise<ExitCode> {
  for (const line of sayMistake(mistake)) await notices.line(line);
  return exitCodes.usage;
}
