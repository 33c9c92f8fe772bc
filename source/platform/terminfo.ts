import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Environment } from './capabilities.ts';

/** The number of `max_colors` among the numbers of an entry, and how its two forms begin (term(5), ncurses). */
const maxColours = 13;
const shortNumbers = 0o432;
const longNumbers = 0o1036;

/**
 * How many colours a compiled terminfo entry says that its terminal has: 0 where it says none, null where the bytes
 * are no such entry. The form is that of term(5): six short numbers, names, booleans, then numbers of two or four
 * bytes, the least first.
 */
export function coloursIn(entry: Uint8Array): number | null {
  const bytes = new DataView(entry.buffer, entry.byteOffset, entry.byteLength);
  if (bytes.byteLength < 12) return null;
  const form = bytes.getUint16(0, true);
  if (form !== shortNumbers && form !== longNumbers) return null;
  const [names, booleans, numbers] = [2, 4, 6].map((at) => bytes.getUint16(at, true));
  if (numbers <= maxColours) return 0;
  const width = form === longNumbers ? 4 : 2;
  // Numbers begin at an even byte.
  const at = 12 + names + booleans + ((names + booleans) % 2) + maxColours * width;
  if (at + width > bytes.byteLength) return null;
  return Math.max(0, width === 4 ? bytes.getInt32(at, true) : bytes.getInt16(at, true));
}

/** Where entries are looked for, in the order of terminfo(5). */
function folders({ TERMINFO, HOME, TERMINFO_DIRS }: Environment): string[] {
  const usual = ['/etc/terminfo', '/lib/terminfo', '/usr/share/terminfo'];
  const listed = TERMINFO_DIRS
    ? TERMINFO_DIRS.split(':').flatMap((each) => (each === '' ? usual : each))
    : [];
  return [...(TERMINFO ? [TERMINFO] : []), ...(HOME ? [join(HOME, '.terminfo')] : []), ...listed, ...usual];
}

/** How many colours the machine's terminfo says that a terminal has; null where it does not know the name. */
export function terminfoColours(term: string, env: Environment): number | null {
  if (!/^[\w+][\w.+-]*$/.test(term)) return null;
  // Most systems sort entries by the first letter, some by its number.
  const places = [term[0], term.charCodeAt(0).toString(16)];
  for (const folder of folders(env)) {
    for (const place of places) {
      try {
        const colours = coloursIn(readFileSync(join(folder, place, term)));
        if (colours !== null) return colours;
      } catch {
        // Not there, or not to be read: the next.
      }
    }
  }
  return null;
}
