import { lockedCandidates } from './locked-candidates.ts';
import { isLine } from './meetings.ts';

/** A line that has a digit only inside some box (or extra box): it claims the digit of that box. */
export const claiming = lockedCandidates(
  'claiming',
  'Claiming',
  (from) => isLine(from),
  (digit, from, to) => `${from} has its ${digit} inside ${to}, so ${to} has it nowhere else.`,
);
