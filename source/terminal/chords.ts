import { quoteSafe } from '../text/safe.ts';
import { nearestWord } from './nearest-word.ts';

/** Keys that type nothing, as the key stream names them. */
const namedKeys = [
  ...['return', 'escape', 'tab', 'space', 'backspace', 'delete', 'insert'],
  ...['up', 'down', 'left', 'right', 'home', 'end', 'pageup', 'pagedown', 'begin'],
  ...Array.from({ length: 12 }, (_, index) => `f${index + 1}`),
];

/** Other words for them: those that the help shows, and those that people write. */
const otherNames: Readonly<Record<string, string>> = {
  enter: 'return',
  esc: 'escape',
  pgup: 'pageup',
  pgdn: 'pagedown',
  del: 'delete',
  ins: 'insert',
};

/** What a terminal sends the same bytes for, so that it cannot be told apart. */
const sameAs: Readonly<Record<string, string>> = {
  i: 'tab',
  m: 'return',
  j: 'return',
  h: 'backspace',
  '[': 'escape',
};
/** With these a terminal holds back its output and lets it go on. */
const flowControl: readonly string[] = ['s', 'q'];

/** A chord in the form of the key stream, or why it is none, in a sentence without a full stop. */
export type ChordReading = { readonly chord: string } | { readonly problem: string };

/**
 * Reads a key as a person writes it: `u`, `?`, `space`, `f5`, `ctrl+p` or `ctrl-p`, `shift+up`, `1-9` for every
 * digit. Modifiers in any order.
 */
export function parseChord(text: string): ChordReading {
  const shown = quoteSafe(text, 24);
  if (text === '1-9') return { chord: text };
  const modifiers = new Set<string>();
  let rest = text;
  for (
    let match = /^(ctrl|alt|shift)[+-](?=.)/i.exec(rest);
    match;
    match = /^(ctrl|alt|shift)[+-](?=.)/i.exec(rest)
  ) {
    modifiers.add(match[1].toLowerCase());
    rest = rest.slice(match[0].length);
  }
  const isSign = [...rest].length === 1 && rest !== ' ';
  const word = rest === ' ' ? 'space' : rest.toLowerCase();
  const name = isSign ? rest : (otherNames[word] ?? word);
  if (!isSign && !namedKeys.includes(name)) {
    const near = nearestWord(word, [...namedKeys, ...Object.keys(otherNames)]);
    return { problem: `${shown} is no key${near === null ? '' : `; did you mean ${near}?`}` };
  }
  if (isSign && modifiers.size === 0 && /^[0-9]$/.test(name) && name !== '0') {
    return { problem: `${shown} alone can not be bound: digits write, all nine of them as 1-9` };
  }
  if (isSign && modifiers.has('shift')) {
    return { problem: `${shown}: with Shift a sign is another one, so write that one itself` };
  }
  const letter = name.toLowerCase();
  if (isSign && modifiers.has('ctrl')) {
    const same = sameAs[letter];
    if (same !== undefined) return { problem: `${shown} is the same key as ${same} in a terminal` };
    if (flowControl.includes(letter))
      return { problem: `${shown} is left to the terminal, which stops its output by it` };
  }
  const key = isSign && modifiers.size > 0 ? letter : name;
  const order = ['ctrl', 'alt', 'shift'].filter((modifier) => modifiers.has(modifier));
  return { chord: [...order, key].join('+') };
}
