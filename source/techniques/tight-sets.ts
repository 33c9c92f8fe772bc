import { bitCount } from './finding.ts';

/**
 * Sets of k masks, out of the first `count`, that have exactly `room` bits together, k or k - 1, while no
 * smaller set of them is as short of room. Naked and hidden sets and fish are such sets, with k bits, over
 * cells, digits and lines; with k - 1 bits the masks cannot all be served. Calls `visit` with the chosen
 * indices, ascending, in lexicographic order; the array is used again.
 */
export function eachTightSet(
  masks: ArrayLike<number>,
  count: number,
  k: number,
  room: number,
  visit: (chosen: readonly number[], union: number) => void,
): void {
  if (count < k) return;
  const chosen: number[] = [];
  const extend = (from: number, union: number): void => {
    if (chosen.length === k) {
      if (bitCount(union) === room && !hasTightPart(masks, chosen, k - room)) visit(chosen, union);
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

/** Whether some of the chosen masks, not all of them, lack room by as much as all of them do. */
function hasTightPart(masks: ArrayLike<number>, chosen: readonly number[], lack: number): boolean {
  for (let part = 1; part < 2 ** chosen.length - 1; part += 1) {
    let union = 0;
    for (let i = 0; i < chosen.length; i += 1) if (part & (1 << i)) union |= masks[chosen[i]];
    if (bitCount(union) <= bitCount(part) - lack) return true;
  }
  return false;
}
