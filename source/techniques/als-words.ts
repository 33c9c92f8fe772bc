import type { Argument } from '../argument/kernel.ts';
import { list, listDigits, startSentence } from '../argument/words.ts';
import { type Candidate, type Cell, conflicts, type DigitMask, type Layout } from '../grid/layout.ts';
import { cellName, digitName } from '../grid/names.ts';
import type { Position } from '../grid/position.ts';
import { isInOneHouse } from './almost-locked-sets.ts';
import { bitCount } from './finding.ts';
import { sayStruckSee } from './struck-words.ts';

interface ToldSet {
  readonly cells: readonly Cell[];
  readonly digits: DigitMask;
}

/** A set, and which of the cells of an argument it has, as bits. */
interface Part extends ToldSet {
  readonly bits: number;
}

/** The sets of one house among some cells that have one digit more than cells; the first cells first. */
function partsOf(position: Position, cells: readonly Cell[]): Part[] {
  const parts: Part[] = [];
  for (let bits = 1; bits < 1 << cells.length; bits += 1) {
    const own = cells.filter((_, i) => (bits & (1 << i)) !== 0).sort((a, b) => a - b);
    const digits = own.reduce((mask, cell) => mask | position.candidates.digitsAt(cell), 0);
    if (bitCount(digits) === own.length + 1 && isInOneHouse(position.layout, own)) {
      parts.push({ cells: own, digits, bits });
    }
  }
  return parts.sort((a, b) => b.cells.length - a.cells.length || a.bits - b.bits);
}

/** The ways to share out all of some cells among sets, two or more, each tied to the next. */
function* sharings(
  position: Position,
  parts: readonly Part[],
  left: number,
  before: readonly Part[],
): Iterable<readonly Part[]> {
  if (left === 0) {
    if (before.length > 1) yield before;
    return;
  }
  const last = before[before.length - 1];
  for (const part of parts) {
    if ((part.bits & ~left) !== 0) continue;
    if (last && restricted(position, last, part).length === 0) continue;
    yield* sharings(position, parts, left & ~part.bits, [...before, part]);
  }
}

/** Cells beyond this number are not shared out. */
const mostCells = 14;

const placesIn = ({ layout, candidates }: Position, { cells }: ToldSet, digit: number): Candidate[] =>
  cells.map((cell) => cell * layout.size + digit - 1).filter((candidate) => candidates.has(candidate));

/** The digits that can be in only one of two sets. */
function restricted(position: Position, a: ToldSet, b: ToldSet): number[] {
  const digits: number[] = [];
  for (let digit = 1; digit <= position.layout.size; digit += 1) {
    if ((a.digits & b.digits & (1 << (digit - 1))) === 0) continue;
    const [inA, inB] = [placesIn(position, a, digit), placesIn(position, b, digit)];
    if (inA.every((x) => inB.every((y) => conflicts(position.layout, x, y)))) digits.push(digit);
  }
  return digits;
}

/**
 * One digit for each two neighbours that can be in only one of them, no two in a row alike, and neither the
 * first nor the last among those to avoid; null if there are none.
 */
function ties(
  position: Position,
  sets: readonly ToldSet[],
  avoid: readonly number[],
  before: readonly number[] = [],
): number[] | null {
  if (sets.length < 2) return [...before];
  for (const digit of restricted(position, sets[0], sets[1])) {
    if (digit === before[before.length - 1]) continue;
    if ((before.length === 0 || sets.length === 2) && avoid.includes(digit)) continue;
    const all = ties(position, sets.slice(1), avoid, [...before, digit]);
    if (all) return all;
  }
  return null;
}

/**
 * Why almost locked sets strike: the facts are the cells of the sets, each set tied to the next by a digit that
 * can be in only one of the two. Null where they are not.
 */
export function phraseOfSets(position: Position, { facts, conclusions }: Argument): string | null {
  const { layout } = position;
  if (conclusions.kind !== 'strikes' || facts.some((fact) => fact >= layout.cellCount)) return null;
  const struck = conclusions.candidates;
  const digits = [...new Set(struck.map((x) => (x % layout.size) + 1))].sort((a, b) => a - b);
  if (facts.length > mostCells) return null;
  for (const sets of sharings(position, partsOf(position, facts), (1 << facts.length) - 1, [])) {
    const seesAll = (some: readonly ToldSet[]) =>
      struck.every((x) => {
        const places = some.flatMap((set) => placesIn(position, set, (x % layout.size) + 1));
        return places.length > 0 && places.every((place) => conflicts(layout, place, x));
      });
    const [first, last] = [sets[0], sets[sets.length - 1]];
    const inBoth = digits.every((digit) => (first.digits & last.digits & (1 << (digit - 1))) !== 0);
    const tied = ties(position, sets, digits);
    if (tied && inBoth && seesAll([first, last])) return sayTied(layout, sets, tied, digits, struck);
    const common = sets.length === 2 ? restricted(position, first, last) : [];
    if (common.length < 2) continue;
    const isRing = struck.every((x) => {
      const digit = (x % layout.size) + 1;
      const of = common.includes(digit)
        ? sets
        : sets.filter((set) => (set.digits & (1 << (digit - 1))) !== 0);
      const sees = (set: ToldSet) =>
        placesIn(position, set, digit).every((place) => conflicts(layout, place, x));
      return common.includes(digit) ? of.every(sees) : of.some(sees);
    });
    if (isRing) return sayRing(layout, sets, common, struck);
  }
  return null;
}

const sayCells = (layout: Layout, { cells }: ToldSet): string =>
  list(cells.map((cell) => cellName(layout, cell)));

const sayHave = (layout: Layout, set: ToldSet): string =>
  set.cells.length === 1
    ? `${sayCells(layout, set)} is ${listDigits(set.digits, 'or')}`
    : `${sayCells(layout, set)} have only ${listDigits(set.digits)}`;

const saySeen = (layout: Layout, struck: readonly Candidate[]): string =>
  startSentence(sayStruckSee(layout, struck));

const ordinals = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh'];

function sayTied(
  layout: Layout,
  sets: readonly ToldSet[],
  tied: readonly number[],
  digits: readonly number[],
  struck: readonly Candidate[],
): string {
  const what = listDigits(maskOfDigits(digits));
  const told = startSentence(`${sets.map((set) => sayHave(layout, set)).join('; ')}.`);
  const end = `${saySeen(layout, struck)} every place there for ${listDigits(maskOfDigits(digits), 'or')}.`;
  if (sets.length === 2) {
    return `${told} Only one of the two can have ${digitName(tied[0])}; the other then has all its other digits, ${what} among them. ${end}`;
  }
  const steps = sets.slice(1).map((_, i) => {
    const next = i === sets.length - 2 ? what : digitName(tied[i + 1]);
    return `then the ${ordinals[i + 1]} has no ${digitName(tied[i])} and must have ${next}`;
  });
  return `${told} Without ${listDigits(maskOfDigits(digits), 'or')} the first must have ${digitName(tied[0])}; ${steps.join('; ')}. ${end}`;
}

const maskOfDigits = (digits: readonly number[]): DigitMask =>
  digits.reduce((mask, digit) => mask | (1 << (digit - 1)), 0);

function sayRing(
  layout: Layout,
  sets: readonly ToldSet[],
  common: readonly number[],
  struck: readonly Candidate[],
): string {
  const told = startSentence(`${sets.map((set) => sayHave(layout, set)).join('; ')}.`);
  const shared = list(common.map(digitName));
  const gone = list([...new Set(struck.map((x) => digitName((x % layout.size) + 1)))].sort());
  return `${told} ${shared} can each be in only one of the two, so each set has one of them and all its other digits. ${saySeen(layout, struck)} all places that this leaves for ${gone}.`;
}
