import { safeText } from './safe.ts';
import { displayWidth, isSimple } from './width.ts';

const printableAscii = /^[\u0020-\u007e]*$/;

/** Whether a text has nothing but printable ASCII, a character a sign. */
export const isAscii = (text: string): boolean => printableAscii.test(text);

/** The expression is made where it is used: that takes a while, and most texts have no mark to look for. */
const hasMark = (text: string): boolean => /\p{M}/u.test(text);

/** What stands for each sign that was met: looking it up takes a hundredth of working it out. */
const known = new Map<string, string>();
const mostKnown = 10_000;

function standFor(sign: string): string {
  const found = known.get(sign);
  if (found !== undefined) return found;
  const width = displayWidth(sign);
  const stands = width === 1 ? sign : width === 0 ? '' : '?';
  if (known.size < mostKnown) known.set(sign, stands);
  return stands;
}

/**
 * A text made safe to show, of which each code point takes one column: what can be drawn cell by cell. Accents
 * that stand by themselves go, unless one sign has them; wide signs become `?`.
 */
export function inColumns(text: string): string {
  if (isAscii(text) || isSimple(text)) return text;
  const safe = safeText(text, { lineLimit: Number.MAX_SAFE_INTEGER });
  let drawn = '';
  for (const sign of hasMark(safe) ? safe.normalize('NFC') : safe) drawn += standFor(sign);
  return drawn;
}
