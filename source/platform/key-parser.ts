import type { KeyEvent, MouseEvent, TerminalEvent } from './key-event.ts';

/** How input is read. */
export interface KeyParserOptions {
  /**
   * Whether ESC followed by a character is that character with Alt. If not, it is the Escape key and then the
   * character, which is what two quick presses become on a slow line. Default false: nothing here needs Alt.
   */
  readonly altPrefix?: boolean;
  /** The longest paste that is kept, in UTF-16 code units. Default 1,048,576. */
  readonly pasteLimit?: number;
}

const tildeNames: Readonly<Record<number, string>> = {
  1: 'home',
  2: 'insert',
  3: 'delete',
  4: 'end',
  5: 'pageup',
  6: 'pagedown',
  7: 'home',
  8: 'end',
  11: 'f1',
  12: 'f2',
  13: 'f3',
  14: 'f4',
  15: 'f5',
  17: 'f6',
  18: 'f7',
  19: 'f8',
  20: 'f9',
  21: 'f10',
  23: 'f11',
  24: 'f12',
};
const letterNames: Readonly<Record<string, string>> = {
  A: 'up',
  B: 'down',
  C: 'right',
  D: 'left',
  E: 'begin',
  F: 'end',
  H: 'home',
  P: 'f1',
  Q: 'f2',
  R: 'f3',
  S: 'f4',
};
/** rxvt: lower-case arrows, with shift after CSI and with ctrl after SS3. */
const rxvtNames: Readonly<Record<string, string>> = { a: 'up', b: 'down', c: 'right', d: 'left' };
/** The numeric pad in application mode (xterm's control sequences document, "VT220-Style Function Keys"). */
const padText: Readonly<Record<string, string>> = {
  ' ': ' ',
  X: '=',
  j: '*',
  k: '+',
  l: ',',
  m: '-',
  n: '.',
  o: '/',
  p: '0',
  q: '1',
  r: '2',
  s: '3',
  t: '4',
  u: '5',
  v: '6',
  w: '7',
  x: '8',
  y: '9',
};
const controlNames: Readonly<Record<number, string>> = {
  8: 'backspace',
  9: 'tab',
  10: 'return',
  13: 'return',
  27: 'escape',
  127: 'backspace',
};
const pasteEnd = '\x1b[201~';
/** Longer than any sequence that a terminal sends, so that a lone introducer can't swallow what is typed. */
const sequenceLimit = 64;
const replyLimit = 4096;

/** What was read at the head of the input: how long it is and what it says, or that more must come. */
type Reading = { readonly length: number; readonly events: readonly TerminalEvent[] } | 'partial';

const reading = (length: number, ...events: readonly (TerminalEvent | undefined)[]): Reading => ({
  length,
  events: events.filter((event) => event !== undefined),
});

/** A key by name, with modifiers as terminals number them: bits shift 1, alt 2, ctrl 4, meta 8. */
function namedKey(name: string, modifiers = 0): KeyEvent {
  const shift = (modifiers & 1) !== 0;
  return { kind: 'key', name, ctrl: (modifiers & 4) !== 0, alt: (modifiers & 10) !== 0, shift };
}

/** A key that types a character, or with ctrl or alt does not type it. */
function characterKey(text: string, modifiers = 0): KeyEvent {
  const name = text === ' ' ? 'space' : text;
  const key = { ...namedKey(name, modifiers), shift: false };
  return key.ctrl || key.alt ? key : { ...key, text };
}

/** The key of one code point as raw mode delivers it; undefined for what no key types. */
function codeKey(code: number, modifiers = 0): KeyEvent | undefined {
  const name = controlNames[code];
  if (name !== undefined) return namedKey(name, modifiers);
  if (code === 0) return namedKey('space', modifiers | 4);
  if (code < 32) return namedKey(String.fromCharCode(code + 64).toLowerCase(), modifiers | 4);
  if (
    (code > 127 && code < 160) ||
    code === 0xfffd ||
    (code >= 0xd800 && code <= 0xdfff) ||
    code > 0x10ffff
  ) {
    return undefined;
  }
  return characterKey(String.fromCodePoint(code), modifiers);
}

function mouse(code: number, x: number, y: number, released: boolean): MouseEvent | undefined {
  if (!(code >= 0 && x >= 0 && y >= 0)) return undefined; // not numbers
  const wheel = (code & 64) !== 0;
  if (wheel && (code & 3) > 1) return undefined; // sideways
  const button = wheel ? 'none' : (['left', 'middle', 'right', 'none'] as const)[code & 3]!;
  let action: MouseEvent['action'] = released || button === 'none' ? 'release' : 'press';
  if (wheel) action = (code & 3) === 0 ? 'scroll-up' : 'scroll-down';
  else if ((code & 32) !== 0) action = 'move';
  const modifiers = { shift: (code & 4) !== 0, alt: (code & 8) !== 0, ctrl: (code & 16) !== 0 };
  return { kind: 'mouse', action, button, x: Math.max(0, x - 1), y: Math.max(0, y - 1), ...modifiers };
}

/** CSI number ; modifiers u, and xterm's CSI 27 ; modifiers ; number ~: any key by its code point. */
function codedKey(code: number, modifiers: number): KeyEvent | undefined {
  if (code >= 57344 && code <= 63743) return undefined; // keys without a character, by private use numbers
  if ((modifiers & 4) !== 0 && code >= 65 && code <= 90) return codeKey(code + 32, modifiers);
  return codeKey(code, modifiers);
}

/** What a whole control sequence says; nothing if it is none that a key or a report makes. */
function controlSequence(parameters: string, final: string): TerminalEvent | undefined {
  if (parameters.startsWith('<')) {
    const [code, x, y] = parameters.slice(1).split(';').map(Number);
    return final === 'M' || final === 'm' ? mouse(code!, x!, y!, final === 'm') : undefined;
  }
  const reply: TerminalEvent = { kind: 'reply', body: parameters + final };
  if (parameters.startsWith('?') || parameters.startsWith('>')) return reply;
  const fields = parameters.split(';');
  const numbers = fields.map((field) => Number.parseInt(field, 10) || 0);
  const modifiers = Math.max(0, (numbers[1] ?? 1) - 1);
  if (/:3(?:;|$)/.test(parameters)) return undefined; // the release of a key
  switch (final) {
    case '~': {
      if (numbers[0] === 27 && numbers.length === 3) return codedKey(numbers[2]!, modifiers);
      const name = tildeNames[numbers[0]!];
      return name === undefined ? undefined : namedKey(name, modifiers);
    }
    case '$':
    case '^':
    case '@': {
      const name = tildeNames[numbers[0]!];
      return name === undefined ? undefined : namedKey(name, { $: 1, '^': 4, '@': 5 }[final]);
    }
    case 'u':
      return codedKey(numbers[0]!, modifiers);
    case 'Z':
      return namedKey('tab', modifiers | 1);
    case 'I':
    case 'O':
      return parameters === '' ? { kind: 'focus', focused: final === 'I' } : undefined;
    case 'M':
      return numbers.length === 3 ? mouse(numbers[0]! - 32, numbers[1]!, numbers[2]!, false) : undefined;
    case 'n':
    case 't':
    case 'y':
      return reply;
    case 'a':
    case 'b':
    case 'c':
    case 'd':
      return namedKey(rxvtNames[final]!, 1);
    default: {
      const name = letterNames[final];
      if (name === undefined) return undefined;
      // The cursor's place comes as `row;columnR`, F3 with modifiers as `1;modifiersR`: only row 1 is open.
      return final === 'R' && numbers.length === 2 && numbers[0] !== 1 ? reply : namedKey(name, modifiers);
    }
  }
}

/**
 * Turns the characters that a terminal sends into events, one a key press. It keeps no clock: whoever feeds
 * it calls `expire` when the rest of a sequence has not come for a while. Nothing that belongs to a sequence,
 * to the mouse, to focus or to an answer ever comes out as text.
 */
export class KeyParser {
  readonly #altPrefix: boolean;
  readonly #pasteLimit: number;
  #pending = '';
  #paste: { text: string; truncated: boolean } | undefined;

  constructor(options: KeyParserOptions = {}) {
    this.#altPrefix = options.altPrefix ?? false;
    this.#pasteLimit = options.pasteLimit ?? 1_048_576;
  }

  /** Whether characters are held back that may be the start of a sequence. Never while pasting. */
  get waiting(): boolean {
    return this.#pending !== '' && this.#paste === undefined;
  }

  /** Whether a paste has begun and not ended. */
  get pasting(): boolean {
    return this.#paste !== undefined;
  }

  /** Takes whole characters and gives the events that are complete with them, in order. */
  push(characters: string): TerminalEvent[] {
    const events: TerminalEvent[] = [];
    let input = this.#pending + characters;
    this.#pending = '';
    let at = 0;
    while (at < input.length) {
      if (this.#paste) {
        const end = input.indexOf(pasteEnd, at);
        if (end < 0) {
          // Keep what may be the beginning of the end mark.
          let hold = Math.min(pasteEnd.length - 1, input.length - at);
          while (!pasteEnd.startsWith(input.slice(input.length - hold))) hold--;
          this.#addToPaste(input.slice(at, input.length - hold));
          input = input.slice(input.length - hold);
          at = 0;
          break;
        }
        this.#addToPaste(input.slice(at, end));
        events.push(this.#endPaste(false));
        at = end + pasteEnd.length;
        continue;
      }
      const next = this.#read(input, at);
      if (next === 'partial') break;
      for (const event of next.events) events.push(event);
      at += next.length;
    }
    this.#pending = input.slice(at);
    return events;
  }

  /** The rest of a sequence has not come: ESC alone was the Escape key; anything longer is dropped. */
  expire(): TerminalEvent[] {
    if (!this.waiting) return [];
    const held = this.#pending;
    this.#pending = '';
    if (held.length > 2) return [];
    if (this.#altPrefix && held.length === 2) return [characterKey(held[1]!, 2)];
    return held.length === 2 ? [namedKey('escape'), characterKey(held[1]!)] : [namedKey('escape')];
  }

  /** Ends a paste whose end mark has been lost. */
  abandonPaste(): TerminalEvent[] {
    this.#pending = '';
    return this.#paste ? [this.#endPaste(true)] : [];
  }

  #addToPaste(text: string): void {
    const paste = this.#paste!;
    const room = this.#pasteLimit - paste.text.length;
    if (text.length > room) paste.truncated = true;
    if (room > 0) paste.text += text.slice(0, room);
  }

  #endPaste(lost: boolean): TerminalEvent {
    const { text, truncated } = this.#paste!;
    this.#paste = undefined;
    return { kind: 'paste', text: text.replaceAll(/\r\n?/g, '\n'), truncated: truncated || lost };
  }

  #read(input: string, at: number): Reading {
    if (input[at] !== '\x1b') {
      const code = input.codePointAt(at)!;
      return reading(code > 0xffff ? 2 : 1, codeKey(code));
    }
    const introducer = input[at + 1];
    if (introducer === undefined) return 'partial';
    if (introducer === '[') return this.#readControl(input, at);
    if (introducer === 'O') return this.#readShift3(input, at);
    if (introducer === ']') return this.#readAnswer(input, at);
    return this.#readPrefixed(input, at);
  }

  /** ESC and a character that introduces nothing. */
  #readPrefixed(input: string, at: number): Reading {
    const code = input.codePointAt(at + 1)!;
    if (!this.#altPrefix || code === 27) return reading(1, namedKey('escape'));
    return reading(code > 0xffff ? 3 : 2, codeKey(code, 2));
  }

  #readControl(input: string, at: number): Reading {
    const shifted = /\x1b\[(\d+)\$/y; // rxvt: Shift ends a sequence with what ends none elsewhere
    shifted.lastIndex = at;
    const number = shifted.exec(input)?.[1];
    if (number !== undefined) return reading(shifted.lastIndex - at, controlSequence(number, '$'));
    let end = at + 2;
    while (end < input.length && end - at < sequenceLimit && /[\x20-\x3f]/.test(input[end]!)) end++;
    const parameters = input.slice(at + 2, end);
    const final = input[end];
    if (final === undefined) return 'partial';
    const length = end + 1 - at;
    if (!/[\x40-\x7e]/.test(final)) {
      // Not a sequence: Escape and a bracket pressed in a burst, or one that was cut off by something else.
      return parameters === '' ? this.#readPrefixed(input, at) : reading(end - at);
    }
    if (parameters === '') {
      if (final === '[') return this.#readConsoleKey(input, at);
      if (final === 'M') return this.#readOldMouse(input, at);
    }
    if (final === '~' && parameters === '200') {
      this.#paste = { text: '', truncated: false };
      return reading(length);
    }
    return reading(length, controlSequence(parameters, final));
  }

  /** The Linux console's function keys: ESC [ [ A to E. */
  #readConsoleKey(input: string, at: number): Reading {
    const letter = input[at + 3];
    if (letter === undefined) return 'partial';
    const number = 'ABCDE'.indexOf(letter) + 1;
    return number > 0 ? reading(4, namedKey(`f${number}`)) : this.#readPrefixed(input, at);
  }

  /** The oldest mouse report: ESC [ M and three characters, 32 and up. */
  #readOldMouse(input: string, at: number): Reading {
    if (input.length < at + 6) return 'partial';
    const [code, x, y] = [3, 4, 5].map((offset) => input.charCodeAt(at + offset) - 32);
    return reading(6, mouse(code!, x!, y!, false));
  }

  #readShift3(input: string, at: number): Reading {
    const digit = /\d/.test(input[at + 2] ?? '') ? 1 : 0;
    const final = input[at + 2 + digit];
    if (final === undefined) return 'partial';
    const length = 3 + digit;
    const modifiers = digit ? Math.max(0, Number(input[at + 2]) - 1) : 0;
    const name = letterNames[final] ?? { M: 'return', I: 'tab' }[final];
    if (name !== undefined) return reading(length, namedKey(name, modifiers));
    if (digit === 0) {
      const arrow = rxvtNames[final];
      if (arrow !== undefined) return reading(length, namedKey(arrow, 4));
      const text = padText[final];
      if (text !== undefined) return reading(length, characterKey(text));
    }
    return this.#readPrefixed(input, at);
  }

  /** ESC ] number ... BEL or ESC \: the terminal's answer to a question, such as its background colour. */
  #readAnswer(input: string, at: number): Reading {
    const digit = input[at + 2];
    if (digit === undefined) return 'partial';
    if (!/\d/.test(digit)) return this.#readPrefixed(input, at);
    const end = /\x07|\x1b\\|\x1b(?=[^\\])|[\x00-\x06\x08-\x1a]/g;
    end.lastIndex = at + 2;
    const found = end.exec(input);
    if (!found) return input.length - at > replyLimit ? reading(input.length - at) : 'partial';
    const body = input.slice(at + 2, found.index);
    const whole = found[0] === '\x07' || found[0] === '\x1b\\';
    if (!whole) return reading(found.index - at); // cut off by something else
    return reading(end.lastIndex - at, { kind: 'reply', body });
  }
}
