import { readdirSync, readFileSync } from 'node:fs';
import { type Layout, plain } from '../grid/layout.ts';
import { readLayout } from '../grid/layout-reader.ts';
import type { Mistake } from './mistake.ts';

/** The names that `--layout` knows: the plain layout and those that come with the program. */
export function layoutNames(packageRoot: URL): string[] {
  let names: string[] = [];
  try {
    names = readdirSync(new URL('puzzles/layouts/', packageRoot)).filter((name) => name.endsWith('.txt'));
  } catch {
    // They are gone; files of one's own can still be read.
  }
  return [plain.name, ...names.map((name) => name.slice(0, -'.txt'.length)).sort()];
}

/** The layout that `--layout` names, or that stands in a file of this name; or what is wrong. */
export async function findLayout(asked: string, packageRoot: URL): Promise<Layout | Mistake> {
  if (asked === plain.name) return plain;
  const names = layoutNames(packageRoot);
  const shipped = names.includes(asked);
  let text: string;
  try {
    text = readFileSync(shipped ? new URL(`puzzles/layouts/${asked}.txt`, packageRoot) : asked, 'utf8');
  } catch {
    const { nearest } = await import('./nearest.ts');
    const near = nearest(asked, names);
    const meant = near === null ? '' : `did you mean '${near}'? `;
    return {
      message: `--layout does not know '${asked}', and there is no such file to read`,
      next: `${meant}the names are: ${names.join(', ')}`,
    };
  }
  const layout = readLayout(text, asked);
  if (layout.ok) return layout.value;
  const { line, column, message } = layout.error;
  return {
    place: `${asked}:${line}:${column}`,
    message: message.replace(/^Line \d+, column \d+: /, '').replace(/\.$/, ''),
    next: "'inkling help check' tells how a layout is written",
  };
}
