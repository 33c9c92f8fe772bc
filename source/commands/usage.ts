import type { Command, Flag, ValueFlag } from './command.ts';

/** `inkling check`, or `inkling` for what runs where no command is named. */
export const typedAs = (command: Command): string =>
  command.name === 'open' ? 'inkling' : `inkling ${command.name}`;

/** What a flag's value may be: `line, rows`, `a whole number from 1 to 9`. */
export function valuesOf(flag: ValueFlag): string {
  switch (flag.kind) {
    case 'choice':
      return `one of: ${flag.choices.join(', ')}`;
    case 'text':
      return flag.values;
    case 'number':
      return `a whole number from ${flag.least} to ${flag.most}`;
  }
}

/** Where the help is. */
export const helpFor = (command: Command): string =>
  command.name === 'open'
    ? "'inkling --help' shows the commands"
    : `'inkling help ${command.name}' shows how`;

/** A flag as it is typed: `--to FORM`. */
export const flagText = (flag: Flag): string =>
  flag.kind === 'switch' ? `--${flag.name}` : `--${flag.name} ${flag.value}`;

/** The line that shows how a command is typed. */
export function usageLine(command: Command): string {
  const flags = command.flags.map((flag) => {
    const text = flagText(flag);
    return flag.kind === 'choice' && flag.fallback === undefined ? text : `[${text}]`;
  });
  return [typedAs(command), ...flags, command.operands].join(' ');
}
