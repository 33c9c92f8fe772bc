/** A key that was pressed. */
export interface KeyEvent {
  readonly kind: 'key';
  /**
   * What was pressed. A key that types a character is named by that character (`a`, `A`, `7`, `?`, `é`), but
   * the space bar is `space`. The others: `return escape tab backspace delete insert up down left right home
   * end pageup pagedown begin` (the 5 of a numeric pad without NumLock) and `f1` to `f12`.
   */
  readonly name: string;
  readonly ctrl: boolean;
  readonly alt: boolean;
  /** Only told for keys that type nothing: with `A` or `?` the character says it already. */
  readonly shift: boolean;
  /** The character that the key types; absent with ctrl or alt and for keys that type nothing. */
  readonly text?: string;
}

/** Text that the terminal says was pasted. It is as it came, from outside: make it safe before showing it. */
export interface PasteEvent {
  readonly kind: 'paste';
  /** Line ends are all `\n`. */
  readonly text: string;
  /** Whether text was left out, because the paste was over the limit or never ended. */
  readonly truncated: boolean;
}

/** What the mouse did; only while mouse reports are switched on. */
export interface MouseEvent {
  readonly kind: 'mouse';
  readonly action: 'press' | 'release' | 'move' | 'scroll-up' | 'scroll-down';
  readonly button: 'left' | 'middle' | 'right' | 'none';
  /** The cell, counted from 0 at the top left. */
  readonly x: number;
  readonly y: number;
  readonly ctrl: boolean;
  readonly alt: boolean;
  readonly shift: boolean;
}

/** The terminal's window got or lost the focus; only while focus reports are switched on. */
export interface FocusEvent {
  readonly kind: 'focus';
  readonly focused: boolean;
}

/** The terminal's answer to a question, without its introducer: `11;rgb:0000/0000/0000`, `?62;4c`. */
export interface ReplyEvent {
  readonly kind: 'reply';
  readonly body: string;
}

/** Everything that can come from a terminal. */
export type TerminalEvent = KeyEvent | PasteEvent | MouseEvent | FocusEvent | ReplyEvent;

/**
 * A key with its modifiers as one word, as keymaps write it: `u`, `U`, `space`, `ctrl+c`, `shift+up`,
 * `ctrl+alt+home`. The order is always ctrl, alt, shift.
 */
export function keyChord(key: KeyEvent): string {
  return `${key.ctrl ? 'ctrl+' : ''}${key.alt ? 'alt+' : ''}${key.shift ? 'shift+' : ''}${key.name}`;
}

const letterFinals: Readonly<Record<string, string>> = {
  up: 'A',
  down: 'B',
  right: 'C',
  left: 'D',
  begin: 'E',
  end: 'F',
  home: 'H',
  f1: 'P',
  f2: 'Q',
  f3: 'R',
  f4: 'S',
};
const tildeNumbers: Readonly<Record<string, number>> = {
  insert: 2,
  delete: 3,
  pageup: 5,
  pagedown: 6,
  f5: 15,
  f6: 17,
  f7: 18,
  f8: 19,
  f9: 20,
  f10: 21,
  f11: 23,
  f12: 24,
};
const plainBytes: Readonly<Record<string, string>> = {
  return: '\r',
  escape: '\x1b',
  tab: '\t',
  backspace: '\x7f',
  space: ' ',
};

/**
 * One key in the bytes that Ink 6.8 reads it by (its parse-keypress.js); undefined for a key that Ink would
 * take for text. Keys that came in an unusual form, such as digits of a numeric pad in application mode, come
 * out in the usual one.
 */
export function keySequence(key: KeyEvent): string | undefined {
  if (key.text !== undefined) return key.text;
  const modifiers = 1 + (key.shift ? 1 : 0) + (key.alt ? 2 : 0) + (key.ctrl ? 4 : 0);
  const letter = letterFinals[key.name];
  if (letter !== undefined) {
    if (modifiers > 1) return `\x1b[1;${modifiers}${letter}`;
    return 'PQRS'.includes(letter) ? `\x1bO${letter}` : `\x1b[${letter}`;
  }
  const number = tildeNumbers[key.name];
  if (number !== undefined) return modifiers > 1 ? `\x1b[${number};${modifiers}~` : `\x1b[${number}~`;
  if (key.name === 'tab' && key.shift) return '\x1b[Z';
  const alt = key.alt ? '\x1b' : '';
  const bytes = plainBytes[key.name];
  if (bytes !== undefined) return key.ctrl ? undefined : alt + bytes;
  if (key.ctrl)
    return /^[a-z]$/.test(key.name) ? alt + String.fromCharCode(key.name.charCodeAt(0) & 31) : undefined;
  return key.alt && /^[a-zA-Z0-9]$/.test(key.name) ? alt + key.name : undefined;
}
