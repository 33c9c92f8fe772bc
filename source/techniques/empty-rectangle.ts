import { houseFact } from '../argument/fact.ts';
import { startSentence } from '../argument/words.ts';
import { type Candidate, conflicts } from '../grid/layout.ts';
import { sayHouse } from '../grid/names.ts';
import { addStrikes, bitCount, excludedByEach } from './finding.ts';
import { isLine } from './meetings.ts';
import { singleDigit } from './single-digit.ts';
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
  find: (board) => {
    const { layout, masks } = board;
    const findings: Finding[] = [];
    const boxes = layout.houses.filter((house) => !isLine(house));
    const lines = layout.houses.filter(isLine);
    for (let digit = 1; digit <= layout.size; digit += 1) {
      const strong = lines.filter((line) => bitCount(masks[houseFact(layout, line, digit)]) === 2);
      if (strong.length === 0) continue;
      for (const box of boxes) {
        const boxFact = houseFact(layout, box, digit);
        if (bitCount(masks[boxFact]) < 2) continue;
        const places = board.placesOf(boxFact);
        for (const line of strong) {
          const lineFact = houseFact(layout, line, digit);
          const ends = board.placesOf(lineFact);
          if (ends.some((end) => places.includes(end))) continue;
          const struck = ends.flatMap((near, i) => {
            const left = places.filter((place) => !conflicts(layout, place, near));
            if (left.length === 0 || left.length === places.length) return [];
            const needsBoth = (x: Candidate) =>
              !conflicts(layout, x, near) && places.some((place) => !conflicts(layout, x, place));
            return excludedByEach(board, [ends[1 - i], ...left]).filter(needsBoth);
          });
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
      `${sign} in ${say(struck, 'or')} would leave ${sayHouse(houses[0])} only ${say(left, 'or')} for its ${sign}, and then ${sayHouse(houses[1])} would have none.`,
    );
  },
};
