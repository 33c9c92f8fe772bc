import type { ToldLadder } from '../hint/rung.ts';
import { isSolved } from '../sheet/marks.ts';
import { inColumns } from '../text/columns.ts';
import { type App, keyModeOf, type Mode } from './app-state.ts';
import { answered, argued } from './asking.ts';
import { click } from './clicking.ts';
import { withProgress } from './keeping.ts';
import { actionNamed, keyWord } from './keymap.ts';
import { choose, isListing, typeLetter } from './listing.ts';
import { type Effect, type Message, only, type Update } from './messages.ts';
import { readPaste } from './pasting.ts';
import { perform, performTen, performTimes, submit } from './perform.ts';
import { say, sayNoStep, sayStanding } from './saying.ts';
import { slowly, think } from './thinking.ts';
import { withTurn } from './turning.ts';

/** One step of the workbench. Pure: the same app and message give the same answer. */
export function update(app: App, message: Message): Update {
  switch (message.kind) {
    case 'key':
      return press(app, message.chord);
    case 'paste':
      return readPaste(app, message.text, message.truncated);
    case 'click':
      return only(click(app, message.x, message.y));
    case 'resize':
      return only({ ...app, size: message.size, page: 0 });
    case 'typed':
      return only(typed(app, message.text));
    case 'submit':
      return submit(app, message.text);
    case 'do':
      return perform(app, message.name);
    case 'slow':
      return only(slowly(app));
    case 'unanswered':
      return only(app.mode.kind === 'paste' ? thought(app) : say(thought(app), message.why));
    case 'hint-found':
      return hintFound(app, message.ladder);
    case 'no-hint':
      return only(say(thought(app), isSolved(app.sheet.state) ? 'Solved.' : sayNoStep(message.standing)));
    case 'argued':
      return only(argued(thought(app), message.text, message.answer));
    case 'answered':
      return only(answered(thought(app), message.text, message.answer));
    case 'standing':
      return only(say(thought(app), sayStanding(message.standing)));
    case 'solutions': {
      const { mode } = app;
      const known = mode.kind === 'paste' ? { ...mode, solutions: message.standing } : mode;
      return only({ ...thought(app), mode: known });
    }
    case 'turned':
      return only(withTurn(app, message.to, message.turn));
    case 'saving':
      return only(withProgress(app, message));
    case 'copied':
      return only(
        say(app, message.problem ?? (message.what === 'grid' ? 'Grid copied.' : 'Candidates copied.')),
      );
  }
}

/** The typed line as it stands now. What must not be shown as it is becomes visible signs in it. */
function typed(app: App, text: string): App {
  if (app.mode.kind !== 'typed') return app;
  const safe = inColumns(text);
  const entries = app.mode.entries + (safe === text ? 0 : 1);
  return { ...app, mode: { ...app.mode, text: safe, entries } };
}

/** What was thought about has come to an end. */
const thought = (app: App): App => ({ ...app, thinking: null });

/** A hint shows; then comes what was asked for while it was looked for. */
function hintFound(app: App, ladder: ToldLadder | null): Update {
  if (!ladder) return think(thought(app), { kind: 'why-no-hint', state: app.sheet.state });
  const shown: App = { ...thought(app), hint: { ladder, at: 0 }, series: null, message: [], page: 0 };
  const effects: Effect[] = [];
  const last = (app.thinking?.waiting ?? []).reduce<App>((current, name) => {
    const done = perform(current, name);
    effects.push(...done.effects);
    return done.app;
  }, shown);
  return { app: last, effects };
}

/** Modes that wait for one more key: any other key leaves them and does what it does at work. */
const waiting: readonly Mode['kind'][] = ['find', 'hold', 'goto', 'count', 'copy'];

/** A key that types a letter into a list's words; null for any other. */
function letterOf(app: App, chord: string): string | null {
  if (!isListing(app.mode)) return null;
  if (chord === 'space') return app.mode.text === '' ? null : ' ';
  return [...chord].length === 1 && chord > ' ' ? chord : null;
}

function press(app: App, chord: string): Update {
  const { actionFor } = app.settings.keymap;
  let current = app;
  let name = actionFor(keyModeOf(current), chord);
  if (name === null && isListing(app.mode)) {
    const letter = letterOf(app, chord);
    if (letter !== null) return only(typeLetter(app, letter));
    return only(chord === 'space' ? choose(app, 1) : app);
  }
  if (app.mode.kind === 'ten' && name === null) {
    const letter = /^[a-p]$/i.test(chord) ? chord.toLowerCase().charCodeAt(0) - 'a'.charCodeAt(0) : null;
    return letter === null ? press({ ...app, mode: app.mode.over }, chord) : performTen(app, 10 + letter);
  }
  if (name === null && waiting.includes(app.mode.kind)) {
    current = { ...app, mode: { kind: 'work' } };
    name = actionFor(keyModeOf(current), chord);
  }
  if (name === null) return only(current === app && !app.quitAsked ? app : { ...current, quitAsked: false });
  if (app.mode.kind === 'count' && current !== app && app.mode.count !== null) {
    if (actionNamed(name)?.repeats) return performTimes(current, name, app.mode.count);
    return only(say(current, `${keyWord(chord)} is done once, not ${app.mode.count} times.`));
  }
  const digit = /^[0-9]$/.test(chord) ? Number(chord) : null;
  return perform(current, name, digit);
}
