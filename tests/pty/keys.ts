/** Bytes that terminals send for named keys (xterm's control sequences document, "PC-Style Function Keys"). */
const named: Readonly<Record<string, string>> = {
  escape: '\x1b',
  return: '\r',
  enter: '\r',
  tab: '\t',
  'shift+tab': '\x1b[Z',
  space: ' ',
  backspace: '\x7f',
  delete: '\x1b[3~',
  insert: '\x1b[2~',
  up: '\x1b[A',
  down: '\x1b[B',
  right: '\x1b[C',
  left: '\x1b[D',
  home: '\x1b[H',
  end: '\x1b[F',
  pageup: '\x1b[5~',
  pagedown: '\x1b[6~',
  f1: '\x1bOP',
};
const arrows: Readonly<Record<string, string>> = {
  up: 'A',
  down: 'B',
  right: 'C',
  left: 'D',
  home: 'H',
  end: 'F',
};
const modifiers: Readonly<Record<string, number>> = { shift: 1, alt: 2, ctrl: 4 };

/**
 * The bytes of one key press: a single character stands for itself; `ctrl+c`, `shift+up`, `escape` and the
 * like by name. Throws for a name it does not know, so that a test can't press nothing.
 */
export function keyBytes(key: string): string {
  if ([...key].length === 1) return key;
  const direct = named[key];
  if (direct !== undefined) return direct;
  const control = /^ctrl\+([a-z@[\\\]^_])$/.exec(key);
  if (control) return String.fromCharCode(control[1]!.toUpperCase().charCodeAt(0) & 31);
  const parts = key.split('+');
  const final = arrows[parts.pop()!];
  const bits = parts.map((part) => modifiers[part] ?? Number.NaN);
  const sum = bits.reduce((total, bit) => total + bit, 1);
  if (final === undefined || Number.isNaN(sum)) throw new Error(`no key is named ${JSON.stringify(key)}`);
  return `\x1b[1;${sum}${final}`;
}

/** The same text as a terminal sends it when it is pasted with bracketed paste on: newlines become returns. */
export const pasteBytes = (text: string): string => `\x1b[200~${text.replaceAll(/\r?\n/g, '\r')}\x1b[201~`;
