import type { Claim } from '../argument/claim.ts';
import { factParts } from '../argument/fact.ts';
import type { CheckedArgument, Fact } from '../argument/kernel.ts';
import type { Position } from '../grid/position.ts';
import { catalogue } from '../techniques/catalogue.ts';
import { conclusionsOf, weightOfChecked } from './lightest.ts';

const rankOfTechnique = new Map(catalogue.map(({ id }, rank) => [id, rank]));

/** How many cells of the fact's house are open; for a cell fact, of the fullest house that it lies in. */
function blanksOf(position: Position, fact: Fact): number {
  const { layout, placed } = position;
  const parts = factParts(layout, fact);
  const houses = parts.kind === 'house' ? [parts.house.index] : layout.housesOf[parts.cell];
  const open = (house: number) => layout.houses[house].cells.filter((cell) => placed[cell] === 0).length;
  return Math.min(...houses.map(open));
}

/**
 * How easily an argument is seen, as numbers to compare one after the other, smaller first: weight; the share
 * of its facts that is not claimed yet; singles in a box, singles in a line, singles in a cell (first of all
 * where the cell is marked), then everything else in the order of the catalogue; the blanks around its facts;
 * and last its facts' numbers, so that the order is total.
 */
export function easeOf(checked: CheckedArgument, claims: readonly Claim[]): readonly number[] {
  const { argument, position } = checked;
  const { layout } = position;
  const claimed = new Set(claims.map(({ fact }) => fact));
  const known = argument.facts.filter((fact) => claimed.has(fact)).length;
  const unclaimed = argument.facts.length === 0 ? 1 : 1 - known / argument.facts.length;
  const blanks = argument.facts.reduce((sum, fact) => sum + blanksOf(position, fact), 0);
  return [
    weightOfChecked(checked),
    unclaimed,
    kindRank(),
    blanks,
    -conclusionsOf(checked).length,
    ...argument.facts,
  ];

  function kindRank(): number {
    if (argument.conclusions.kind !== 'placements') {
      return 3 + (rankOfTechnique.get(argument.technique) ?? catalogue.length);
    }
    const parts = factParts(layout, argument.facts[0]);
    if (parts.kind === 'cell') return claimed.has(argument.facts[0]) ? 0 : 2;
    return parts.house.kind === 'box' ? 0 : 1;
  }
}

/** Orders two lists of numbers as words in a dictionary. */
export function compareInTurn(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < Math.min(a.length, b.length); i += 1) if (a[i] !== b[i]) return a[i] - b[i];
  return a.length - b.length;
}
