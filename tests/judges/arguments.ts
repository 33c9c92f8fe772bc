import type { Argument } from '../../source/argument/kernel.ts';
import type { Position } from '../../source/grid/position.ts';

/**
 * An exact judge of arguments on the plain layout, independent of the project: its own arithmetic for rows,
 * columns and boxes, and every way to choose a place for each fact, in the order of the facts, a way given up
 * only where two of its places exclude each other. Plain facts only.
 */

const candidateTotal = 729;
const rowOf = (candidate: number): number => Math.floor(candidate / 81);
const columnOf = (candidate: number): number => Math.floor(candidate / 9) % 9;
const boxOf = (candidate: number): number =>
  Math.floor(rowOf(candidate) / 3) * 3 + Math.floor(columnOf(candidate) / 3);
const all = Array.from({ length: candidateTotal }, (_, candidate) => candidate);

/** One byte for two candidates: whether they exclude each other. */
const exclusions = Uint8Array.from({ length: candidateTotal ** 2 }, (_, pair) => {
  const [a, b] = [Math.floor(pair / candidateTotal), pair % candidateTotal];
  if (a === b) return 0;
  if (Math.floor(a / 9) === Math.floor(b / 9)) return 1;
  const inOneHouse = rowOf(a) === rowOf(b) || columnOf(a) === columnOf(b) || boxOf(a) === boxOf(b);
  return a % 9 === b % 9 && inOneHouse ? 1 : 0;
});

/** Whether two candidates of the plain layout exclude each other. */
export const excludeEachOther = (a: number, b: number): boolean => exclusions[a * candidateTotal + b] === 1;

/** What each fact speaks of: cells 0 to 80, then by row, column and box nine digits each. */
const spokenOf = Array.from({ length: 81 + 27 * 9 }, (_, fact) => {
  if (fact < 81) return all.filter((candidate) => Math.floor(candidate / 9) === fact);
  const house = Math.floor((fact - 81) / 9);
  const numberOf = house < 9 ? rowOf : house < 18 ? columnOf : boxOf;
  return all.filter((candidate) => candidate % 9 === (fact - 81) % 9 && numberOf(candidate) === house % 9);
});

/** The live candidates of a fact. */
export const livePlaces = (position: Position, fact: number): number[] =>
  spokenOf[fact].filter((candidate) => position.candidates.has(candidate));

/** Whether one place a list can be chosen, no two excluding each other, and none those kept. */
export function hasArrangement(lists: readonly (readonly number[])[], ...kept: number[]): boolean {
  const choose = (at: number, chosen: readonly number[]): boolean =>
    at === lists.length ||
    lists[at].some(
      (place) =>
        chosen.every((other) => !excludeEachOther(place, other)) && choose(at + 1, [...chosen, place]),
    );
  return choose(0, kept);
}

/** What an argument that assumes nothing deserves; with a reason where it is to be refused. */
export function judge(position: Position, argument: Argument): string {
  const lists = argument.facts.map((fact) => livePlaces(position, fact));
  const broken = !hasArrangement(lists);
  const { conclusions } = argument;
  if (conclusions.kind === 'breaks') return broken ? 'breaks' : 'refused: open';
  if (broken) return 'refused: breaks';
  if (conclusions.candidates.length === 0) return 'refused: no-fact-holds-it';
  for (const x of conclusions.candidates) {
    if (conclusions.kind === 'strikes') {
      if (!position.candidates.has(x)) return 'refused: already-struck';
      if (hasArrangement(lists, x)) return 'refused: open';
      continue;
    }
    const holding = lists.filter((places) => places.includes(x));
    if (holding.length === 0) return 'refused: no-fact-holds-it';
    const settles = (places: readonly number[]) =>
      places.every((rival) => rival === x || !hasArrangement(lists, rival));
    if (!holding.some(settles)) return 'refused: open';
  }
  return 'holds';
}
