import type { ExitCode } from './exit-codes.ts';
import type { Output } from './output.ts';

/** A flag of a command: parsed, documented and checked from this one object. */
export type Flag = {
  /** Without the dashes; lower case with hyphens. */
  readonly name: string;
  /** One line, lower case, no full stop. */
  readonly summary: string;
} & (
  | { readonly kind: 'switch' }
  | {
      readonly kind: 'choice';
      /** What stands for the value in the help: `FORM`. */
      readonly value: string;
      readonly choices: readonly string[];
      /** What is taken where the flag is not given; absent: the flag must be given. */
      readonly fallback?: string;
    }
  | {
      /** A whole number; may be left out. */
      readonly kind: 'number';
      readonly value: string;
      readonly least: number;
      readonly most: number;
      /** What is taken where the flag is not given, written out; absent: the command decides. */
      readonly fallback?: string;
    }
  | {
      /** Anything; the command judges it. */
      readonly kind: 'text';
      readonly value: string;
      /** What it may be, and what is taken where it is not given, in words: `a name or a file`. */
      readonly values: string;
    }
);

/** A flag that comes with a value. */
export type ValueFlag = Exclude<Flag, { kind: 'switch' }>;

/** A line that can be typed as it stands, and what it does. */
export interface Example {
  readonly line: string;
  readonly does: string;
}

/** A paragraph of the help, or a table of two columns. */
export type Note = string | { readonly title: string; readonly rows: readonly (readonly [string, string])[] };

/** A command: parsed, documented and run from this one object. */
export interface Command {
  /** As it is typed. `open` is what runs where no command is named. */
  readonly name: string;
  /** One line, lower case, no full stop. */
  readonly summary: string;
  /** Operands as the usage line shows them: `[FILE|-|GRID]`. */
  readonly operands: string;
  /** How many operands may be given. */
  readonly mostOperands: number;
  readonly flags: readonly Flag[];
  /** At least one; they come first in the help. */
  readonly examples: readonly Example[];
  /** What exit code 1 means here; null where the command never ends with it. */
  readonly negative: string | null;
  /** What stands below the flags. */
  readonly notes: readonly Note[];
  /** Loads the code of the command and nothing of the others. */
  readonly load: () => Promise<{ readonly run: Run }>;
}

/** A command line that has been taken apart and found to be in order. */
export interface Invocation {
  readonly command: Command;
  readonly operands: readonly string[];
  /** Switches that are on, and the value of each other flag, fallbacks filled in; numbers in digits. */
  readonly flags: ReadonlyMap<string, string>;
  /** Every command there is, for those that tell of the others. */
  readonly commands: readonly Command[];
}

/** What was asked of a command: all that most of them go by. */
export type Asked = Pick<Invocation, 'operands' | 'flags'>;

/** What a command may touch of the outside. */
export interface Surroundings {
  /** Results, and nothing else. */
  readonly results: Output;
  /** Notices and errors. */
  readonly notices: Output;
  readonly stdin: NodeJS.ReadStream;
  readonly environment: Readonly<Record<string, string | undefined>>;
  /** Where `puzzles/` and `package.json` lie. */
  readonly packageRoot: URL;
}

export type Run = (invocation: Invocation, surroundings: Surroundings) => Promise<ExitCode>;
