import { describe, expect, it } from 'vitest';
import { type Argument, check, placesOf } from '../../source/argument/kernel.ts';
import { plain } from '../../source/grid/layout.ts';
import { parseCell } from '../../source/grid/names.ts';
import type { Position } from '../../source/grid/position.ts';
import { Board } from '../../source/techniques/board.ts';
import { catalogue } from '../../source/techniques/catalogue.ts';
import type { Finding, Technique } from '../../source/techniques/technique.ts';
import { mutate, randomPosition } from '../argument/random-arguments.ts';
import { satSolutions } from '../judges/sat.ts';
import { Random } from '../random.ts';
import { scene } from './notation.ts';
import { moveFinding, movePosition, randomSymmetry } from './symmetry.ts';
import { table } from './table.ts';

const seed = Number(process.env.INKLING_SEED ?? 4711);

/** A position, and a full grid that completes it, where one is known. */
interface Scene {
  readonly position: Position;
  readonly solution: readonly number[] | null;
}

/** Random positions as they come, and the same after some techniques have had their say. */
function randomScenes(count: number): Scene[] {
  const random = new Random(seed);
  return Array.from({ length: count }, () => {
    const { position, solution } = randomPosition(random);
    const board = Board.from(position);
    for (let rounds = random.below(4); rounds > 0; rounds -= 1) {
      for (const { find } of catalogue.slice(0, 1 + random.below(catalogue.length))) {
        for (const { conclusions } of find(board)) {
          for (const x of conclusions.candidates) {
            if (conclusions.kind === 'strikes') board.strike(x);
            else board.place(x);
          }
        }
      }
    }
    return { position: board.toPosition(), solution };
  });
}

const scenes: readonly Scene[] = [
  ...table.map((row) => ({ position: scene(row.scene), solution: null })),
  ...randomScenes(90),
];

const argumentOf = ({ technique, facts, conclusions }: Finding): Argument => ({
  technique,
  facts,
  conclusions,
  assumes: 'nothing',
});

/** All findings of a technique in all scenes. */
const found = (technique: Technique): { scene: Scene; finding: Finding }[] =>
  scenes.flatMap((where) =>
    technique.find(Board.from(where.position)).map((finding) => ({ scene: where, finding })),
  );

const keyOf = ({ facts, conclusions }: Finding): string =>
  `${[...facts].sort((a, b) => a - b)} ${conclusions.kind} ${conclusions.candidates}`;

/** A sentence or two that name no cell but those of the facts and conclusions, and cells that hold a digit. */
function expectPhrase(position: Position, { facts, conclusions }: Argument, said: string): void {
  expect(said).toMatch(/^(r\d|[A-Z\d]).*\.$/);
  const places = facts.flatMap((fact) => placesOf(position, fact));
  const concluded = conclusions.kind === 'breaks' ? [] : conclusions.candidates;
  const cells = new Set([...places, ...concluded].map((candidate) => Math.floor(candidate / 9)));
  for (const [name] of said.matchAll(/r\dc\d/g)) {
    const cell = parseCell(plain, name) ?? -1;
    expect(cells.has(cell) || position.placed[cell] !== 0).toBe(true);
  }
}

describe(`laws of every technique, over the table and random positions, seed ${seed}`, () => {
  for (const technique of catalogue) {
    describe(technique.id, () => {
      const all = found(technique);

      it('is found often enough to say so, and has no more facts than its weight', () => {
        expect(all.length).toBeGreaterThan(0);
        for (const { finding } of all) {
          expect(finding.technique).toBe(technique.id);
          expect(finding.facts.length).toBeLessThanOrEqual(technique.weight);
          expect(new Set(finding.facts).size).toBe(finding.facts.length);
        }
      });

      it('the kernel accepts every finding', () => {
        for (const { scene: where, finding } of all) {
          expect(check(where.position, argumentOf(finding))).toMatchObject({ verdict: 'holds' });
        }
      });

      it('each conclusion holds in every completion', () => {
        for (const { scene: where, finding } of all) {
          const { solution } = where;
          const placed = finding.conclusions.kind === 'placements';
          for (const x of finding.conclusions.candidates) {
            if (solution) expect(solution[Math.floor(x / 9)] === (x % 9) + 1).toBe(placed);
          }
        }
        // A SAT solver (logic-solver) looks for a completion against the conclusion.
        for (const { scene: where, finding } of all.filter((_, i) => i % Math.ceil(all.length / 3) === 0)) {
          const [x] = finding.conclusions.candidates;
          const against =
            finding.conclusions.kind === 'placements'
              ? where.position.strike([x])
              : where.position.place(Math.floor(x / 9), (x % 9) + 1);
          expect(satSolutions(against, 1)).toEqual([]);
        }
      });

      it('each finding makes progress: live candidates or open cells, ascending, no two findings alike', () => {
        for (const { scene: where, finding } of all) {
          const { kind, candidates } = finding.conclusions;
          expect(candidates.length).toBeGreaterThan(0);
          expect(candidates).toEqual([...new Set(candidates)].sort((a, b) => a - b));
          for (const x of candidates) {
            expect(where.position.candidates.has(x)).toBe(true);
            if (kind === 'placements') expect(where.position.placed[Math.floor(x / 9)]).toBe(0);
          }
        }
        for (const where of scenes) {
          const facts = technique
            .find(Board.from(where.position))
            .map((finding) => [...finding.facts].sort((a, b) => a - b).join(' '));
          expect(new Set(facts).size).toBe(facts.length);
        }
      });

      it('commutes with the symmetries of the grid, as a set', () => {
        const random = new Random(seed);
        for (const { position } of scenes) {
          const symmetry = randomSymmetry(random);
          const moved = technique.find(Board.from(position)).map((one) => keyOf(moveFinding(symmetry, one)));
          const other = technique.find(Board.from(movePosition(symmetry, position))).map(keyOf);
          expect(other.sort()).toEqual(moved.sort());
        }
      });

      it('is deterministic and leaves the board as it was', () => {
        for (const { position } of scenes) {
          const board = Board.from(position);
          const state = () => [board.live, board.masks, board.placed, board.givens].join(' | ');
          const before = state();
          const first = technique.find(board);
          expect(state()).toBe(before);
          expect(technique.find(board)).toEqual(first);
          expect(technique.find(Board.from(position))).toEqual(first);
        }
      });

      it('a changed argument is never accepted with a false conclusion', () => {
        const random = new Random(seed);
        for (const { scene: where, finding } of all) {
          const changed = mutate(random, where.position, argumentOf(finding));
          const verdict = check(where.position, changed);
          if (verdict.verdict === 'refused' || !where.solution) continue;
          const { conclusions } = changed;
          expect(conclusions.kind).not.toBe('breaks');
          if (conclusions.kind === 'breaks') continue;
          for (const x of conclusions.candidates) {
            const isTrue = where.solution[Math.floor(x / 9)] === (x % 9) + 1;
            expect(isTrue).toBe(conclusions.kind === 'placements');
          }
        }
      });

      it('says sentences about its facts, its conclusions and placed digits, and about nothing else', () => {
        for (const { scene: where, finding } of all) {
          const argument = argumentOf(finding);
          const { kind, candidates } = finding.conclusions;
          const alone = candidates.map((x) => ({ ...argument, conclusions: { kind, candidates: [x] } }));
          for (const one of alone)
            expect(technique.phrase?.(where.position, one)).toEqual(expect.any(String));
          for (const one of [argument, ...alone]) {
            const said = technique.phrase?.(where.position, one) ?? null;
            if (said !== null) expectPhrase(where.position, one, said);
            if (said !== null) expect(said.toLowerCase()).not.toContain(technique.name.toLowerCase());
          }
        }
      });
    });
  }

  it('facts that cannot all hold are reported by none', () => {
    const broken = scene('r1c1:12 r1c2:12 r1c3:12 3@r5:r5c1,r5c2 3@r6:r6c1,r6c2 3@r4:r4c1,r4c2');
    for (const { find } of catalogue) {
      for (const finding of find(Board.from(broken))) {
        expect(check(broken, argumentOf(finding)).verdict).toBe('holds');
      }
    }
  });
});
