import { type Action, type ActionName, actions } from './actions.ts';
import { type App, keyModeOf, type Mode } from './app-state.ts';
import { actionsOf, actionTable, sayAction } from './keymap.ts';

/** A list of actions that is open over something. */
export type ListMode = Extract<Mode, { kind: 'help' | 'palette' }>;

export const isListing = (mode: Mode): mode is ListMode => mode.kind === 'help' || mode.kind === 'palette';

/** What the list is made by, or has no sense in it. */
const left: readonly ActionName[] = ['palette', 'cancel', 'type'];

/** How well a word fits: 0 not at all, then its letters in this order, inside a word, at a word's beginning. */
function nearness(word: string, text: string): number {
  if (text.split(/[^a-z0-9]+/).some((each) => each.startsWith(word))) return 3;
  if (text.includes(word)) return 2;
  let at = 0;
  for (const letter of text) if (letter === word[at]) at += 1;
  return at === word.length ? 1 : 0;
}

/**
 * The actions that some words ask for, the best fitting first, then in the table's order. Every word must fit
 * the action's name, what it does, its heading or its key. Letters alone, in order, count in names only.
 */
export function searchActions(
  from: readonly Action[],
  text: string,
  keysOf: (name: ActionName) => readonly string[],
): Action[] {
  const words = text
    .toLowerCase()
    .split(' ')
    .filter((word) => word !== '');
  const scored = from.map((action) => {
    const name = action.name.replaceAll('-', ' ');
    const about = `${sayAction(action)} ${action.help} ${action.group}`.toLowerCase();
    const scores = words.map((word) => {
      if (keysOf(action.name).includes(word)) return 4;
      const inAbout = nearness(word, about);
      return Math.max(nearness(word, name) * 1.1, inAbout > 1 ? inAbout : 0);
    });
    // Of two that fit alike the shorter name is meant.
    const score = scores.reduce((a, b) => a + b, 0) - (words.length > 0 ? name.length / 1000 : 0);
    return { action, fits: scores.every((each) => each > 0), score };
  });
  return scored
    .filter(({ fits }) => fits)
    .sort((a, b) => b.score - a.score)
    .map(({ action }) => action);
}

/** What can be done from where the list was opened; those that want a digit have keys alone. */
export function listable(app: App, mode: ListMode): readonly Action[] {
  const keyMode = keyModeOf({ ...app, mode: mode.over });
  const here = actionsOf(keyMode);
  const all = mode.over.kind === 'work' ? actionTable.filter((a) => a.typed || here.includes(a)) : here;
  const wantsDigit = (name: ActionName) =>
    actions.some((action) => action.name === name && (action.keys as readonly string[]).includes('1-9'));
  return all.filter(({ name }) => !left.includes(name) && !wantsDigit(name));
}

/** The actions that the open list shows. */
export const listed = (app: App, mode: ListMode): readonly Action[] =>
  searchActions(listable(app, mode), mode.text, app.settings.keymap.keysOf);

/** Opens a list over what is open. */
export const openList = (app: App, kind: ListMode['kind']): App => ({
  ...app,
  mode: { kind, over: isListing(app.mode) ? app.mode.over : app.mode, text: '', at: 0 },
  page: 0,
});

/** Whether the help shows all keys at a glance rather than a list to choose from. */
export const isAtAGlance = (mode: ListMode): boolean => mode.kind === 'help' && mode.text === '';

/** Types into the words that are looked for. */
export function typeLetter(app: App, letter: string): App {
  if (!isListing(app.mode) || app.mode.text.length >= 40) return app;
  return { ...app, mode: { ...app.mode, text: app.mode.text + letter, at: 0 }, page: 0 };
}

/** Takes back the last letter, or all of them. */
export function rubLetter(app: App, all = false): App {
  if (!isListing(app.mode) || app.mode.text === '') return app;
  const text = all ? '' : [...app.mode.text].slice(0, -1).join('');
  return { ...app, mode: { ...app.mode, text, at: 0 }, page: 0 };
}

/** Chooses the next one in the list, or the one before, round again at its ends; of keys at a glance, the page. */
export function choose(app: App, by: 1 | -1): App {
  const { mode } = app;
  if (!isListing(mode)) return app;
  if (isAtAGlance(mode)) return { ...app, page: Math.max(0, app.page + by) };
  const { length } = listed(app, mode);
  return length === 0 ? app : { ...app, mode: { ...mode, at: (mode.at + by + length) % length } };
}

/** The chosen action, and the workbench with the list closed; null where none is chosen. */
export function chosen(app: App): { readonly app: App; readonly name: ActionName } | null {
  const { mode } = app;
  if (!isListing(mode) || isAtAGlance(mode)) return null;
  const action = listed(app, mode)[mode.at];
  return action ? { app: { ...app, mode: mode.over, page: 0 }, name: action.name } : null;
}
