import { factParts } from '../argument/fact.ts';
import type { Fact } from '../argument/kernel.ts';
import { list, listDigits, sayHouses } from '../argument/words.ts';
import { type Candidate, type Cell, cellOf, type Digit, digitOf, type Layout } from '../grid/layout.ts';
import { cellName, digitName, sayHouse } from '../grid/names.ts';
import { linesOf } from '../techniques/lines.ts';

/** A fact with the places that it has left. */
export interface Open {
  readonly fact: Fact;
  readonly places: readonly Candidate[];
}

/** Some facts that share their places out among themselves, as people see it at a glance. */
export interface TightGroup {
  readonly group: readonly Open[];
  /** Whether there are fewer places than facts, so that they cannot all come out. */
  readonly isShort: boolean;
  /** `r5c1 and r5c2 take 1 and 2 between them`, `1, 2 and 3 of row 5 have only r5c1 and r5c2 left`. */
  readonly words: string;
}

const largestGroup = 4;
/** Of more facts than this groups of two alone are looked for. */
const manyFacts = 12;

/** The tight groups among some facts with several places each: those that are short first, then the small ones. */
export function tightGroups(layout: Layout, open: readonly Open[]): TightGroup[] {
  const found: TightGroup[] = [];
  const most = open.length > manyFacts ? 2 : largestGroup;
  const gather = (from: number, group: readonly Open[]): void => {
    if (group.length > 1) {
      const tight = tightGroup(layout, group);
      if (tight) found.push(tight);
    }
    if (group.length === most) return;
    for (let i = from; i < open.length; i += 1) gather(i + 1, [...group, open[i]]);
  };
  gather(0, []);
  return found.sort((a, b) => Number(b.isShort) - Number(a.isShort) || a.group.length - b.group.length);
}

function tightGroup(layout: Layout, some: readonly Open[]): TightGroup | null {
  const group = [...some].sort((a, b) => a.fact - b.fact);
  const parts = group.map(({ fact }) => factParts(layout, fact));
  const places = group.flatMap((one) => one.places);
  const cells = parts.flatMap((part) => (part.kind === 'cell' ? [part.cell] : []));
  const houses = parts.flatMap((part) => (part.kind === 'house' ? [part] : []));
  const made = (count: number, words: (isShort: boolean) => string): TightGroup | null =>
    count > group.length
      ? null
      : { group, isShort: count < group.length, words: words(count < group.length) };
  if (cells.length === group.length) {
    if (!layout.houses.some((house) => cells.every((cell) => house.cells.includes(cell)))) return null;
    const digits = digitsOf(layout, places);
    return made(digits.length, (isShort) => sayCells(layout, cells, digits, isShort));
  }
  if (houses.length < group.length) return null;
  const [{ house, digit }] = houses;
  const own = unique(places.map((place) => cellOf(layout, place)));
  if (houses.every((part) => part.house === house)) {
    const names = `${list(houses.map((part) => digitName(part.digit)))} of ${sayHouse(house)}`;
    const where = list(own.map((cell) => cellName(layout, cell)));
    return made(own.length, (isShort) =>
      isShort ? `${names} have only ${where} left between them` : `${names} fill ${where} between them`,
    );
  }
  const isOneKind = houses.every((part) => part.digit === digit && part.house.kind === house.kind);
  if (!isOneKind) return null;
  for (const { across } of linesOf(layout).sides) {
    if (across[0].kind === house.kind) continue;
    const lines = across.filter((line) => own.some((cell) => line.cells.includes(cell)));
    if (lines.length > group.length) continue;
    const [bases, covers] = [sayHouses(houses.map((part) => part.house)), sayHouses(lines)];
    return made(lines.length, (isShort) =>
      isShort
        ? `${bases} have only ${covers} left for their ${digitName(digit)}s`
        : `${bases} put their ${digitName(digit)}s into ${covers}, one in each`,
    );
  }
  return null;
}

function sayCells(
  layout: Layout,
  cells: readonly Cell[],
  digits: readonly Digit[],
  isShort: boolean,
): string {
  const names = list(cells.map((cell) => cellName(layout, cell)));
  const mask = digits.reduce((all, digit) => all | (1 << (digit - 1)), 0);
  return isShort
    ? `${names} have only ${listDigits(mask)} left between them`
    : `${names} take ${listDigits(mask)} between them`;
}

const digitsOf = (layout: Layout, places: readonly Candidate[]): Digit[] =>
  unique(places.map((place) => digitOf(layout, place)));

const unique = (numbers: readonly number[]): number[] => [...new Set(numbers)].sort((a, b) => a - b);
