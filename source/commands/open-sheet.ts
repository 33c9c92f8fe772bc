import { existsSync } from 'node:fs';
import { parse as parsePath } from 'node:path';
import { systemProcesses } from '../platform/sheet-lock.ts';
import { systemFiles } from '../platform/storage.ts';
import type { Invocation, Surroundings } from './command.ts';
import { type GridInput, gridsIn, readNumberedLine, UnreadableInput } from './input.ts';
import { openOnLayout } from './layouts.ts';
import type { Mistake } from './mistake.ts';
import { shippedPuzzle } from './puzzles.ts';
import {
  findFolder,
  type NewSheet,
  type OpenedSheet,
  openGridSheet,
  openLastSheet,
  type Shelf,
} from './resume.ts';

/** The first grid of an input, or what is wrong with it. */
async function readFirst(
  operand: string,
  title: string,
  layout: string | undefined,
  { stdin, packageRoot }: Surroundings,
): Promise<NewSheet | Mistake> {
  try {
    const opened = await openOnLayout(operand, stdin, layout, packageRoot);
    if ('message' in opened) return opened;
    const grids = gridsIn(opened.source, opened.layout);
    const first = await grids.next();
    // Where the input holds more, the title says so; what comes after is not read.
    const more: IteratorResult<GridInput> = await grids.next();
    await grids.return(undefined);
    if (first.done) return { message: 'there is no grid' };
    if (first.value.kind === 'bad') return first.value.mistake;
    const { named } = first.value;
    const name = named.name ?? title;
    return { grid: named.grid, title: more.done ? name : `${name} (first of several)` };
  } catch (error) {
    if (error instanceof UnreadableInput) return error.mistake;
    throw error;
  }
}

/**
 * The grid of an operand that is one line of a plain grid, as it is read from any source; null for everything else.
 * The readers of sources ask several times as much of a start.
 */
function readPlainLine(operand: string): NewSheet | null {
  if (!/^[.0-9_*?]{81}$/.test(operand) || existsSync(operand)) return null;
  const read = readNumberedLine('GRID', { line: operand, number: 1 });
  return read?.kind === 'grid' ? { grid: read.named.grid, title: read.named.name ?? '' } : null;
}

async function readOperand(
  operand: string | undefined,
  layout: string | undefined,
  surroundings: Surroundings,
): Promise<NewSheet | Mistake> {
  const line = operand === undefined || layout !== undefined ? null : readPlainLine(operand);
  if (line !== null) return line;
  const { stdin, packageRoot } = surroundings;
  if (operand === undefined) {
    const path = shippedPuzzle(packageRoot, layout);
    if (path !== null) return readFirst(path, parsePath(path).name, layout, surroundings);
    return {
      message: `no puzzle ${layout === undefined ? '' : `on the layout '${layout}' `}comes with the program`,
      next: 'name a file: inkling FILE',
    };
  }
  if (operand === '-' && stdin.isTTY) {
    return {
      message: "'-' reads the grid from stdin, but stdin is the terminal",
      next: 'pipe a grid in, or name a file: inkling FILE',
    };
  }
  const isFile = operand !== '-' && existsSync(operand);
  return readFirst(operand, isFile ? parsePath(operand).name : '', layout, surroundings);
}

/** Where sheets are kept on this machine. */
export const shelfOf = (surroundings: Surroundings): Shelf => ({
  files: systemFiles,
  folder: findFolder(surroundings),
  processes: systemProcesses,
});

/**
 * The sheet to work on: the one of the grid that is named, or a new one for it; with no grid the one that was
 * used last, or else a puzzle that comes with the program. With `--new` always a new one.
 */
export async function openSheet(
  { operands, flags }: Pick<Invocation, 'operands' | 'flags'>,
  surroundings: Surroundings,
): Promise<OpenedSheet | Mistake> {
  const shelf = shelfOf(surroundings);
  const [operand] = operands;
  const isNew = flags.has('new');
  const layout = flags.get('layout');
  if (operand === undefined && layout === undefined && !isNew) {
    const last = openLastSheet(shelf);
    if (last) return last;
  }
  const opening = await readOperand(operand, layout, surroundings);
  return 'message' in opening ? opening : openGridSheet(shelf, opening, isNew);
}
