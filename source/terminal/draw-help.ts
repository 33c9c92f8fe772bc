import { type App, keyModeOf } from './app-state.ts';
import { type Action, actionsOf, groups, type KeyMode, keyWord } from './keymap.ts';
import type { ScreenPlan } from './layout-sizes.ts';
import type { Canvas, Role } from './screen.ts';

type HelpLine = readonly (readonly [text: string, role: Role])[];

const keyWidth = 12;

function keysOf(action: Action): string {
  const keys = action.keys.map(keyWord);
  const joined = keys.join(' ');
  return joined.length < keyWidth ? joined : keys[0];
}

/** The help of one mode, group by group, in columns that are `width` wide. */
export function helpLines(mode: KeyMode, width: number): HelpLine[] {
  return groups.flatMap((group): HelpLine[] => {
    const entries = actionsOf(mode).filter((action) => action.group === group);
    if (entries.length === 0) return [];
    const room = width - keyWidth - 2;
    const lines = entries.map((action): HelpLine => {
      const help = action.help.length <= room ? action.help : `${action.help.slice(0, room - 1)}…`;
      return [
        [keysOf(action).padEnd(keyWidth), 'strong'],
        [help, 'text'],
      ];
    });
    return [[[group, 'dim']], ...lines, []];
  });
}

/** The keys of the mode that the person came from, over the whole screen. */
export function drawHelp(canvas: Canvas, plan: ScreenPlan, app: App): void {
  const mode = app.mode.kind === 'help' ? keyModeOf({ ...app, mode: app.mode.over }) : keyModeOf(app);
  const two = plan.width >= 76;
  const columnWidth = two ? Math.min(50, Math.floor((plan.width - 3) / 2)) : plan.width - plan.textX;
  const lines = helpLines(mode, columnWidth);
  const height = plan.footerY - 1;
  const columns: HelpLine[][] = [[]];
  for (const line of lines) {
    const last = columns[columns.length - 1];
    if (last.length < height) {
      if (last.length > 0 || line.length > 0) last.push(line);
    } else if (line.length > 0) columns.push([line]);
  }
  const perPage = two ? 2 : 1;
  const pages = Math.max(1, Math.ceil(columns.length / perPage));
  const page = app.page % pages;
  columns.slice(page * perPage, (page + 1) * perPage).forEach((column, index) => {
    column.forEach((line, y) => {
      let x = plan.textX + index * columnWidth;
      for (const [text, role] of line) x = canvas.text(x, y, text, role);
    });
  });
  let x = canvas.text(plan.textX, plan.footerY, 'esc', 'strong');
  x = canvas.text(x, plan.footerY, ' back', 'dim');
  if (pages > 1) {
    x = canvas.text(x + 3, plan.footerY, 'space', 'strong');
    canvas.text(x, plan.footerY, ` page ${page + 1} of ${pages}`, 'dim');
  }
}
