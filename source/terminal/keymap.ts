import { type KeyMode, keyModes } from './action.ts';
import { type Action, type ActionName, actions } from './actions.ts';

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
  pageup: 'pgup',
  pagedown: 'pgdn',
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
      ? [{ key: keyWord(action.keys[0]), word: place[0], rank: place[1] }]
      : [];
  });
  while (entries.length > 1 && footerWidth(entries) > width) {
    const worst = Math.max(...entries.map(({ rank }) => rank));
    entries = entries.filter(({ rank }) => rank !== worst);
  }
  return entries.map(({ key, word }) => ({ key, word }));
}
