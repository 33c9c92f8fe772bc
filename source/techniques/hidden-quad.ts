import { hiddenSet } from './hidden-sets.ts';

/** See hiddenSet, for 4. */
export const hiddenQuad = hiddenSet('hidden-quad', 'Hidden quad', 4);
