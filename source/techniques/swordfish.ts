import { fish } from './fish.ts';

/** See fish, for three bases. */
export const swordfish = fish('swordfish', 'Swordfish', 3);
