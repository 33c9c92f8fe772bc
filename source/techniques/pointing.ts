import { lockedCandidates } from './locked-candidates.ts';
import { isLine } from './meetings.ts';

/**
 * A box (or extra box) that has a digit only inside some other house, most often a line: it points along it.
 * On layouts where boxes overlap, box to box is pointing too.
 */
export const pointing = lockedCandidates(
  'pointing',
  'Pointing',
  (from) => !isLine(from),
  (digit, from, to, has) =>
    `wherever ${from} puts its ${digit}, that ${digit} is in ${to}, which ${has} no other.`,
);
