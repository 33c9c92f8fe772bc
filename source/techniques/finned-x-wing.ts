import { finnedFish } from './finned-fish.ts';

/** See finnedFish, for two bases. */
export const finnedXWing = finnedFish('finned-x-wing', 'Finned X-wing', 2);
