import { hiddenSet } from './hidden-sets.ts';

/** See hiddenSet, for 2. */
export const hiddenPair = hiddenSet('hidden-pair', 'Hidden pair', 2);
