import { houseFact } from '../argument/fact.ts';
import type { Argument } from '../argument/kernel.ts';
import { candidateOf } from '../grid/layout.ts';
import { cellName, digitName } from '../grid/names.ts';
import type { Position } from '../grid/position.ts';
import type { Board } from './board.ts';
import { bitCount } from './finding.ts';
import type { Finding, Technique } from './technique.ts';

/**
 * Every open cell has two digits but one, which has three; without one of the three, each digit would have
 * no place or two in every house. Then all open cells could take their other digit: so that cell has the
 * third. Facts: that cell. None of the open cells is given, so the pattern is all of them.
 */
export const bugPlusOne: Technique = {
  id: 'bug-plus-one',
  name: 'BUG+1',
  weight: 82,
  assumes: 'one-solution',
  find: (board) => {
    const { layout, masks, placed } = board;
    const open = layout.peers.flatMap((_, cell) => (placed[cell] === 0 ? [cell] : []));
    const wide = open.filter((cell) => bitCount(masks[cell]) !== 2);
    const [cell] = wide;
    if (wide.length !== 1 || bitCount(masks[cell]) !== 3) return [];
    const findings: Finding[] = [];
    for (const odd of board.placesOf(cell)) {
      if (!isPaired(board, odd)) continue;
      findings.push({
        technique: 'bug-plus-one',
        facts: [cell],
        conclusions: { kind: 'placements', candidates: [odd] },
        pattern: open.flatMap((each) => board.placesOf(each)).filter((candidate) => candidate !== odd),
      });
    }
    return findings;
  },
  phrase: ({ layout }: Position, { facts, conclusions }: Argument) => {
    if (facts.length !== 1 || conclusions.kind !== 'placements') return null;
    const [odd] = conclusions.candidates;
    const cell = cellName(layout, facts[0]);
    const digit = digitName((odd % layout.size) + 1);
    return `Every other open cell has two digits, and without ${digit} in ${cell} each digit would have two places in every house that needs it: all open cells could then take their other digit, a second solution. So ${cell} is ${digit}.`;
  },
};

/** Whether each digit has no place or two in every house, placed digits and one candidate left out. */
function isPaired(board: Board, odd: number): boolean {
  const { layout, placed } = board;
  return layout.houses.every((house) => {
    for (let digit = 1; digit <= layout.size; digit += 1) {
      const places = house.cells.filter((cell) => {
        const candidate = candidateOf(layout, cell, digit);
        return placed[cell] === 0 && candidate !== odd && board.live[candidate] === 1;
      });
      const isDone = house.cells.some((cell) => placed[cell] === digit);
      if (places.length !== (isDone ? 0 : 2)) return false;
      if (board.masks[houseFact(layout, house, digit)] === 0) return false;
    }
    return true;
  });
}
