import { houseFact } from '../argument/fact.ts';
import { sayHouses, startSentence } from '../argument/words.ts';
import { type Candidate, candidateOf } from '../grid/layout.ts';
import { addStrikes, bitCount, excludedByEach } from './finding.ts';
import { cellsAt, linesOf } from './lines.ts';
import { singleDigit } from './single-digit.ts';
import type { Finding, Technique } from './technique.ts';
import { eachTightSet } from './tight-sets.ts';

const counts = ['no', 'one', 'two', 'three', 'four'];

/**
 * k rows that have a digit in k columns only, or k columns that have it in k rows only: each of the k lines
 * across gets its digit from these places, so it goes wherever all of them in one line across are seen, save in
 * the bases. Each base has two places or more. Facts: the bases, ascending.
 */
export const fish = (id: string, name: string, k: number): Technique => ({
  id,
  name,
  weight: k,
  assumes: 'nothing',
  about: 'one-digit',
  mostPlaces: k,
  find: (board) => {
    const { layout, masks, liveDigits } = board;
    const { size } = layout;
    const findings: Finding[] = [];
    const bases: number[] = new Array(size);
    const own: number[] = new Array(size);
    for (const { along, across } of linesOf(layout).sides) {
      for (let digit = 1; digit <= size; digit += 1) {
        if ((liveDigits & (1 << (digit - 1))) === 0) continue;
        let count = 0;
        for (let line = 0; line < size; line += 1) {
          const mask = masks[houseFact(layout, along[line], digit)];
          const places = bitCount(mask);
          if (places < 2 || places > k) continue;
          bases[count] = line;
          own[count] = mask;
          count += 1;
        }
        eachTightSet(own, count, k, k, (chosen, union) => {
          const struck: Candidate[] = [];
          for (const cover of across) {
            const at = 1 << (cover.number - 1);
            if ((union & at) === 0) continue;
            const lines = chosen.reduce((mask, i) => mask | (own[i] & at ? 1 << bases[i] : 0), 0);
            const places = cellsAt(cover, lines).map((cell) => candidateOf(layout, cell, digit));
            const inBase = (x: Candidate) =>
              chosen.some((i) => along[bases[i]].cells.includes(Math.floor(x / size)));
            struck.push(...excludedByEach(board, places).filter((x) => !inBase(x)));
          }
          const facts = chosen.map((i) => houseFact(layout, along[bases[i]], digit));
          addStrikes(findings, board, id, facts, struck);
        });
      }
    }
    return findings;
  },
  phrase: (position, argument) => {
    const shape = singleDigit(position, argument);
    if (!shape || shape.houses.length !== k) return null;
    const { layout } = position;
    const { sign, houses, places } = shape;
    const { across } = linesOf(layout).sides[houses[0].kind === 'row' ? 0 : 1];
    const covers = across.filter((house) =>
      places.flat().some((place) => house.cells.includes(Math.floor(place / layout.size))),
    );
    if (covers.length !== k) return null;
    const into = sayHouses(covers);
    return startSentence(
      `${sayHouses(houses)} put their ${counts[k]} ${sign}s into ${into}, one in each. So each of ${into} has its ${sign} here.`,
    );
  },
});
