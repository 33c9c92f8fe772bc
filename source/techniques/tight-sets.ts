import { bitCount } from './finding.ts';

/**
 * Sets of k masks, out of the first `count`, that have exactly `room` bits together, k or k - 1. Naked and
 * hidden sets and fish are such sets, with k bits, over cells, digits and lines; with k - 1 bits the masks
 * cannot all be served. A set may contain a smaller one: people name it all the same. Calls `visit` with the
 * chosen indices, ascending, in lexicographic order; the array is used again.
 */
export function eachTightSet(
  masks: ArrayLike<number>,
  count: number,
  k: number,
  room: number,
  visit: (chosen: readonly number[], union: number) => void,
): void {
  if (count < k) return;
  if (k === 2) {
    eachTwo(masks, count, room, visit);
    return;
  }
  if (k === 3) {
    eachThree(masks, count, room, visit);
    return;
  }
  const chosen: number[] = [];
  const extend = (from: number, union: number): void => {
    if (chosen.length === k) {
      if (bitCount(union) === room) visit(chosen, union);
      return;
    }
    for (let i = from; i <= count - (k - chosen.length); i += 1) {
      const wider = union | masks[i];
      if (bitCount(wider) > room) continue;
      chosen.push(i);
      extend(i + 1, wider);
      chosen.pop();
    }
  };
  extend(0, 0);
}

/** The same for two, without a call for each: paths ask for their names. */
function eachTwo(
  masks: ArrayLike<number>,
  count: number,
  room: number,
  visit: (chosen: readonly number[], union: number) => void,
): void {
  const chosen = [0, 0];
  for (let i = 0; i < count - 1; i += 1) {
    for (let j = i + 1; j < count; j += 1) {
      const union = masks[i] | masks[j];
      if (bitCount(union) !== room) continue;
      chosen[0] = i;
      chosen[1] = j;
      visit(chosen, union);
    }
  }
}

/** The same for three, without a call for each: paths look for these at every step that two facts do not make. */
function eachThree(
  masks: ArrayLike<number>,
  count: number,
  room: number,
  visit: (chosen: readonly number[], union: number) => void,
): void {
  const chosen = [0, 0, 0];
  for (let i = 0; i < count - 2; i += 1) {
    for (let j = i + 1; j < count - 1; j += 1) {
      const two = masks[i] | masks[j];
      if (bitCount(two) > room) continue;
      for (let l = j + 1; l < count; l += 1) {
        const union = two | masks[l];
        if (bitCount(union) !== room) continue;
        chosen[0] = i;
        chosen[1] = j;
        chosen[2] = l;
        visit(chosen, union);
      }
    }
  }
}
