import type { Digit } from '../grid/layout.ts';
import { cellName } from '../grid/names.ts';
import type { ArgueAnswer } from '../hint/argue-words.ts';
import type { Ladder } from '../hint/rung.ts';
import type { View } from '../path/step.ts';
import type { Standing } from '../sheet/look-over.ts';
import { isSolved } from '../sheet/marks.ts';
import { type SheetState, tagLetters } from '../sheet/state.ts';
import { viewOf } from '../sheet/view.ts';
import type { LocatedError, Result } from '../text/result.ts';
import type { ActionName } from './actions.ts';
import {
  type App,
  arguedOf,
  canClimb,
  canTake,
  hasUnsavedWork,
  keyModeOf,
  type Mode,
  pens,
  spotHouses,
} from './app-state.ts';
import { answered, turn } from './asking.ts';
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
} from './editing.ts';
import { doAgain, takeBack } from './history.ts';
import { actionFor } from './keymap.ts';
import type { TerminalSize } from './layout-sizes.ts';
import { move, stepTo } from './moving.ts';
import { openGrid, readPaste } from './pasting.ts';
import { say, sayNoStep, sayRemarks, sayStanding, withSheet } from './saying.ts';
import type { Answer, Question } from './series.ts';
import { tagAfter } from './tags.ts';
import { readTyped } from './typed-line.ts';

/** What can happen to the workbench. */
export type Message =
  | { readonly kind: 'key'; readonly chord: string }
  | { readonly kind: 'paste'; readonly text: string; readonly truncated: boolean }
  | { readonly kind: 'resize'; readonly size: TerminalSize }
  | { readonly kind: 'typed'; readonly text: string }
  | { readonly kind: 'submit'; readonly text: string }
  /** Answers to effects. */
  | { readonly kind: 'hint-found'; readonly ladder: Ladder | null }
  | { readonly kind: 'no-hint' | 'standing'; readonly standing: Standing }
  | { readonly kind: 'argued'; readonly text: string; readonly answer: Result<ArgueAnswer, LocatedError> }
  | { readonly kind: 'answered'; readonly text: string; readonly answer: Answer }
  | { readonly kind: 'copied'; readonly what: 'grid' | 'candidates'; readonly problem: string | null };

/** What the workbench wants done; `update` itself does nothing but compute. */
export type Effect =
  | { readonly kind: 'find-hint'; readonly view: View }
  | { readonly kind: 'argue'; readonly view: View; readonly text: string }
  | { readonly kind: 'ask'; readonly about: Question; readonly view: View; readonly text: string }
  | { readonly kind: 'is-right' | 'why-no-hint'; readonly state: SheetState }
  | { readonly kind: 'copy'; readonly text: string; readonly what: 'grid' | 'candidates' }
  /** With the exit code. */
  | { readonly kind: 'quit'; readonly code: 0 | 130 }
  | { readonly kind: 'suspend' | 'redraw' };

/** The workbench after something has happened, and what is to be done. */
export interface Update {
  readonly app: App;
  readonly effects: readonly Effect[];
}

const only = (app: App, ...effects: Effect[]): Update => ({ app, effects });

/** One step of the workbench. Pure: the same app and message give the same answer. */
export function update(app: App, message: Message): Update {
  switch (message.kind) {
    case 'key':
      return press(app, message.chord);
    case 'paste':
      return only(readPaste(app, message.text, message.truncated));
    case 'resize':
      return only({ ...app, size: message.size, page: 0 });
    case 'typed':
      return only(app.mode.kind === 'typed' ? { ...app, mode: { ...app.mode, text: message.text } } : app);
    case 'submit':
      return submit(app, message.text);
    case 'hint-found':
      return only(
        message.ladder
          ? { ...app, hint: { ladder: message.ladder, at: 0 }, series: null, message: [], page: 0 }
          : app,
        ...(message.ladder ? [] : [{ kind: 'why-no-hint', state: app.sheet.state } as const]),
      );
    case 'no-hint':
      return only(say(app, isSolved(app.sheet.state) ? 'Solved.' : sayNoStep(message.standing)));
    case 'argued':
      return only(argued(app, message.text, message.answer));
    case 'answered':
      return only(answered(app, message.text, message.answer));
    case 'standing':
      return only(say(app, sayStanding(message.standing)));
    case 'copied':
      return only(
        say(app, message.problem ?? (message.what === 'grid' ? 'Grid copied.' : 'Candidates copied.')),
      );
  }
}

/** Modes that wait for one more key: any other key leaves them and does what it does at work. */
const waiting: readonly Mode['kind'][] = ['find', 'hold', 'goto', 'copy'];

function press(app: App, chord: string): Update {
  let current = app;
  let name = actionFor(keyModeOf(current), chord);
  if (name === null && waiting.includes(app.mode.kind)) {
    current = { ...app, mode: { kind: 'work' } };
    name = actionFor(keyModeOf(current), chord);
  }
  if (name === null) return only(current === app && !app.quitAsked ? app : { ...current, quitAsked: false });
  const digit = /^[1-9]$/.test(chord) ? Number(chord) : null;
  return perform(current, name, digit);
}

/** Does what an action says. `digit` is the digit that was pressed or typed with it, if any. */
export function perform(before: App, name: ActionName, digit: Digit | null = null): Update {
  const quits = name === 'quit' || name === 'cancel';
  const app = before.quitAsked && !quits ? { ...before, quitAsked: false, message: [] } : before;
  // What was last said stands until the next thing is done; a look around leaves it.
  const quiet = looking.has(name) || app.message.length === 0 ? app : { ...app, message: [], page: 0 };
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
    case 'answer':
      return only(digit === null ? app : answer(quiet, digit));
    case 'next-pen':
      return only({ ...quiet, pen: pens[(pens.indexOf(app.pen) + 1) % pens.length] });
    case 'ink':
    case 'note':
    case 'spot':
    case 'strike':
      return only({ ...quiet, pen: name });
    case 'spot-house':
      return only({
        ...quiet,
        pen: 'spot',
        spotHouse: spotHouses[(spotHouses.indexOf(app.spotHouse) + 1) % spotHouses.length],
      });
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
      return only(takeBack(quiet, 1));
    case 'redo':
      return only(doAgain(quiet));
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
      return only(quiet, { kind: 'is-right', state: app.sheet.state });
    case 'look-over':
      return only(say(quiet, ...sayRemarks(app.sheet.state)));
    case 'copy-grid':
    case 'copy-candidates': {
      const what = name === 'copy-grid' ? 'grid' : 'candidates';
      const text = copyText(app.sheet.state, what);
      return only({ ...quiet, mode: { kind: 'work' } }, { kind: 'copy', text, what });
    }
    case 'enter':
      return only(startEntering(quiet));
    case 'lock':
      return only(lockGivens(quiet));
    case 'open':
      return only(openGrid(quiet));
    case 'next-grid':
    case 'previous-grid': {
      const { mode } = app;
      if (mode.kind !== 'paste') return only(app);
      const count = mode.grids.length;
      const index = (mode.index + (name === 'next-grid' ? 1 : count - 1)) % count;
      return only({ ...app, mode: { ...mode, index }, page: 0 });
    }
    case 'type':
      return only({
        ...quiet,
        mode: { kind: 'typed', text: (arguedOf(app) ?? app.series)?.text ?? '', entries: 0 },
      });
    case 'clear-line': {
      const { mode } = app;
      if (mode.kind !== 'typed') return only(app);
      return only({ ...quiet, mode: { kind: 'typed', text: '', entries: mode.entries + 1 } });
    }
    case 'submit':
      return app.mode.kind === 'typed' ? submit(app, app.mode.text) : only(app);
    case 'keys':
      return only({ ...app, mode: { kind: 'help', over: app.mode }, page: 0 });
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

const looking: ReadonlySet<ActionName> = new Set([
  'more',
  'keys',
  'suspend',
  'redraw',
  'leave',
  'cancel',
  'quit',
]);

function answer(app: App, digit: Digit): App {
  switch (app.mode.kind) {
    case 'find':
      return { ...app, found: digit, mode: { kind: 'work' } };
    case 'hold':
      return { ...app, held: digit, found: digit, mode: { kind: 'work' } };
    case 'goto': {
      const { row } = app.mode;
      if (row === null) return { ...app, mode: { kind: 'goto', row: digit - 1 } };
      return { ...stepTo(app, row, digit - 1), mode: { kind: 'work' } };
    }
    default:
      return app;
  }
}

/** Asks for a technique, or for the way to a cell or candidate, on the sheet as it stands. */
const ask = (app: App, about: Question, text: string): Update =>
  only(app, { kind: 'ask', about, text, view: viewOf(app.sheet.state) });

function hint(app: App): Update {
  if (!app.hint) return only(app, { kind: 'find-hint', view: viewOf(app.sheet.state) });
  if (!canClimb(app)) return only(app);
  return only({ ...app, hint: { ...app.hint, at: app.hint.at + 1 }, page: 0 });
}

/** Takes the step that the hint has told in full. Until then nothing of it is written. */
function take(app: App): App {
  const written = app.hint?.ladder.written;
  if (!canTake(app) || !written) return app;
  const { layout } = app.sheet.state;
  switch (written.kind) {
    case 'placements':
    case 'strikes':
      return withSheet(app, {
        kind: 'take',
        placements: written.kind === 'placements' ? written.candidates : [],
        strikes: written.kind === 'strikes' ? written.candidates : [],
      });
    case 'spot':
      return withSheet(app, {
        kind: 'set-spots',
        fact: written.fact,
        cells: written.places.map((candidate) => Math.floor(candidate / layout.size)),
      });
  }
}

/** Whether Escape has something to leave. */
const isOpen = (app: App): boolean =>
  app.mode.kind !== 'work' ||
  app.hint !== null ||
  arguedOf(app) !== null ||
  app.series !== null ||
  app.held !== null ||
  app.found !== null ||
  app.showBivalue;

function leave(app: App): App {
  const plain = { ...app, message: [], page: 0, quitAsked: false };
  if (app.mode.kind === 'help') return { ...app, mode: app.mode.over, page: 0 };
  if (app.mode.kind === 'enter') {
    return say({ ...plain, mode: { kind: 'work' } }, 'Not locked. e goes on, undo takes it back.');
  }
  if (app.mode.kind !== 'work') return { ...plain, mode: { kind: 'work' } };
  if (app.hint) return { ...plain, hint: null };
  if (arguedOf(app)) return { ...plain, argued: null };
  if (app.series) return { ...plain, series: null };
  return { ...plain, held: null, found: null, showBivalue: false };
}

/** An argument's answer on the workbench; one that can't be read stays in the typed line. */
function argued(app: App, text: string, answer: Result<ArgueAnswer, LocatedError>): App {
  if (!answer.ok) return { ...say(app, answer.error.message), mode: { kind: 'typed', text, entries: 0 } };
  const given = { text, answer: answer.value, on: app.sheet.state };
  return { ...app, argued: given, series: null, message: [], page: 0 };
}

function quit(app: App, code: 0 | 130): Update {
  if (!hasUnsavedWork(app) || app.quitAsked) return only(app, { kind: 'quit', code });
  return only({
    ...say({ ...app, mode: { kind: 'work' } }, 'The sheet is not saved. q again quits, any other key stays.'),
    quitAsked: true,
  });
}

function submit(app: App, text: string): Update {
  const closed: App = { ...app, mode: { kind: 'work' } };
  const typed = readTyped(closed, text);
  switch (typed.kind) {
    case 'nothing':
      return only(closed);
    case 'app':
      return only(typed.app);
    case 'action':
      return perform(closed, typed.name, typed.digit);
    case 'argue':
      return only(
        { ...closed, hint: null },
        { kind: 'argue', view: viewOf(app.sheet.state), text: text.trim() },
      );
    case 'ask':
      return ask(closed, typed.about, typed.text);
    case 'wrong':
      return only({ ...say(app, ...typed.lines), mode: { kind: 'typed', text, entries: 0 } });
  }
}
