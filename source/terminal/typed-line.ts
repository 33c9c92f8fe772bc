import { factParts } from '../argument/fact.ts';
import { list } from '../argument/words.ts';
import { digitsIn } from '../grid/candidates.ts';
import { type Cell, candidateOf, type Digit } from '../grid/layout.ts';
import { cellName, digitName } from '../grid/names.ts';
import { isStatement } from '../hint/statement.ts';
import { positionOf } from '../sheet/marks.ts';
import { parseMoves } from '../sheet/moves.ts';
import type { SheetEvent, SheetState } from '../sheet/state.ts';
import { quoteSafe } from '../text/safe.ts';
import type { ActionName } from './actions.ts';
import { type App, keyOf } from './app-state.ts';
import { describe } from './describing.ts';
import { actionNamed, typedNames } from './keymap.ts';
import { nearestWord } from './nearest-word.ts';
import { say, withSheet } from './saying.ts';
import { type Question, questions } from './series.ts';
import { themeNames } from './settings.ts';
import { withTheme } from './theming.ts';

/** What a typed line comes to. */
export type Typed =
  | { readonly kind: 'nothing' }
  /** Its moves are done. */
  | { readonly kind: 'app'; readonly app: App }
  | {
      readonly kind: 'action';
      readonly name: ActionName;
      readonly digit: number | null;
      readonly times: number | null;
    }
  /** It says what follows from which facts. */
  | { readonly kind: 'argue' }
  /** It asks for a technique, or for the way to a cell or candidate. */
  | { readonly kind: 'ask'; readonly about: Question; readonly text: string }
  /** It can't be read; the sentences say where and what could stand there. */
  | { readonly kind: 'wrong'; readonly lines: readonly string[] };

/**
 * Reads a typed line: an action's name, `undo 3`, `find 3`, `hold 3`, `theme light`, `find x-wing`, `trace r7c3`, an argument such as
 * `r5c1<>3 by 3@r1 3@c8`, or moves such as `r4c7=3 r4c8:16`.
 */
export function readTyped(app: App, text: string): Typed {
  const line = text.trim();
  if (line === '') return { kind: 'nothing' };
  const told = describe(app.sheet.state, line);
  if (told) return { kind: 'app', app: say(app, ...told) };
  const command = /^([a-z][a-z-]*)(?:\s+([1-9]\d?))?$/.exec(line.toLowerCase());
  if (command) {
    const [, word, digit] = command;
    const action = actionNamed(word === 'help' ? 'keys' : word);
    if (action?.typed) {
      const wantsDigit = action.name === 'find' || action.name === 'hold';
      const number = digit === undefined ? null : Number(digit);
      if (number !== null && !(wantsDigit && number <= app.sheet.state.layout.size) && !action.repeats) {
        return { kind: 'wrong', lines: [wantsDigit ? `${digit} is no digit.` : `${word} takes no number.`] };
      }
      return {
        kind: 'action',
        name: action.name,
        digit: wantsDigit ? number : null,
        times: wantsDigit ? null : number,
      };
    }
    const near = nearestWord(word, typedNames);
    const hint = near ? ` Did you mean ${near}?` : ` ${keyOf(app, 'keys')} shows all actions.`;
    return { kind: 'wrong', lines: [`No action is called ${quoteSafe(word, 16)}.${hint}`] };
  }
  const theme = /^theme\s+(\S+)$/.exec(line.toLowerCase())?.[1];
  if (theme !== undefined) {
    const name = themeNames.find((each) => each === theme);
    if (name) return { kind: 'app', app: withTheme(app, name) };
    return { kind: 'wrong', lines: [`The themes are ${themeNames.join(', ')}.`] };
  }
  const [word, ...rest] = line.split(/\s+/);
  const about = questions.find((name) => name === word.toLowerCase());
  if (about) return { kind: 'ask', about, text: rest.join(' ') };
  if (isStatement(line)) return { kind: 'argue' };
  const { layout } = app.sheet.state;
  const moves = parseMoves(text, layout);
  if (!moves.ok) return { kind: 'wrong', lines: [moves.error.message] };
  let done = app;
  const unwritten: string[] = [];
  for (const move of moves.value) {
    if (move.kind === 'event') unwritten.push(...sayUnwritten(done.sheet.state, move.event));
    done = move.kind === 'go' ? { ...done, cursor: move.cell } : withSheet(done, move.event);
  }
  if (unwritten.length > 0) return { kind: 'app', app: say(done, ...new Set(unwritten)) };
  return { kind: 'app', app: done === app ? say(app, 'Nothing changed.') : done };
}

/** What of a typed move cannot be written, or not be seen, in sentences; none where all of it can. */
function sayUnwritten(state: SheetState, event: SheetEvent): string[] {
  const { layout } = state;
  const filled = (cell: Cell): string[] => {
    const name = cellName(layout, cell);
    if (state.givens[cell] !== 0) return [`${name} is a given.`];
    return state.ink[cell] === 0 ? [] : [`${name} holds ${digitName(state.ink[cell])}.`];
  };
  const { candidates } = positionOf(state);
  const out = (cell: Cell, digits: readonly Digit[]): string[] => {
    const gone = digits.filter((digit) => !candidates.has(candidateOf(layout, cell, digit)));
    if (gone.length === 0) return [];
    const names = list(gone.map(digitName), 'and');
    return [`${names} ${gone.length === 1 ? 'is' : 'are'} out of ${cellName(layout, cell)} already.`];
  };
  switch (event.kind) {
    case 'ink':
      return state.givens[event.cell] === 0 ? [] : filled(event.cell);
    case 'set-note': {
      const held = filled(event.cell);
      return held.length > 0 ? held : out(event.cell, digitsIn(event.digits));
    }
    case 'set-spots': {
      const parts = factParts(layout, event.fact);
      const digits = parts.kind === 'house' ? [parts.digit] : [];
      return event.cells.flatMap((cell) => {
        const held = filled(cell);
        return held.length > 0 ? held : out(cell, digits);
      });
    }
    default:
      return [];
  }
}
