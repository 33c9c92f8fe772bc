import { finnedFish } from './finned-fish.ts';

/** See finnedFish, for three bases. */
export const finnedSwordfish = finnedFish('finned-swordfish', 'Finned swordfish', 3);
