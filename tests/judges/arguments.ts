import type { Argument } from '../../source/argument/kernel.ts';
import type { Position } from '../../source/grid/position.ts';

/**
 * An exact judge of arguments on the plain layout, independent of the project: its own arithmetic for rows,
 * columns and boxes, and every way to choose a place for each fact, tried out in the order of the facts and
 * looked at only when it is complete. For arguments of up to four facts or so; plain facts only.
 */

const rowOf = (candidate: number): number => Math.floor(candidate / 81);
const columnOf = (candidate: number): number => Math.floor(candidate / 9) % 9;
const boxOf = (candidate: number): number =>
  Math.floor(rowOf(candidate) / 3) * 3 + Math.floor(columnOf(candidate) / 3);

/** Whether two candidates of the plain layout exclude each other. */
export function excludeEachOther(a: number, b: number): boolean {
  if (a === b) return false;
  if (Math.floor(a / 9) === Math.floor(b / 9)) return true;
  return a % 9 === b % 9 && (rowOf(a) === rowOf(b) || columnOf(a) === columnOf(b) || boxOf(a) === boxOf(b));
}

/** The live candidates of a fact: cells 0 to 80, then by row, column and box nine digits each. */
export function livePlaces(position: Position, fact: number): number[] {
  const house = Math.floor((fact - 81) / 9);
  const number = house % 9;
  const places: number[] = [];
  for (let candidate = 0; candidate < 729; candidate += 1) {
    const isPlace =
      fact < 81
        ? Math.floor(candidate / 9) === fact
        : candidate % 9 === (fact - 81) % 9 &&
          (house < 9 ? rowOf(candidate) : house < 18 ? columnOf(candidate) : boxOf(candidate)) === number;
    if (isPlace && position.candidates.has(candidate)) places.push(candidate);
  }
  return places;
}

/** Whether one place a list can be chosen, no two excluding each other, and none those kept. */
export function hasArrangement(lists: readonly (readonly number[])[], ...kept: number[]): boolean {
  const chosen: number[] = [];
  const isFree = (): boolean =>
    chosen.every(
      (a, i) =>
        kept.every((b) => !excludeEachOther(a, b)) &&
        chosen.every((b, j) => j >= i || !excludeEachOther(a, b)),
    );
  const choose = (): boolean => {
    if (chosen.length === lists.length) return isFree();
    for (const place of lists[chosen.length]) {
      chosen.push(place);
      const found = choose();
      chosen.pop();
      if (found) return true;
    }
    return false;
  };
  return choose();
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
