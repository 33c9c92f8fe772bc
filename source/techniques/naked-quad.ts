import { nakedSet } from './naked-sets.ts';

/** See nakedSet, for 4. */
export const nakedQuad = nakedSet('naked-quad', 'Naked quad', 4);
