import { describe, expect, it } from 'vitest';
import { factName } from '../../source/argument/fact.ts';
import { placesOf } from '../../source/argument/kernel.ts';
import { plain } from '../../source/grid/layout.ts';
import { strikeName } from '../../source/grid/names.ts';
import { Board } from '../../source/techniques/board.ts';
import { catalogue } from '../../source/techniques/catalogue.ts';
import { randomPosition } from '../argument/random-arguments.ts';
import { excludeEachOther } from '../judges/arguments.ts';
import { hasPublished, publishedNote, readPublishedSet } from '../published.ts';
import { Random } from '../random.ts';
import { boardOf, close, isSolved, singlesAndLocked } from './closure.ts';

const ofTwo = catalogue.filter(({ weight }) => weight <= 2);

/** Every strike that two facts make, tried out pair by pair; with the pair. */
function strikesOfTwoFacts(board: Board): Map<number, string> {
  const position = board.toPosition();
  const places = Array.from({ length: 324 }, (_, fact) => placesOf(position, fact));
  const strikes = new Map<number, string>();
  for (const x of position.candidates) {
    const left = places.map((some) => some.filter((place) => !excludeEachOther(place, x)));
    const cut = left.flatMap((some, fact) =>
      some.length < places[fact].length && !some.includes(x) ? [fact] : [],
    );
    for (const a of cut) {
      const pair = cut.find(
        (b) => b > a && left[a].every((p) => left[b].every((q) => excludeEachOther(p, q))),
      );
      if (pair === undefined) continue;
      strikes.set(x, `${strikeName(plain, x)} by ${factName(plain, a)} ${factName(plain, pair)}`);
      break;
    }
  }
  return strikes;
}

/** Closes the board under one fact again and again; says which strikes of two facts have no name, and how many there are. */
function unnamedStrikes(board: Board): { readonly unnamed: string[]; readonly all: number } {
  const unnamed: string[] = [];
  let all = 0;
  for (;;) {
    close(board, singlesAndLocked);
    if (isSolved(board) || board.masks.includes(0)) return { unnamed, all };
    const named = new Set(
      ofTwo.flatMap(({ find }) => find(board)).flatMap(({ conclusions }) => conclusions.candidates),
    );
    const strikes = strikesOfTwoFacts(board);
    if (strikes.size === 0) return { unnamed, all };
    all += strikes.size;
    for (const [x, text] of strikes) {
      if (!named.has(x)) unnamed.push(text);
      board.strike(x);
    }
  }
}

/**
 * Pairs, X-wings (finned too), skyscrapers, kites and empty rectangles are all that two facts can do once
 * single facts have nothing left to say: the finding of an exact search, held against every pair of facts.
 */
describe('weight 2 is complete by name', () => {
  const seed = Number(process.env.INKLING_SEED ?? 2);

  it(`in random positions, seed ${seed}`, () => {
    const random = new Random(seed);
    let all = 0;
    for (let round = 0; round < 250; round += 1) {
      const { position, solution } = randomPosition(random);
      if (!solution) continue;
      const found = unnamedStrikes(Board.from(position));
      expect(found.unnamed).toEqual([]);
      all += found.all;
    }
    expect(all).toBeGreaterThan(80);
  });

  it.skipIf(!hasPublished)(`in top-95${publishedNote}`, () => {
    for (const line of readPublishedSet('top-95.txt'))
      expect(unnamedStrikes(boardOf(line)).unnamed).toEqual([]);
  });
});
