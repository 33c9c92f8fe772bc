import { describe, expect, it } from 'vitest';
import { leftOutBy, withClaims } from '../../source/argument/claim.ts';
import {
  cellFact,
  factCandidates,
  factCount,
  factName,
  factParts,
  factsOf,
  houseFact,
  parseFact,
  weightOf,
} from '../../source/argument/fact.ts';
import { placesOf } from '../../source/argument/kernel.ts';
import { makeLayout, plain, rectangularBoxes } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';
import { livePlaces } from '../judges/arguments.ts';

const six = makeLayout({
  name: 'six with diagonals',
  size: 6,
  boxOf: rectangularBoxes(2, 3),
  extras: [
    { kind: 'diagonal', cells: [0, 7, 14, 21, 28, 35] },
    { kind: 'diagonal', cells: [5, 10, 15, 20, 25, 30] },
  ],
});
const sixteen = makeLayout({ name: 'sixteen', size: 16, boxOf: rectangularBoxes(4, 4) });

describe('facts', () => {
  it('are 324 on the plain layout', () => expect(factCount(plain)).toBe(324));

  for (const layout of [plain, six, sixteen]) {
    it(`of the ${layout.name} layout: names read back, parts put together again, candidates agree`, () => {
      const seen = new Set<string>();
      for (let fact = 0; fact < factCount(layout); fact += 1) {
        const name = factName(layout, fact);
        seen.add(name);
        expect(parseFact(layout, name)).toBe(fact);
        expect(parseFact(layout, name.toUpperCase())).toBe(fact);
        const parts = factParts(layout, fact);
        const again =
          parts.kind === 'cell' ? cellFact(parts.cell) : houseFact(layout, parts.house, parts.digit);
        expect(again).toBe(fact);
        const candidates = factCandidates(layout, fact);
        expect(new Set(candidates).size).toBe(layout.size);
        for (const candidate of candidates) expect(factsOf(layout, candidate)).toContain(fact);
      }
      expect(seen.size).toBe(factCount(layout));
    });
  }

  it('are numbered by cell, then by house and digit', () => {
    // r4c7=3 on the plain layout: cell 33; row 4 is house 3, column 7 house 15, box 6 house 23.
    const facts = [33, 81 + 3 * 9 + 2, 81 + 15 * 9 + 2, 81 + 23 * 9 + 2];
    expect(factsOf(plain, 33 * 9 + 2)).toEqual(facts);
    expect(facts.map((fact) => factName(plain, fact))).toEqual(['r4c7', '3@r4', '3@c7', '3@b6']);
    expect([0, 80].map((fact) => factParts(plain, fact))).toEqual([
      { kind: 'cell', cell: 0 },
      { kind: 'cell', cell: 80 },
    ]);
    expect(factParts(plain, 81)).toEqual({ kind: 'house', house: plain.houses[0], digit: 1 });
    expect(factParts(plain, 89)).toEqual({ kind: 'house', house: plain.houses[0], digit: 9 });
    expect(factParts(plain, 323)).toEqual({ kind: 'house', house: plain.houses[26], digit: 9 });
    expect(factCandidates(plain, 33)).toEqual([297, 298, 299, 300, 301, 302, 303, 304, 305]);
    expect(factCandidates(plain, facts[1])).toEqual(
      [27, 28, 29, 30, 31, 32, 33, 34, 35].map((cell) => cell * 9 + 2),
    );
  });

  it('are read as people write them, and nothing else is', () => {
    expect(factName(plain, parseFact(plain, '7@c2') ?? -1)).toBe('7@c2');
    expect(factName(sixteen, parseFact(sixteen, 'g@b16') ?? -1)).toBe('G@b16');
    const wrong = [
      '',
      'r0c1',
      'r10c1',
      'r1c1=3',
      '0@r1',
      'A@r1',
      '7@',
      '@r1',
      '7@z1',
      '7@r10',
      '77@r1',
      '7 @r1',
      '7@@r1',
    ];
    for (const text of wrong) expect(parseFact(plain, text)).toBeNull();
    // On 16x16 letters are digits, and still a house alone is no fact.
    for (const text of ['c1', 'b16', 'C3', 'b2']) expect(parseFact(sixteen, text)).toBeNull();
  });

  it('have the places that an independent reading of the position gives', () => {
    const givens = Array.from(
      '2...9...6691......3..7......2............5.811..2.8.3.....7...9.......65..5.83...',
      (sign) => Number(sign) || 0,
    );
    const position = Position.from(plain, givens).strike([10, 20, 30, 40, 50]);
    for (let fact = 0; fact < 324; fact += 1) {
      expect(placesOf(position, fact)).toEqual(livePlaces(position, fact));
    }
  });
});

describe('weight', () => {
  it('of an argument that assumes nothing is the number of its facts', () => {
    const bare = { technique: 'test', conclusions: { kind: 'breaks' }, assumes: 'nothing' } as const;
    for (const facts of [[], [1], [1, 90, 300]]) {
      expect(weightOf(plain, { ...bare, facts })).toBe(facts.length);
    }
  });
});

describe('weight of an argument that assumes one solution', () => {
  it('is its facts, the cells of its pattern that are not among them, and one for the axiom', () => {
    const bare = { technique: 'test', conclusions: { kind: 'breaks' }, assumes: 'one-solution' } as const;
    const pattern = [0, 1, 9, 10];
    expect(weightOf(plain, { ...bare, facts: [] })).toBe(1);
    expect(weightOf(plain, { ...bare, facts: [], pattern })).toBe(3);
    expect(weightOf(plain, { ...bare, facts: [1, 90], pattern })).toBe(4);
    expect(weightOf(plain, { ...bare, facts: [90, 90], pattern: [] })).toBe(2);
    // A pattern does not count where nothing is assumed.
    expect(weightOf(plain, { ...bare, assumes: 'nothing', facts: [1], pattern })).toBe(1);
  });
});

describe('claims', () => {
  const position = Position.from(plain, new Array(81).fill(0));
  const fact = parseFact(plain, '7@b1') ?? -1;
  const places = placesOf(position, fact).slice(2, 4);

  it('leave out the places that are not marked', () => {
    const left = leftOutBy(position, [{ fact, places }]);
    expect(left).toHaveLength(7);
    const seen = withClaims(position, [{ fact, places }]);
    expect(placesOf(seen, fact)).toEqual(places);
    expect(seen.candidates.size).toBe(729 - 7);
  });

  it('change nothing where there are none or they name every place', () => {
    expect(withClaims(position, [])).toBe(position);
    const all = [{ fact, places: placesOf(position, fact) }];
    expect(withClaims(position, all).candidates.equals(position.candidates)).toBe(true);
  });

  it('take away the last place where none is left', () => {
    expect(placesOf(withClaims(position, [{ fact, places: [] }]), fact)).toEqual([]);
  });
});
