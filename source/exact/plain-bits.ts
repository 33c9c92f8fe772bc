/** The number of the lowest, and of the highest, bit that is set. */
export const lowest = (bits: number): number => 31 - Math.clz32(bits & -bits);
export const highest = (bits: number): number => 31 - Math.clz32(bits);

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

/** The first bit of each row of a band that holds a cell. */
const filledRows = (band: number): number =>
  ((((band & 0o377377377) + 0o377377377) | band) & 0o400400400) >>> 8;

/** The first bit of each row of a band that holds two cells. */
export function pairRows(band: number): number {
  // Taking one from a row takes its lowest cell away, and nothing from the next row if it holds one.
  const rest = band & (band - filledRows(band));
  const filled = filledRows(rest);
  return filled & ~filledRows(rest & (rest - filled));
}

/** The columns in which three bands together hold two cells, as nine bits. */
export function pairColumns(top: number, middle: number, bottom: number): number {
  // First how many bands have the cell at a place, then the three rows of such places.
  const one = top | middle | bottom;
  const two = (top & middle) | ((top | middle) & bottom);
  const three = top & middle & bottom;
  const [a, b, c] = [one, one >> 9, one >> 18];
  const [aa, bb, cc] = [two, two >> 9, two >> 18];
  const twice = aa | bb | cc | (a & b) | ((a | b) & c);
  const thrice = three | (three >> 9) | (three >> 18) | (a & b & c);
  return twice & ~(thrice | (aa & (b | c)) | (bb & (a | c)) | (cc & (a | b))) & 0o777;
}
