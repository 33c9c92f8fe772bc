import { findGridForm, writeGrid } from '../grid/write.ts';
import { gridOf } from '../sheet/copy.ts';
import type { SheetState } from '../sheet/state.ts';

/** The sheet as text for the clipboard: placed digits as one line, or a table of what each cell can be. */
export function copyText(state: SheetState, what: 'grid' | 'candidates'): string {
  const form = findGridForm(what === 'grid' ? 'line' : 'candidates');
  if (!form) throw new RangeError('the writers of grids lack a form');
  return writeGrid(form, gridOf(state, what === 'grid' ? 'none' : 'candidates'));
}
