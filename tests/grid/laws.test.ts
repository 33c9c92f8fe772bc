import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CandidateSet, countDigits, digitsIn, maskOf } from '../../source/grid/candidates.ts';
import { findClashes } from '../../source/grid/clashes.ts';
import {
  candidateOf,
  cellOf,
  conflicts,
  digitOf,
  type Layout,
  makeLayout,
  plain,
  rectangularBoxes,
} from '../../source/grid/layout.ts';
import {
  cellName,
  digitName,
  parseCell,
  parseConclusion,
  parseDigit,
  parseHouse,
  placementName,
  sayHouse,
  strikeName,
} from '../../source/grid/names.ts';
import { Position } from '../../source/grid/position.ts';
import { diagonal, jagged, six, small } from '../exact/grids.ts';
import { rowsOf, seed } from './fixtures.ts';

console.log(`laws.test.ts: seed ${seed}`);
const settings = { seed, numRuns: 100 };
const large = makeLayout({ name: '16x16', size: 16, boxOf: rectangularBoxes(4, 4) });
const layouts: readonly Layout[] = [small, six, plain, diagonal, jagged, large];
const allCandidates = (layout: Layout): number[] =>
  Array.from({ length: layout.cellCount * layout.size }, (_, candidate) => candidate);

describe('layouts', () => {
  for (const layout of layouts) {
    it(`${layout.name}: houses, peers and boxes agree`, () => {
      const { size, cellCount, houses, housesOf, peers, sees, boxOf } = layout;
      expect(cellCount).toBe(size * size);
      houses.forEach((house, index) => {
        expect(house.index).toBe(index);
        expect(new Set(house.cells).size).toBe(size);
        for (const cell of house.cells) expect(housesOf[cell]).toContain(index);
      });
      for (const kind of ['row', 'column', 'box'] as const) {
        const cells = houses.filter((house) => house.kind === kind).flatMap((house) => house.cells);
        expect(cells.toSorted((a, b) => a - b)).toEqual(Array.from({ length: cellCount }, (_, cell) => cell));
      }
      for (let a = 0; a < cellCount; a += 1) {
        expect(houses.find((house) => house.kind === 'box' && house.cells.includes(a))?.number).toBe(
          boxOf[a] + 1,
        );
        const together = new Set(housesOf[a].flatMap((house) => houses[house].cells));
        together.delete(a);
        expect(peers[a]).toEqual([...together].sort((x, y) => x - y));
        for (let b = 0; b < cellCount; b += 1) expect(sees[a * cellCount + b]).toBe(together.has(b) ? 1 : 0);
      }
    });
  }

  it('the plain layout has 27 houses and 20 peers a cell (common practice, no source)', () => {
    expect(plain.houses).toHaveLength(27);
    expect(plain.peers.every((each) => each.length === 20)).toBe(true);
    expect(plain.houses[plain.housesOf[32][2]].name).toBe('b5');
  });

  it('a plan with uneven boxes is refused', () => {
    expect(() => makeLayout({ name: 'bad', size: 4, boxOf: new Array(16).fill(0) })).toThrow(RangeError);
    const extras = [{ kind: 'extra', cells: [0, 1, 2] }] as const;
    expect(() => makeLayout({ name: 'bad', size: 4, boxOf: rectangularBoxes(2, 2), extras })).toThrow(
      RangeError,
    );
  });

  it('two candidates conflict exactly if a full grid cannot hold both', () => {
    for (const a of [0, 40, 364, 728]) {
      for (const b of allCandidates(plain)) {
        const [cellA, cellB] = [cellOf(plain, a), cellOf(plain, b)];
        const sameHouse = plain.houses.some(
          (house) => house.cells.includes(cellA) && house.cells.includes(cellB),
        );
        const expected =
          a !== b && (cellA === cellB || (sameHouse && digitOf(plain, a) === digitOf(plain, b)));
        expect(conflicts(plain, a, b)).toBe(expected);
      }
    }
  });
});

describe('candidate sets obey the algebra of sets', () => {
  const anySet = (layout: Layout) =>
    fc
      .array(fc.integer({ min: 0, max: layout.cellCount * layout.size - 1 }), { maxLength: 200 })
      .map((candidates) => ({ set: CandidateSet.of(layout, candidates), plainly: new Set(candidates) }));
  for (const layout of [small, plain, large]) {
    it(`on ${layout.name}`, () => {
      const sorted = (set: Set<number>) => [...set].sort((a, b) => a - b);
      fc.assert(
        fc.property(anySet(layout), anySet(layout), anySet(layout), (a, b, c) => {
          const before = [...a.set];
          expect(before).toEqual(sorted(a.plainly));
          expect(a.set.size).toBe(a.plainly.size);
          expect(a.set.isEmpty).toBe(a.plainly.size === 0);
          expect([...a.set.union(b.set)]).toEqual(sorted(new Set([...a.plainly, ...b.plainly])));
          expect([...a.set.intersect(b.set)]).toEqual(before.filter((x) => b.plainly.has(x)));
          expect([...a.set.without(b.set)]).toEqual(before.filter((x) => !b.plainly.has(x)));
          expect(a.set.union(b.set).equals(b.set.union(a.set))).toBe(true);
          const left = a.set.intersect(b.set.union(c.set));
          expect(left.equals(a.set.intersect(b.set).union(a.set.intersect(c.set)))).toBe(true);
          const full = CandidateSet.full(layout);
          expect(full.without(a.set.union(b.set)).equals(full.without(a.set).without(b.set))).toBe(true);
          expect(CandidateSet.fromMasks(layout, a.set.toMasks()).equals(a.set)).toBe(true);
          for (const x of a.plainly) expect(a.set.has(x)).toBe(true);
          for (const x of b.plainly) expect(a.set.has(x)).toBe(a.plainly.has(x));
          expect([...a.set], 'left as it was').toEqual(before);
        }),
        settings,
      );
    });
  }
  it('masks handed out are copies', () => {
    const set = CandidateSet.full(plain);
    set.toMasks().fill(0);
    const masks = new Uint32Array(81);
    const other = CandidateSet.fromMasks(plain, masks);
    masks.fill(511);
    expect([set.size, other.size]).toEqual([729, 0]);
  });
  it('digits of a mask', () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.integer({ min: 1, max: 25 })), (digits) => {
        const mask = digits.reduce((sum, digit) => sum | maskOf(digit), 0);
        expect(digitsIn(mask)).toEqual(digits.toSorted((a, b) => a - b));
        expect(countDigits(mask)).toBe(digits.length);
      }),
      settings,
    );
  });
});

describe('positions', () => {
  const anyDigits = fc.array(
    fc.oneof(
      { weight: 3, arbitrary: fc.constant(0) },
      { weight: 1, arbitrary: fc.integer({ min: 1, max: 9 }) },
    ),
    { minLength: 81, maxLength: 81 },
  );
  it('has exactly the candidates that placed digits and strikes leave', () => {
    fc.assert(
      fc.property(anyDigits, fc.array(fc.integer({ min: 0, max: 728 })), (digits, struck) => {
        const position = Position.from(plain, digits).strike(struck);
        for (const candidate of allCandidates(plain)) {
          const cell = cellOf(plain, candidate);
          const digit = digitOf(plain, candidate);
          const own = digits[cell] === 0 || digits[cell] === digit;
          const free = plain.peers[cell].every((peer) => digits[peer] !== digit);
          expect(position.candidates.has(candidate)).toBe(own && free && !struck.includes(candidate));
        }
      }),
      { ...settings, numRuns: 30 },
    );
  });
  it('placing one by one is the same as all at once, in any order, and changes nothing before', () => {
    fc.assert(
      fc.property(anyDigits, fc.array(fc.nat(), { minLength: 81, maxLength: 81 }), (digits, keys) => {
        const order = digits.map((_, cell) => cell).sort((a, b) => keys[a] - keys[b]);
        const empty = Position.from(plain, new Array(81).fill(0));
        const placed = order
          .filter((cell) => digits[cell] !== 0)
          .reduce((position, cell) => position.place(cell, digits[cell]), empty);
        expect(placed.candidates.equals(Position.from(plain, digits).candidates)).toBe(true);
        expect(Array.from(placed.placed)).toEqual(digits);
        expect(empty.candidates.size).toBe(729);
        expect(Array.from(placed.givens)).toEqual(new Array(81).fill(0));
      }),
      { ...settings, numRuns: 30 },
    );
  });
  it('a clash leaves both cells without candidates', () => {
    const digits = new Array(81).fill(0);
    digits[0] = 5;
    digits[8] = 5;
    const { candidates } = Position.from(plain, digits);
    expect([candidates.digitsAt(0), candidates.digitsAt(8)]).toEqual([0, 0]);
    expect(candidates.has(candidateOf(plain, 80, 5))).toBe(false);
  });
  it('is solved only if full and without a clash', () => {
    // A grid filled by shifting rows: every row, column and box holds each digit once.
    const full = Array.from({ length: 81 }, (_, cell) => {
      const row = Math.floor(cell / 9);
      return ((row * 3 + Math.floor(row / 3) + (cell % 9)) % 9) + 1;
    });
    expect(Position.from(plain, full).isSolved).toBe(true);
    expect(Position.from(plain, full.with(7, 0)).isSolved).toBe(false);
    expect(Position.from(plain, full.with(7, full[8])).isSolved).toBe(false);
  });
});

describe('clashes', () => {
  it('are exactly the digits that stand twice in a house', () => {
    for (const layout of layouts) {
      const anyDigits = fc.array(fc.integer({ min: 0, max: layout.size }), {
        minLength: layout.cellCount,
        maxLength: layout.cellCount,
      });
      fc.assert(
        fc.property(anyDigits, (digits) => {
          const expected = layout.houses.flatMap((house) =>
            Array.from({ length: layout.size }, (_, i) => i + 1).flatMap((digit) => {
              const cells = house.cells.filter((cell) => digits[cell] === digit);
              return cells.length > 1 ? [{ house, digit, cells }] : [];
            }),
          );
          expect(findClashes(layout, digits)).toEqual(expected);
        }),
        { ...settings, numRuns: 10 },
      );
    }
  });
  it('names each house once', () => {
    const digits = Array.from(`5.......5${'.'.repeat(72)}`, (sign) => Number(sign) || 0);
    const said = (clash: ReturnType<typeof findClashes>[number]) => [
      clash.house.name,
      clash.digit,
      clash.cells,
    ];
    expect(findClashes(plain, digits).map(said)).toEqual([['r1', 5, [0, 8]]]);
    expect(findClashes(plain, digits.with(1, 5)).map(said)).toEqual([
      ['r1', 5, [0, 1, 8]],
      ['b1', 5, [0, 1]],
    ]);
  });
});

describe('names', () => {
  it('read back on every layout, in either case', () => {
    for (const layout of layouts) {
      for (let cell = 0; cell < layout.cellCount; cell += 1) {
        expect(parseCell(layout, cellName(layout, cell))).toBe(cell);
        expect(parseCell(layout, cellName(layout, cell).toUpperCase())).toBe(cell);
      }
      for (const house of layout.houses) {
        expect(parseHouse(layout, house.name)).toBe(house);
        expect(parseHouse(layout, house.name.toUpperCase())).toBe(house);
      }
      for (let digit = 1; digit <= layout.size; digit += 1) {
        expect(parseDigit(layout, digitName(digit))).toBe(digit);
        expect(parseDigit(layout, digitName(digit).toLowerCase())).toBe(digit);
      }
      for (const candidate of allCandidates(layout)) {
        const placed = placementName(layout, candidate);
        const struck = strikeName(layout, candidate);
        expect(parseConclusion(layout, placed)).toEqual({ kind: 'placement', candidate });
        for (const written of [struck, struck.replace('<>', '!='), struck.replace('<>', ' ≠ ')]) {
          expect(parseConclusion(layout, written)).toEqual({ kind: 'strike', candidate });
        }
      }
    }
  });
  it('refuse what is not on the layout', () => {
    for (const bad of ['', 'r0c1', 'r1c0', 'r10c1', 'r1c10', 'r1', 'c1r1', 'r1c1 ', 'r1c1c1', 'r-1c1'])
      expect(parseCell(plain, bad)).toBeNull();
    for (const bad of ['', 'r0', 'r10', 'b', 'd1', 'x1', 'rr1']) expect(parseHouse(plain, bad)).toBeNull();
    for (const bad of ['', '0', 'A', '10', '.', '１']) expect(parseDigit(plain, bad)).toBeNull();
    for (const bad of ['r1c1=0', 'r1c1', 'r1c1>2', 'r1c1=12', 'r0c1=2', '=2'])
      expect(parseConclusion(plain, bad)).toBeNull();
    expect(parseConclusion(plain, ' r4c7 = 3 ')).toEqual({
      kind: 'placement',
      candidate: candidateOf(plain, 33, 3),
    });
  });
  it('say houses in words', () => {
    expect(['r4', 'c7', 'b5'].map((name) => sayHouse(parseHouse(plain, name)!))).toEqual([
      'row 4',
      'column 7',
      'box 5',
    ]);
    expect(sayHouse(parseHouse(diagonal, 'd2')!)).toBe('diagonal 2');
  });
  it('rows of the helper are rows', () => expect(rowsOf('123456789'.repeat(9))).toHaveLength(9));
});
