import type { Grid } from '../grid/position.ts';
import type { NamedGrid } from '../grid/read.ts';
import { findGridForm, type GridForm, gridForms, gridOf, writeGrid } from '../grid/write.ts';
import type { Run } from './command.ts';
import { type Answer, eachGrid } from './each-grid.ts';
import { positionOf } from './grid-text.ts';

/** A table of candidates is asked for to see them: where the grid lists none, it gets all that are possible. */
function withCandidates(form: GridForm, grid: Grid): Grid {
  return form.name === 'candidates' && !grid.marks ? gridOf(positionOf(grid)) : grid;
}

/** A grid in a form. */
export function convertGrid({ grid, remarks }: NamedGrid, form: GridForm): Answer {
  const text = writeGrid(form, withCandidates(form, grid), remarks);
  const lost = grid.marks !== undefined && !form.carriesMarks;
  return {
    json: { schema: 1, form: form.name, text },
    lines: text.replace(/\n$/, '').split('\n'),
    negative: false,
    ...(lost ? { notice: `the form '${form.name}' leaves out the candidates` } : {}),
  };
}

export const run: Run = (invocation, surroundings) => {
  const form = findGridForm(invocation.flags.get('to') ?? '') ?? gridForms[0];
  const between = form.name === 'line' ? [] : [''];
  return eachGrid(invocation, surroundings, (named) => convertGrid(named, form), {
    manyInText: { between },
  });
};
