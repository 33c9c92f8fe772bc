import { commands, openCommand } from './catalogue.ts';
import type { Command, Example, Flag, Note } from './command.ts';
import { flagText, typedAs, usageLine, valuesOf } from './usage.ts';

/** As wide as the smallest terminal that is planned for. */
const width = 79;

/** Words in lines of at most `room` signs. */
function wrap(text: string, room: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines.length - 1;
    if (last >= 0 && lines[last].length + 1 + word.length <= room) lines[last] += ` ${word}`;
    else lines.push(word);
  }
  return lines;
}

/** Two columns; what is too long for the second goes on below itself. */
function columns(rows: readonly (readonly [string, string])[]): string[] {
  const left = Math.max(...rows.map(([text]) => text.length));
  return rows.flatMap(([text, right]) =>
    wrap(right, width - left - 4).map(
      (line, index) => `  ${(index === 0 ? text : '').padEnd(left)}  ${line}`,
    ),
  );
}

const noteLines = (notes: readonly Note[]): string[] =>
  notes.flatMap((note) =>
    typeof note === 'string' ? ['', ...wrap(note, width)] : ['', note.title, ...columns(note.rows)],
  );

const examples = (list: readonly Example[]): string[] => [
  'Examples',
  ...list.flatMap(({ line, does }) => [`  ${line}`, `      ${does}`]),
];

function flagRow(flag: Flag): readonly [string, string] {
  if (flag.kind === 'switch') return [flagText(flag), flag.summary];
  const fallback =
    flag.kind === 'text' || flag.fallback === undefined ? '' : `; ${flag.fallback} where not given`;
  const values = flag.kind === 'choice' ? flag.choices.join(', ') : valuesOf(flag);
  return [flagText(flag), `${flag.summary}: ${values}${fallback}`];
}

const exitLines = (negative: string | null): string[] => [
  'Exit code',
  ...columns([
    ['0', 'yes, or done'],
    ...(negative === null ? [] : [['1', negative] as const]),
    ['2', 'the command line or the input cannot be used'],
  ]),
];

/** The help of one command, examples first; lines without a line end. */
export function commandHelp(command: Command): string[] {
  return [
    `${typedAs(command)}: ${command.summary}`,
    '',
    ...examples(command.examples),
    '',
    'Usage',
    ...wrap(usageLine(command), width - 6).map((line, index) => `${index === 0 ? '  ' : '      '}${line}`),
    ...(command.flags.length === 0 ? [] : ['', 'Flags', ...columns(command.flags.map(flagRow))]),
    ...noteLines(command.notes),
    '',
    ...exitLines(command.negative),
  ];
}

/** The help of the whole program. */
export function programHelp(): string[] {
  const oneShot = commands.filter((command) => command !== openCommand);
  return [
    'inkling: a workbench in the terminal for solving and teaching Sudoku by logic',
    '',
    ...examples([...openCommand.examples, ...oneShot.map((command) => command.examples[0])]),
    '',
    'Usage',
    `  inkling [FLAG]... ${openCommand.operands}`,
    '  inkling COMMAND [FLAG]... [FILE|-|GRID]',
    '',
    'Commands',
    ...columns([
      ...oneShot.map((command) => [command.name, command.summary] as const),
      ['help COMMAND', 'shows how a command is used'],
    ]),
    '',
    'Flags',
    ...columns([
      ...openCommand.flags.map(flagRow),
      ['-h, --help', 'shows this, or the help of the command'],
      ['--version', 'shows the version'],
    ]),
    ...noteLines(openCommand.notes),
    '',
    ...exitLines('a negative answer: several solutions, no step, some lines bad'),
  ];
}
