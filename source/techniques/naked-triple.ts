import { nakedSet } from './naked-sets.ts';

/** See nakedSet, for 3. */
export const nakedTriple = nakedSet('naked-triple', 'Naked triple', 3);
