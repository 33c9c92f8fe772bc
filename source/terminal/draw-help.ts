import { groups, type KeyMode } from './action.ts';
import type { Action } from './actions.ts';
import { type App, keyModeOf } from './app-state.ts';
import { actionsOf, type Keymap, keyWord } from './keymap.ts';
import type { ScreenPlan } from './layout-sizes.ts';
import { isListing } from './listing.ts';
import type { Canvas } from './screen.ts';

export interface HelpLine {
  readonly kind: 'heading' | 'action' | 'blank';
  readonly keys: string;
  readonly text: string;
}

const keyWidth = 14;

/** The keys of an action and of those that are told with it, in words; empty where all are unbound. */
function keysOf(keymap: Keymap, action: Action, withIt: readonly Action[]): string {
  const all = [action, ...withIt];
  if (action.helpKeys !== undefined && !all.some(({ name }) => keymap.isRebound(name)))
    return action.helpKeys;
  return all
    .flatMap(({ name }) => keymap.keysOf(name))
    .map(keyWord)
    .join(' ');
}

/**
 * The help of one mode, group by group, each group with its lines. An action that another tells is left out,
 * and so is what has no key, and digits from ten on where the grid has no more than nine.
 */
export function helpGroups(keymap: Keymap, mode: KeyMode, size = 25): HelpLine[][] {
  const all = actionsOf(mode).filter(({ name }) => name !== 'ten' || size > 9);
  return groups.flatMap((group) => {
    const told = (action: Action) => all.some(({ name }) => name === action.toldWith);
    const entries = all.filter((action) => action.group === group && !told(action));
    const lines = entries.flatMap((action): HelpLine[] => {
      const withIt = all.filter(({ toldWith }) => toldWith === action.name);
      const keys = keysOf(keymap, action, withIt);
      const [first] = keymap.keysOf(action.name);
      const shown =
        keys.length < keyWidth || first === undefined ? keys.slice(0, keyWidth - 1) : keyWord(first);
      return keys === '' ? [] : [{ kind: 'action', keys: shown, text: action.help }];
    });
    if (lines.length === 0) return [];
    return [[{ kind: 'heading', keys: '', text: group }, ...lines]];
  });
}

/** Groups in columns of `height` lines. A group is not torn apart unless it is longer than a column. */
function inColumns(sections: readonly (readonly HelpLine[])[], height: number, gap: 0 | 1): HelpLine[][] {
  const columns: HelpLine[][] = [[]];
  for (const section of sections) {
    const last = columns[columns.length - 1];
    const needed = section.length + (last.length > 0 ? gap : 0);
    if (last.length > 0 && last.length + needed > height) columns.push([]);
    else if (last.length > 0 && gap === 1) last.push({ kind: 'blank', keys: '', text: '' });
    for (const line of section) {
      if (columns[columns.length - 1].length === height) columns.push([]);
      columns[columns.length - 1].push(line);
    }
  }
  return columns;
}

/** The keys of the mode that the person came from, over the whole screen, page by page where they must be. */
export function drawHelp(canvas: Canvas, plan: ScreenPlan, app: App): void {
  const mode = isListing(app.mode) ? keyModeOf({ ...app, mode: app.mode.over }) : keyModeOf(app);
  const perPage = plan.width >= 80 ? 2 : 1;
  const columnWidth = perPage === 2 ? Math.min(44, Math.floor((plan.width - 2) / 2)) : plan.width;
  const height = plan.footerY - 1;
  const { keymap } = app.settings;
  const sections = helpGroups(keymap, mode, plan.size);
  const airy = inColumns(sections, height, 1);
  const tight = inColumns(sections, height, 0);
  const columns = airy.length > perPage && tight.length <= perPage ? tight : airy;
  const pages = Math.max(1, Math.ceil(columns.length / perPage));
  const page = app.page % pages;
  columns.slice(page * perPage, (page + 1) * perPage).forEach((column, index) => {
    const x = plan.textX + index * columnWidth;
    column.forEach(({ kind, keys, text }, y) => {
      if (kind === 'heading') canvas.text(x, y, text, 'dim');
      if (kind !== 'action') return;
      canvas.text(x, y, keys, 'strong');
      canvas.text(x + keyWidth, y, text, 'text');
    });
  });
  let { textX: x } = plan;
  const told = (key: string, words: string) => {
    if (x + key.length + 1 + words.length > plan.width) return;
    x = canvas.text(x, plan.footerY, key, 'strong');
    x = canvas.text(x, plan.footerY, ` ${words}`, 'dim') + 3;
  };
  told(keymap.keyOf('leave'), 'back');
  if (pages > 1) told('space', `page ${page + 1} of ${pages}`);
  told('a-z', 'look for an action');
}
