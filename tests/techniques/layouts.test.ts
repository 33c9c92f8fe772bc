import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { cellFact, factParts, houseFact } from '../../source/argument/fact.ts';
import { check, type Fact, placesOf } from '../../source/argument/kernel.ts';
import { generate } from '../../source/exact/generate.ts';
import { decide } from '../../source/exact/solve.ts';
import { mintToken } from '../../source/exact/token.ts';
import type { Candidate, Cell, Layout } from '../../source/grid/layout.ts';
import { readLayout } from '../../source/grid/layout-reader.ts';
import { Position } from '../../source/grid/position.ts';
import { Board } from '../../source/techniques/board.ts';
import { catalogue, techniqueById } from '../../source/techniques/catalogue.ts';
import type { Finding } from '../../source/techniques/technique.ts';
import { coverSolutions } from '../judges/exact-cover.ts';
import { Random } from '../random.ts';

const seed = Number(process.env.INKLING_SEED ?? 66);
const folder = new URL('../../puzzles/layouts/', import.meta.url);
const layouts: readonly Layout[] = readdirSync(folder).map((file) => {
  const layout = readLayout(readFileSync(new URL(file, folder), 'utf8'), file.replace('.txt', ''));
  if (!layout.ok) throw new Error(layout.error.message);
  return layout.value;
});

/** A position, and a full grid that completes it. */
interface Scene {
  readonly position: Position;
  readonly solution: Uint8Array;
}

/** Some full grid of the layout: the first witness of the empty one. */
function someSolution(layout: Layout): Uint8Array {
  const decision = decide(Position.from(layout, new Array(layout.cellCount).fill(0)));
  if (decision.verdict !== 'several') throw new Error(`${layout.name} has no two grids`);
  return decision.witnesses[0];
}

/**
 * Positions with some digits of a full grid, and with some candidates struck that it does not need; every
 * other one of a puzzle with one solution, where making one does not take long.
 */
function scenesOn(layout: Layout, count: number): Scene[] {
  const random = new Random(seed);
  const full = someSolution(layout);
  return Array.from({ length: count }, (_, index) => {
    const made = layout.size <= 9 && index % 2 === 1 ? generate(layout, () => random.unit()) : null;
    const solution = made?.solution ?? full;
    const share = layout.size > 9 ? 0.35 + random.unit() * 0.25 : 0.1 + random.unit() * 0.5;
    const struck = random.unit() * (layout.size > 9 ? 0.9 : 0.7);
    const givens = made?.givens ?? Array.from(full, (digit) => (random.unit() < share ? digit : 0));
    const blank = Position.from(layout, givens);
    const spare = [...blank.candidates].filter(
      (x) => solution[Math.floor(x / layout.size)] !== (x % layout.size) + 1 && random.unit() < struck,
    );
    return { position: blank.strike(spare), solution };
  });
}

/** What a set of facts that is found strikes or places, and the facts themselves, whatever their order. */
const keyOf = ({ facts, conclusions, pattern = [] }: Finding): string =>
  [facts, [conclusions.kind], conclusions.candidates, pattern]
    .map((list) => [...list].sort().join(' '))
    .join(' | ');

const factsKey = ({ facts, pattern = [] }: Finding): string =>
  [facts, pattern].map((list) => [...list].sort().join(' ')).join(' | ');

/** Turns and mirrors that a layout has, as where each cell goes, the identity among them. */
function symmetriesOf({ size, cellCount, houses }: Layout): Cell[][] {
  const turns: ((row: number, column: number) => [number, number])[] = [
    (row, column) => [row, column],
    (row, column) => [size - 1 - row, size - 1 - column],
    (row, column) => [column, row],
    (row, column) => [row, size - 1 - column],
  ];
  const setOf = (cells: readonly Cell[]) => [...cells].sort((a, b) => a - b).join(' ');
  const known = new Set(houses.map(({ cells }) => setOf(cells)));
  return turns
    .map((turn) =>
      Array.from({ length: cellCount }, (_, cell) => {
        const [row, column] = turn(Math.floor(cell / size), cell % size);
        return row * size + column;
      }),
    )
    .filter((map) => houses.every(({ cells }) => known.has(setOf(cells.map((cell) => map[cell])))));
}

/** How candidates and facts move when cells move and digits are renamed. */
function moved(layout: Layout, map: readonly Cell[], digits: readonly number[]) {
  const { size, houses } = layout;
  const setOf = (cells: readonly Cell[]) => [...cells].sort((a, b) => a - b).join(' ');
  const houseAt = new Map(houses.map((house) => [setOf(house.cells), house]));
  const candidate = (x: Candidate) => map[Math.floor(x / size)] * size + digits[x % size] - 1;
  const fact = (f: Fact): Fact => {
    const parts = factParts(layout, f);
    if (parts.kind === 'cell') return cellFact(map[parts.cell]);
    const house = houseAt.get(setOf(parts.house.cells.map((cell) => map[cell])));
    if (!house) throw new Error('no such house');
    return houseFact(layout, house, digits[parts.digit - 1]);
  };
  const sorted = (list: readonly number[]) => [...list].sort((a, b) => a - b);
  const finding = (found: Finding): Finding => ({
    ...found,
    facts: found.facts.map(fact),
    conclusions: { ...found.conclusions, candidates: sorted(found.conclusions.candidates.map(candidate)) },
    ...(found.pattern && { pattern: found.pattern.map(candidate) }),
  });
  const position = ({ givens, candidates }: Position): Position => {
    const there = new Array<number>(layout.cellCount).fill(0);
    givens.forEach((digit, cell) => {
      if (digit !== 0) there[map[cell]] = digits[digit - 1];
    });
    const blank = Position.from(layout, there);
    const live = new Set([...candidates].map(candidate));
    return blank.strike([...blank.candidates].filter((x) => !live.has(x)));
  };
  return { finding, position };
}

/** What facts of one digit in a house strike because another house has all their places, straight from the words. */
function lockedCandidates({ layout, candidates, placed }: Position): Set<Candidate> {
  const { size, houses } = layout;
  const struck = new Set<Candidate>();
  for (let digit = 0; digit < size; digit += 1) {
    for (const from of houses) {
      const places = from.cells.filter((cell) => candidates.has(cell * size + digit));
      if (places.length < 2) continue;
      for (const to of houses) {
        if (to === from || !places.every((cell) => to.cells.includes(cell))) continue;
        for (const cell of to.cells) {
          if (places.includes(cell) || placed[cell] !== 0) continue;
          if (candidates.has(cell * size + digit)) struck.add(cell * size + digit);
        }
      }
    }
  }
  return struck;
}

/** What two cells of one house strike there that have the same two candidates, straight from the words. */
function nakedPairs({ layout, candidates, placed }: Position): Set<Candidate> {
  const { size, houses } = layout;
  const struck = new Set<Candidate>();
  const digitsAt = (cell: Cell) =>
    Array.from({ length: size }, (_, i) => i).filter((digit) => candidates.has(cell * size + digit));
  for (const { cells } of houses) {
    for (const a of cells) {
      for (const b of cells) {
        const digits = digitsAt(a);
        if (a >= b || placed[a] !== 0 || placed[b] !== 0 || digits.length !== 2) continue;
        if (digits.join() !== digitsAt(b).join()) continue;
        for (const cell of cells) {
          if (cell === a || cell === b) continue;
          for (const digit of digits)
            if (candidates.has(cell * size + digit)) struck.add(cell * size + digit);
        }
      }
    }
  }
  return struck;
}

/** What two rows strike in two columns that have a digit in these columns only, and the other way round. */
function xWings({ layout, candidates }: Position): Set<Candidate> {
  const { size } = layout;
  const struck = new Set<Candidate>();
  const along = Array.from({ length: size }, (_, i) => i);
  for (const across of [false, true]) {
    const at = (line: number, i: number, digit: number) =>
      (across ? i * size + line : line * size + i) * size + digit;
    for (const digit of along) {
      const places = along.map((line) => along.filter((i) => candidates.has(at(line, i, digit))));
      for (const a of along) {
        for (const b of along) {
          if (a >= b || places[a].length !== 2 || places[a].join() !== places[b].join()) continue;
          for (const line of along) {
            if (line === a || line === b) continue;
            for (const i of places[a]) {
              if (candidates.has(at(line, i, digit))) struck.add(at(line, i, digit));
            }
          }
        }
      }
    }
  }
  return struck;
}

const struckBy = (position: Position, ids: readonly string[]): Set<Candidate> => {
  const board = Board.from(position);
  return new Set(
    ids.flatMap(
      (id) =>
        techniqueById(id)
          ?.find(board)
          .flatMap(({ conclusions }) => conclusions.candidates) ?? [],
    ),
  );
};

describe(`techniques on each layout, seed ${seed}`, () => {
  const foundIn = new Map<string, Set<string>>();

  describe.each(layouts)('$name', (layout) => {
    const { size } = layout;
    const large = size > 9;
    const scenes = scenesOn(layout, large ? 2 : 12);
    const names = new Set<string>();
    foundIn.set(layout.name, names);

    it('the kernel accepts what is found, it is true, and it gets on', () => {
      scenes.forEach(({ position, solution }, round) => {
        const isTrue = (x: Candidate) => solution[Math.floor(x / size)] === (x % size) + 1;
        const token = mintToken(layout, position.givens) ?? undefined;
        for (const { id, find, assumes, supposes, phrase } of catalogue) {
          if (supposes && (large || round !== 2)) continue;
          if (assumes === 'one-solution' && !token) continue;
          const board = Board.from(position);
          const found = find(board);
          expect(find(board)).toEqual(found);
          // One instance on the same facts, whatever houses they meet in.
          expect([id, new Set(found.map(factsKey)).size]).toEqual([id, found.length]);
          for (const { facts, conclusions, pattern } of found) {
            names.add(id);
            const argument = { technique: id, facts, conclusions, assumes, ...(pattern && { pattern }) };
            const verdict = check(position, argument, token);
            expect([id, verdict.verdict]).toEqual([id, 'holds']);
            for (const x of conclusions.candidates) {
              expect(isTrue(x)).toBe(conclusions.kind === 'placements');
              expect(position.candidates.has(x)).toBe(true);
              expect(position.placed[Math.floor(x / size)]).toBe(0);
            }
            for (const fact of facts) expect(placesOf(position, fact).length).toBeGreaterThan(0);
            const said = phrase?.(position, argument);
            if (typeof said === 'string') expect(said).toMatch(/\.$/);
          }
        }
      });
    });

    it('what is found moves with the cells and the names of the digits', () => {
      const random = new Random(seed + 1);
      const symmetries = symmetriesOf(layout);
      const tried = scenes.slice(0, large ? 1 : 6);
      tried.forEach(({ position }, round) => {
        const digits = Array.from({ length: size }, (_, i) => i + 1);
        for (let i = size - 1; i > 0; i -= 1) {
          const j = random.below(i + 1);
          [digits[i], digits[j]] = [digits[j], digits[i]];
        }
        const move = moved(layout, symmetries[round % symmetries.length], digits);
        const there = move.position(position);
        for (const { id, find, supposes } of catalogue) {
          if (supposes) continue;
          const here = find(Board.from(position)).map((one) => keyOf(move.finding(one)));
          const other = find(Board.from(there)).map(keyOf);
          expect([id, ...other.sort()]).toEqual([id, ...here.sort()]);
        }
      });
    });

    it('nothing is missed of locked candidates in any two houses, pairs in any house, X-wings', () => {
      let [locked, pairs, wings] = [0, 0, 0];
      for (const { position } of scenes) {
        const byLocked = struckBy(position, ['pointing', 'claiming']);
        const byPairs = struckBy(position, ['naked-pair']);
        const byWings = struckBy(position, ['x-wing']);
        for (const x of lockedCandidates(position)) expect(byLocked).toContain(x);
        for (const x of nakedPairs(position)) expect(byPairs).toContain(x);
        for (const x of xWings(position)) expect(byWings).toContain(x);
        [locked, pairs, wings] = [locked + byLocked.size, pairs + byPairs.size, wings + byWings.size];
      }
      if (!large) expect(Math.min(locked, pairs, wings)).toBeGreaterThan(0);
    });

    it('with the conclusion turned round no completion is left, by exact cover', () => {
      let judged = 0;
      for (const { position } of scenes.slice(0, large ? 2 : 6)) {
        for (const { id, find, supposes, assumes } of catalogue) {
          if (supposes || assumes !== 'nothing') continue;
          const [first] = find(Board.from(position));
          if (!first) continue;
          const [x] = first.conclusions.candidates;
          const against =
            first.conclusions.kind === 'placements'
              ? position.strike([x])
              : position.place(Math.floor(x / size), (x % size) + 1);
          expect([id, coverSolutions(against, 1).length]).toEqual([id, 0]);
          judged += 1;
        }
      }
      expect(judged).toBeGreaterThan(0);
    });
  });

  it('nearly every technique is found, the common ones on every layout of up to nine digits', () => {
    const found = new Set([...foundIn.values()].flatMap((names) => [...names]));
    // The rarest are left to chance.
    expect(found.size).toBeGreaterThanOrEqual(catalogue.length - 5);
    expect(found).toContain('unique-rectangle');
    for (const id of ['hidden-single', 'naked-single', 'pointing', 'claiming', 'naked-pair', 'hidden-pair']) {
      for (const [layout, names] of foundIn) {
        if (layout !== '16x16') expect([layout, names.has(id)]).toEqual([layout, true]);
      }
    }
  });
});
