/**
 * Third judge: the search that anyone would write first. Row, column and box masks of the digits that stand
 * there, the open cell with the fewest digits next, digits ascending. Shares nothing with the program; plain
 * 9x9 only.
 */

const allDigits = 0b1111111110;
const rowOf = Array.from({ length: 81 }, (_, cell) => Math.floor(cell / 9));
const columnOf = Array.from({ length: 81 }, (_, cell) => cell % 9);
const boxOf = rowOf.map((row, cell) => Math.floor(row / 3) * 3 + Math.floor(columnOf[cell] / 3));
/** How many bits are set in each mask of digits. */
const counts = Uint8Array.from({ length: 1024 }, (_, mask) => mask.toString(2).replaceAll('0', '').length);

/**
 * Completions of givens (0 where a cell is open), at most `limit`; null where `nodes` placements did not
 * decide it.
 */
export function naiveSolutions(
  givens: ArrayLike<number>,
  limit: number,
  nodes: number,
): readonly (readonly number[])[] | null {
  const digits = Array.from(givens);
  const rows = new Array<number>(9).fill(0);
  const columns = new Array<number>(9).fill(0);
  const boxes = new Array<number>(9).fill(0);
  const open: number[] = [];
  const taken = (cell: number): number => rows[rowOf[cell]] | columns[columnOf[cell]] | boxes[boxOf[cell]];
  const toggle = (cell: number, bit: number): void => {
    rows[rowOf[cell]] ^= bit;
    columns[columnOf[cell]] ^= bit;
    boxes[boxOf[cell]] ^= bit;
  };
  for (let cell = 0; cell < 81; cell += 1) {
    if (digits[cell] === 0) {
      open.push(cell);
      continue;
    }
    const bit = 1 << digits[cell];
    if (taken(cell) & bit) return [];
    toggle(cell, bit);
  }
  const found: number[][] = [];
  let left = nodes;
  /** Goes on with the open cells from `from` on; false: the nodes are spent. */
  const search = (from: number): boolean => {
    if (from === open.length) {
      found.push([...digits]);
      return true;
    }
    let best = from;
    let fewest = 10;
    for (let i = from; i < open.length && fewest > 1; i += 1) {
      const count = counts[allDigits & ~taken(open[i])];
      if (count >= fewest) continue;
      best = i;
      fewest = count;
    }
    const cell = open[best];
    open[best] = open[from];
    open[from] = cell;
    let decided = true;
    for (
      let free = allDigits & ~taken(cell);
      free !== 0 && decided && found.length < limit;
      free &= free - 1
    ) {
      const bit = free & -free;
      left -= 1;
      if (left < 0) return false;
      digits[cell] = 31 - Math.clz32(bit);
      toggle(cell, bit);
      decided = search(from + 1);
      toggle(cell, bit);
    }
    digits[cell] = 0;
    return decided;
  };
  return search(0) ? found : null;
}
