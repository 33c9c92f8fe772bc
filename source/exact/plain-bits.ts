/** The number of the lowest, and of the highest, bit that is set. */
export const lowest = (bits: number): number => 31 - Math.clz32(bits & -bits);
export const highest = (bits: number): number => 31 - Math.clz32(bits);

/** Whether two bits are set. */
export function isPair(bits: number): boolean {
  const rest = bits & (bits - 1);
  return rest !== 0 && (rest & (rest - 1)) === 0;
}

/** How many bits are set. The `| 0` keep intermediate results integers, where bit 31 is set too. */
export function bitCount(bits: number): number {
  const pairs = (bits - ((bits >>> 1) & 0x55555555)) | 0;
  const fours = (pairs & 0x33333333) + ((pairs >>> 2) & 0x33333333);
  return Math.imul((fours + (fours >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
}

/** How many bits are set, those of `heavy` four times over. */
export function weightedCount(bits: number, heavy: number): number {
  const more = bits & heavy;
  const pairs = (bits - ((bits >>> 1) & 0x55555555)) | 0;
  const morePairs = (more - ((more >>> 1) & 0x55555555)) | 0;
  const fours = (pairs & 0x33333333) + ((pairs >>> 2) & 0x33333333);
  const moreFours = (morePairs & 0x33333333) + ((morePairs >>> 2) & 0x33333333);
  const eights = (fours + (fours >>> 4)) & 0x0f0f0f0f;
  const moreEights = (moreFours + (moreFours >>> 4)) & 0x0f0f0f0f;
  return Math.imul(eights + 3 * moreEights, 0x01010101) >>> 24;
}

/**
 * Which of the 20 peers of a cell hold a digit, and whether the cell does, each in a bit of its own. `own` is
 * the cell's band, `row` and `box` its first bit there (`9 * row`, `3 * box`), `column` counts from 0.
 */
export const peersWith = (
  own: number,
  other: number,
  another: number,
  row: number,
  column: number,
  box: number,
): number =>
  ((own >> box) & 0o007007007) |
  (((other >> column) & 0o001001001) << 3) |
  (((another >> column) & 0o001001001) << 4) |
  (((own >> row) & (0o777 ^ (7 << box))) << 23);
