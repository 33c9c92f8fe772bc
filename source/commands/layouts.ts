import { readdirSync } from 'node:fs';
import { type Layout, plain } from '../grid/layout.ts';
import { readLayout } from '../grid/layout-reader.ts';
import { splitLines, withoutMark } from '../grid/source-lines.ts';
import { quoteSafe } from '../text/safe.ts';
import { type GridSource, sourceOf } from './input.ts';
import type { Mistake } from './mistake.ts';
import { readAtMost } from './read-at-most.ts';

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

/** The largest layout takes a hundredth of it, remarks and all. */
const sizeLimit = 400_000;

/** The layout that `--layout` names, or that stands in a file of this name; or what is wrong. */
export async function findLayout(asked: string, packageRoot: URL): Promise<Layout | Mistake> {
  if (asked === plain.name) return plain;
  const names = layoutNames(packageRoot);
  const shipped = names.includes(asked);
  let text: string | null;
  try {
    text = readAtMost(shipped ? new URL(`puzzles/layouts/${asked}.txt`, packageRoot) : asked, sizeLimit);
  } catch {
    const { nearest } = await import('./nearest.ts');
    const near = nearest(asked, names);
    const meant = near === null ? '' : `did you mean '${near}'? `;
    return {
      message: `--layout does not know '${asked}', and there is no such file to read`,
      next: `${meant}the names are: ${names.join(', ')}`,
    };
  }
  if (text === null) return { place: asked, message: 'the file is too long for a layout' };
  const layout = readLayout(text, asked);
  if (layout.ok) return layout.value;
  const { line, column, message } = layout.error;
  return {
    place: `${asked}:${line}:${column}`,
    message: message.replace(/^Line \d+, column \d+: /, '').replace(/\.$/, ''),
    next: "'inkling help check' tells how a layout is written",
  };
}

/** At most so many characters are looked at for a remark that says the layout. */
const headLimit = 4096;

/** The name in a remark `# layout: NAME` above all else than remarks and blank lines; null where there is none. */
export function layoutSaid(head: string): string | null {
  for (const line of splitLines(withoutMark(head))) {
    if (/^\s*$/.test(line)) continue;
    const [, remark] = /^\s*#(.*)$/.exec(line) ?? [];
    if (remark === undefined) return null;
    const [, name] = /^#*\s*layout:\s*(\S.*?)\s*$/i.exec(remark) ?? [];
    if (name !== undefined) return name;
  }
  return null;
}

/** The layout that the first lines of a source say, and the source as it was. Throws UnreadableInput. */
async function peekLayout(source: GridSource): Promise<{ said: string | null; source: GridSource }> {
  const chunks = source.chunks[Symbol.asyncIterator]();
  let head = '';
  let ended = false;
  // Until a line is complete that is no remark.
  while (
    !ended &&
    head.length < headLimit &&
    !/(?:^|[\r\n])[^\S\r\n]*[^\s#\ufeff][^\r\n]*[\r\n]/.test(head)
  ) {
    const next = await chunks.next();
    ended = next.done === true;
    if (!next.done) head += next.value;
  }
  const again = async function* () {
    if (head !== '') yield head;
    if (ended) return;
    try {
      for (let next = await chunks.next(); !next.done; next = await chunks.next()) yield next.value;
    } finally {
      await chunks.return?.();
    }
  };
  return { said: layoutSaid(head.slice(0, headLimit)), source: { name: source.name, chunks: again() } };
}

/** A source with the layout that its grids are on. */
export interface OnLayout {
  readonly layout: Layout;
  readonly source: GridSource;
}

/**
 * The source that an operand names, and the layout of its grids: the one that was asked for, else the one
 * that a remark at the beginning of the text names, else the plain one. A text can name what comes with the
 * program, and no files. Throws UnreadableInput.
 */
export async function openOnLayout(
  operand: string,
  stdin: AsyncIterable<Uint8Array>,
  asked: string | undefined,
  packageRoot: URL,
): Promise<OnLayout | Mistake> {
  if (asked !== undefined) {
    const layout = await findLayout(asked, packageRoot);
    return 'message' in layout ? layout : { layout, source: sourceOf(operand, stdin, layout) };
  }
  const { said, source } = await peekLayout(sourceOf(operand, stdin));
  if (said === null) return { layout: plain, source };
  const names = layoutNames(packageRoot);
  const name = said.toLowerCase();
  if (names.includes(name)) {
    const layout = await findLayout(name, packageRoot);
    return 'message' in layout ? layout : { layout, source };
  }
  return {
    place: source.name,
    message: `it says the layout ${quoteSafe(said, 24)}, which does not come with the program`,
    next: `the names are: ${names.join(', ')}; --layout takes a file too`,
  };
}
