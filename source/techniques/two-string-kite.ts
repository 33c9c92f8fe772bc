import { houseFact } from '../argument/fact.ts';
import { digitsIn } from '../grid/candidates.ts';
import { candidateOf, conflicts, type House, type Layout } from '../grid/layout.ts';
import { sayHouse } from '../grid/names.ts';
import { addStrikes, excludedByEach, isSingle, withFactsOnce } from './finding.ts';
import { cellsAt } from './lines.ts';
import { isLine, type Meeting, meetingsOf } from './meetings.ts';
import { phraseOfTwoLinks, singleDigit } from './single-digit.ts';
import { sayAnyOf } from './struck-words.ts';
import type { Finding, Technique } from './technique.ts';

/**
 * A row and a column that both have places for a digit in one box, none where they cross: not both of them
 * have it in the box. So one has it outside, and what sees both of those goes. Most often two places each;
 * further places are allowed where they are grouped, in this box or in one that the struck cell sees. Facts:
 * the row, the column.
 */
export const twoStringKite: Technique = {
  id: 'two-string-kite',
  name: 'Two-string kite',
  weight: 2,
  assumes: 'nothing',
  about: 'one-digit',
  find: (board) => {
    const { layout, masks } = board;
    const digits = digitsIn(board.liveDigits);
    const findings: Finding[] = [];
    for (const { row, column } of crossingsOf(layout)) {
      for (let i = 0; i < digits.length; i += 1) {
        const digit = digits[i];
        const rowFact = houseFact(layout, row.from, digit);
        const columnFact = houseFact(layout, column.from, digit);
        const rowMask = masks[rowFact];
        const columnMask = masks[columnFact];
        if ((rowMask & (1 << (column.from.number - 1))) !== 0) continue;
        if ((rowMask & row.shared) === 0 || (columnMask & column.shared) === 0) continue;
        const rowEnds = rowMask & ~row.shared;
        const columnEnds = columnMask & ~column.shared;
        if (!isGroup(layout, row.from, rowEnds) || !isGroup(layout, column.from, columnEnds)) continue;
        const ends = [...cellsAt(row.from, rowEnds), ...cellsAt(column.from, columnEnds)];
        const struck = excludedByEach(
          board,
          ends.map((cell) => candidateOf(layout, cell, digit)),
        );
        addStrikes(findings, board, 'two-string-kite', [rowFact, columnFact], struck);
      }
    }
    return withFactsOnce(findings);
  },
  phrase: (position, argument) => {
    const plain = phraseOfTwoLinks(position, argument);
    const shape = singleDigit(position, argument);
    if (plain || shape?.houses.length !== 2) return plain;
    const { houses, places, struck, say } = shape;
    const isLeft = (place: number) => struck.every((x) => !conflicts(position.layout, place, x));
    const [first, second] = places.map((some) => some.filter(isLeft));
    if (!first.every((a) => second.every((b) => conflicts(position.layout, a, b)))) return null;
    return `${sayAnyOf(position.layout, struck)} would leave ${sayHouse(houses[0])} only ${say(first, 'or')} and ${sayHouse(houses[1])} only ${say(second, 'or')}, all in one box.`;
  },
};

/** Whether a line's places outside the box are one, or all in one further box. */
function isGroup(layout: Layout, line: House, mask: number): boolean {
  if (mask === 0 || isSingle(mask)) return mask !== 0;
  return meetingsOf(layout).some(
    ({ from, to, shared }) => from === line && !isLine(to) && (mask & ~shared) === 0,
  );
}

interface Crossing {
  readonly row: Meeting;
  readonly column: Meeting;
}
const cache = new WeakMap<Layout, readonly Crossing[]>();

/** A row and a column that both meet a box, for every box. */
function crossingsOf(layout: Layout): readonly Crossing[] {
  const known = cache.get(layout);
  if (known) return known;
  const meetings = meetingsOf(layout).filter(({ to }) => !isLine(to));
  const rows = meetings.filter(({ from }) => from.kind === 'row');
  const columns = meetings.filter(({ from }) => from.kind === 'column');
  const crossings = rows.flatMap((row) =>
    columns.flatMap((column) => (row.to === column.to ? [{ row, column }] : [])),
  );
  cache.set(layout, crossings);
  return crossings;
}
