import { fish } from './fish.ts';

/** See fish, for four bases. */
export const jellyfish = fish('jellyfish', 'Jellyfish', 4);
