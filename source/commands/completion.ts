import { catalogue } from '../techniques/catalogue.ts';
import type { Command, Flag, Run } from './command.ts';
import { complain } from './complain.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { type Shell, shells } from './shells.ts';
import { helpFor } from './usage.ts';

/** What can stand as the first operand of a command besides a file; empty where nothing but files can. */
function operandWords(command: Command): readonly string[] {
  switch (command.name) {
    case 'find':
      return catalogue.map(({ id }) => id);
    case 'completion':
      return shells;
    case 'sheets':
      return ['name', 'export', 'remove'];
    default:
      return [];
  }
}

const takesFiles = ({ operands }: Command): boolean => /FILE/.test(operands);

/** What a flag's value may be, as far as it can be listed; null where it has none. */
function valueWords(flag: Flag): readonly string[] | null {
  switch (flag.kind) {
    case 'switch':
      return null;
    case 'choice':
      return flag.choices;
    case 'number':
    case 'text':
      return [];
  }
}

/** A command as it is named on the command line, the one without a name as an empty word. */
const word = ({ name }: Command): string => (name === 'open' ? '' : name);

const flagsOf = (command: Command): readonly string[] => [
  ...command.flags.map(({ name }) => `--${name}`),
  '--help',
];

/** For bash: the words behind the cursor are matched by `compgen`, files by its own rules. */
function bash(commands: readonly Command[]): string[] {
  const names = commands.map(word).filter((name) => name !== '');
  const cases = commands.flatMap((command) => {
    const values = command.flags.flatMap((flag) => {
      const words = valueWords(flag);
      if (words === null) return [];
      return [
        `      --${flag.name}) words='${words.join(' ')}'; ${words.length > 0 ? 'files=' : 'files=1'} ;;`,
      ];
    });
    return [
      `    ${word(command) === '' ? "''" : word(command)})`,
      `      flags='${flagsOf(command).join(' ')}'`,
      `      words='${operandWords(command).join(' ')}'; files=${takesFiles(command) ? '1' : ''}`,
      `      case $before in`,
      ...values.map((line) => `  ${line}`),
      `      esac ;;`,
    ];
  });
  return [
    '# bash completion for inkling',
    '_inkling() {',
    `  local now=\${COMP_WORDS[COMP_CWORD]} before=\${COMP_WORDS[COMP_CWORD-1]}`,
    `  local first=\${COMP_WORDS[1]} command= flags= words= files= each`,
    `  for each in ${names.join(' ')}; do`,
    '    if (( COMP_CWORD > 1 )) && [[ $first == "$each" ]]; then command=$each; fi',
    '  done',
    '  case $command in',
    ...cases,
    '  esac',
    `  if (( COMP_CWORD == 1 )); then words="$words help ${names.join(' ')}"; fi`,
    '  if (( COMP_CWORD == 2 )) && [[ $first == help ]]; then',
    `    words='${names.join(' ')}'; files=`,
    '  fi',
    '  if [[ $now == -* ]]; then words=$flags; files=; fi',
    '  COMPREPLY=($(compgen -W "$words" -- "$now"))',
    '  if [[ -n $files ]]; then COMPREPLY+=($(compgen -f -- "$now")); fi',
    '}',
    'complete -o filenames -F _inkling inkling',
  ];
}

const quoted = (text: string): string => `'${text.replaceAll("'", `'\\''`)}'`;
/** Inside the brackets of an argument of `_arguments`. */
const bracketed = (text: string): string => text.replaceAll(/[[\]:\\]/g, (sign) => `\\${sign}`);

function zsh(commands: readonly Command[]): string[] {
  const named = commands.filter((command) => word(command) !== '');
  const argumentsOf = (command: Command): string[] => {
    const flags = command.flags.map((flag) => {
      const words = valueWords(flag);
      const said = `--${flag.name}[${bracketed(flag.summary)}]`;
      if (words === null || flag.kind === 'switch') return said;
      return `${said}:${flag.value}:${words.length > 0 ? `(${words.join(' ')})` : '_files'}`;
    });
    const words = operandWords(command);
    const operand = words.length > 0 ? [`1:word:(${words.join(' ')})`] : [];
    const files = takesFiles(command) ? ['*:file:_files'] : [];
    return [...flags, '--help[shows help]', ...operand, ...files].map((each) => `      ${quoted(each)} \\`);
  };
  return [
    '#compdef inkling',
    '_inkling() {',
    '  local -a names=(',
    ...named.map(({ name, summary }) => `    ${quoted(`${name}:${summary.replaceAll(':', '\\:')}`)}`),
    `    ${quoted('help:shows how a command is used')}`,
    '  )',
    '  if (( CURRENT == 2 )) && [[ $words[2] != -* ]]; then',
    "    _describe -t commands 'command' names",
    '    _files',
    '    return',
    '  fi',
    '  local name=$words[2]',
    '  case $name in',
    ...named.flatMap((command) => [
      `    ${command.name})`,
      '      shift words; (( CURRENT-- ))',
      '      _arguments \\',
      ...argumentsOf(command),
      '      ;;',
    ]),
    "    help) _describe -t commands 'command' names ;;",
    '    *)',
    '      _arguments \\',
    ...argumentsOf(commands.find((command) => word(command) === '') ?? commands[0]),
    '      ;;',
    '  esac',
    '}',
    '_inkling "$@"',
  ].map((line, index, all) => (/^ +;;$/.test(all[index + 1] ?? '') ? line.replace(/ \\$/, '') : line));
}

function fish(commands: readonly Command[]): string[] {
  const named = commands.filter((command) => word(command) !== '');
  const names = named.map(({ name }) => name).join(' ');
  const lines = commands.flatMap((command) => {
    const where =
      word(command) === ''
        ? `not __fish_seen_subcommand_from ${names} help`
        : `__fish_seen_subcommand_from ${command.name}`;
    const on = `complete -c inkling -n ${quoted(where)}`;
    const flags = command.flags.map((flag) => {
      const words = valueWords(flag);
      const value = words === null ? '' : words.length > 0 ? ` -x -a ${quoted(words.join(' '))}` : ' -r';
      return `${on} -l ${flag.name} -d ${quoted(flag.summary)}${value}`;
    });
    const words = operandWords(command);
    const operand = words.length > 0 ? [`${on} -a ${quoted(words.join(' '))}`] : [];
    return [...flags, ...operand, ...(takesFiles(command) ? [] : [`${on} -f`])];
  });
  return [
    '# fish completion for inkling',
    ...named.map(
      ({ name, summary }) => `complete -c inkling -n __fish_use_subcommand -a ${name} -d ${quoted(summary)}`,
    ),
    "complete -c inkling -n __fish_use_subcommand -a help -d 'shows how a command is used'",
    `complete -c inkling -n '__fish_seen_subcommand_from help' -f -a ${quoted(names)}`,
    "complete -c inkling -l help -d 'shows help'",
    ...lines,
  ];
}

const makers: Readonly<Record<Shell, (commands: readonly Command[]) => string[]>> = { bash, zsh, fish };

/** What a shell needs to complete the program's commands, flags and their values; made from the catalogue. */
export const completionLines = (shell: Shell, commands: readonly Command[]): string[] =>
  makers[shell](commands);

/** Prints the completion for a shell. */
export const run: Run = async ({ command, commands, operands }, surroundings): Promise<ExitCode> => {
  const shell = shells.find((each) => each === operands[0]);
  if (!shell) {
    const message =
      operands[0] === undefined ? 'a shell must be named' : `there is no completion for '${operands[0]}'`;
    return complain(
      { message, next: `it is one of: ${shells.join(', ')}\n${helpFor(command)}` },
      surroundings,
    );
  }
  for (const line of completionLines(shell, commands)) await surroundings.results.line(line);
  return exitCodes.yes;
};
