import { readFileSync } from 'node:fs';
import type { Command, Flag, Note, Run } from './command.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { flagText, usageLine, valuesOf } from './usage.ts';

/** Text as roff takes it: no escapes, no requests at the start of a line, hyphens that stay hyphens. */
const roff = (text: string): string =>
  text
    .replaceAll('\\', '\\e')
    .replaceAll('-', '\\-')
    .replaceAll('≠', '\\(!=')
    .replace(/^([.'])/, '\\&$1');

const bold = (text: string): string => `\\fB${roff(text)}\\fR`;

function flagLines(flag: Flag): string[] {
  const values =
    flag.kind === 'switch' ? '' : `: ${flag.kind === 'choice' ? flag.choices.join(', ') : valuesOf(flag)}`;
  return ['.TP', bold(flagText(flag)), roff(`${flag.summary}${values}.`)];
}

const noteLines = (notes: readonly Note[]): string[] =>
  notes.flatMap((note) =>
    typeof note === 'string'
      ? ['.PP', roff(note)]
      : [
          '.PP',
          roff(`${note.title}:`),
          ...note.rows.flatMap(([left, right]) => ['.TP', bold(left), roff(right)]),
        ],
  );

const exampleLines = (command: Command): string[] =>
  command.examples.flatMap(({ line, does }) => ['.TP', bold(line), roff(does)]);

/** The manual page, in the `man` macros of roff (man(7)); made from the catalogue of commands. */
export function manPage(commands: readonly Command[], version: string): string[] {
  const [open, ...others] = commands;
  return [
    `.TH INKLING 1 "" "${roff(`inkling ${version}`)}" "User Commands"`,
    '.SH NAME',
    'inkling \\- a workbench in the terminal for solving and teaching Sudoku by logic',
    '.SH SYNOPSIS',
    roff(usageLine(open)),
    '.br',
    `${bold('inkling')} \\fICOMMAND\\fR ...`,
    '.SH DESCRIPTION',
    'Without a command it opens the workbench, full screen or, with \\fB\\-\\-plain\\fR, line by line.',
    ...flagBlock(open),
    ...noteLines(open.notes),
    '.SH EXAMPLES',
    ...exampleLines(open),
    '.SH COMMANDS',
    ...others.flatMap((command) => [
      `.SS ${roff(usageLine(command))}`,
      roff(`${command.summary.charAt(0).toUpperCase()}${command.summary.slice(1)}.`),
      ...flagBlock(command),
      ...noteLines(command.notes),
      ...exampleLines(command),
      ...(command.negative === null ? [] : ['.PP', roff(`Exit code 1: ${command.negative}.`)]),
    ]),
    '.SH EXIT STATUS',
    ...['0:yes, or done', '1:a negative answer', '2:the command line or the input cannot be used'].flatMap(
      (row) => ['.TP', bold(row[0]), roff(row.slice(2))],
    ),
    '.SH FILES',
    '.TP',
    roff('$XDG_CONFIG_HOME/inkling/config.toml'),
    roff('the settings of the workbench; ~/.config where the variable is not set'),
    '.TP',
    roff('$XDG_STATE_HOME/inkling/sheets'),
    roff('the sheets; ~/.local/state where the variable is not set'),
  ];
}

const flagBlock = ({ flags }: Command): string[] => flags.flatMap(flagLines);

/** Prints the manual page. */
export const run: Run = async ({ commands }, { packageRoot, results }): Promise<ExitCode> => {
  const { version } = JSON.parse(readFileSync(new URL('package.json', packageRoot), 'utf8'));
  for (const line of manPage(commands, String(version))) await results.line(line);
  return exitCodes.yes;
};
