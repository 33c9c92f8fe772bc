import type { Argument, Conclusions, Fact } from '../../source/argument/kernel.ts';
import { type Candidate, plain } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';
import { Board, tablesOf } from '../../source/techniques/board.ts';
import { catalogue } from '../../source/techniques/catalogue.ts';
import type { Finding, Technique } from '../../source/techniques/technique.ts';
import type { Random } from '../random.ts';

/** A full grid: a cyclic one with its digits, lines and bands in random order. One digit a cell. */
export function randomSolution(random: Random): number[] {
  const lines = () =>
    random.shuffle([0, 1, 2]).flatMap((band) => random.shuffle([0, 1, 2]).map((line) => band * 3 + line));
  const digits = random.shuffle([1, 2, 3, 4, 5, 6, 7, 8, 9]);
  const rows = lines();
  const columns = lines();
  return rows.flatMap((row) => columns.map((column) => digits[(row * 3 + Math.floor(row / 3) + column) % 9]));
}

/** A position of the plain layout, and a grid that completes it; null where nothing promises that one does. */
export interface RandomPosition {
  readonly position: Position;
  readonly solution: readonly number[] | null;
}

/** From empty to nearly full, from unmarked to thinned out; a third of them struck without regard to truth. */
export function randomPosition(random: Random): RandomPosition {
  const solution = randomSolution(random);
  const share = random.unit() * 0.8;
  const givens = solution.map((digit) => (random.unit() < share ? digit : 0));
  const position = Position.from(plain, givens);
  const careless = random.below(3) === 0;
  const struck = random.unit() ** 2 * 0.9;
  const strikes = [...position.candidates].filter(
    (x) =>
      random.unit() < struck &&
      (x % 9) + 1 !== (careless && random.below(4) === 0 ? 0 : solution[Math.floor(x / 9)]),
  );
  return { position: position.strike(strikes), solution: careless ? null : solution };
}

const factTotal = tablesOf(plain).factCount;
const randomFact = (random: Random): Fact => random.below(factTotal);

function randomConclusions(random: Random, position: Position, facts: readonly Fact[]): Conclusions {
  const kind = random.below(12);
  if (kind === 0) return { kind: 'breaks' };
  const places = facts.flatMap((fact) => Board.from(position).placesOf(fact));
  if (kind < 5 && places.length > 0) return { kind: 'placements', candidates: [random.pick(places)] };
  return { kind: kind < 4 ? 'placements' : 'strikes', candidates: [random.below(729)] };
}

/** Facts that a candidate would shrink: those that matter to whether it can be struck. */
function factsAround(random: Random, position: Position, x: Candidate): Fact[] {
  const { excludes, placesIn } = tablesOf(plain);
  const own = new Set(placesIn[x].map(({ fact }) => fact));
  const touched = [...excludes[x]]
    .filter((candidate) => position.candidates.has(candidate))
    .flatMap((candidate) => placesIn[candidate].map(({ fact }) => fact))
    .filter((fact) => !own.has(fact));
  const board = Board.from(position);
  const few = touched.filter((fact) => board.placesOf(fact).length <= 3);
  const source = few.length > 0 && random.below(4) > 0 ? few : touched;
  return source.length === 0 ? [] : Array.from({ length: 1 + random.below(4) }, () => random.pick(source));
}

export const plainArgument = (facts: readonly Fact[], conclusions: Conclusions): Argument => ({
  technique: 'fuzz',
  facts,
  conclusions,
  assumes: 'nothing',
});

const found = new WeakMap<Position, Map<Technique, readonly Finding[]>>();

/** What a technique finds in a position by at most four facts, looked for once. */
function findingsIn(position: Position, technique: Technique): readonly Finding[] {
  const known = found.get(position) ?? new Map<Technique, readonly Finding[]>();
  found.set(position, known);
  let findings = known.get(technique);
  if (!findings) {
    findings = technique.find(Board.from(position)).filter(({ facts }) => facts.length <= 4);
    known.set(technique, findings);
  }
  return findings;
}

/** An argument that a technique makes in the position, of at most four facts; undefined if there is none. */
export function trueArgument(random: Random, position: Position): Argument | undefined {
  for (const technique of random.shuffle(catalogue)) {
    if (technique.weight > 4 || technique.assumes !== 'nothing') continue;
    const findings = findingsIn(position, technique);
    if (findings.length > 0) {
      const { facts, conclusions } = random.pick(findings);
      return plainArgument(facts, conclusions);
    }
  }
  return undefined;
}

/** The argument with one thing changed: a fact left out, added or exchanged, or another conclusion. */
export function mutate(random: Random, position: Position, argument: Argument): Argument {
  const { facts, conclusions } = argument;
  const at = random.below(Math.max(facts.length, 1));
  const live = [...position.candidates];
  const other = live.length > 0 ? random.pick(live) : random.below(729);
  switch (random.below(6)) {
    case 0:
      return { ...argument, facts: facts.filter((_, i) => i !== at) };
    case 1:
      return { ...argument, facts: facts.map((fact, i) => (i === at ? randomFact(random) : fact)) };
    case 2:
      return facts.length > 3 ? argument : { ...argument, facts: [...facts, randomFact(random)] };
    case 3:
      return { ...argument, conclusions: { kind: 'breaks' } };
    case 4: {
      if (conclusions.kind === 'breaks') {
        return { ...argument, conclusions: { kind: 'strikes', candidates: [other] } };
      }
      const kind = conclusions.kind === 'strikes' ? 'placements' : 'strikes';
      return { ...argument, conclusions: { kind, candidates: conclusions.candidates } };
    }
    default: {
      if (conclusions.kind === 'breaks') {
        return { ...argument, conclusions: { kind: 'placements', candidates: [other] } };
      }
      const candidates = conclusions.candidates.map((x, i) => (i === 0 ? other : x));
      return { ...argument, conclusions: { kind: conclusions.kind, candidates: random.shuffle(candidates) } };
    }
  }
}

/** An argument of at most four facts: wild, likely, true, or a true one with something changed. */
export function randomArgument(random: Random, position: Position): Argument {
  const kind = random.below(5);
  if (kind >= 2) {
    const known = trueArgument(random, position);
    if (known) return kind === 2 ? known : mutate(random, position, known);
  }
  const live = [...position.candidates];
  if (kind === 0 || live.length === 0) {
    const facts = Array.from({ length: random.below(5) }, () => randomFact(random));
    return plainArgument(facts, randomConclusions(random, position, facts));
  }
  const x = random.pick(live);
  return plainArgument(factsAround(random, position, x), { kind: 'strikes', candidates: [x] });
}

/**
 * A position with facts that cannot all hold, and an argument on them: what some facts strike is made the
 * only place of one more. Undefined where no technique strikes anything.
 */
export function brokenArgument(
  random: Random,
  position: Position,
): { readonly position: Position; readonly argument: Argument } | undefined {
  const known = trueArgument(random, position);
  if (known?.conclusions.kind !== 'strikes' || known.facts.length > 3) return undefined;
  const x = random.pick(known.conclusions.candidates);
  const { fact } = random.pick(tablesOf(plain).placesIn[x]);
  const rivals = Board.from(position)
    .placesOf(fact)
    .filter((place) => place !== x);
  const argument = plainArgument(random.shuffle([...known.facts, fact]), { kind: 'breaks' });
  const broken = { position: position.strike(rivals), argument };
  if (random.below(2) === 0) return broken;
  return { ...broken, argument: mutate(random, broken.position, argument) };
}
