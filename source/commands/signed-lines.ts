import type { HintLine } from '../hint/rung.ts';
import { decideCapabilities } from '../platform/capabilities.ts';
import type { Surroundings } from './command.ts';

/** Whether signs beyond ASCII can be printed. */
export const printsUnicode = ({ environment }: Surroundings): boolean =>
  decideCapabilities({
    env: environment,
    flags: {},
    isTTY: { keys: false, stdout: false, stderr: false },
  }).unicode;

/** Lines with their signs in a column of their own where there are any. */
export function signedText(lines: readonly HintLine[], unicode: boolean): string[] {
  const signed = lines.some(({ sign }) => sign !== '');
  const plainSign = (sign: string): string => (sign === '×' && !unicode ? 'x' : sign);
  return lines.map(({ sign, text }) => (signed ? `${plainSign(sign).padEnd(3)}${text}` : text));
}
