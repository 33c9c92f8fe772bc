import { isSolved } from '../sheet/marks.ts';
import { type App, keyModeOf, type Mode } from './app-state.ts';
import { answered, argued } from './asking.ts';
import { actionNamed, keyWord } from './keymap.ts';
import { choose, isListing, typeLetter } from './listing.ts';
import { type Message, only, type Update } from './messages.ts';
import { readPaste } from './pasting.ts';
import { perform, performTimes, submit } from './perform.ts';
import { say, sayNoStep, sayStanding } from './saying.ts';

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
