import { commandNamed, commands, openCommand } from './catalogue.ts';
import type { Command, Invocation, ValueFlag } from './command.ts';
import type { Mistake } from './mistake.ts';
import { helpFor, typedAs, valuesOf } from './usage.ts';

/** What a command line asks for. */
export type CommandLine =
  | { readonly kind: 'run'; readonly invocation: Invocation }
  /** `command` null: the help of the whole program. */
  | { readonly kind: 'help'; readonly command: Command | null }
  | { readonly kind: 'version' }
  | { readonly kind: 'mistake'; readonly mistake: Mistake };

const mistaken = (message: string, next: string): CommandLine => ({
  kind: 'mistake',
  mistake: { message, next },
});
const commandNames = (): string[] => commands.filter((c) => c !== openCommand).map((c) => c.name);

/** A hyphen alone is stdin, and hyphens with digits and blanks are a grid: neither is a flag. */
const isFlagToken = (token: string): boolean => /^-./.test(token) && !/^-[-.0-9_*]{15,}$/.test(token);
const nameIn = (token: string): string => token.split('=', 1)[0];

async function unknownWord(kind: 'command' | 'flag', typed: string, known: readonly string[], help: string) {
  const { nearest } = await import('./nearest.ts');
  const near = nearest(typed, known);
  const meant = near === null ? '' : `did you mean '${near}'? `;
  return mistaken(`unknown ${kind} '${typed}'`, `${meant}${help}`);
}

/** The first token that is no flag of the command, or gives a value to a switch. */
async function refuseToken(command: Command, token: string): Promise<CommandLine | null> {
  const name = nameIn(token);
  const flag = command.flags.find((each) => name === `--${each.name}`);
  if (flag?.kind === 'switch' && token !== name) {
    return mistaken(`'${name}' takes no value, but '${token}' gives one`, `write '${name}' alone`);
  }
  if (flag) return null;
  const owner = commands.find((other) => other.flags.some((each) => name === `--${each.name}`));
  if (command === openCommand && owner) {
    return mistaken(
      `'${name}' is a flag of commands, and none is named first`,
      `for instance: inkling ${owner.name} ${name}`,
    );
  }
  const known = [...command.flags.map((each) => `--${each.name}`), '--help', '--version'];
  return unknownWord('flag', name, known, helpFor(command));
}

/** Whether a text is a number that the flag takes. */
const isNumberFor = (flag: ValueFlag & { kind: 'number' }, raw: string): boolean =>
  /^\d{1,15}$/.test(raw) && Number(raw) >= flag.least && Number(raw) <= flag.most;

/** The value of one flag, null where it has none, or what is wrong with it. */
async function readValue(
  command: Command,
  flag: ValueFlag,
  raw: string | boolean | undefined,
): Promise<{ value: string | null } | CommandLine> {
  const values = valuesOf(flag);
  if (raw === undefined) {
    if (flag.kind === 'text') return { value: null };
    if (flag.fallback !== undefined) return { value: flag.fallback };
    if (flag.kind === 'number') return { value: null };
    return mistaken(`'${typedAs(command)}' needs --${flag.name} ${flag.value}`, `${flag.value} is ${values}`);
  }
  if (raw === '' || typeof raw === 'boolean') {
    return mistaken(`--${flag.name} needs a value`, `it is ${values}`);
  }
  switch (flag.kind) {
    case 'text':
      return { value: raw };
    case 'number':
      if (isNumberFor(flag, raw)) return { value: String(Number(raw)) };
      return mistaken(`--${flag.name} cannot be '${raw}'`, `it is ${values}`);
    case 'choice': {
      if (flag.choices.includes(raw)) return { value: raw };
      const { nearest } = await import('./nearest.ts');
      // Of numbers none is more likely meant than another.
      const near = isDigits(raw) ? null : nearest(raw, flag.choices);
      const meant = near === null ? '' : `did you mean '${near}'? `;
      return mistaken(`--${flag.name} does not know '${raw}'`, `${meant}it is ${values}`);
    }
  }
}

const isDigits = (text: string): boolean => /^\d+$/.test(text);
const sayOperands = (count: number): string =>
  count === 0 ? 'no operand' : count === 1 ? 'one operand' : `at most ${count} operands`;
const sayGiven = (count: number): string => (count === 1 ? 'one is' : `${count} are`);

async function readInvocation(command: Command, argv: readonly string[]): Promise<CommandLine> {
  const end = argv.indexOf('--');
  const tokens = (end < 0 ? argv : argv.slice(0, end)).filter(isFlagToken);
  for (const token of tokens) {
    const refused = await refuseToken(command, token);
    if (refused) return refused;
  }
  const twice = tokens.map(nameIn).find((name, index, names) => names.indexOf(name) !== index);
  if (twice !== undefined) return mistaken(`${twice} is given twice`, 'give it once');
  // Where nothing starts with a hyphen there is nothing to take apart, and the parser need not be loaded.
  const raw =
    tokens.length === 0 && end < 0
      ? { operands: argv, flags: new Map<string, string | boolean>() }
      : (await import('./flags.ts')).readFlags(command, argv);
  if (raw.operands.length > command.mostOperands) {
    return mistaken(
      `'${typedAs(command)}' takes ${sayOperands(command.mostOperands)}, but ${sayGiven(raw.operands.length)} given`,
      command.operands.includes('GRID')
        ? 'a grid of several lines goes into a file, or through stdin as -'
        : helpFor(command),
    );
  }
  const flags = new Map<string, string>();
  for (const flag of command.flags) {
    const value = raw.flags.get(flag.name);
    if (flag.kind === 'switch') {
      if (value === true) flags.set(flag.name, '');
      continue;
    }
    const read = await readValue(command, flag, value);
    if ('kind' in read) return read;
    if (read.value !== null) flags.set(flag.name, read.value);
  }
  return { kind: 'run', invocation: { command, operands: raw.operands, flags, commands } };
}

/** Takes a command line apart, without the program's own name. Never throws, never writes, never exits. */
export async function parseCommandLine(argv: readonly string[]): Promise<CommandLine> {
  const [first] = argv;
  if (first === 'help') {
    const [, name] = argv;
    if (name === undefined || isFlagToken(name)) return { kind: 'help', command: null };
    const command = commandNamed(name);
    if (command) return { kind: 'help', command };
    return unknownWord('command', name, commandNames(), "'inkling --help' shows the commands");
  }
  const command = first === undefined ? null : commandNamed(first);
  const rest = command ? argv.slice(1) : argv;
  const end = rest.indexOf('--');
  const asked = end < 0 ? rest : rest.slice(0, end);
  if (asked.includes('-h') || asked.includes('--help')) return { kind: 'help', command };
  if (asked.includes('--version')) return { kind: 'version' };
  if (!command && first !== undefined && /^[a-z]+$/i.test(first)) {
    const { existsSync } = await import('node:fs');
    if (!existsSync(first)) {
      return unknownWord('command', first, commandNames(), `there is no file '${first}' either`);
    }
  }
  return readInvocation(command ?? openCommand, rest);
}
