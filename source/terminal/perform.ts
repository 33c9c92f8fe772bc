import type { Digit } from '../grid/layout.ts';
import { cellName } from '../grid/names.ts';
import { tagLetters } from '../sheet/state.ts';
import { viewOf } from '../sheet/view.ts';
import type { ActionName } from './actions.ts';
import { type App, arguedOf, keyModeOf } from './app-state.ts';
import { ask, turn } from './asking.ts';
import { copyText } from './copying.ts';
import {
  enterDigit,
  enterNothing,
  erase,
  fillNotes,
  lockGivens,
  placeSingles,
  restart,
  rubOut,
  startEntering,
  tagDigit,
  untag,
  write,
  writeAgain,
} from './editing.ts';
import { hint, take } from './hinting.ts';
import { doAgain, redoLast, takeBack, undoLast } from './history.ts';
import { isOpen, leave, quit } from './leaving.ts';
import { choose, chosen, isListing, openList, rubLetter } from './listing.ts';
import type { Effect } from './messages.ts';
import { only, type Update } from './messages.ts';
import { move } from './moving.ts';
import { openGrid, turnPreview } from './pasting.ts';
import { pick, pickOn, pickPlaces } from './picking.ts';
import { keepLine, recall } from './recalling.ts';
import { say, sayDigits, sayRemarks } from './saying.ts';
import { pens, spotHousesOn } from './settings.ts';
import { tagAfter } from './tags.ts';
import { nextTheme } from './theming.ts';
import { think } from './thinking.ts';
import { readTyped } from './typed-line.ts';
import { answer, countDigit } from './waiting.ts';

/** Does what an action says. `digit` is the digit that was pressed or typed with it, if any. */
export function perform(before: App, name: ActionName, digit: Digit | null = null): Update {
  const quits = name === 'quit' || name === 'cancel';
  const app = before.quitAsked && !quits ? { ...before, quitAsked: false, message: [] } : before;
  // What was last said stands until the next thing is done; a look around leaves it.
  const quiet = looking.has(name) || app.message.length === 0 ? app : { ...app, message: [], page: 0 };
  if (digit !== null && takesDigit.has(name) && digit > app.sheet.state.layout.size) {
    return only(say(quiet, sayDigits(app)));
  }
  switch (name) {
    case 'left':
    case 'right':
    case 'up':
    case 'down':
    case 'row-start':
    case 'row-end':
    case 'column-top':
    case 'column-bottom':
    case 'next':
    case 'previous':
      // A longer answer stays, to be gone through cell by cell.
      return only(move(app.message.length === 1 ? quiet : app, name));
    case 'write':
      return only(digit === null ? app : write(quiet, digit));
    case 'put':
      return only(app.held === null ? app : write(quiet, app.held));
    case 'erase':
      return only(erase(quiet));
    case 'tag-digit':
      return only(digit === null ? app : tagDigit(quiet, digit));
    case 'untag':
      return only(untag(quiet));
    case 'enter-digit':
      return only(digit === null ? app : enterDigit(quiet, digit));
    case 'skip':
      return only(enterNothing(quiet));
    case 'rub-out':
      return only(rubOut(quiet));
    case 'ten':
      if (app.sheet.state.layout.size <= 9) return only(say(quiet, sayDigits(app)));
      return only({ ...quiet, mode: { kind: 'ten', over: app.mode } });
    case 'ten-digit':
      return digit === null ? only(app) : performTen(app, 10 + digit);
    case 'answer':
      return only(digit === null ? app : answer(quiet, digit));
    case 'again':
      return only(writeAgain(quiet));
    case 'pick':
      return only(pick(quiet));
    case 'pick-left':
      return only(pickOn(quiet, 'left'));
    case 'pick-down':
      return only(pickOn(quiet, 'down'));
    case 'pick-up':
      return only(pickOn(quiet, 'up'));
    case 'pick-right':
      return only(pickOn(quiet, 'right'));
    case 'pick-places':
      return only(pickPlaces(quiet));
    case 'next-pen':
      return only({ ...quiet, pen: pens[(pens.indexOf(app.pen) + 1) % pens.length] });
    case 'ink':
    case 'note':
    case 'spot':
    case 'strike':
      return only({ ...quiet, pen: name });
    case 'spot-house': {
      const kinds = spotHousesOn(app.sheet.state.layout);
      const spotHouse = kinds[(kinds.indexOf(app.spotHouse) + 1) % kinds.length];
      return only({ ...quiet, pen: 'spot', spotHouse });
    }
    case 'hold':
    case 'find':
      if (digit !== null) return only(answer({ ...quiet, mode: { kind: name } }, digit));
      return only({ ...quiet, mode: { kind: name } });
    case 'copy':
      return only({ ...quiet, mode: { kind: name } });
    case 'drop':
      return only({ ...quiet, held: null, found: null, mode: { kind: 'work' } });
    case 'clear-find':
      return only({ ...quiet, found: null, mode: { kind: 'work' } });
    case 'goto':
      return only({ ...quiet, mode: { kind: 'goto', row: null } });
    case 'count':
      return only({ ...quiet, mode: { kind: 'count', count: null } });
    case 'count-digit':
      return only(digit === null ? app : countDigit(quiet, digit));
    case 'theme':
      return only(nextTheme(quiet));
    case 'bivalue':
      return only({ ...quiet, showBivalue: !app.showBivalue });
    case 'tag':
      return only({ ...quiet, hint: null, series: null, mode: { kind: 'tag', tag: tagLetters[0] } });
    case 'next-tag': {
      const { mode } = app;
      if (mode.kind !== 'tag') return only(app);
      return only({ ...quiet, mode: { kind: 'tag', tag: tagAfter(mode.tag) } });
    }
    case 'undo':
      return undoLast(quiet);
    case 'redo':
      return redoLast(quiet);
    case 'back':
      return only(
        takeBack(quiet, Math.max(0, ...app.slips.map((slip) => slip.undoSteps)), 'No slip to go back from.'),
      );
    case 'restart':
      return only(restart(quiet));
    case 'fill':
      return only(fillNotes(quiet));
    case 'singles':
      return only(placeSingles(quiet));
    case 'hint':
      return hint(quiet);
    case 'take':
      return only(take(quiet));
    case 'trace':
      return ask(quiet, 'trace', cellName(app.sheet.state.layout, app.cursor));
    case 'next-shown':
      return only(turn(app, 1));
    case 'previous-shown':
      return only(turn(app, -1));
    case 'right-so-far':
      return think(quiet, { kind: 'is-right', state: app.sheet.state });
    case 'look-over':
      return only(say(quiet, ...sayRemarks(app.sheet.state)));
    case 'copy-grid':
    case 'copy-candidates': {
      const what = name === 'copy-grid' ? 'grid' : 'candidates';
      const text = copyText(app.sheet.state, what);
      return only({ ...quiet, mode: { kind: 'work' } }, { kind: 'copy', text, what });
    }
    case 'enter':
      return startEntering(quiet);
    case 'lock':
      return lockGivens(quiet);
    case 'open':
      return openGrid(quiet);
    case 'next-grid':
      return turnPreview(app, 1);
    case 'previous-grid':
      return turnPreview(app, -1);
    case 'type':
      return only({
        ...quiet,
        mode: { kind: 'typed', text: (arguedOf(app) ?? app.series)?.text ?? '', entries: 0 },
      });
    case 'clear-line': {
      const { mode } = app;
      if (isListing(mode)) return only(rubLetter(app, true));
      if (mode.kind !== 'typed') return only(app);
      return only({ ...quiet, mode: { kind: 'typed', text: '', entries: mode.entries + 1 } });
    }
    case 'earlier-line':
      return only(recall(quiet, 1));
    case 'later-line':
      return only(recall(quiet, -1));
    case 'submit':
      return app.mode.kind === 'typed' ? submit(app, app.mode.text) : only(app);
    case 'keys':
      return only(app.mode.kind === 'help' ? leave(app) : openList(app, 'help'));
    case 'palette':
      return only(openList(app, 'palette'));
    case 'next-listed':
      return only(choose(app, 1));
    case 'previous-listed':
      return only(choose(app, -1));
    case 'rub-letter':
      return only(rubLetter(app));
    case 'run': {
      const choice = chosen(app);
      return choice ? perform(choice.app, choice.name) : only(app);
    }
    case 'more':
      return only({ ...app, page: app.page + 1 });
    case 'leave':
      return only(leave(app));
    case 'cancel':
      return isOpen(app) ? only(leave(app)) : quit(app, 130);
    case 'quit':
      return quit(app, 0);
    case 'suspend':
    case 'redraw':
      return only(app, { kind: name });
  }
}

/** What is done with a digit of the grid. */
const takesDigit: ReadonlySet<ActionName> = new Set([
  'write',
  'tag-digit',
  'enter-digit',
  'answer',
  'hold',
  'find',
]);

/** Does with a digit from ten on what its key would do in the mode that waits for it. */
export function performTen(app: App, digit: Digit): Update {
  if (app.mode.kind !== 'ten') return only(app);
  const back: App = { ...app, mode: app.mode.over };
  const name = app.settings.keymap.actionFor(keyModeOf(back), '1');
  return name === null ? only(back) : perform(back, name, digit);
}

const looking: ReadonlySet<ActionName> = new Set([
  'more',
  'keys',
  'palette',
  'next-listed',
  'previous-listed',
  'rub-letter',
  'suspend',
  'redraw',
  'leave',
  'cancel',
  'quit',
]);

/** Does an action so many times, or until it changes nothing any more. */
export function performTimes(before: App, name: ActionName, times: number): Update {
  const { past, future } = before.sheet;
  const quiet: App = { ...before, message: [] };
  if (name === 'undo') {
    return past.length > 0 ? only(takeBack(quiet, Math.min(times, past.length))) : undoLast(quiet);
  }
  if (name === 'redo') {
    return future.length > 0 ? only(doAgain(quiet, Math.min(times, future.length))) : redoLast(quiet);
  }
  let app = before;
  const effects: Effect[] = [];
  for (let left = times; left > 0; left -= 1) {
    const done = perform(app, name);
    const same = done.app.sheet === app.sheet && done.app.cursor === app.cursor;
    app = done.app;
    effects.push(...done.effects);
    if (same && done.app.message.length > 0) break;
  }
  return { app, effects };
}

/** Does what a typed line says; one that cannot be read stays in the line. */
export function submit(app: App, text: string): Update {
  const typed = readTyped({ ...app, mode: { kind: 'work' } }, text);
  if (typed.kind === 'wrong') {
    return only({ ...say(app, ...typed.lines), mode: { kind: 'typed', text, entries: 0 } });
  }
  const closed: App = keepLine({ ...app, mode: { kind: 'work' } }, text);
  switch (typed.kind) {
    case 'nothing':
      return only(closed);
    case 'app':
      return only({ ...typed.app, typedLines: closed.typedLines });
    case 'action':
      if (typed.times !== null) return performTimes(closed, typed.name, typed.times);
      return perform(closed, typed.name, typed.digit);
    case 'argue':
      return think(
        { ...closed, hint: null },
        { kind: 'argue', view: viewOf(app.sheet.state), text: text.trim() },
      );
    case 'ask':
      return ask(closed, typed.about, typed.text);
  }
}
