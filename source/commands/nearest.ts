import { distance } from 'fastest-levenshtein';

/** The word that was probably meant, or null where none is near: at most a third of its letters differ. */
export function nearest(typed: string, words: readonly string[]): string | null {
  let best: string | null = null;
  let least = Infinity;
  for (const word of words) {
    const letters = distance(typed.toLowerCase(), word);
    if (letters < least && letters <= Math.max(1, Math.ceil(word.length / 3))) {
      best = word;
      least = letters;
    }
  }
  return best;
}
