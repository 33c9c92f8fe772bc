import { sayHouses } from '../argument/words.ts';
import { conflicts } from '../grid/layout.ts';
import { fish } from './fish.ts';
import { singleDigit } from './single-digit.ts';
import type { Technique } from './technique.ts';

/** See fish, for two bases. Said by its two cases. */
export const xWing: Technique = {
  ...fish('x-wing', 'X-wing', 2),
  phrase: (position, argument) => {
    const shape = singleDigit(position, argument);
    if (!shape || shape.places.some((places) => places.length !== 2) || shape.houses.length !== 2)
      return null;
    const { sign, houses, places, say } = shape;
    const [first, second] = places;
    const cases = first.map((place) => {
      const left = second.filter((other) => !conflicts(position.layout, place, other));
      return left.length === 1 ? `If ${say([place])} is ${sign}, then ${say(left)} is ${sign}.` : null;
    });
    if (cases.includes(null)) return null;
    const across = houses[0].kind === 'row' ? 'columns' : 'rows';
    const cells = first.map((place) => Math.floor(place / position.layout.size));
    const covers = position.layout.houses.filter(
      (house) => `${house.kind}s` === across && cells.some((cell) => house.cells.includes(cell)),
    );
    return `${cases.join(' ')} Either way ${sayHouses(covers)} have their ${sign}.`;
  },
};
