import { describe, expect, it } from 'vitest';
import { parseFact } from '../../source/argument/fact.ts';
import { type Argument, check, type Fact, type Verdict } from '../../source/argument/kernel.ts';
import { plain } from '../../source/grid/layout.ts';
import { parseConclusion } from '../../source/grid/names.ts';
import { Position } from '../../source/grid/position.ts';
import { livePlaces } from '../judges/arguments.ts';
import { arrangementExists, satSolutions } from '../judges/sat.ts';
import { Random } from '../random.ts';
import { type Fault, fuzzKernel } from './kernel-properties.ts';
import { randomArgument, randomPosition } from './random-arguments.ts';

const empty = Position.from(plain, new Array(81).fill(0));
const facts = (text: string): Fact[] =>
  text.split(' ').flatMap((name) => {
    const fact = parseFact(plain, name);
    return fact === null ? [] : [fact];
  });
const candidates = (text: string): number[] =>
  text.split(' ').flatMap((name) => parseConclusion(plain, name)?.candidate ?? []);
const argue = (factNames: string, kind: 'placements' | 'strikes' | 'breaks', names = ''): Argument => ({
  technique: 'test',
  facts: facts(factNames),
  conclusions: kind === 'breaks' ? { kind } : { kind, candidates: candidates(names) },
  assumes: 'nothing',
});
const reasonOf = (verdict: Verdict): string =>
  verdict.verdict === 'refused' ? verdict.reason : verdict.verdict;

/** Strikes all but these from a fact: `only(position, '7@r1', 'r1c1=7 r1c5=7')`. */
const only = (position: Position, fact: string, places: string): Position =>
  position.strike(livePlaces(position, facts(fact)[0]).filter((c) => !candidates(places).includes(c)));

describe('what the kernel refuses', () => {
  it('proves nothing from no facts', () => {
    for (const x of [0, 100, 728]) {
      expect(
        check(empty, { ...argue('', 'strikes'), conclusions: { kind: 'strikes', candidates: [x] } }),
      ).toMatchObject({ verdict: 'refused', reason: 'open', candidate: x, arrangement: [] });
    }
    expect(reasonOf(check(empty, argue('', 'placements', 'r1c1=1')))).toBe('no-fact-holds-it');
    expect(reasonOf(check(empty, argue('', 'breaks')))).toBe('open');
  });

  it('wants a conclusion', () => {
    expect(reasonOf(check(empty, argue('7@r1', 'strikes')))).toBe('no-fact-holds-it');
    expect(reasonOf(check(empty, argue('7@r1', 'placements')))).toBe('no-fact-holds-it');
  });

  it('says which candidate is open, and by which arrangement', () => {
    const position = only(empty, '7@r1', 'r1c1=7 r1c5=7');
    const verdict = check(position, argue('7@r1', 'strikes', 'r2c1<>7'));
    expect(verdict).toEqual({
      verdict: 'refused',
      reason: 'open',
      candidate: candidates('r2c1<>7')[0],
      arrangement: candidates('r1c5=7'),
    });
  });

  it('refuses all where one conclusion of several does not follow', () => {
    const position = only(empty, '7@r1', 'r1c1=7 r1c2=7');
    expect(check(position, argue('7@r1', 'strikes', 'r2c1<>7 r3c2<>7')).verdict).toBe('holds');
    expect(check(position, argue('7@r1', 'strikes', 'r2c1<>7 r4c1<>7'))).toMatchObject({
      reason: 'open',
      candidate: candidates('r4c1<>7')[0],
    });
    expect(check(position, argue('7@r1', 'strikes', 'r2c1<>7 r1c3<>7'))).toMatchObject({
      reason: 'already-struck',
      candidate: candidates('r1c3<>7')[0],
    });
  });

  it('takes no placement that none of the facts holds, though it follows', () => {
    const position = only(empty, '7@r1', 'r1c1=7');
    expect(check(position, argue('7@r1', 'placements', 'r1c1=7')).verdict).toBe('holds');
    expect(reasonOf(check(position, argue('8@r1', 'placements', 'r1c1=7')))).toBe('no-fact-holds-it');
  });

  it('accepts nothing on facts that cannot all hold, but that they break', () => {
    const position = only(only(empty, '7@r1', 'r1c1=7'), '7@r2', 'r2c1=7');
    expect(reasonOf(check(position, argue('7@r1 7@r2', 'strikes', 'r9c9<>1')))).toBe('breaks');
    expect(reasonOf(check(position, argue('7@r1 7@r2', 'placements', 'r1c1=7')))).toBe('breaks');
    expect(reasonOf(check(position, argue('7@r1 7@r2', 'breaks')))).toBe('breaks');
    expect(reasonOf(check(position, argue('7@r1', 'breaks')))).toBe('open');
  });

  it('takes no number that is no fact, and no fraction for a candidate', () => {
    for (const fact of [-1, 324, 1.5, Number.NaN]) {
      expect(() => check(empty, { ...argue('', 'breaks'), facts: [fact] })).toThrow(RangeError);
    }
    for (const x of [-1, 729, 3.5, Number.NaN]) {
      const argument: Argument = {
        ...argue('r1c1', 'breaks'),
        conclusions: { kind: 'strikes', candidates: [x] },
      };
      expect(reasonOf(check(empty, argument))).toBe('already-struck');
    }
  });
});

describe('what the kernel accepts', () => {
  it('a claim that survives only with all of its facts', () => {
    const position = only(only(empty, '1@c1', 'r2c1=1 r5c1=1'), '1@c9', 'r2c9=1 r5c9=1');
    const wing = argue('1@c1 1@c9', 'strikes', 'r2c3<>1 r5c7<>1');
    expect(check(position, wing).verdict).toBe('holds');
    for (const fact of ['1@c1', '1@c9']) {
      expect(check(position, argue(fact, 'strikes', 'r2c3<>1')).verdict).toBe('refused');
    }
    const loosened = Position.from(plain, position.givens).strike(
      [...empty.candidates].filter((x) => !position.candidates.has(x) && x !== candidates('r8c1=1')[0]),
    );
    expect(reasonOf(check(loosened, wing))).toBe('open');
  });

  it('an argument still holds when more candidates are gone, until it breaks or has nothing to say', () => {
    const random = new Random(20240607);
    let held = 0;
    for (let round = 0; round < 3000; round += 1) {
      const { position } = randomPosition(random);
      const argument = randomArgument(random, position);
      if (argument.conclusions.kind === 'breaks' || check(position, argument).verdict !== 'holds') continue;
      held += 1;
      const fewer = position.strike([...position.candidates].filter(() => random.below(8) === 0));
      expect(['holds', 'breaks', 'already-struck', 'no-fact-holds-it']).toContain(
        reasonOf(check(fewer, argument)),
      );
    }
    expect(held).toBeGreaterThan(300);
  });
});

describe('against an exact judge', () => {
  const seed = Number(process.env.INKLING_SEED ?? 71);

  it(`10,000 random and mutated arguments, seed ${seed}`, () => {
    const { complaints, answers } = fuzzKernel(check, seed, 10_000);
    expect(complaints.slice(0, 5)).toEqual([]);
    for (const answer of ['holds', 'breaks', 'refused: open', 'refused: breaks', 'refused: already-struck']) {
      expect(answers[answer], answer).toBeGreaterThan(80);
    }
    expect(answers['refused: no-fact-holds-it']).toBeGreaterThan(30);
  });

  it('accepted strikes are false in every completion, as a SAT solver (logic-solver) sees it', () => {
    const random = new Random(seed);
    let asked = 0;
    while (asked < 150) {
      const { position, solution } = randomPosition(random);
      const argument = randomArgument(random, position);
      if (!solution || argument.conclusions.kind !== 'strikes') continue;
      if (check(position, argument).verdict !== 'holds') continue;
      asked += 1;
      const [x] = argument.conclusions.candidates;
      const lists = argument.facts.map((fact) => livePlaces(position, fact));
      expect(arrangementExists(plain, lists)).toBe(true);
      expect(arrangementExists(plain, lists, [x])).toBe(false);
      expect(satSolutions(position.place(Math.floor(x / 9), (x % 9) + 1), 1)).toEqual([]);
    }
  });
});

describe('the judge itself: kernels that are wrong fail', () => {
  const seal = check(only(empty, '7@r1', 'r1c1=7'), argue('7@r1', 'placements', 'r1c1=7'));
  if (seal.verdict !== 'holds') throw new Error('the kernel refuses a hidden single');
  const { checked } = seal;
  const refused: Verdict = { verdict: 'refused', reason: 'open', candidate: undefined, arrangement: [] };
  const without = (argument: Argument, change: Partial<Argument>): Argument => ({ ...argument, ...change });

  const wrong: readonly { name: string; kernel: typeof check; fault: Fault }[] = [
    {
      name: 'always yes',
      kernel: (_, { conclusions }) => ({
        verdict: conclusions.kind === 'breaks' ? 'breaks' : 'holds',
        checked,
      }),
      fault: 'accepts what does not follow',
    },
    { name: 'always no', kernel: () => refused, fault: 'refuses what follows' },
    {
      name: 'broken facts prove anything',
      kernel: (position, argument) => {
        const verdict = check(position, argument);
        return reasonOf(verdict) === 'breaks' ? { verdict: 'holds', checked } : verdict;
      },
      fault: 'accepts what does not follow',
    },
    {
      name: 'looks at the first conclusion only',
      kernel: (position, argument) => {
        const { conclusions } = argument;
        if (conclusions.kind === 'breaks') return check(position, argument);
        const first = { ...conclusions, candidates: conclusions.candidates.slice(0, 1) };
        return check(position, without(argument, { conclusions: first }));
      },
      fault: 'accepts what does not follow',
    },
    {
      name: 'overlooks the last fact',
      kernel: (position, argument) =>
        check(position, without(argument, { facts: argument.facts.slice(0, -1) })),
      fault: 'refuses what follows',
    },
    {
      name: 'has no head for three facts',
      kernel: (position, argument) => (argument.facts.length > 2 ? refused : check(position, argument)),
      fault: 'refuses what follows',
    },
    {
      name: 'takes one fact more than it is given',
      kernel: (position, argument) => {
        const verdict = check(position, argument);
        if (verdict.verdict !== 'refused' || argument.conclusions.kind !== 'strikes') return verdict;
        const more = Array.from({ length: 324 }, (_, fact) =>
          check(position, without(argument, { facts: [...argument.facts, fact] })),
        );
        return more.find(({ verdict }) => verdict === 'holds') ?? verdict;
      },
      fault: 'accepts what does not follow',
    },
    {
      name: 'never says that facts break',
      kernel: (position, argument) => {
        const verdict = check(position, argument);
        return reasonOf(verdict) === 'breaks' ? refused : verdict;
      },
      fault: 'refuses what follows',
    },
    {
      name: 'shows any arrangement',
      kernel: (position, argument) => {
        const verdict = check(position, argument);
        if (verdict.verdict !== 'refused' || verdict.reason !== 'open') return verdict;
        return { ...verdict, arrangement: argument.facts.map((fact) => livePlaces(position, fact)[0]) };
      },
      fault: 'names an arrangement that is none',
    },
    {
      name: 'seals another argument',
      kernel: (position, argument) => {
        const verdict = check(position, argument);
        return verdict.verdict === 'holds' ? { verdict: 'holds', checked } : verdict;
      },
      fault: 'seals something else',
    },
  ];
  for (const { name, kernel, fault } of wrong) {
    it(name, () => {
      const { complaints } = fuzzKernel(kernel, 5, 1000);
      expect(complaints.map((complaint) => complaint.fault)).toContain(fault);
    });
  }
});
