import { factParts, houseFact } from '../argument/fact.ts';
import { list, startSentence } from '../argument/words.ts';
import type { Cell, Digit, House } from '../grid/layout.ts';
import { cellName, digitName, sayHouse } from '../grid/names.ts';
import type { Position } from '../grid/position.ts';
import { firstPlace, isSingle, placementBy } from './finding.ts';
import type { Finding, Technique } from './technique.ts';

/** A digit with one place left in a house that has other open cells. Told by the house's fact. */
export const hiddenSingle: Technique = {
  id: 'hidden-single',
  name: 'Hidden single',
  weight: 1,
  assumes: 'nothing',
  find: (board) => {
    const { layout, placed, masks } = board;
    const findings: Finding[] = [];
    for (const house of layout.houses) {
      let open = 0;
      for (const cell of house.cells) if (placed[cell] === 0) open += 1;
      if (open < 2) continue;
      for (let digit = 1; digit <= layout.size; digit += 1) {
        const fact = houseFact(layout, house, digit);
        if (!isSingle(masks[fact])) continue;
        const candidate = firstPlace(board, fact);
        if (placed[Math.floor(candidate / layout.size)] !== 0) continue;
        findings.push(placementBy('hidden-single', fact, candidate));
      }
    }
    return findings;
  },
  phrase: (position, { facts, conclusions }) => {
    const { layout } = position;
    const parts = factParts(layout, facts[0]);
    if (parts.kind !== 'house' || conclusions.kind === 'breaks') return null;
    const { house, digit } = parts;
    const target = Math.floor(conclusions.candidates[0] / layout.size);
    const shut = cellsThatShut(position, house, digit, target);
    const says = `${startSentence(sayHouse(house))} has no other place for ${digitName(digit)}`;
    if (shut === null || shut.length === 0) return `${says}.`;
    const cells = list(shut.map((cell) => cellName(layout, cell)));
    const verb =
      shut.length === 1
        ? `the ${digitName(digit)} in ${cells} rules`
        : `the ${digitName(digit)}s in ${cells} rule`;
    return `${says}: ${verb} out its other open cells.`;
  },
};

/**
 * Placed cells whose digit shuts the house's open cells, less the target: those that shut most first. Null
 * where some open cell lost the digit in another way.
 */
function cellsThatShut(position: Position, house: House, digit: Digit, target: Cell): Cell[] | null {
  const { layout, placed } = position;
  let open = house.cells.filter((cell) => placed[cell] === 0 && cell !== target);
  const chosen: Cell[] = [];
  while (open.length > 0) {
    const seenFrom = (cell: Cell) => open.filter((other) => layout.peers[cell].includes(other)).length;
    const sources = layout.peers[open[0]].filter((cell) => placed[cell] === digit);
    if (sources.length === 0) return null;
    const best = sources.reduce((a, b) => (seenFrom(b) > seenFrom(a) ? b : a));
    chosen.push(best);
    open = open.filter((cell) => !layout.peers[best].includes(cell));
  }
  return chosen.sort((a, b) => a - b);
}
