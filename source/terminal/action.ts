/** What the keyboard is for at a moment. Each mode has its own keys. */
export const keyModes = [
  'work',
  'hint',
  'series',
  'tag',
  'enter',
  'find',
  'hold',
  'goto',
  'ten',
  'count',
  'copy',
  'paste',
  'help',
  'palette',
  'typed',
] as const;
export type KeyMode = (typeof keyModes)[number];

/** The help overlay's headings, in its order. */
export const groups = ['Move', 'Write', 'Marks', 'See', 'Hints', 'Sheet', 'Program'] as const;
export type Group = (typeof groups)[number];

/** One thing that a person can do. Handlers, footer, help and typed commands all come from this table. */
export interface ActionEntry {
  /** Stable: typed commands and settings use it. */
  readonly name: string;
  /**
   * Key chords as the key stream names them; `1-9` stands for any digit. None: it is typed, or run from the
   * list of actions.
   */
  readonly keys: readonly string[];
  readonly modes: readonly KeyMode[];
  readonly group: Group;
  /** What it does, for the help: at most 24 characters, so that two columns fit into 80. */
  readonly help: string;
  /** What it does by itself, where `help` tells of others too; for lists of all actions. */
  readonly alone?: string;
  /** How the help names its keys, where not one by one. */
  readonly helpKeys?: string;
  /** The action whose line in the help speaks for this one too. */
  readonly toldWith?: string;
  /** Its place in the footer of a mode: a word, and how early it gives way where the line is short. */
  readonly footer?: Partial<Record<KeyMode, readonly [word: string, rank: number]>>;
  /** Whether the typed line takes its name as a command. */
  readonly typed?: boolean;
  /** Whether it can be done so many times at once, by a count before its key or behind its name. */
  readonly repeats?: boolean;
}

/** Where the cursor can move. */
export const moving = ['work', 'hint', 'series', 'tag', 'enter'] as const;
/** Where all pens and questions are at hand. */
export const writing = ['work', 'hint', 'series'] as const;
/** Where a list of actions is looked through. */
export const listing = ['help', 'palette'] as const;
/** Where a digit is waited for. */
export const asking = ['find', 'hold', 'goto'] as const;
