import { describe, expect, test } from 'vitest';
import { factCount } from '../../source/argument/fact.ts';
import { type Fact, placesOf } from '../../source/argument/kernel.ts';
import { plain } from '../../source/grid/layout.ts';
import type { Position } from '../../source/grid/position.ts';
import { argue, type Stated } from '../../source/path/argue.ts';
import { unnamed } from '../../source/path/minimal.ts';
import { Board } from '../../source/techniques/board.ts';
import { patterns } from '../../source/techniques/catalogue.ts';
import { closeUnder, SearchBudget, strikesUpTo } from '../../source/techniques/fact-search.ts';
import { judge } from '../judges/arguments.ts';
import { expectHolds, expectRefused, factNames, faultOfArrangement } from '../path/argue-notation.ts';
import { positionOf } from '../path/grids.ts';
import { hasPublished, publishedNote, readPublishedSet } from '../published.ts';
import { Random } from '../random.ts';
import { fixtureCandidate, fixturePosition, readFixtures } from '../techniques/fixtures.ts';

const scale = Number(process.env.INKLING_DEEP ?? 1);
const seed = Number(process.env.INKLING_SEED ?? 20_260_725);
console.log(`seed ${seed}`);

/** Whether the judge, which tries every way to choose places, can be asked: nearly always. */
const isJudged = (position: Position, facts: readonly Fact[]): boolean =>
  facts.reduce((ways, fact) => ways * placesOf(position, fact).length, 1) < 1_000_000;

/**
 * A true argument and one that comes from it, held to what must be so. `least`: how many facts its strikes
 * need at least, where that is known from elsewhere. Answers how many facts were needed.
 */
function examine(position: Position, argument: Stated, random: Random, least?: number): number {
  const noise = Array.from({ length: random.below(5) }, () => random.below(factCount(plain)));
  const facts = random.shuffle([...new Set([...argument.facts, ...noise])]);
  const { checked, needed, notNeeded, parts } = expectHolds(position, { ...argument, facts });
  expect([...needed, ...notNeeded].sort()).toEqual([...facts].sort());
  expect(needed).toEqual(facts.filter((fact) => needed.includes(fact)));
  expect(checked.argument.conclusions).toEqual(argument.conclusions);
  if (least !== undefined) expect(needed).toHaveLength(least);
  if (isJudged(position, needed)) {
    expect(judge(position, { ...checked.argument, facts: needed })).toBe('holds');
  }
  const told = parts.flatMap(({ argument: { conclusions } }) =>
    conclusions.kind === 'breaks' ? [] : conclusions.candidates,
  );
  expect([...told].sort()).toEqual(
    [...(argument.conclusions.kind === 'breaks' ? [] : argument.conclusions.candidates)].sort(),
  );
  for (const fact of needed) {
    const fewer = needed.filter((other) => other !== fact);
    if (fewer.length === 0) continue;
    const refused = expectRefused(position, { ...argument, facts: fewer });
    expect(faultOfArrangement(position, fewer, refused), factNames(fewer)).toBeNull();
    expect(refused.isRepairable).toBe(true);
  }
  return needed.length;
}

/** A position on the way of a grid, after everything that so many facts show. */
function positionAfter(line: string, facts: number): Position | null {
  const board = Board.from(positionOf(line));
  const { end } = closeUnder(board, facts, new SearchBudget(20_000));
  return end === 'stuck' || end === 'spent' ? board.toPosition() : null;
}

function tally(counts: Map<number, number>): string {
  const rows = [...counts].sort(([a], [b]) => a - b);
  return rows.map(([facts, count]) => `${count} of ${facts}`).join(', ');
}

describe.skipIf(!hasPublished)(`true arguments${publishedNote}`, () => {
  const lines = hasPublished
    ? ['top-95.txt', 'random-minimal-2000.txt', 'seventeen-clue-49151.txt'].map(readPublishedSet)
    : [];

  test('1,000 found by their facts alone: they hold, nothing lighter is enough, nothing can be left out', () => {
    const random = new Random(seed);
    const counts = new Map<number, number>();
    for (let done = 0; done < 1000 * scale; ) {
      const line = random.pick(random.pick(lines));
      const shown = random.below(4);
      const position = (shown > 0 ? positionAfter(line, shown) : null) ?? positionOf(line);
      const search = strikesUpTo(Board.from(position), shown === 0 ? 2 : 4, new SearchBudget(20_000));
      if (search.kind === 'broken') throw new Error(`${line} is broken`);
      // Where the search did not last, a strike might need fewer facts than it was found with.
      if (!search.complete) continue;
      for (const { candidate, facts } of random.shuffle(search.strikes).slice(0, 10)) {
        const conclusions = { kind: 'strikes', candidates: [candidate] } as const;
        const weight = examine(position, { facts, conclusions }, random, facts.length);
        counts.set(weight, (counts.get(weight) ?? 0) + 1);
        done += 1;
      }
    }
    console.log(`found by facts alone, by facts needed: ${tally(counts)}`);
    expect(counts.size).toBe(4);
  });

  test('1,000 patterns with some of their strikes: they hold, and whole ones go by a name', () => {
    const random = new Random(seed + 1);
    const counts = new Map<number, number>();
    const names = new Map<string, number>();
    const plainly = patterns.filter(({ assumes }) => assumes === 'nothing');
    for (let done = 0; done < 1000 * scale; ) {
      const position = positionAfter(random.pick(random.pick(lines)), 1);
      if (!position) continue;
      const board = Board.from(position);
      for (const technique of random.shuffle(plainly).slice(0, 4)) {
        const findings = technique.find(board);
        if (findings.length === 0) continue;
        const { facts, conclusions } = random.pick(findings);
        const chosen = random.shuffle(conclusions.candidates).slice(0, 1 + random.below(3));
        const stated = { facts, conclusions: { kind: conclusions.kind, candidates: chosen } };
        const weight = examine(position, stated, random);
        counts.set(weight, (counts.get(weight) ?? 0) + 1);
        const { checked, notNeeded } = expectHolds(position, stated);
        if (notNeeded.length === 0) {
          const name = checked.argument.technique;
          expect(name, `${technique.id}: ${factNames(facts)}`).not.toBe(unnamed);
          names.set(name, (names.get(name) ?? 0) + 1);
        }
        done += 1;
      }
    }
    console.log(`patterns, by facts needed: ${tally(counts)}`);
    console.log(`whole ones: ${[...names].map(([name, count]) => `${name} ${count}`).join(', ')}`);
    expect(names.size).toBeGreaterThan(10);
  });

  test('no candidate of a solution is ever shown away, whatever is stated', () => {
    const random = new Random(seed + 2);
    let stated = 0;
    for (let done = 0; done < 300 * scale; done += 1) {
      const line = random.pick(lines[1]);
      const position = positionOf(line);
      const search = closeUnder(Board.from(position), 4, new SearchBudget(50_000));
      const truths = search.steps.flatMap(({ kind, candidate }) => (kind === 'placement' ? [candidate] : []));
      if (search.end !== 'solved') continue;
      const facts = Array.from({ length: 1 + random.below(10) }, () => random.below(factCount(plain)));
      const conclusions = { kind: 'strikes', candidates: [random.pick(truths)] } as const;
      const statement = { facts: [...new Set(facts)], conclusions };
      const refused = expectRefused(position, statement);
      expect(faultOfArrangement(position, statement.facts, refused)).toBeNull();
      expect(refused.isRepairable).toBe(false);
      stated += 1;
    }
    expect(stated).toBeGreaterThan(100);
  });
});

/** The first fact of which these are the live places. */
function factWith(position: Position, places: readonly string[]): Fact {
  const wanted = places
    .map(fixtureCandidate)
    .sort((a, b) => a - b)
    .join(' ');
  for (let fact = 0; fact < factCount(plain); fact += 1) {
    if (placesOf(position, fact).join(' ') === wanted) return fact;
  }
  throw new Error(`no fact has the places ${places.join(' ')}`);
}

// technique-fixtures.json of the published checks (own construction): the instances that say their premises.
describe.skipIf(!hasPublished)(`published instances with premises${publishedNote}`, () => {
  const withPremises = readFixtures().filter(({ premises }) => premises !== undefined);

  test('there are 114, of which 98 strike and 16 place', () => {
    const placing = withPremises.filter(({ placements }) => placements.length > 0);
    expect([withPremises.length, placing.length]).toEqual([114, 16]);
  });

  test('the premises support every conclusion; which were not needed is told', () => {
    const spare: string[] = [];
    let strikes = 0;
    for (const fixture of withPremises) {
      const position = fixturePosition(fixture);
      const facts = [...new Set((fixture.premises ?? []).map((places) => factWith(position, places)))];
      const { placements, eliminations } = fixture;
      const conclusions =
        placements.length > 0
          ? ({ kind: 'placements', candidates: placements.map(fixtureCandidate) } as const)
          : ({ kind: 'strikes', candidates: eliminations.map(fixtureCandidate) } as const);
      const argued = argue(position, { facts, conclusions });
      if (argued.kind === 'refused') throw new Error(`${fixture.id}: ${argued.reason}`);
      expect(argued.alreadyStruck).toEqual([]);
      // By the judge of the tests: what is needed is enough, strike by strike.
      for (const { argument } of argued.parts) {
        if (isJudged(position, argument.facts)) expect(judge(position, argument), fixture.id).toBe('holds');
      }
      for (const candidate of conclusions.candidates) {
        const alone = { kind: conclusions.kind, candidates: [candidate] };
        const one = expectHolds(position, { facts, conclusions: alone });
        expect([...one.needed, ...one.notNeeded].sort(), fixture.id).toEqual([...facts].sort());
        const least = { ...one.checked.argument, facts: one.needed };
        if (isJudged(position, one.needed)) expect(judge(position, least), fixture.id).toBe('holds');
        strikes += 1;
      }
      if (argued.notNeeded.length > 0) spare.push(`${fixture.id}: ${factNames(argued.notNeeded)}`);
      for (const fact of argued.needed) {
        const fewer = argued.needed.filter((other) => other !== fact);
        if (fewer.length === 0 || conclusions.kind === 'placements') continue;
        const refused = expectRefused(position, { facts: fewer, conclusions });
        expect(faultOfArrangement(position, fewer, refused), fixture.id).toBeNull();
      }
    }
    console.log(`not needed:\n${spare.join('\n')}`);
    console.log(`${strikes} conclusions, each argued by itself`);
    expect(spare.length).toBeGreaterThan(5);
  });
});
