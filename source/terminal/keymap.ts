/** What the keyboard is for at a moment. Each mode has its own keys. */
export const keyModes = [
  'work',
  'hint',
  'tag',
  'enter',
  'find',
  'hold',
  'goto',
  'copy',
  'paste',
  'help',
  'typed',
] as const;
export type KeyMode = (typeof keyModes)[number];

/** The help overlay's headings, in its order. */
export const groups = ['Move', 'Write', 'Marks', 'See', 'Hints', 'Sheet', 'Program'] as const;
export type Group = (typeof groups)[number];

/** One thing that a person can do. Handlers, footer, help and typed commands all come from this table. */
interface ActionEntry {
  /** Stable: typed commands and settings use it. */
  readonly name: string;
  /** Key chords as the key stream names them; `1-9` stands for any digit. */
  readonly keys: readonly string[];
  readonly modes: readonly KeyMode[];
  readonly group: Group;
  /** What it does, for the help: at most 24 characters, so that two columns fit into 80. */
  readonly help: string;
  /** How the help names its keys, where not one by one. */
  readonly helpKeys?: string;
  /** The action whose line in the help speaks for this one too. */
  readonly toldWith?: string;
  /** Its place in the footer of a mode: a word, and how early it gives way where the line is short. */
  readonly footer?: Partial<Record<KeyMode, { readonly word: string; readonly rank: number }>>;
  /** How the footer names its keys, where not by the first. */
  readonly keyWord?: string;
  /** Whether the typed line takes its name as a command. */
  readonly typed?: boolean;
}

const moving = ['work', 'hint', 'tag', 'enter'] as const;
const writing = ['work', 'hint'] as const;
const asking = ['find', 'hold', 'goto'] as const;

export const actions = [
  {
    name: 'write',
    keys: ['1-9'],
    modes: writing,
    group: 'Write',
    help: 'write with the pen',
    footer: { work: { word: 'write', rank: 4 } },
  },
  {
    name: 'tag-digit',
    keys: ['1-9'],
    modes: ['tag'],
    group: 'Marks',
    help: 'tag a digit, or untag it',
    footer: { tag: { word: 'tag', rank: 0 } },
  },
  {
    name: 'enter-digit',
    keys: ['1-9'],
    modes: ['enter'],
    group: 'Write',
    help: 'write it and go on',
    footer: { enter: { word: 'write', rank: 0 } },
  },
  {
    name: 'answer',
    keys: ['1-9'],
    modes: asking,
    group: 'See',
    help: 'what is asked for',
    footer: {
      find: { word: 'digit to show', rank: 0 },
      hold: { word: 'digit to hold', rank: 0 },
      goto: { word: 'row, then column', rank: 0 },
    },
  },
  {
    name: 'next-pen',
    keys: ['p'],
    modes: writing,
    group: 'Write',
    help: 'next pen',
    footer: { work: { word: 'pen', rank: 1 } },
    typed: true,
  },
  { name: 'ink', keys: ['i'], modes: writing, group: 'Write', help: 'ink: place a digit', typed: true },
  {
    name: 'note',
    keys: ['n'],
    modes: writing,
    group: 'Write',
    help: 'note: what a cell can be',
    typed: true,
  },
  {
    name: 'spot',
    keys: ['s'],
    modes: writing,
    group: 'Write',
    help: 'spot: where a digit goes',
    typed: true,
  },
  {
    name: 'strike',
    keys: ['o'],
    modes: writing,
    group: 'Write',
    help: 'strike: rule a digit out',
    typed: true,
  },
  {
    name: 'spot-house',
    keys: ['v'],
    modes: writing,
    group: 'Marks',
    help: 'spots: box, row, column',
    typed: true,
  },
  {
    name: 'hold',
    keys: ['d'],
    modes: writing,
    group: 'Write',
    help: 'take a digit in hand',
    typed: true,
  },
  { name: 'drop', keys: ['d'], modes: ['hold'], group: 'Write', help: 'put the digit down' },
  { name: 'put', keys: ['return'], modes: ['work'], group: 'Write', help: 'write the digit in hand' },
  {
    name: 'erase',
    keys: ['0', 'backspace', 'delete'],
    modes: writing,
    group: 'Write',
    help: 'erase digit, else marks',
    typed: true,
  },
  {
    name: 'skip',
    keys: ['0', '.', 'space'],
    modes: ['enter'],
    group: 'Write',
    help: 'leave the cell open',
    footer: { enter: { word: 'open cell', rank: 2 } },
  },
  {
    name: 'rub-out',
    keys: ['backspace', 'delete'],
    modes: ['enter'],
    group: 'Write',
    help: 'back a cell and erase it',
  },
  {
    name: 'untag',
    keys: ['0', 'backspace', 'delete'],
    modes: ['tag'],
    group: 'Marks',
    help: 'untag the whole cell',
  },
  {
    name: 'hint',
    keys: ['w'],
    modes: writing,
    group: 'Hints',
    help: 'where to look, then more',
    footer: { work: { word: 'hint', rank: 2 }, hint: { word: 'more', rank: 0 } },
    typed: true,
  },
  {
    name: 'take',
    keys: ['return'],
    modes: ['hint'],
    group: 'Hints',
    help: 'take the step, told all',
    footer: { hint: { word: 'take it', rank: 1 } },
    typed: true,
  },
  {
    name: 'lock',
    keys: ['return'],
    modes: ['enter'],
    group: 'Sheet',
    help: 'lock it as the givens',
    footer: { enter: { word: 'lock givens', rank: 1 } },
    typed: true,
  },
  {
    name: 'open',
    keys: ['return'],
    modes: ['paste'],
    group: 'Sheet',
    help: 'open the pasted grid',
    footer: { paste: { word: 'open it', rank: 0 } },
  },
  {
    name: 'submit',
    keys: ['return'],
    modes: ['typed'],
    group: 'Program',
    help: 'do what the line says',
    footer: { typed: { word: 'do it', rank: 0 } },
  },
  {
    name: 'leave',
    keys: ['escape'],
    modes: keyModes,
    group: 'Program',
    help: 'leave what is open',
    footer: {
      hint: { word: 'leave', rank: 2 },
      tag: { word: 'done', rank: 1 },
      enter: { word: 'leave', rank: 3 },
      find: { word: 'leave', rank: 2 },
      hold: { word: 'leave', rank: 2 },
      goto: { word: 'leave', rank: 2 },
      copy: { word: 'leave', rank: 2 },
      paste: { word: 'leave', rank: 1 },
      help: { word: 'back', rank: 0 },
      typed: { word: 'leave', rank: 1 },
    },
  },
  {
    name: 'next-tag',
    keys: ['t'],
    modes: ['tag'],
    group: 'Marks',
    help: 'next tag letter',
    footer: { tag: { word: 'next letter', rank: 2 } },
  },
  {
    name: 'type',
    keys: [':'],
    modes: writing,
    group: 'Program',
    help: 'type moves or an action',
    footer: { work: { word: 'type', rank: 5 } },
  },
  {
    name: 'find',
    keys: ['f'],
    modes: writing,
    group: 'See',
    help: 'show places of a digit',
    footer: { work: { word: 'find', rank: 6 } },
    typed: true,
  },
  {
    name: 'clear-find',
    keys: ['f'],
    modes: ['find'],
    group: 'See',
    help: 'show no digit',
    footer: { find: { word: 'none', rank: 1 } },
  },
  {
    name: 'bivalue',
    keys: ['b'],
    modes: writing,
    group: 'See',
    help: 'show two-candidate cells',
    typed: true,
  },
  {
    name: 'undo',
    keys: ['u'],
    modes: moving,
    group: 'Sheet',
    help: 'undo, redo',
    helpKeys: 'u r',
    footer: { work: { word: 'undo', rank: 3 }, enter: { word: 'undo', rank: 4 } },
    typed: true,
  },
  { name: 'redo', keys: ['r'], modes: moving, group: 'Sheet', help: 'redo', toldWith: 'undo', typed: true },
  {
    name: 'back',
    keys: ['z'],
    modes: writing,
    group: 'Sheet',
    help: 'back to before the slip',
    typed: true,
  },
  {
    name: 'fill',
    keys: ['a'],
    modes: writing,
    group: 'Marks',
    help: 'note all candidates',
    typed: true,
  },
  {
    name: 'singles',
    keys: ['x'],
    modes: writing,
    group: 'Write',
    help: 'place all singles',
    typed: true,
  },
  {
    name: 'tag',
    keys: ['t'],
    modes: writing,
    group: 'Marks',
    help: 'tag candidates by letter',
    typed: true,
  },
  {
    name: 'left',
    keys: ['left', 'h'],
    modes: moving,
    group: 'Move',
    help: 'one cell on',
    helpKeys: 'arrows hjkl',
    typed: true,
  },
  {
    name: 'down',
    keys: ['down', 'j'],
    modes: moving,
    group: 'Move',
    help: 'down',
    toldWith: 'left',
    typed: true,
  },
  { name: 'up', keys: ['up', 'k'], modes: moving, group: 'Move', help: 'up', toldWith: 'left', typed: true },
  {
    name: 'right',
    keys: ['right', 'l'],
    modes: moving,
    group: 'Move',
    help: 'right',
    toldWith: 'left',
    typed: true,
  },
  {
    name: 'row-start',
    keys: ['home'],
    modes: moving,
    group: 'Move',
    help: 'ends of the row',
    helpKeys: 'home end',
  },
  {
    name: 'row-end',
    keys: ['end'],
    modes: moving,
    group: 'Move',
    help: 'end of the row',
    toldWith: 'row-start',
  },
  {
    name: 'column-top',
    keys: ['pageup'],
    modes: moving,
    group: 'Move',
    help: 'ends of the column',
    helpKeys: 'pgup pgdn',
  },
  {
    name: 'column-bottom',
    keys: ['pagedown'],
    modes: moving,
    group: 'Move',
    help: 'end of the column',
    toldWith: 'column-top',
  },
  {
    name: 'next',
    keys: ['tab'],
    modes: moving,
    group: 'Move',
    help: 'next, previous to fill',
    helpKeys: 'tab shift-tab',
    typed: true,
  },
  {
    name: 'previous',
    keys: ['shift+tab'],
    modes: moving,
    group: 'Move',
    help: 'previous to fill',
    toldWith: 'next',
    typed: true,
  },
  { name: 'goto', keys: ['g'], modes: writing, group: 'Move', help: 'go to a row and column', typed: true },
  {
    name: 'right-so-far',
    keys: ['y'],
    modes: writing,
    group: 'Hints',
    help: 'am I right so far?',
    typed: true,
  },
  { name: 'look-over', keys: ['m'], modes: writing, group: 'Hints', help: 'look over my marks', typed: true },
  { name: 'copy', keys: ['c'], modes: writing, group: 'Sheet', help: 'copy grid or candidates' },
  {
    name: 'copy-grid',
    keys: ['g'],
    modes: ['copy'],
    group: 'Sheet',
    help: 'copy the grid',
    footer: { copy: { word: 'grid', rank: 0 } },
    typed: true,
  },
  {
    name: 'copy-candidates',
    keys: ['c'],
    modes: ['copy'],
    group: 'Sheet',
    help: 'copy all candidates',
    footer: { copy: { word: 'candidates', rank: 1 } },
    typed: true,
  },
  { name: 'enter', keys: ['e'], modes: writing, group: 'Sheet', help: 'enter a grid by hand', typed: true },
  {
    name: 'restart',
    keys: ['ctrl+r'],
    modes: writing,
    group: 'Sheet',
    help: 'back to the givens',
    typed: true,
  },
  {
    name: 'next-grid',
    keys: ['down', 'j'],
    modes: ['paste'],
    group: 'Sheet',
    help: 'next pasted grid',
    footer: { paste: { word: 'next grid', rank: 2 } },
  },
  { name: 'previous-grid', keys: ['up', 'k'], modes: ['paste'], group: 'Sheet', help: 'pasted grid before' },
  {
    name: 'more',
    keys: ['space'],
    modes: ['work', 'hint', 'help'],
    group: 'Program',
    help: 'next page of a long text',
    footer: { help: { word: 'next page', rank: 1 } },
  },
  {
    name: 'keys',
    keys: ['?'],
    modes: moving,
    group: 'Program',
    help: 'these keys',
    footer: {
      work: { word: 'keys', rank: 0 },
      hint: { word: 'keys', rank: 3 },
      tag: { word: 'keys', rank: 3 },
      enter: { word: 'keys', rank: 5 },
    },
    typed: true,
  },
  {
    name: 'quit',
    keys: ['q'],
    modes: ['work', 'hint', 'enter', 'tag'],
    group: 'Program',
    help: 'quit',
    helpKeys: 'q ctrl-c',
    footer: { work: { word: 'quit', rank: 0 }, hint: { word: 'quit', rank: 4 } },
    typed: true,
  },
  {
    name: 'cancel',
    keys: ['ctrl+c'],
    modes: keyModes,
    group: 'Program',
    help: 'leave, else quit',
    toldWith: 'quit',
  },
  {
    name: 'suspend',
    keys: ['ctrl+z'],
    modes: keyModes,
    group: 'Program',
    help: 'suspend, redraw',
    helpKeys: 'ctrl-z ctrl-l',
  },
  {
    name: 'redraw',
    keys: ['ctrl+l'],
    modes: keyModes,
    group: 'Program',
    help: 'redraw',
    toldWith: 'suspend',
  },
] as const satisfies readonly ActionEntry[];

export type ActionName = (typeof actions)[number]['name'];
export interface Action extends ActionEntry {
  readonly name: ActionName;
}
const table: readonly Action[] = actions;

const byMode = new Map<KeyMode, Map<string, ActionName>>(
  keyModes.map((mode) => [
    mode,
    new Map(
      table
        .filter((action) => action.modes.includes(mode))
        .flatMap((a) => a.keys.map((key) => [key, a.name])),
    ),
  ]),
);

/** What a key does in a mode; null if nothing. */
export const actionFor = (mode: KeyMode, chord: string): ActionName | null =>
  byMode.get(mode)?.get(/^[1-9]$/.test(chord) ? '1-9' : chord) ?? null;

/** An action by its name; null if there is none. */
export const actionNamed = (name: string): Action | null =>
  table.find((action) => action.name === name) ?? null;

/** The actions of a mode, in the table's order. */
export const actionsOf = (mode: KeyMode): readonly Action[] =>
  table.filter((action) => action.modes.includes(mode));

/** The names that the typed line takes as commands. */
export const typedNames: readonly ActionName[] = table.filter((a) => a.typed).map((a) => a.name);

const words: Readonly<Record<string, string>> = {
  return: 'enter',
  escape: 'esc',
  'shift+tab': 'shift-tab',
  pageup: 'page up',
  pagedown: 'page down',
};

/** A key chord as people read it: `esc`, `enter`, `ctrl-c`. */
export const keyWord = (chord: string): string => words[chord] ?? chord.replace('+', '-');

/** The first key of an action, in words. */
export const keyOf = (name: ActionName): string => keyWord(actionNamed(name)?.keys[0] ?? '');

/** One entry of the footer. */
export interface FooterEntry {
  readonly key: string;
  readonly word: string;
}

const footerWidth = (entries: readonly FooterEntry[]): number =>
  entries.reduce((sum, { key, word }) => sum + key.length + 1 + word.length + 3, -3);

/** The footer of a mode, as much as fits into `width` columns; `offered` leaves out what can't be done now. */
export function footerOf(
  mode: KeyMode,
  width: number,
  offered: (name: ActionName) => boolean,
): FooterEntry[] {
  let entries = actionsOf(mode).flatMap((action) => {
    const place = action.footer?.[mode];
    return place && offered(action.name)
      ? [{ key: keyWord(action.keys[0]), word: place.word, rank: place.rank }]
      : [];
  });
  while (entries.length > 1 && footerWidth(entries) > width) {
    const worst = Math.max(...entries.map(({ rank }) => rank));
    entries = entries.filter(({ rank }) => rank !== worst);
  }
  return entries.map(({ key, word }) => ({ key, word }));
}
