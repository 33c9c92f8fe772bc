import { nakedSet } from './naked-sets.ts';

/** See nakedSet, for 2. */
export const nakedPair = nakedSet('naked-pair', 'Naked pair', 2);
