import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { plain } from '../grid/layout.ts';
import { layoutSaid } from './layouts.ts';

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

/** The first puzzle that comes with the program for a layout; null where there is none. */
export function shippedPuzzle(packageRoot: URL, layout: string = plain.name): string | null {
  const isOn = (path: string) => (layoutSaid(readFileSync(path, 'utf8')) ?? plain.name) === layout;
  return shippedPuzzles(packageRoot).find(isOn) ?? null;
}
