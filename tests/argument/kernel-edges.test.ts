import { describe, expect, it } from 'vitest';
import { houseFact } from '../../source/argument/fact.ts';
import {
  type Argument,
  type CheckedArgument,
  check,
  type Fact,
  type OneSolutionToken,
  placesOf,
  type Verdict,
} from '../../source/argument/kernel.ts';
import { mintToken } from '../../source/exact/token.ts';
import {
  type Candidate,
  candidateOf,
  type Layout,
  makeLayout,
  plain,
  rectangularBoxes,
} from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';
import { boardOf, close, singlesAndLocked } from '../techniques/closure.ts';

const sixteen = makeLayout({ name: 'sixteen', size: 16, boxOf: rectangularBoxes(4, 4) });
const emptyOf = (layout: Layout) => Position.from(layout, new Array(layout.cellCount).fill(0));
/** A position in which facts have these places alone. */
const only = (position: Position, facts: ReadonlyMap<Fact, readonly Candidate[]>): Position =>
  [...facts].reduce(
    (now, [fact, places]) => now.strike(placesOf(now, fact).filter((place) => !places.includes(place))),
    position,
  );
const argue = (facts: readonly Fact[], conclusions: Argument['conclusions']): Argument => ({
  technique: 'test',
  facts,
  conclusions,
  assumes: 'nothing',
});
const place = (...candidates: Candidate[]) => ({ kind: 'placements', candidates }) as const;
const strike = (...candidates: Candidate[]) => ({ kind: 'strikes', candidates }) as const;
const breaks = { kind: 'breaks' } as const;
const reasonOf = (verdict: Verdict) => (verdict.verdict === 'refused' ? verdict.reason : verdict.verdict);
const checkedOf = (verdict: Verdict): CheckedArgument => {
  if (verdict.verdict === 'refused') throw new Error(verdict.reason);
  return verdict.checked;
};

describe('a fact that is down to one place', () => {
  for (const layout of [plain, sixteen]) {
    // The lowest candidates and the highest: on 16x16 there are 4,096.
    for (const cell of [0, layout.cellCount - 1]) {
      const row = layout.houses[Math.floor(cell / layout.size)];
      const fact = houseFact(layout, row, layout.size);
      const x = candidateOf(layout, cell, layout.size);
      const other = candidateOf(layout, cell, 1);
      const position = only(emptyOf(layout), new Map([[fact, [x]]]));
      const peer = candidateOf(
        layout,
        layout.peers[cell].find((each) => !row.cells.includes(each))!,
        layout.size,
      );

      it(`puts it there, and nothing else: cell ${cell} of the ${layout.name} layout`, () => {
        const answer = (conclusions: Argument['conclusions']) => check(position, argue([fact], conclusions));
        expect(answer(place(x)).verdict).toBe('holds');
        expect(answer(place(x, x)).verdict).toBe('holds');
        expect(answer(strike(peer)).verdict).toBe('holds');
        expect(answer(place(other))).toMatchObject({ reason: 'no-fact-holds-it', candidate: other });
        expect(answer(place(x, other))).toMatchObject({ reason: 'no-fact-holds-it', candidate: other });
        expect(answer(place())).toMatchObject({ reason: 'no-fact-holds-it', candidate: undefined });
        expect(answer(strike())).toMatchObject({ reason: 'no-fact-holds-it', candidate: undefined });
        // What it says is true cannot be struck by it.
        expect(answer(strike(x))).toMatchObject({ reason: 'open', candidate: x, arrangement: [x] });
        expect(answer(breaks)).toMatchObject({ reason: 'open', candidate: undefined, arrangement: [x] });
      });

      it('does so beside another one, and not where they exclude each other', () => {
        const second = houseFact(layout, layout.houses[layout.size], 2);
        const two = only(position, new Map([[second, placesOf(position, second).slice(-1)]]));
        const [y] = placesOf(two, second);
        expect(check(two, argue([fact, second], place(x, y))).verdict).toBe('holds');
        expect(check(two, argue([second], place(x)))).toMatchObject({
          reason: 'no-fact-holds-it',
          candidate: x,
        });
        const rival = houseFact(layout, layout.houses[layout.size + (cell % layout.size)], layout.size);
        const torn = only(
          position,
          new Map([[rival, [peer].filter((each) => placesOf(position, rival).includes(each))]]),
        );
        expect(reasonOf(check(torn, argue([fact, rival], place(x))))).toBe('breaks');
      });
    }
  }

  it('has none left: it breaks, and places nothing', () => {
    const position = only(emptyOf(plain), new Map([[81, []]]));
    expect(check(position, argue([81], breaks)).verdict).toBe('breaks');
    for (const conclusions of [place(0), place(), strike(100), strike()]) {
      expect(check(position, argue([81], conclusions))).toMatchObject({
        reason: 'breaks',
        candidate: undefined,
      });
    }
  });

  it('does not stand in for a token: who assumes one solution needs one', () => {
    const position = only(emptyOf(plain), new Map([[81, [0]]]));
    const assuming: Argument = { ...argue([81], place(0)), assumes: 'one-solution', pattern: [0, 1] };
    expect(check(position, argue([81], place(0))).verdict).toBe('holds');
    expect(reasonOf(check(position, assuming))).toBe('not-one-solution');
  });
});

describe('a placement', () => {
  it('holds as soon as one of the facts that have it says so, whatever their order', () => {
    const [row, column] = [81 + 6, 81 + 9 * 9 + 6];
    const [x, y] = [6, 9 * 9 + 6];
    // 7 of row 1: only c1; 7 of column 1: r1 or r2.
    const position = only(
      emptyOf(plain),
      new Map([
        [row, [x]],
        [column, [x, y]],
      ]),
    );
    for (const facts of [[row], [row, column], [column, row], [row, row]]) {
      expect(reasonOf(check(position, argue(facts, place(x))))).toBe('holds');
      if (facts.includes(column))
        expect(check(position, argue(facts, place(y)))).toMatchObject({ reason: 'open' });
    }
    expect(check(position, argue([column], place(x)))).toMatchObject({ reason: 'open', arrangement: [y] });
    expect(check(position, argue([column], place(y)))).toMatchObject({ reason: 'open', arrangement: [x] });
  });

  it('is open as long as any other place of its fact is, not the first alone', () => {
    // 7 of row 1: c1, c2 or c9; 7 of row 5: only c2, so that c2 is out, and c9 is not.
    const [row, other] = [81 + 6, 81 + 4 * 9 + 6];
    const [x, shut, free, sure] = [0, 1, 8, 37].map((cell) => candidateOf(plain, cell, 7));
    const position = only(
      emptyOf(plain),
      new Map([
        [row, [x, shut, free]],
        [other, [sure]],
      ]),
    );
    for (const facts of [
      [row, other],
      [other, row],
    ]) {
      const arrangement = facts.map((fact) => (fact === row ? free : sure));
      expect(check(position, argue(facts, place(x)))).toMatchObject({
        reason: 'open',
        candidate: x,
        arrangement,
      });
      const narrow = position.strike([free]);
      expect(check(narrow, argue(facts, place(x))).verdict).toBe('holds');
    }
  });

  it('is refused with the first that does not follow', () => {
    const position = only(
      emptyOf(plain),
      new Map([
        [81, [0]],
        [82, [10]],
      ]),
    );
    expect(check(position, argue([81, 82], place(0, 10))).verdict).toBe('holds');
    expect(check(position, argue([81, 82], place(0, 20, 10)))).toMatchObject({
      reason: 'no-fact-holds-it',
      candidate: 20,
    });
  });
});

describe('several conclusions', () => {
  it('are each looked at with all the ways there are, the first candidate of the grid as any other', () => {
    // 1 of row 2: c1 or c2. So r1c1 is not 1; of r9c9 nothing follows.
    const fact = houseFact(plain, plain.houses[1], 1);
    const [first, second] = [candidateOf(plain, 9, 1), candidateOf(plain, 10, 1)];
    const position = only(emptyOf(plain), new Map([[fact, [first, second]]]));
    const far = candidateOf(plain, 80, 5);
    expect(check(position, argue([fact], strike(0))).verdict).toBe('holds');
    expect(check(position, argue([fact], strike(0, far)))).toMatchObject({
      reason: 'open',
      candidate: far,
      arrangement: [first],
    });
    expect(check(position, argue([fact], strike(0, first)))).toMatchObject({
      reason: 'open',
      arrangement: [first],
    });
    expect(check(position, argue([fact], strike(0, candidateOf(plain, 2, 1)))).verdict).toBe('holds');
  });
});

describe('what is sealed', () => {
  const pattern = [0, 1];
  it('is a copy of the whole argument in which nothing can be changed', () => {
    const [row, column] = [81 + 6, 81 + 9 * 9 + 6];
    const position = only(
      emptyOf(plain),
      new Map([
        [row, [6, 9 + 6]],
        [column, [6, 9 * 9 + 6]],
      ]),
    );
    const facts = [row, column];
    const box = strike(...placesOf(position, 81 + 18 * 9 + 6).filter((x) => ![6, 15, 87].includes(x)));
    expect(box.candidates.length).toBeGreaterThan(1);
    for (const [stated, sample] of [
      [argue(facts, box), box.candidates],
      [{ ...argue(facts, box), pattern }, box.candidates],
    ] as const) {
      const verdict = check(position, stated);
      const { argument } = checkedOf(verdict);
      expect(argument).toEqual(stated);
      expect(argument).not.toBe(stated);
      expect(argument.facts).not.toBe(stated.facts);
      if (argument.conclusions.kind === 'breaks') throw new Error('it strikes');
      expect(argument.conclusions.candidates).not.toBe(sample);
      for (const part of [argument, argument.facts, argument.conclusions, argument.conclusions.candidates]) {
        expect(Object.isFrozen(part)).toBe(true);
      }
      if (argument.pattern) expect(Object.isFrozen(argument.pattern)).toBe(true);
      expect('pattern' in argument).toBe('pattern' in stated);
      expect(Object.isFrozen(stated.facts)).toBe(false);
    }
  });

  it('is so of what breaks, and of candidates beyond a thousand', () => {
    const broken = only(emptyOf(plain), new Map([[81, []]]));
    const { argument } = checkedOf(check(broken, argue([81], breaks)));
    expect(argument.conclusions).toEqual({ kind: 'breaks' });
    expect(Object.isFrozen(argument.conclusions)).toBe(true);
    const far = 4095;
    const position = only(emptyOf(sixteen), new Map([[255, [far]]]));
    const made = checkedOf(check(position, argue([255], place(far)))).argument;
    expect(made.conclusions).toEqual(place(far));
    if (made.conclusions.kind === 'breaks') throw new Error('it places');
    expect(Object.isFrozen(made.conclusions.candidates)).toBe(true);
  });

  it('names what is no fact, and where', () => {
    expect(() => placesOf(emptyOf(plain), 324)).toThrow(new RangeError('no fact 324 on the plain layout'));
    expect(() => check(emptyOf(plain), argue([-1], place(0)))).toThrow('no fact -1 on the plain layout');
  });
});

describe('how far is looked', () => {
  it('no further than the fact with the fewest places, wherever it stands among many', () => {
    let looks = Number.NEGATIVE_INFINITY;
    const counting: Layout = {
      ...plain,
      get cellAt() {
        looks += 1;
        if (looks > 10_000) throw new Error('this takes too long');
        return plain.cellAt;
      },
    };
    // 7 of row 9 has no place; so it does not matter that 30 open cells have ways without number.
    const none = houseFact(counting, counting.houses[8], 7);
    const position = only(emptyOf(counting), new Map([[none, []]]));
    const cells = Array.from({ length: 30 }, (_, cell) => cell);
    for (const facts of [
      [none, ...cells],
      [...cells, none],
      [...cells.slice(0, 15), none, ...cells.slice(15)],
    ]) {
      looks = 0;
      expect(check(position, argue(facts, breaks)).verdict).toBe('breaks');
      expect(looks).toBeGreaterThan(0);
    }
  });
});

describe('the axiom of one solution', () => {
  // Line 3 of random-minimal-2000 (published set): after singles and locked candidates r5c2 has 3, 4, 6, 7, and it
  // and r5c5, r6c2, r6c5 would be a rectangle of 4 and 6.
  const line = '2...9...6691......3..7......2............5.811..2.8.3.....7...9.......65..5.83...';
  const token = mintToken(
    plain,
    Array.from(line, (sign) => Number(sign) || 0),
  ) as OneSolutionToken;
  const position = close(boardOf(line), singlesAndLocked).toPosition();
  const at = (cell: number, digit: number) => candidateOf(plain, cell, digit);
  const [corner, right, below, last] = [37, 40, 46, 49];
  const pattern = [corner, right, below, last].flatMap((cell) => [at(cell, 4), at(cell, 6)]);
  const assuming = (facts: readonly Fact[], conclusions: Argument['conclusions']): Argument => ({
    ...argue(facts, conclusions),
    assumes: 'one-solution',
    pattern,
  });
  const left = placesOf(position, corner);
  const rest = left.filter((x) => !pattern.includes(x));
  const [x] = rest;
  const narrow = position.strike(rest.slice(1));

  it('is what the cells can be beside the pattern: it shows in an arrangement, last', () => {
    expect(left.length).toBeGreaterThan(rest.length);
    const verdict = check(position, assuming([corner], strike(x)), token);
    expect(verdict).toMatchObject({ reason: 'open', candidate: x });
    if (verdict.verdict !== 'refused') throw new Error('it is open');
    expect(verdict.arrangement).toHaveLength(2);
    expect(rest).toContain(verdict.arrangement?.[1]);
  });

  it('is no fact that a placement could rest on; a fact of the cell is', () => {
    expect(reasonOf(check(narrow, assuming([], place(x)), token))).toBe('no-fact-holds-it');
    expect(reasonOf(check(narrow, assuming([corner], place(x)), token))).toBe('holds');
    // Without the axiom the cell could still be 4 or 6.
    expect(reasonOf(check(narrow, argue([corner], place(x)), token))).toBe('open');
  });

  it('breaks where the cells can be nothing else', () => {
    const deadly = position.strike(rest);
    expect(reasonOf(check(deadly, assuming([], breaks), token))).toBe('breaks');
    expect(reasonOf(check(deadly, argue([], breaks), token))).toBe('open');
  });
});
