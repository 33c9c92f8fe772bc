import { hiddenSet } from './hidden-sets.ts';

/** See hiddenSet, for 3. */
export const hiddenTriple = hiddenSet('hidden-triple', 'Hidden triple', 3);
