import { houseFact } from '../argument/fact.ts';
import { startSentence } from '../argument/words.ts';
import { type Candidate, conflicts } from '../grid/layout.ts';
import { sayHouse } from '../grid/names.ts';
import { addStrikes, bitCount, excludedByEach, isSingle } from './finding.ts';
import { seenIn } from './lines.ts';
import { isLine } from './meetings.ts';
import { singleDigit } from './single-digit.ts';
import { sayAnyOf } from './struck-words.ts';
import type { Finding, Technique } from './technique.ts';

/**
 * A box whose places for a digit stand in a row or a column, none elsewhere, and a line with two places
 * outside the box, one of which sees those of the row: what sees the other, and those of the column, goes.
 * For it would leave the box only the row, and the line nothing. Facts: the box, the line.
 */
export const emptyRectangle: Technique = {
  id: 'empty-rectangle',
  name: 'Empty rectangle',
  weight: 2,
  assumes: 'nothing',
  about: 'one-digit',
  find: (board) => {
    const { layout, masks, liveDigits } = board;
    const findings: Finding[] = [];
    const boxes = layout.houses.filter((house) => !isLine(house));
    const lines = layout.houses.filter(isLine);
    const seen = seenIn(layout);
    for (let digit = 1; digit <= layout.size; digit += 1) {
      if ((liveDigits & (1 << (digit - 1))) === 0) continue;
      for (const line of lines) {
        const lineFact = houseFact(layout, line, digit);
        if (bitCount(masks[lineFact]) !== 2) continue;
        const ends = board.placesOf(lineFact);
        for (const box of boxes) {
          const boxFact = houseFact(layout, box, digit);
          const mask = masks[boxFact];
          if (mask === 0 || isSingle(mask)) continue;
          const struck: Candidate[] = [];
          for (let i = 0; i < 2; i += 1) {
            const near = ends[i];
            const left = mask & ~seen[Math.floor(near / layout.size) * layout.houses.length + box.index];
            if (left === 0 || left === mask) continue;
            const places = board.placesOf(boxFact);
            if (ends.some((end) => places.includes(end))) break;
            const needsBoth = (x: Candidate) =>
              !conflicts(layout, x, near) && places.some((place) => !conflicts(layout, x, place));
            const unseen = places.filter((place) => !conflicts(layout, place, near));
            struck.push(...excludedByEach(board, [ends[1 - i], ...unseen]).filter(needsBoth));
          }
          addStrikes(findings, board, 'empty-rectangle', [boxFact, lineFact], struck);
        }
      }
    }
    return findings;
  },
  phrase: (position, argument) => {
    const shape = singleDigit(position, argument);
    if (shape?.houses.length !== 2) return null;
    const { sign, houses, places, struck, say } = shape;
    const sees = (a: Candidate, b: Candidate) => conflicts(position.layout, a, b);
    const [x] = struck;
    const left = places[0].filter((place) => !sees(place, x));
    const ends = places[1].filter((place) => !sees(place, x));
    if (left.length === 0 || ends.length !== 1 || !left.every((place) => sees(place, ends[0]))) return null;
    return startSentence(
      `${sayAnyOf(position.layout, struck)} would leave ${sayHouse(houses[0])} only ${say(left, 'or')} for its ${sign}, and then ${sayHouse(houses[1])} would have none.`,
    );
  },
};
