import meow from 'meow';
import type { Command, Flag } from './command.ts';

/** What stands on the command line, names as typed (`rung`, not `Rung`), values not yet judged. */
export interface RawFlags {
  readonly operands: readonly string[];
  readonly flags: ReadonlyMap<string, string | boolean>;
}

/**
 * Stands before an operand that starts with `-` though it is no flag, such as a grid whose blanks are
 * hyphens, for as long as the parser has it. A private-use sign: nobody types it.
 */
const shield = '\uf8ff';
const looksLikeGrid = (token: string): boolean => /^-[-.0-9_*]{15,}$/.test(token);

const meowFlag = (flag: Flag): { type: 'boolean' } | { type: 'string' } =>
  flag.kind === 'switch' ? { type: 'boolean' } : { type: 'string' };

const camelCase = (name: string): string =>
  name.replace(/-([a-z])/g, (_, letter: string) => letter.toUpperCase());
const dashed = (name: string): string => name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);

/**
 * Takes the arguments of one command apart. Flags that the command does not have are handed on as they
 * are, for the caller to refuse: left alone, the parser would print and end the process by itself.
 * Throws an Error with a sentence for people where a flag is given twice.
 */
export function readFlags(command: Command, argv: readonly string[]): RawFlags {
  const { input, unnormalizedFlags } = meow({
    importMeta: import.meta,
    pkg: {},
    argv: argv.map((token) => (looksLikeGrid(token) ? shield + token : token)),
    autoHelp: false,
    autoVersion: false,
    allowUnknownFlags: true,
    flags: Object.fromEntries(command.flags.map((flag) => [camelCase(flag.name), meowFlag(flag)])),
  });
  return {
    operands: input.map((operand) => (operand.startsWith(shield) ? operand.slice(1) : operand)),
    flags: new Map(
      Object.entries<unknown>(unnormalizedFlags).map(([name, value]) => [
        dashed(name),
        typeof value === 'boolean' ? value : String(value),
      ]),
    ),
  };
}
