import { DancingLinks } from 'dancing-links';
import type { DigitMask, Layout } from '../../source/grid/layout.ts';
import type { Position } from '../../source/grid/position.ts';

/**
 * First independent judge: the `dancing-links` package. A completion is an exact cover: every cell and every
 * digit of every house is an item, every candidate an option that covers its own.
 */

interface Cover {
  readonly options: readonly { readonly data: number; readonly columnIndices: number[] }[];
  readonly items: number;
}

/**
 * The cover problem of a layout with one digit mask a cell. Every live candidate is an option. Nothing is
 * simplified: the judge should share as little as possible with what it judges.
 */
function coverOf(layout: Layout, masks: ArrayLike<DigitMask>): Cover {
  const { cellCount, size, houses, housesOf } = layout;
  const options: { data: number; columnIndices: number[] }[] = [];
  for (let cell = 0; cell < cellCount; cell += 1) {
    for (let digit = 0; digit < size; digit += 1) {
      if ((masks[cell] & (1 << digit)) === 0) continue;
      const ofHouses = housesOf[cell].map((house) => cellCount + house * size + digit);
      options.push({ data: cell * size + digit, columnIndices: [cell, ...ofHouses] });
    }
  }
  return { options, items: cellCount + houses.length * size };
}

/**
 * Completions of a position, at most `limit`, one digit a cell. Honours struck candidates: only live ones
 * are options. Takes seconds and much memory where a limit in the hundred thousands is met.
 */
export function coverSolutions(position: Position, limit: number): Uint8Array[] {
  return coverSolutionsOfMasks(position.layout, position.candidates.toMasks(), limit);
}

/** The same for one digit mask a cell. */
export function coverSolutionsOfMasks(
  layout: Layout,
  masks: ArrayLike<DigitMask>,
  limit: number,
): Uint8Array[] {
  const { options, items } = coverOf(layout, masks);
  // The package does not notice an item that no option covers when there is no option at all.
  if (options.length === 0) return [];
  const solver = new DancingLinks<number>().createSolver({ columns: items });
  solver.addSparseConstraints([...options]);
  return solver.find(limit).map((found) => {
    const digits = new Uint8Array(layout.cellCount);
    for (const { data } of found) digits[Math.floor(data / layout.size)] = (data % layout.size) + 1;
    return digits;
  });
}

/**
 * The fastest form of a plain 81-character grid that we found for the package, the anchor of every
 * benchmark: only what the givens leave open is an item, only what they allow is an option. Answers how many
 * solutions there are, at most 2; 0 for givens that clash.
 */
export function coverCount(text: string): number {
  const rows = new Uint16Array(9);
  const columns = new Uint16Array(9);
  const boxes = new Uint16Array(9);
  for (let cell = 0; cell < 81; cell += 1) {
    const digit = text.charCodeAt(cell) - 48;
    if (digit < 1 || digit > 9) continue;
    const bit = 1 << digit;
    const [r, c] = [(cell / 9) | 0, cell % 9];
    const b = ((r / 3) | 0) * 3 + ((c / 3) | 0);
    if (((rows[r] | columns[c] | boxes[b]) & bit) !== 0) return 0;
    rows[r] |= bit;
    columns[c] |= bit;
    boxes[b] |= bit;
  }
  const itemOf = new Int16Array(324).fill(-1);
  let items = 0;
  const item = (fact: number): number => {
    if (itemOf[fact] < 0) itemOf[fact] = items++;
    return itemOf[fact];
  };
  const options: { data: number; columnIndices: number[] }[] = [];
  for (let cell = 0; cell < 81; cell += 1) {
    const given = text.charCodeAt(cell) - 48;
    if (given >= 1 && given <= 9) continue;
    const [r, c] = [(cell / 9) | 0, cell % 9];
    const b = ((r / 3) | 0) * 3 + ((c / 3) | 0);
    const used = rows[r] | columns[c] | boxes[b];
    let open = false;
    for (let digit = 1; digit <= 9; digit += 1) {
      if ((used & (1 << digit)) !== 0) continue;
      open = true;
      options.push({
        data: cell * 9 + digit - 1,
        columnIndices: [
          item(cell),
          item(81 + r * 9 + digit - 1),
          item(162 + c * 9 + digit - 1),
          item(243 + b * 9 + digit - 1),
        ],
      });
    }
    if (!open) return 0;
  }
  // A digit that is neither given in a house nor possible in it would never become an item.
  for (let house = 0; house < 9; house += 1) {
    for (let digit = 1; digit <= 9; digit += 1) {
      const bit = 1 << digit;
      if ((rows[house] & bit) === 0 && itemOf[81 + house * 9 + digit - 1] < 0) return 0;
      if ((columns[house] & bit) === 0 && itemOf[162 + house * 9 + digit - 1] < 0) return 0;
      if ((boxes[house] & bit) === 0 && itemOf[243 + house * 9 + digit - 1] < 0) return 0;
    }
  }
  if (items === 0) return 1;
  const solver = new DancingLinks<number>().createSolver({ columns: items });
  solver.addSparseConstraints(options);
  return solver.find(2).length;
}
