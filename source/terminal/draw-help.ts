import { groups, type KeyMode } from './action.ts';
import type { Action } from './actions.ts';
import { type App, keyModeOf } from './app-state.ts';
import { actionsOf, keyWord } from './keymap.ts';
import type { ScreenPlan } from './layout-sizes.ts';
import type { Canvas } from './screen.ts';

export interface HelpLine {
  readonly kind: 'heading' | 'action' | 'blank';
  readonly keys: string;
  readonly text: string;
}

const keyWidth = 14;

const keysOf = (action: Action): string => action.helpKeys ?? action.keys.map(keyWord).join(' ');

/** The help of one mode, group by group, each group with its lines; an action that another tells is left out. */
export function helpGroups(mode: KeyMode): HelpLine[][] {
  const all = actionsOf(mode);
  return groups.flatMap((group) => {
    const told = (action: Action) => all.some(({ name }) => name === action.toldWith);
    const entries = all.filter((action) => action.group === group && !told(action));
    if (entries.length === 0) return [];
    const lines = entries.map((action): HelpLine => {
      const keys = keysOf(action);
      const shown = keys.length < keyWidth ? keys : keyWord(action.keys[0]);
      return { kind: 'action', keys: shown, text: action.help };
    });
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
  const mode = app.mode.kind === 'help' ? keyModeOf({ ...app, mode: app.mode.over }) : keyModeOf(app);
  const perPage = plan.width >= 80 ? 2 : 1;
  const columnWidth = perPage === 2 ? Math.min(44, Math.floor((plan.width - 2) / 2)) : plan.width;
  const height = plan.footerY - 1;
  const sections = helpGroups(mode);
  const airy = inColumns(sections, height, 1);
  const columns = airy.length <= perPage ? airy : inColumns(sections, height, 0);
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
  const after = canvas.text(
    canvas.text(plan.textX, plan.footerY, 'esc', 'strong'),
    plan.footerY,
    ' back',
    'dim',
  );
  if (pages === 1) return;
  const x = canvas.text(after + 3, plan.footerY, 'space', 'strong');
  canvas.text(x, plan.footerY, ` page ${page + 1} of ${pages}`, 'dim');
}
