import { existsSync } from 'node:fs';
import { parse as parsePath } from 'node:path';
import type { Surroundings } from './command.ts';
import { type GridInput, gridsIn, UnreadableInput } from './input.ts';
import { openOnLayout } from './layouts.ts';
import type { Mistake } from './mistake.ts';
import { shippedPuzzle } from './puzzles.ts';
import type { NewSheet } from './resume.ts';

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

/** The first grid of what an operand names; without one the puzzle that comes with the program. Or what is wrong. */
export async function readOperand(
  operand: string | undefined,
  layout: string | undefined,
  surroundings: Surroundings,
): Promise<NewSheet | Mistake> {
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
