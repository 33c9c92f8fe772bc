/** How many letters must be changed, put in, left out or swapped with the next to make one word of another. */
function distance(a: string, b: string): number {
  let last: number[] = [];
  let row = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (let i = 1; i <= a.length; i += 1) {
    const next = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const changed = row[j - 1] + (a[i - 1] === b[j - 1] ? 0 : 1);
      const isSwapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      next.push(Math.min(row[j] + 1, next[j - 1] + 1, changed, isSwapped ? last[j - 2] + 1 : changed));
    }
    last = row;
    row = next;
  }
  return row[b.length];
}

/** The word that was probably meant: one letter off, of words of more than five letters two; null if none is. */
export function nearestWord<T extends string>(typed: string, words: readonly T[]): T | null {
  if (typed.length > 40) return null;
  const scored = words
    .map((word) => ({ word, letters: distance(typed.toLowerCase(), word) }))
    .filter(({ word, letters }) => letters <= (word.length > 5 ? 2 : 1))
    .sort((a, b) => a.letters - b.letters);
  return scored[0]?.word ?? null;
}
