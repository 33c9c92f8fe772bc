import { factParts } from '../argument/fact.ts';
import { type Argument, type Fact, placesOf } from '../argument/kernel.ts';
import { list, listDigits, sayCell, sayWhichFact } from '../argument/words.ts';
import { digitsIn } from '../grid/candidates.ts';
import { type Candidate, type Cell, candidateOf, cellOf, conflicts, type Layout } from '../grid/layout.ts';
import { cellName, digitName } from '../grid/names.ts';
import type { Position } from '../grid/position.ts';
import type { Board } from './board.ts';
import { bitCount, excludedByEach } from './finding.ts';
import { sayStruckSee } from './struck-words.ts';
import type { Finding, Technique } from './technique.ts';
import { eachTightSet } from './tight-sets.ts';

const cache = new WeakMap<Layout, readonly (readonly Cell[])[]>();

/** Four cells where two rows meet two columns, of which every house has none or two. */
function rectanglesOf(layout: Layout): readonly (readonly Cell[])[] {
  const known = cache.get(layout);
  if (known) return known;
  const { size, houses } = layout;
  const rectangles: Cell[][] = [];
  for (let top = 0; top < size; top += 1) {
    for (let bottom = top + 1; bottom < size; bottom += 1) {
      for (let left = 0; left < size; left += 1) {
        for (let right = left + 1; right < size; right += 1) {
          const cells = [top * size + left, top * size + right, bottom * size + left, bottom * size + right];
          const counts = houses.map((house) => cells.filter((cell) => house.cells.includes(cell)).length);
          if (counts.every((count) => count === 0 || count === 2)) rectangles.push(cells);
        }
      }
    }
  }
  cache.set(layout, rectangles);
  return rectangles;
}

/** A rectangle that two digits could fill both ways round, and the candidates that keep it from that. */
interface Rectangle {
  readonly cells: readonly Cell[];
  readonly pattern: readonly Candidate[];
  /** One of them is true. */
  readonly others: readonly Candidate[];
}

function liveRectangles({ layout, masks, givens }: Board): Rectangle[] {
  return rectanglesOf(layout).flatMap((cells) => {
    if (cells.some((cell) => givens[cell] !== 0)) return [];
    const common = cells.reduce((mask, cell) => mask & masks[cell], layout.allDigits);
    const pairs = new Set(cells.map((cell) => masks[cell]).filter((mask) => bitCount(mask) === 2));
    return [...pairs].flatMap((pair) => {
      if ((common & pair) !== pair) return [];
      const spread = (mask: (cell: Cell) => number) =>
        cells.flatMap((cell) => digitsIn(mask(cell)).map((digit) => candidateOf(layout, cell, digit)));
      const others = spread((cell) => masks[cell] & ~pair);
      return others.length === 0 ? [] : [{ cells, pattern: spread(() => pair), others }];
    });
  });
}

/** The most facts beside the rectangle. */
const mostBeside = 3;

/**
 * Four cells, none given, where two rows, two columns and two boxes meet, that can all be one of two digits,
 * and one of them nothing else: if they all were, the two could change places. So some other digit is in one
 * of them, and what that rules out goes: by itself, with one fact beside, or with cells that make a naked set
 * with it. Facts: the four cells, then those beside.
 */
export const uniqueRectangle: Technique = {
  id: 'unique-rectangle',
  name: 'Unique rectangle',
  weight: 5 + mostBeside,
  assumes: 'one-solution',
  find: (board) => {
    const findings: Finding[] = [];
    for (const rectangle of liveRectangles(board)) {
      const { cells, pattern, others } = rectangle;
      const add = (beside: readonly Fact[], struck: readonly Candidate[]) => {
        if (struck.length === 0) return;
        const candidates = [...new Set(struck)].sort((a, b) => a - b);
        findings.push({
          technique: 'unique-rectangle',
          facts: [...cells, ...beside],
          conclusions: { kind: 'strikes', candidates },
          pattern,
        });
      };
      const alone = excludedByEach(board, others);
      add([], alone);
      const struckBy = besideOne(board, rectangle, alone);
      for (const [fact, struck] of struckBy) add([fact], struck);
      for (const { facts, struck } of besideCells(board, rectangle)) {
        const fresh = struck.filter(
          (x) => !alone.includes(x) && !facts.some((fact) => struckBy.get(fact)?.includes(x)),
        );
        if (fresh.length > 0) add(facts, struck);
      }
    }
    return findings;
  },
  phrase,
};

/** Facts that leave no way for any of the other candidates that x leaves open, with the x of each. */
function besideOne(
  board: Board,
  { cells, others }: Rectangle,
  alone: readonly Candidate[],
): Map<Fact, Candidate[]> {
  const { tables, live, layout } = board;
  // What x leaves must be in one corner, or one digit a corner: else nothing conflicts with all of it.
  const counts = cells.map((cell) => others.filter((other) => cellOf(layout, other) === cell).length);
  const [, , second] = [...counts].sort((a, b) => a - b);
  if (counts.filter((count) => count > 0).length > 2 && second > 2) return new Map();
  /** For each set of others left open: what they all exclude, as bits of the facts that it is a place of. */
  const lostTo = new Map<string, Map<Fact, number>>();
  const found = new Map<Fact, Candidate[]>();
  const near = new Set(others.flatMap((other) => [...tables.excludes[other]]));
  for (const x of [...near].sort((a, b) => a - b)) {
    if (live[x] === 0 || alone.includes(x) || others.includes(x)) continue;
    const left = others.filter((other) => !conflicts(layout, other, x));
    const key = left.join(' ');
    const lost = lostTo.get(key) ?? bitsOf(board, excludedByEach(board, left));
    lostTo.set(key, lost);
    for (const [fact, bits] of lost) {
      if (cells.includes(fact)) continue;
      const open = board.placesOf(fact).filter((place) => place === x || !conflicts(layout, place, x));
      if (open.length === 0) continue;
      const places = open.reduce((mask, place) => mask | bitOf(board, fact, place), 0);
      if ((places & ~bits) === 0) found.set(fact, [...(found.get(fact) ?? []), x]);
    }
  }
  return found;
}

const bitOf = ({ tables }: Board, fact: Fact, place: Candidate): number =>
  tables.placesIn[place].find((own) => own.fact === fact)?.bit ?? 0;

/** The facts that some candidates are places of, with their bits in each. */
function bitsOf({ tables }: Board, candidates: readonly Candidate[]): Map<Fact, number> {
  const bits = new Map<Fact, number>();
  for (const candidate of candidates) {
    for (const { fact, bit } of tables.placesIn[candidate]) bits.set(fact, (bits.get(fact) ?? 0) | bit);
  }
  return bits;
}

/** Two or three cells that make a naked set with the other digits of a rectangle, in a house of all of them. */
function besideCells(
  board: Board,
  { cells, others }: Rectangle,
): { readonly facts: readonly Cell[]; readonly struck: readonly Candidate[] }[] {
  const { layout, masks } = board;
  const corners = [...new Set(others.map((x) => cellOf(layout, x)))];
  const own = others.reduce((mask, x) => mask | (1 << (x % layout.size)), 0);
  const found = new Map<string, { facts: Cell[]; struck: Candidate[] }>();
  for (const house of layout.houses) {
    if (!corners.every((cell) => house.cells.includes(cell))) continue;
    for (let k = 2; k <= mostBeside; k += 1) {
      if (bitCount(own) > k + 1) continue;
      const free = house.cells.filter(
        (cell) => !cells.includes(cell) && bitCount(masks[cell]) >= 2 && bitCount(masks[cell]) <= k + 1,
      );
      const wide = free.map((cell) => masks[cell] | own);
      eachTightSet(wide, wide.length, k, k + 1, (chosen, union) => {
        const facts = chosen.map((i) => free[i]).sort((a, b) => a - b);
        const struck = digitsIn(union).flatMap((digit) =>
          excludedByEach(board, [
            ...others.filter((x) => x % layout.size === digit - 1),
            ...facts
              .filter((cell) => (masks[cell] & (1 << (digit - 1))) !== 0)
              .map((cell) => candidateOf(layout, cell, digit)),
          ]),
        );
        found.set(facts.join(' '), { facts, struck });
      });
    }
  }
  return [...found.values()];
}

/** Why a rectangle strikes: that its two digits could change places, and what the facts beside it add. */
function phrase(position: Position, { facts, conclusions, pattern = [] }: Argument): string | null {
  const { layout } = position;
  if (conclusions.kind !== 'strikes' || pattern.length === 0) return null;
  const struck = conclusions.candidates;
  const cells = [...new Set(pattern.map((x) => cellOf(layout, x)))];
  const pair = pattern.reduce((mask, x) => mask | (1 << (x % layout.size)), 0);
  const others = cells.flatMap((cell) => placesOf(position, cell)).filter((x) => !pattern.includes(x));
  const beside = facts.filter((fact) => !cells.includes(fact));
  const names = list(cells.map((cell) => cellName(layout, cell)));
  const start = `Were ${names} all ${listDigits(pair, 'or')}, the two could change places: a second solution.`;
  const corners = [...new Set(others.map((x) => cellOf(layout, x)))].map((cell) => cellName(layout, cell));
  const digits = listDigits(
    others.reduce((mask, x) => mask | (1 << (x % layout.size)), 0),
    'or',
  );
  const one = corners.length === 1 ? corners[0] : `one of ${list(corners)}`;
  const then = `So ${one} is ${digits}`;
  if (beside.length === 0) {
    if (corners.length === 1 && struck.every((x) => cells.includes(cellOf(layout, x)))) {
      return `${start} ${then}.`;
    }
    const many = corners.length === 1 ? 'it' : corners.length === 2 ? 'both' : 'all of them';
    return `${start} ${then}, and ${sayStruckSee(layout, struck)} ${many}.`;
  }
  if (beside.length === 1) {
    const [fact] = beside;
    const said = struck.map((x) => `${digitName((x % layout.size) + 1)} in ${sayCell(layout, x)}`);
    return `${start} ${then}. With ${list(said, 'or')} that would leave ${sayNothingFor(layout, fact)}.`;
  }
  const set = list(beside.map((fact) => sayWhichFact(layout, fact)));
  return `${start} ${then}, and with ${set} ${corners.length === 1 ? 'it makes' : 'they make'} a naked set: its digits go where all their places are seen.`;
}

/** That a fact has no way left: `no place for the 7 of column 2`, `nothing for r4c8`. */
function sayNothingFor(layout: Layout, fact: Fact): string {
  const isCell = factParts(layout, fact).kind === 'cell';
  return `${isCell ? 'nothing' : 'no place'} for ${sayWhichFact(layout, fact)}`;
}
