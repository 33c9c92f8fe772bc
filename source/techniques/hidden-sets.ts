import { factParts, houseFact } from '../argument/fact.ts';
import { placesOf } from '../argument/kernel.ts';
import { list } from '../argument/words.ts';
import { type Candidate, candidateOf } from '../grid/layout.ts';
import { cellName, digitName, sayHouse } from '../grid/names.ts';
import { addStrikes, bitCount } from './finding.ts';
import type { Finding, Technique } from './technique.ts';
import { eachTightSet } from './tight-sets.ts';

/**
 * k digits that have k cells of a house between them: they fill these cells, and nothing else fits there.
 * Each digit has two places or more, or a single would go by this name. Facts: the digits, ascending.
 */
export const hiddenSet = (id: string, name: string, k: number): Technique => ({
  id,
  name,
  weight: k,
  assumes: 'nothing',
  about: 'digits',
  mostPlaces: k,
  find: (board) => {
    const { layout, masks, live } = board;
    const { size } = layout;
    const findings: Finding[] = [];
    const digits: number[] = new Array(size);
    const own: number[] = new Array(size);
    for (const house of layout.houses) {
      let count = 0;
      for (let digit = 1; digit <= size; digit += 1) {
        const mask = masks[houseFact(layout, house, digit)];
        const places = bitCount(mask);
        if (places < 2 || places > k) continue;
        digits[count] = digit;
        own[count] = mask;
        count += 1;
      }
      eachTightSet(own, count, k, k, (chosen, union) => {
        const set = chosen.map((i) => digits[i]);
        const struck: Candidate[] = [];
        house.cells.forEach((cell, i) => {
          if ((union & (1 << i)) === 0) return;
          for (let digit = 1; digit <= size; digit += 1) {
            const x = candidateOf(layout, cell, digit);
            if (live[x] === 1 && !set.includes(digit)) struck.push(x);
          }
        });
        addStrikes(
          findings,
          board,
          id,
          set.map((digit) => houseFact(layout, house, digit)),
          struck,
        );
      });
    }
    return findings;
  },
  phrase: (position, { facts }) => {
    const { layout } = position;
    const parts = facts.map((fact) => factParts(layout, fact));
    const [first] = parts;
    const cells = [
      ...new Set(facts.flatMap((fact) => placesOf(position, fact)).map((c) => Math.floor(c / layout.size))),
    ].sort((a, b) => a - b);
    if (facts.length !== k || first.kind !== 'house' || cells.length !== k) return null;
    const digits = parts.flatMap((part) =>
      part.kind === 'house' && part.house === first.house ? [part.digit] : [],
    );
    if (digits.length !== k) return null;
    const names = list(cells.map((cell) => cellName(layout, cell)));
    return `The ${list(digits.map(digitName))} of ${sayHouse(first.house)} fill ${names} between them, so nothing else fits there.`;
  },
});
