import { type KeyMode, keyModes } from './action.ts';
import { type Action, type ActionName, actions } from './actions.ts';

/** The table of actions, whatever keys the person has given them. */
export const actionTable: readonly Action[] = actions;

/** Which keys do what: the table's own, or what the person has made of them. */
export interface Keymap {
  /** What a key does in a mode; null if nothing. */
  readonly actionFor: (mode: KeyMode, chord: string) => ActionName | null;
  /** The chords of an action; none where it is unbound. */
  readonly keysOf: (name: ActionName) => readonly string[];
  /** How an action is called where it is told what to press or type: its first key, or its name. */
  readonly keyOf: (name: ActionName) => string;
  /** Whether an action has other keys than the table gives it. */
  readonly isRebound: (name: ActionName) => boolean;
}

/** Other keys for some actions; an empty list unbinds one. */
export type Bindings = ReadonlyMap<ActionName, readonly string[]>;

const words: Readonly<Record<string, string>> = {
  return: 'enter',
  escape: 'esc',
  'shift+tab': 'shift-tab',
  pageup: 'pgup',
  pagedown: 'pgdn',
};

/** A key chord as people read it: `esc`, `enter`, `ctrl-c`. */
export const keyWord = (chord: string): string =>
  words[chord] ?? (chord.length > 1 ? chord.replaceAll('+', '-') : chord);

const byName: ReadonlyMap<string, Action> = new Map(actionTable.map((action) => [action.name, action]));

/** An action by its name; null if there is none. */
export const actionNamed = (name: string): Action | null => byName.get(name) ?? null;

/** What an action does, told of it alone. */
export const sayAction = ({ alone, help }: Action): string => alone ?? help;

/** The actions of a mode, in the table's order. */
export const actionsOf = (mode: KeyMode): readonly Action[] =>
  actionTable.filter((action) => action.modes.includes(mode));

/** The names that the typed line takes as commands. */
export const typedNames: readonly ActionName[] = actionTable.filter((a) => a.typed).map((a) => a.name);

/** Two actions that one key would do in one mode. */
export interface Conflict {
  readonly key: string;
  readonly mode: KeyMode;
  readonly first: ActionName;
  readonly second: ActionName;
}

/** Every two actions that would have one key in one mode, each pair once. */
export function conflictsOf(bindings: Bindings): Conflict[] {
  const found: Conflict[] = [];
  for (const mode of keyModes) {
    const taken = new Map<string, ActionName>();
    for (const action of actionsOf(mode)) {
      for (const key of bindings.get(action.name) ?? action.keys) {
        const first = taken.get(key);
        const isTold = found.some((each) => each.first === first && each.second === action.name);
        if (first === undefined) taken.set(key, action.name);
        else if (first !== action.name && !isTold) found.push({ key, mode, first, second: action.name });
      }
    }
  }
  return found;
}

/** A keymap with some keys other than the table's. Where two would clash, the table's earlier action has it. */
export function makeKeymap(bindings: Bindings): Keymap {
  const keysOf = (name: ActionName): readonly string[] => bindings.get(name) ?? actionNamed(name)?.keys ?? [];
  const byMode = new Map<KeyMode, ReadonlyMap<string, ActionName>>();
  // Made when a key is first asked for in a mode: at the start none is.
  const keysIn = (mode: KeyMode): ReadonlyMap<string, ActionName> => {
    const known = byMode.get(mode);
    if (known) return known;
    const byKey = new Map<string, ActionName>();
    for (const { name } of actionsOf(mode)) {
      for (const key of keysOf(name)) if (!byKey.has(key)) byKey.set(key, name);
    }
    byMode.set(mode, byKey);
    return byKey;
  };
  return {
    actionFor: (mode, chord) => keysIn(mode).get(/^[1-9]$/.test(chord) ? '1-9' : chord) ?? null,
    keysOf,
    keyOf: (name) => {
      const [first] = keysOf(name);
      if (first !== undefined) return keyWord(first);
      return actionNamed(name)?.typed ? `:${name}` : '';
    },
    isRebound: (name) => bindings.has(name),
  };
}

/** The table's own keys. */
export const defaultKeymap: Keymap = makeKeymap(new Map());

/** The same keys; but what to do next is told by the names of actions, for who types lines. */
export const named = (keymap: Keymap): Keymap => ({ ...keymap, keyOf: (name) => name });

/** One entry of the footer. */
export interface FooterEntry {
  readonly key: string;
  readonly word: string;
}

const footerWidth = (entries: readonly FooterEntry[]): number =>
  entries.reduce((sum, { key, word }) => sum + key.length + 1 + word.length + 3, -3);

/** The footer of a mode, as much as fits into `width` columns; `offered` leaves out what can't be done now. */
export function footerOf(
  keymap: Keymap,
  mode: KeyMode,
  width: number,
  offered: (name: ActionName) => boolean,
): FooterEntry[] {
  let entries = actionsOf(mode).flatMap((action) => {
    const place = action.footer?.[mode];
    const key = keymap.keyOf(action.name);
    return place && key !== '' && offered(action.name) ? [{ key, word: place[0], rank: place[1] }] : [];
  });
  while (entries.length > 1 && footerWidth(entries) > width) {
    const worst = Math.max(...entries.map(({ rank }) => rank));
    entries = entries.filter(({ rank }) => rank !== worst);
  }
  return entries.map(({ key, word }) => ({ key, word }));
}
