/**
 * What a digit's cells in a band, and in a stack, say about each other.
 *
 * A band is 3 rows by 3 boxes, so it has 9 row segments (row r of box b), and a digit takes exactly one in
 * each row and each box: one of six arrangements. Which segments still hold the digit is a *shape* of nine
 * bits (`3 * row + box`). The segments of all arrangements that fit in the shape are its closure: what is
 * outside goes, and that is locked candidates and hidden singles of the band in one look-up. No arrangement
 * means a contradiction. A stack has the same form with columns for rows and bands for boxes.
 */
export interface ShapeTables {
  /** For each shape its closure; 0 where no arrangement fits. */
  readonly closed: Uint16Array;
  /** For each shape the cells of the closure's segments, as 27 bits (`9 * row + column`). */
  readonly kept: Int32Array;
  /** Nine bits, three by three, nine bits apart: bit `3 * i + j` becomes bit `9 * i + j`. */
  readonly spread: Int32Array;
}

const arrangements = [
  [0, 1, 2],
  [0, 2, 1],
  [1, 0, 2],
  [1, 2, 0],
  [2, 0, 1],
  [2, 1, 0],
].map(([a, b, c]) => (1 << a) | (8 << b) | (64 << c));

export function makeShapeTables(): ShapeTables {
  const closed = new Uint16Array(512);
  const kept = new Int32Array(512);
  const spread = new Int32Array(512);
  for (let shape = 0; shape < 512; shape += 1) {
    for (const arrangement of arrangements) if ((arrangement & ~shape) === 0) closed[shape] |= arrangement;
    for (let i = 0; i < 9; i += 1) if ((closed[shape] & (1 << i)) !== 0) kept[shape] |= 7 << (3 * i);
    spread[shape] = (shape & 7) | ((shape & 56) << 6) | ((shape & 448) << 12);
  }
  return { closed, kept, spread };
}
