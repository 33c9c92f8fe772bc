/**
 * Third judge: the search that anyone would write first. Row, column and box masks, the open cell with the
 * fewest digits next, digits ascending. Shares nothing with the program; plain 9x9 only.
 */

/**
 * Completions of givens (0 where a cell is open), at most `limit`; null where `nodes` placements did not
 * decide it.
 */
export function naiveSolutions(
  givens: readonly number[],
  limit: number,
  nodes: number,
): readonly (readonly number[])[] | null {
  const digits = [...givens];
  const rows = new Array<number>(9).fill(0);
  const columns = new Array<number>(9).fill(0);
  const boxes = new Array<number>(9).fill(0);
  const boxAt = (cell: number) => Math.floor(cell / 27) * 3 + Math.floor((cell % 9) / 3);
  const toggle = (cell: number, bit: number): void => {
    rows[Math.floor(cell / 9)] ^= bit;
    columns[cell % 9] ^= bit;
    boxes[boxAt(cell)] ^= bit;
  };
  const taken = (cell: number) => rows[Math.floor(cell / 9)] | columns[cell % 9] | boxes[boxAt(cell)];
  for (let cell = 0; cell < 81; cell += 1) {
    if (digits[cell] === 0) continue;
    const bit = 1 << digits[cell];
    if (taken(cell) & bit) return [];
    toggle(cell, bit);
  }
  const found: number[][] = [];
  let left = nodes;
  /** Goes on from here; false: the nodes are spent. */
  const search = (): boolean => {
    let best = -1;
    let fewest = 10;
    for (let cell = 0; cell < 81; cell += 1) {
      if (digits[cell] !== 0) continue;
      const used = taken(cell);
      let count = 0;
      for (let digit = 1; digit <= 9; digit += 1) if ((used & (1 << digit)) === 0) count += 1;
      if (count < fewest) {
        best = cell;
        fewest = count;
      }
    }
    if (best < 0) {
      found.push([...digits]);
      return true;
    }
    for (let digit = 1; digit <= 9 && found.length < limit; digit += 1) {
      const bit = 1 << digit;
      if (taken(best) & bit) continue;
      left -= 1;
      if (left < 0) return false;
      digits[best] = digit;
      toggle(best, bit);
      const decided = search();
      toggle(best, bit);
      digits[best] = 0;
      if (!decided) return false;
    }
    return true;
  };
  return search() ? found : null;
}
