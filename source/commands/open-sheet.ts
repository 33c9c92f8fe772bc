import { existsSync } from 'node:fs';
import { bareLine } from '../grid/bare-line.ts';
import { plain } from '../grid/layout.ts';
import { systemProcesses } from '../platform/sheet-lock.ts';
import { systemFiles } from '../platform/storage.ts';
import type { Asked, Surroundings } from './command.ts';
import type { Mistake } from './mistake.ts';
import {
  findFolder,
  type NewSheet,
  type OpenedSheet,
  openGridSheet,
  openLastSheet,
  type Shelf,
} from './resume.ts';

/**
 * The grid of an operand that is one line of a plain grid, as it is read from any source; null for everything else.
 * The readers of sources ask several times as much of a start.
 */
function readPlainLine(operand: string): NewSheet | null {
  if (!/^[.0-9_*?]{81}$/.test(operand) || existsSync(operand)) return null;
  const grid = bareLine(plain, operand);
  return grid && { grid, title: '' };
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
  { operands, flags }: Asked,
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
  const line = operand === undefined || layout !== undefined ? null : readPlainLine(operand);
  const opening =
    line ?? (await (await import('./first-grid.ts')).readOperand(operand, layout, surroundings));
  return 'message' in opening ? opening : openGridSheet(shelf, opening, isNew);
}
