import type { Action } from './actions.ts';
import type { App } from './app-state.ts';
import { keyWord, sayAction } from './keymap.ts';
import type { ScreenPlan } from './layout-sizes.ts';
import { isListing, listed } from './listing.ts';
import type { Canvas } from './screen.ts';

const prompt = 'action  ';
const keyWidth = 15;
const helpWidth = 27;

/** The keys of an action as far as they fit, else how it is typed. */
function keysIn(app: App, { name, typed }: Action): string {
  const keys = app.settings.keymap.keysOf(name).map(keyWord);
  while (keys.length > 1 && keys.join(' ').length >= keyWidth) keys.pop();
  return keys.length > 0 ? keys.join(' ') : typed ? `:${name}` : '';
}

/** The first entry that shows, so that the chosen one is on the screen and the list does not jump about. */
export function listTop(at: number, count: number, height: number): number {
  return Math.max(0, Math.min(count - height, at - Math.floor(height / 2)));
}

/** The words that are looked for and what they ask for, the chosen one marked. */
export function drawList(canvas: Canvas, plan: ScreenPlan, app: App): void {
  const { mode } = app;
  if (!isListing(mode)) return;
  const found = listed(app, mode);
  const x = Math.max(2, plan.textX);
  const start = canvas.text(x, 0, prompt, 'dim');
  const room = plan.width - start - 14;
  const text = [...mode.text];
  canvas.text(start, 0, text.slice(Math.max(0, text.length - room)).join(''), 'strong');
  const count = found.length === 0 ? 'nothing fits' : `${mode.at + 1} of ${found.length}`;
  canvas.text(plan.width - count.length - 1, 0, count, 'dim');
  const height = plan.footerY - 3;
  const top = listTop(mode.at, found.length, height);
  found.slice(top, top + height).forEach((action, index) => {
    const y = index + 2;
    const isChosen = top + index === mode.at;
    if (isChosen) canvas.text(x - 2, y, '▸', 'strong');
    const role = isChosen ? 'strong' : 'text';
    canvas.text(x, y, keysIn(app, action), isChosen ? 'strong' : 'label');
    const isNarrow = plan.width < keyWidth + helpWidth + 20;
    canvas.text(x + keyWidth, y, sayAction(action), role);
    if (!isNarrow) canvas.text(x + keyWidth + helpWidth, y, action.name, 'dim');
  });
}

/** Where the terminal's own cursor stands: behind the words. */
export function listCursor(plan: ScreenPlan, app: App): { readonly x: number; readonly y: number } | null {
  if (!isListing(app.mode)) return null;
  const start = Math.max(2, plan.textX) + prompt.length;
  const room = plan.width - start - 14;
  return { x: start + Math.min(room, [...app.mode.text].length), y: 0 };
}
