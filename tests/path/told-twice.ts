import type { CheckedArgument } from '../../source/argument/kernel.ts';
import { cellOf } from '../../source/grid/layout.ts';
import { sidesOf } from '../../source/techniques/other-side.ts';

/** The sets among some steps: how many there are, and those that strike in a house where either side has struck before. */
export function setsIn(steps: readonly CheckedArgument[]): {
  readonly sets: number;
  readonly twice: string[];
} {
  const told = new Set<string>();
  const twice: string[] = [];
  for (const { position, argument } of steps) {
    const { facts, conclusions } = argument;
    if (conclusions.kind !== 'strikes' || facts.length < 2) continue;
    for (const { house, others, otherDigits } of sidesOf(position, facts)) {
      const inHouse = conclusions.candidates.some((x) => house.cells.includes(cellOf(position.layout, x)));
      if (!inHouse) continue;
      const key = `${house.name}: ${otherDigits.toString(2)} in ${others}`;
      if (told.has(key)) twice.push(key);
      told.add(key);
    }
  }
  return { sets: told.size, twice };
}
