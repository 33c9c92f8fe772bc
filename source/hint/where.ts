import { factParts } from '../argument/fact.ts';
import type { Fact } from '../argument/kernel.ts';
import { type Candidate, cellOf, type House, type Layout } from '../grid/layout.ts';

const order = { box: 0, row: 1, column: 2, diagonal: 3, extra: 4 } as const;

/**
 * The one house to look at: the one that holds most of the facts (a cell fact lies in all houses of its cell);
 * ties by most conclusions, then box, row, column, lowest number.
 */
export function houseToLookAt(
  layout: Layout,
  facts: readonly Fact[],
  conclusions: readonly Candidate[],
): House {
  const held = layout.houses.map(() => 0);
  for (const fact of facts) {
    const parts = factParts(layout, fact);
    const houses = parts.kind === 'house' ? [parts.house.index] : layout.housesOf[parts.cell];
    for (const house of houses) held[house] += 1;
  }
  const concluded = layout.houses.map(
    ({ cells }) => conclusions.filter((candidate) => cells.includes(cellOf(layout, candidate))).length,
  );
  return [...layout.houses].sort(
    (a, b) =>
      held[b.index] - held[a.index] ||
      concluded[b.index] - concluded[a.index] ||
      order[a.kind] - order[b.kind] ||
      a.number - b.number,
  )[0];
}
