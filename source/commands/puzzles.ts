import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** The puzzles that come with the program, as paths, in the order of their names. Empty where they are gone. */
export function shippedPuzzles(packageRoot: URL): string[] {
  const folder = new URL('puzzles/', packageRoot);
  try {
    return readdirSync(folder)
      .filter((name) => name.endsWith('.txt'))
      .sort()
      .map((name) => fileURLToPath(new URL(name, folder)));
  } catch {
    return [];
  }
}
