import { houseFact } from '../argument/fact.ts';
import { sayHouses } from '../argument/words.ts';
import { type Candidate, conflicts } from '../grid/layout.ts';
import { addStrikes, bitCount, isSingle } from './finding.ts';
import { linesOf, seenBeyond, seenIn } from './lines.ts';
import { singleDigit } from './single-digit.ts';
import { sayAnyOf } from './struck-words.ts';
import type { Finding, Technique } from './technique.ts';
import { eachTightSet } from './tight-sets.ts';

/**
 * A fish of k bases with fins: further places of the bases, outside the covers, all seen by what is struck.
 * Sashimi, where the base with the fin has no place in the cover of the struck cell, is included. Found the
 * other way round: a candidate that would leave k bases only k - 1 lines across. Facts: the bases, ascending.
 */
export const finnedFish = (id: string, name: string, k: number): Technique => ({
  id,
  name,
  weight: k,
  assumes: 'nothing',
  about: 'one-digit',
  find: (board) => {
    const { layout, masks, liveDigits, tables } = board;
    const { size, cellCount, houses } = layout;
    const { candidateAt } = tables;
    const seen = seenIn(layout);
    const beyond = seenBeyond(layout);
    const whole: number[] = new Array(size);
    /** The lines with several places. */
    const lines: number[] = new Array(size);
    const bases: number[] = new Array(size);
    const left: number[] = new Array(size);
    /** The struck candidates by the bases, as a mask of lines; kept for one digit and side. */
    const struckBy = new Map<number, Candidate[]>();
    const findings: Finding[] = [];
    const { sides } = linesOf(layout);
    for (let side = 0; side < sides.length; side += 1) {
      const { along } = sides[side];
      for (let digit = 1; digit <= size; digit += 1) {
        if ((liveDigits & (1 << (digit - 1))) === 0) continue;
        let lineCount = 0;
        let open = 0;
        for (let line = 0; line < size; line += 1) {
          whole[line] = masks[houseFact(layout, along[line], digit)];
          if (whole[line] === 0 || isSingle(whole[line])) continue;
          open |= 1 << line;
          lines[lineCount] = line;
          lineCount += 1;
        }
        if (lineCount < k) continue;
        for (let own = 0; own < size; own += 1) {
          const place0 = houseFact(layout, along[own], digit) * size;
          for (let places = whole[own]; places !== 0; places &= places - 1) {
            const cover = 31 - Math.clz32(places & -places);
            const x = candidateAt[place0 + cover];
            const cell = Math.floor(x / size);
            const seen0 = cell * houses.length;
            // Most candidates have no base with a fin: these are few, and looked at first.
            let hasFin = false;
            for (let some = beyond[side * cellCount + cell] & open; some !== 0 && !hasFin; some &= some - 1) {
              const line = 31 - Math.clz32(some & -some);
              const rest = whole[line] & ~seen[seen0 + along[line].index];
              hasFin = rest !== 0 && bitCount(rest) < k && (whole[line] & ~rest & ~(1 << cover)) !== 0;
            }
            if (!hasFin) continue;
            let count = 0;
            for (let i = 0; i < lineCount; i += 1) {
              const line = lines[i];
              if (line === own) continue;
              const rest = whole[line] & ~seen[seen0 + along[line].index];
              if (rest === 0 || bitCount(rest) >= k) continue;
              bases[count] = line;
              left[count] = rest;
              count += 1;
            }
            if (count < k) continue;
            eachTightSet(left, count, k, k - 1, (chosen) => {
              let lost = 0;
              let key = 0;
              for (const i of chosen) {
                lost |= whole[bases[i]] & ~left[i];
                key |= 1 << bases[i];
              }
              if ((lost & ~(1 << cover)) === 0) return;
              struckBy.set(key, [...(struckBy.get(key) ?? []), x]);
            });
          }
        }
        if (struckBy.size === 0) continue;
        for (const [key, struck] of [...struckBy].sort(([a], [b]) => a - b)) {
          const facts = along.flatMap((house, line) =>
            key & (1 << line) ? [houseFact(layout, house, digit)] : [],
          );
          addStrikes(findings, board, id, facts, struck);
        }
        struckBy.clear();
      }
    }
    return findings;
  },
  phrase: (position, argument) => {
    const shape = singleDigit(position, argument);
    if (!shape || shape.houses.length !== k) return null;
    const { layout } = position;
    const { sign, houses, places, struck } = shape;
    const left = places.map((some) =>
      some.filter((place) => struck.every((x) => !conflicts(layout, place, x))),
    );
    const lineOf = (place: Candidate) => {
      const cell = Math.floor(place / layout.size);
      return houses[0].kind === 'row' ? cell % layout.size : Math.floor(cell / layout.size);
    };
    const covers = [...new Set(left.flat().map(lineOf))].sort((a, b) => a - b);
    if (covers.length !== k - 1 || houses[0].kind === 'box') return null;
    const side = linesOf(layout).sides[houses[0].kind === 'row' ? 0 : 1];
    const across = sayHouses(covers.map((line) => side.across[line]));
    return `${sayAnyOf(layout, struck)} would leave ${sayHouses(houses)} only ${across} for their ${sign}, and there is no room for ${k === 2 ? 'both' : 'all three'}.`;
  },
});
