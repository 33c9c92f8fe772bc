import { cellName, digitName } from '../grid/names.ts';
import { firstPlace, isSingle, placementBy } from './finding.ts';
import type { Finding, Technique } from './technique.ts';

/** An open cell with one candidate left. Told by the cell's fact. */
export const nakedSingle: Technique = {
  id: 'naked-single',
  name: 'Naked single',
  weight: 1,
  assumes: 'nothing',
  find: (board) => {
    const { layout, placed, masks } = board;
    const findings: Finding[] = [];
    for (let cell = 0; cell < layout.cellCount; cell += 1) {
      if (placed[cell] === 0 && isSingle(masks[cell])) {
        findings.push(placementBy('naked-single', cell, firstPlace(board, cell)));
      }
    }
    return findings;
  },
  phrase: ({ layout, placed }, { facts, conclusions }) => {
    const [cell] = facts;
    if (cell >= layout.cellCount || conclusions.kind === 'breaks') return null;
    const digit = (conclusions.candidates[0] % layout.size) + 1;
    const seen = new Set(layout.peers[cell].map((peer) => placed[peer]));
    const others = Array.from({ length: layout.size }, (_, i) => i + 1).filter((other) => other !== digit);
    return others.every((other) => seen.has(other))
      ? `${cellName(layout, cell)} sees every digit but ${digitName(digit)}.`
      : `Nothing but ${digitName(digit)} is left for ${cellName(layout, cell)}.`;
  },
};
