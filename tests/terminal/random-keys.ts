import { pasteBytes } from '../pty/keys.ts';
import type { Random } from '../random.ts';

/** Keys that do much, as bytes; none that ends or suspends the program. */
const often = ['\u001b[A', '\u001b[B', '\u001b[C', '\u001b[D', ...'123456789', ...'hjkl'];
const now = [
  ...'nsoxivutrfawzegpd.,;/?',
  '\t',
  ' ',
  '\u007f',
  '\r',
  '\u001b[H',
  '\u001b[F',
  '\u001b[3~',
  '\u001b[Z',
];
/** Whole lines, a paste, a click that nobody asked for. */
const seldom = [
  ':r4c7=3\r',
  ':r5c6:67 r5c4\r',
  ':r5c4<>2 r9c9<>1\r',
  ':7@r1:c6,c7\r',
  ':r3c5<>7 by 7@c2 7@c8\r',
  ':r1c3 by\r',
  ':nonsense is not understood at all, however long it is, and it is far too long for the screen\r',
  ':find x-wing\r',
  ':r4c',
  pasteBytes('53..7....6..195....98....6.8...6...34..8.3..17...2...6.6....28....419..5....8..79'),
  pasteBytes('no grid'),
  '\u001b[<0;3;2M',
];

/** The bytes of one random thing to do. Escape now and then, so that no mode lasts. */
export function randomKey(random: Random): string {
  const kind = random.below(20);
  if (kind < 10) return random.pick(often);
  if (kind < 16) return random.pick(now);
  if (kind < 18) return '\u001b';
  return random.pick(seldom);
}
