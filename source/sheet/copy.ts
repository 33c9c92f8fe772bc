import { withClaims } from '../argument/claim.ts';
import type { Grid } from '../grid/position.ts';
import { liveNote, placedAt } from './marks.ts';
import type { SheetState } from './state.ts';
import { viewOf } from './view.ts';

/**
 * What is copied out beside the digits. `none`: nothing. `notes`: the notes as they are shown. `candidates`:
 * all that each open cell can still be, by placed digits, strikes and claims.
 */
export type CopiedMarks = 'none' | 'notes' | 'candidates';

/** Givens and ink as one grid, for any of the grid's writers. A placed cell has no marks. */
export function gridOf(state: SheetState, marks: CopiedMarks = 'none'): Grid {
  const { layout } = state;
  const givens = state.givens.map((_, cell) => placedAt(state, cell));
  switch (marks) {
    case 'none':
      return { layout, givens };
    case 'notes':
      return { layout, givens, marks: givens.map((_, cell) => liveNote(state, cell)) };
    case 'candidates': {
      const { position, claims } = viewOf(state);
      const { candidates } = withClaims(position, claims);
      return {
        layout,
        givens,
        marks: givens.map((digit, cell) => (digit === 0 ? candidates.digitsAt(cell) : 0)),
      };
    }
  }
}

/** The givens alone, without anything that was written on them. */
export const givensOf = (state: SheetState): Grid => ({ layout: state.layout, givens: state.givens });
