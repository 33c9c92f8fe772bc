import { cellName } from '../grid/names.ts';
import { slipsOf } from '../sheet/slips.ts';
import type { Sheet } from '../sheet/state.ts';
import { type App, keyOf, type Trail } from './app-state.ts';
import { say } from './saying.ts';
import type { Turn, Turning } from './table.ts';

/**
 * The place that undo leads back to: of the sheet before, where putting this one down was the last thing that was
 * done, or where all on it is undone. Null where undo is the sheet's own.
 */
export function placeBefore({ sheet, trail }: App): number | null {
  const isLast = sheet === trail.laid && !trail.isBack;
  return isLast || sheet.past.length === 0 ? (trail.before.at(-1) ?? null) : null;
}

/** The place that redo leads to, where undo has come from there and nothing was done since; else null. */
export const placeAfter = ({ sheet, trail }: App): number | null =>
  sheet.state === trail.laid.state ? (trail.after.at(-1) ?? null) : null;

function trailAfter({ trail }: App, to: Turning['to'], place: number, laid: Sheet): Trail {
  const { before, after } = trail;
  switch (to) {
    case 'before':
      return { place, before: before.slice(0, -1), after: [...after, trail.place], laid, isBack: true };
    case 'after':
      return { place, before: [...before, trail.place], after: after.slice(0, -1), laid, isBack: false };
    case 'again':
      return { ...trail, laid, isBack: true };
    case 'pasted':
    case 'locked':
    case 'blank':
      return { place, before: [...before, trail.place], after: [], laid, isBack: false };
  }
}

/** What is asked of somebody who enters a grid. */
export const sayEnter = (app: App): string =>
  `Type the givens from ${cellName(app.sheet.state.layout, app.cursor)} on, 0 for an open cell.`;

/** What is said of a sheet that was put down. */
function sayTurned(app: App, to: Turning['to'], greeting: readonly string[]): readonly string[] {
  const undo = keyOf(app, 'undo');
  const opened = greeting.length > 0 ? [...greeting, `${undo} leads back to the sheet before.`] : null;
  switch (to) {
    case 'pasted':
      return opened ?? [`Opened. ${undo} takes it back.`];
    case 'locked': {
      const givens = app.sheet.state.givens.filter((digit) => digit !== 0).length;
      return [`${givens} givens locked.`, ...(opened ?? [])];
    }
    case 'blank':
      return [...greeting, sayEnter(app)];
    case 'again':
      return [...greeting, 'The sheet has been closed elsewhere: now it can be written on here.'];
    case 'before':
      return [...greeting, `Back on the sheet before. ${keyOf(app, 'redo')} leads on again.`];
    case 'after':
      return [...greeting, `On the other sheet again. ${undo} leads back.`];
  }
}

/** The workbench with what the table has put down. Pens and settings stay; what was open over the sheet goes. */
export function withTurn(app: App, to: Turning['to'], turn: Turn): App {
  if (to === 'again' && turn.kind !== 'turned') return app;
  const closed: App = {
    ...app,
    mode: { kind: 'work' },
    picked: new Set(),
    held: null,
    found: null,
    showBivalue: false,
  };
  switch (turn.kind) {
    case 'same':
      return say(closed, `That grid is open already. ${keyOf(app, 'restart')} goes back to its givens.`);
    case 'refused':
      return say(closed, turn.why);
    case 'turned': {
      const { place, sheet, saving = app.saving, greeting } = turn;
      const isEntered = to === 'blank';
      const turned: App = {
        ...closed,
        mode: { kind: isEntered ? 'enter' : 'work' },
        sheet,
        slips: slipsOf(sheet),
        saving,
        cursor: isEntered ? 0 : Math.min(app.cursor, sheet.state.layout.cellCount - 1),
        hint: null,
        argued: null,
        series: null,
        thinking: null,
        trail: trailAfter(app, to, place, sheet),
      };
      return say(turned, ...sayTurned(turned, to, greeting));
    }
  }
}
