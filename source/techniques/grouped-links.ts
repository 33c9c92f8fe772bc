import { factParts } from '../argument/fact.ts';
import type { Fact } from '../argument/kernel.ts';
import type { House, Layout } from '../grid/layout.ts';
import type { Board } from './board.ts';
import type { Link, Node } from './chains.ts';
import { isSingle } from './finding.ts';
import { meetingsOf } from './meetings.ts';

const cache = new WeakMap<Layout, readonly (readonly number[])[]>();

/** For each house, by index, the masks of the cells that it shares with one other house; see Meeting. */
function sharesOf(layout: Layout): readonly (readonly number[])[] {
  const known = cache.get(layout);
  if (known) return known;
  const shares = layout.houses.map((house) => [
    ...new Set(meetingsOf(layout).flatMap(({ from, shared }) => (from === house ? [shared] : []))),
  ]);
  cache.set(layout, shares);
  return shares;
}

/** The two parts of a mask, over the cells of a house, of which each is one cell or lies in one other house. */
function splitsOf(layout: Layout, house: House, mask: number): [number, number][] {
  const shares = sharesOf(layout)[house.index];
  const stands = (part: number) => isSingle(part) || shares.some((shared) => (part & ~shared) === 0);
  const parts = new Set(shares.map((shared) => mask & shared));
  for (let rest = mask; rest !== 0; rest &= rest - 1) parts.add(rest & -rest);
  const splits = new Map<number, [number, number]>();
  for (const part of parts) {
    const other = mask & ~part;
    if (part === 0 || other === 0 || !stands(other)) continue;
    splits.set(Math.min(part, other), part < other ? [part, other] : [other, part]);
  }
  return [...splits.values()];
}

/**
 * The links of a house fact with three places or more: its places in two nodes, each a single candidate or
 * several that another house holds together. None for a cell's fact, which has no such groups.
 */
export function groupedLinksOf(board: Board, fact: Fact): Link[] {
  const { layout, masks } = board;
  const mask = masks[fact];
  const parts = factParts(layout, fact);
  if (parts.kind === 'cell' || mask === 0 || isSingle(mask) || isSingle(mask & (mask - 1))) return [];
  const base = fact * layout.size;
  const nodeAt = (bits: number): Node => {
    const node: number[] = [];
    for (let rest = bits; rest !== 0; rest &= rest - 1) {
      node.push(board.tables.candidateAt[base + 31 - Math.clz32(rest & -rest)]);
    }
    return node;
  };
  return splitsOf(layout, parts.house, mask).map(([a, b]) => ({ fact, ends: [nodeAt(a), nodeAt(b)] }));
}
