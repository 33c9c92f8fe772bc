import type { Layout } from '../grid/layout.ts';
import { digitName } from '../grid/names.ts';
import type { NamedGrid } from '../grid/read.ts';
import { newSheet } from '../sheet/sheet.ts';
import type { ActionName } from './actions.ts';
import { type App, canClimb, canTake, keyModeOf } from './app-state.ts';
import { drawGrid, type GridOptions } from './draw-grid.ts';
import { drawHelp } from './draw-help.ts';
import { drawList, listCursor } from './draw-list.ts';
import { drawPicked } from './draw-picked.ts';
import { lookAt } from './grid-look.ts';
import { footerOf } from './keymap.ts';
import { leastSize, planScreen, type ScreenPlan } from './layout-sizes.ts';
import { isAtAGlance, isListing } from './listing.ts';
import { briefly, panelLines } from './panel-lines.ts';
import { type PanelLine, wrap, wrapPieces } from './panel-text.ts';
import { saySavingBriefly } from './saving.ts';
import { Canvas, type Screen, toAscii } from './screen.ts';
import { sceneOf } from './shown.ts';
import { sayThinking } from './thinking.ts';

export type DrawOptions = GridOptions;

/**
 * The whole screen of the workbench as data. Pure: the terminal, the first frame, the pictures of the docs
 * and the tests all show what comes out of here. Never wider or, but for sizes below the least, higher than
 * `rows - 1` lines. The typed line's text is drawn as well; a terminal may lay its own input over it.
 */
export function draw(app: App, options: DrawOptions): Screen {
  const { layout } = app.sheet.state;
  const plan = planScreen(app.size, layout);
  const convert = options.ascii ? toAscii : undefined;
  if (!plan) return drawTooSmall(app, convert);
  const canvas = new Canvas(plan.width, plan.height);
  if (isListing(app.mode)) {
    const atAGlance = isAtAGlance(app.mode);
    if (atAGlance) drawHelp(canvas, plan, app);
    else {
      drawList(canvas, plan, app);
      drawFooter(canvas, plan, app, true);
    }
    return canvas.finish(atAGlance ? null : listCursor(plan, app), convert);
  }
  const scene = sceneOf(app);
  const shown = app.mode.kind === 'paste' ? previewScene(layout, app.mode.grids[app.mode.index]) : scene;
  drawGrid(canvas, plan, lookAt(shown), options);
  if (app.mode.kind !== 'paste') drawPicked(canvas, plan, layout.size, app.picked);
  const { panel } = plan;
  const isWide = plan.isPanelWide;
  const oneLine = app.message.length === 1 && app.message[0].length <= plan.textWidth;
  const long = app.message.length > 0 && (!oneLine || app.mode.kind === 'typed');
  if (panel && isWide) {
    const use = { width: panel.width, longMessage: long, showsMarks: plan.name !== 'tiny' };
    drawPanel(canvas, panel, panelLines(app, use), app.page);
  } else if (panel) drawTinyPanel(canvas, panel.x, app);
  drawMessage(canvas, plan, app, isWide);
  drawFooter(canvas, plan, app, isWide);
  const screen = canvas.finish(cursorPlace(plan, app), convert);
  return app.mode.kind === 'typed'
    ? { ...screen, typedLine: { y: plan.messageY, ...typedLinePlace(plan) } }
    : screen;
}

function drawTooSmall(app: App, convert: ((char: string) => string) | undefined): Screen {
  const { columns, rows } = app.size;
  const canvas = new Canvas(Math.max(1, columns), 1);
  const needed = leastSize(app.sheet.state.layout);
  const least = `${needed.columns} x ${needed.rows}`;
  const here = `${columns} x ${rows}`;
  const words = [
    `inkling needs ${least}; this is ${here}.`,
    `needs ${least}; is ${here}`,
    `${least}, not ${here}`,
    `needs ${least}`,
    least,
  ];
  canvas.text(0, 0, words.find((text) => text.length <= columns) ?? '', 'text');
  return canvas.finish(null, convert);
}

/** A pasted grid as it would stand on the sheet. */
function previewScene(layout: Layout, { grid }: NamedGrid) {
  const { state } = newSheet(layout, grid.givens, '', grid.marks ?? []);
  return { state, cursor: null, slips: [], drawing: null, found: null, bivalue: new Set<number>() };
}

/**
 * Lines that fit a height, where giving up blank ones can do it: of two in a row one goes first, then the last
 * of all, so that what stands at the top keeps its room longest.
 */
function closeUp(lines: readonly PanelLine[], height: number): readonly PanelLine[] {
  const left = [...lines];
  const isBlank = (index: number) => index >= 0 && left[index]?.length === 0;
  while (left.length > height) {
    const doubled = left.findIndex((_, index) => isBlank(index) && isBlank(index + 1));
    const gone = doubled >= 0 ? doubled : left.findLastIndex((_, index) => isBlank(index));
    if (gone < 0) break;
    left.splice(gone, 1);
  }
  return left;
}

/** Draws lines into a box; where they don't fit, with fewer blank lines, and then page by page. */
function drawPanel(
  canvas: Canvas,
  box: { x: number; y: number; height: number },
  lines: readonly PanelLine[],
  page: number,
): void {
  const full = closeUp(lines, box.height);
  const fits = full.length <= box.height;
  const room = fits ? box.height : box.height - 1;
  const pages = Math.max(1, Math.ceil(full.length / room));
  const from = (page % pages) * room;
  full.slice(from, from + room).forEach((line, index) => {
    let x = box.x;
    for (const [text, role] of line) x = canvas.text(x, box.y + index, text, role);
  });
  if (fits) return;
  const x = canvas.text(box.x, box.y + room, 'space', 'strong');
  canvas.text(x, box.y + room, ` page ${(page % pages) + 1} of ${pages}`, 'dim');
}

function drawTinyPanel(canvas: Canvas, x: number, app: App): void {
  const { state } = app.sheet;
  const { size } = state.layout;
  const cell = `r${Math.floor(app.cursor / size) + 1}c${(app.cursor % size) + 1}`;
  const placed = state.givens.filter((digit, index) => digit !== 0 || state.ink[index] !== 0).length;
  canvas.text(x, 0, cell, 'strong');
  canvas.text(x, 1, `${placed} in`, 'dim');
  canvas.text(x, 2, saySavingBriefly(app.saving), 'dim');
  canvas.text(x, 4, 'pen', 'dim');
  canvas.text(x, 5, app.pen, 'strong');
  if (app.pen === 'spot') canvas.text(x, 6, app.spotHouse, 'dim');
  if (app.held !== null) canvas.text(x, 8, `hold ${digitName(app.held)}`, 'strong');
}

/** Where the typed line's prompt stands, and how many columns its text has, the cursor behind it included. */
function typedLinePlace(plan: ScreenPlan): { readonly x: number; readonly room: number } {
  const x = Math.max(0, plan.textX - 2);
  return { x, room: plan.width - x - 3 };
}

/** Message or typed line. Without a panel it also tells of hints and slips, page by page. */
function drawMessage(canvas: Canvas, plan: ScreenPlan, app: App, hasPanel: boolean): void {
  const { messageY: y, textX: x, textWidth: width } = plan;
  if (app.mode.kind === 'typed') {
    const { x: prompt, room } = typedLinePlace(plan);
    canvas.put(prompt, y, ':', 'strong');
    const text = [...app.mode.text];
    canvas.text(prompt + 2, y, text.slice(Math.max(0, text.length - room + 1)).join(''), 'text');
    return;
  }
  if (hasPanel) {
    const [text] = app.message;
    if (app.message.length === 1 && text.length <= width) canvas.text(x, y, text, 'text');
    else canvas.text(x, y, (sayThinking(app) ?? '').slice(0, width), 'dim');
    return;
  }
  const status = statusOf(plan, app);
  if (status !== '') canvas.text(x + width - status.length, y, status, 'strong');
  const pages = briefPages(plan, app);
  const at = app.page % pages.length;
  canvas.text(x, y, pages[at], 'text');
  if (pages.length === 1) return;
  const count = `${at + 1}/${pages.length}`;
  canvas.text(x + messageRoom(plan, app) - count.length, y, count, 'dim');
}

/** The pen in use, at the end of the message line of a terminal without a panel. */
function statusOf(plan: ScreenPlan, app: App): string {
  if (plan.name === 'tiny') return '';
  return app.pen === 'spot' ? `spot ${app.spotHouse}` : app.pen;
}

function messageRoom(plan: ScreenPlan, app: App): number {
  const status = statusOf(plan, app);
  return plan.textWidth - (status === '' ? 0 : status.length + 2);
}

/** What the message line of a terminal without a panel says, page by page; one blank page for nothing. */
function briefPages(plan: ScreenPlan, app: App): string[] {
  const pieces = briefly(app, plan.name === 'tiny');
  const room = messageRoom(plan, app);
  const whole = wrapPieces(pieces, room);
  if (whole.length === 1) return whole;
  // Room for the count behind it: `2/3`, or `12/13`.
  const short = wrapPieces(pieces, room - 4);
  return short.length < 10 ? short : wrapPieces(pieces, room - 6);
}

function drawFooter(canvas: Canvas, plan: ScreenPlan, app: App, hasPanel: boolean): void {
  const offered = (name: ActionName): boolean => {
    if (name === 'hint' && app.hint) return canClimb(app);
    if (name === 'next-shown' || name === 'previous-shown') return (app.series?.shown.length ?? 0) > 1;
    if (name === 'take') return canTake(app);
    if (name === 'next-grid') return app.mode.kind === 'paste' && app.mode.grids.length > 1;
    // A panel names the key beside its own pages.
    if (name === 'more') return !hasPanel && briefPages(plan, app).length > 1;
    return true;
  };
  if (app.mode.kind === 'typed' && app.message.length > 0 && !hasPanel) {
    const pages = wrap(app.message.join(' '), plan.textWidth);
    canvas.text(plan.textX, plan.footerY, pages[0], 'text');
    return;
  }
  let { textX: x } = plan;
  for (const { key, word } of footerOf(app.settings.keymap, keyModeOf(app), plan.textWidth, offered)) {
    // Fewer digits than nine have fewer keys.
    const shown = key === '1-9' ? `1-${Math.min(9, plan.size)}` : key;
    x = canvas.text(x, plan.footerY, shown, 'strong');
    x = canvas.text(x + 1, plan.footerY, word, 'dim') + 3;
  }
}

/** The terminal's own cursor sits on the selected cell, or at the end of the typed line. */
function cursorPlace(plan: ScreenPlan, app: App): Screen['cursor'] {
  if (app.mode.kind === 'typed') return null;
  if (app.mode.kind === 'paste') return null;
  const { size } = app.sheet.state.layout;
  const row = Math.floor(app.cursor / size);
  // Where no mark stands: in the crown, or in the roomy cell's empty first column.
  return {
    x: plan.cellX(app.cursor % size) + (plan.isRoomy ? 0 : plan.digitColumn),
    y: plan.cellY(row) + plan.digitLine,
  };
}
