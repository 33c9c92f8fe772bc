import Logic from 'logic-solver';
import { type Candidate, conflicts, type Layout } from '../../source/grid/layout.ts';
import type { Position } from '../../source/grid/position.ts';

/** Second independent judge: the `logic-solver` package, a SAT solver (MiniSat inside). */

/** Alternatives of which one must hold. A literal is a variable from 1 up, or its negative. */
export type Clause = readonly number[];

type Solver = InstanceType<typeof Logic.Solver>;

/**
 * A set of clauses that can be asked again and again under different assumptions. Starting one costs some
 * milliseconds, a question far less.
 */
export class SatJudge {
  readonly #solver: Solver;
  readonly #variables = new Map<number, number>();
  readonly #names = new Map<string, number>();

  constructor(clauses: Iterable<Clause>) {
    this.#solver = new Logic.Solver();
    Logic.disablingAssertions(() => {
      for (const clause of clauses) this.require(clause);
    });
  }

  #term(literal: number): number {
    const variable = Math.abs(literal);
    let term = this.#variables.get(variable);
    if (term === undefined) {
      term = this.#solver.getVarNum(`v${variable}`);
      this.#variables.set(variable, term);
      this.#names.set(`v${variable}`, variable);
    }
    return literal < 0 ? -term : term;
  }

  /** Adds a clause for good. An empty clause can never hold. */
  require(clause: Clause): void {
    this.#solver.require(Logic.or(...clause.map((literal) => this.#term(literal))));
  }

  /**
   * A way to satisfy all clauses, and for this once these as well: the variables that are true. Null: there
   * is none.
   */
  solve(assumed: readonly Clause[] = []): Set<number> | null {
    return Logic.disablingAssertions(() => {
      const parts = assumed.map((clause) => Logic.or(...clause.map((literal) => this.#term(literal))));
      const solution =
        parts.length === 0 ? this.#solver.solve() : this.#solver.solveAssuming(Logic.and(...parts));
      if (!solution) return null;
      return new Set(
        solution.getTrueVars().flatMap((name) => {
          const variable = this.#names.get(name);
          return variable === undefined ? [] : [variable];
        }),
      );
    });
  }
}

/** Whether clauses can all hold at once. */
export const satisfiable = (clauses: Iterable<Clause>): boolean => new SatJudge(clauses).solve() !== null;

const pairJudges = new WeakMap<Layout, { judge: SatJudge; asked: number }>();

/** After so many questions a judge starts anew: it never forgets an assumption it was asked under. */
const questionsAJudge = 2000;

/**
 * Whether some facts leave a candidate open, as clauses alone see it: `lists` say "one of these candidates
 * is true", no two that conflict are, and each of `units` is true. Satisfiable means open; an argument that
 * strikes `x` holds only if `arrangementExists(layout, lists, [x])` is false and with no unit it is true.
 * The lists must hold live candidates only: what is not listed is not known to be false.
 */
export function arrangementExists(
  layout: Layout,
  lists: readonly (readonly Candidate[])[],
  units: readonly Candidate[] = [],
): boolean {
  let entry = pairJudges.get(layout);
  if (!entry || entry.asked >= questionsAJudge) {
    entry = { judge: new SatJudge(conflictClauses(layout)), asked: 0 };
    pairJudges.set(layout, entry);
  }
  entry.asked += 1;
  const listed = lists.map((list) => list.map((candidate) => candidate + 1));
  return entry.judge.solve([...listed, ...units.map((candidate) => [candidate + 1])]) !== null;
}

/** "Not both", for every two candidates in conflict; the variable of a candidate is its number plus 1. */
function* conflictClauses(layout: Layout): Iterable<Clause> {
  const count = layout.cellCount * layout.size;
  for (let a = 0; a < count; a += 1) {
    for (let b = a + 1; b < count; b += 1) if (conflicts(layout, a, b)) yield [-(a + 1), -(b + 1)];
  }
}

const gridJudges = new WeakMap<Layout, { judge: SatJudge; asked: number }>();

/**
 * Completions of a position, at most `limit`, one digit a cell: the extended encoding (every fact one
 * clause, every conflict one), struck and excluded candidates as negative units, each solution found
 * excluded before the next is looked for.
 */
export function satSolutions(position: Position, limit: number): Uint8Array[] {
  const { layout, candidates } = position;
  const { cellCount, size } = layout;
  let entry = gridJudges.get(layout);
  if (!entry || entry.asked >= questionsAJudge) {
    entry = { judge: new SatJudge([...conflictClauses(layout), ...factClauses(layout)]), asked: 0 };
    gridJudges.set(layout, entry);
  }
  const assumed: Clause[] = [];
  for (let candidate = 0; candidate < cellCount * size; candidate += 1) {
    if (!candidates.has(candidate)) assumed.push([-(candidate + 1)]);
  }
  const solutions: Uint8Array[] = [];
  while (solutions.length < limit) {
    entry.asked += 1;
    const model = entry.judge.solve(assumed);
    if (!model) break;
    const digits = new Uint8Array(cellCount);
    for (const v of model) digits[Math.floor((v - 1) / size)] = ((v - 1) % size) + 1;
    solutions.push(digits);
    assumed.push([...model].map((variable) => -variable));
  }
  return solutions;
}

function factClauses(layout: Layout): Clause[] {
  const { cellCount, size, houses } = layout;
  const digits = Array.from({ length: size }, (_, i) => i + 1);
  const cells = Array.from({ length: cellCount }, (_, cell) => digits.map((digit) => cell * size + digit));
  const ofHouses = houses.flatMap((house) =>
    digits.map((digit) => house.cells.map((cell) => cell * size + digit)),
  );
  return [...cells, ...ofHouses];
}
