import { startSentence } from '../argument/words.ts';
import { candidateOf } from '../grid/layout.ts';
import { cellName, digitName } from '../grid/names.ts';
import { addStrikes, bitCount, excludedByEach, isSingle } from './finding.ts';
import { sayStruckSee } from './struck-words.ts';
import type { Finding, Technique } from './technique.ts';

/**
 * A pivot and two wings that it sees, each with two digits, one of them in common: whatever the pivot is,
 * one of the cells has that digit. The pivot has the two other digits of the wings (`shares` false), or the
 * common one as well (true): then what is struck sees the pivot too. Facts: the pivot, the wings.
 */
export const wing = (id: string, name: string, shares: boolean): Technique => ({
  id,
  name,
  weight: 3,
  assumes: 'nothing',
  about: 'cells',
  mostPlaces: shares ? 3 : 2,
  find: (board) => {
    const { layout, masks } = board;
    const { cellCount, sees } = layout;
    const findings: Finding[] = [];
    const pairs: number[] = [];
    const wings: number[] = [];
    for (let cell = 0; cell < cellCount; cell += 1) if (bitCount(masks[cell]) === 2) pairs.push(cell);
    for (let pivot = 0; pivot < cellCount; pivot += 1) {
      const own = masks[pivot];
      if (bitCount(own) !== (shares ? 3 : 2)) continue;
      wings.length = 0;
      for (let i = 0; i < pairs.length; i += 1) {
        const cell = pairs[i];
        const digits = masks[cell];
        if ((digits & own) === 0 || digits === own || (shares && (digits & ~own) !== 0)) continue;
        if (sees[pivot * cellCount + cell] === 1) wings.push(cell);
      }
      for (let i = 0; i < wings.length - 1; i += 1) {
        const first = wings[i];
        for (let j = i + 1; j < wings.length; j += 1) {
          const second = wings[j];
          const common = masks[first] & masks[second];
          const rest = shares ? masks[first] | masks[second] : masks[first] ^ masks[second];
          if (!isSingle(common) || rest !== own || sees[first * cellCount + second] === 1) continue;
          const digit = 32 - Math.clz32(common);
          const cells = shares ? [pivot, first, second] : [first, second];
          const struck = excludedByEach(
            board,
            cells.map((cell) => candidateOf(layout, cell, digit)),
          );
          addStrikes(findings, board, id, [pivot, first, second], struck);
        }
      }
    }
    return findings;
  },
  phrase: ({ layout, candidates }, { facts, conclusions }) => {
    const [pivot, ...wings] = facts;
    if (facts.length !== 3 || facts.some((fact) => fact >= layout.cellCount)) return null;
    if (conclusions.kind !== 'strikes') return null;
    const [first, second] = wings.map((cell) => candidates.digitsAt(cell));
    if (!isSingle(first & second) || bitCount(first) !== 2 || bitCount(second) !== 2) return null;
    const sign = digitName(32 - Math.clz32(first & second));
    const [forFirst, forSecond] = [first, second].map((mask) =>
      digitName(32 - Math.clz32(mask & ~(first & second))),
    );
    const [name, ...names] = [pivot, ...wings].map((cell) => cellName(layout, cell));
    const see = startSentence(
      `${sayStruckSee(layout, conclusions.candidates)} ${shares ? 'all three' : 'both'}`,
    );
    const cases = `If ${name} is ${forFirst}, then ${names[0]} is ${sign}; if it is ${forSecond}, then ${names[1]} is ${sign}`;
    return `${cases}${shares ? `; else it is ${sign} itself` : ''}. ${see}.`;
  },
});
