import { describe, expect, it } from 'vitest';
import { factParts } from '../../source/argument/fact.ts';
import { type Argument, check, type OneSolutionToken, placesOf } from '../../source/argument/kernel.ts';
import { mintToken } from '../../source/exact/token.ts';
import { plain } from '../../source/grid/layout.ts';
import { parseCell } from '../../source/grid/names.ts';
import type { Position } from '../../source/grid/position.ts';
import { Board } from '../../source/techniques/board.ts';
import { catalogue, patterns } from '../../source/techniques/catalogue.ts';
import type { Finding, Technique } from '../../source/techniques/technique.ts';
import { mutate, randomPosition } from '../argument/random-arguments.ts';
import { satSolutions } from '../judges/sat.ts';
import { Random } from '../random.ts';
import { boardOf, close, singlesAndLocked, subsetsAndLocked } from './closure.ts';
import { scene } from './notation.ts';
import { moveFinding, movePosition, randomSymmetry } from './symmetry.ts';
import { table } from './table.ts';

const seed = Number(process.env.INKLING_SEED ?? 4711);

/** A position, and a full grid that completes it, where one is known. */
interface Scene {
  readonly position: Position;
  readonly solution: ArrayLike<number> | null;
  /** Where the givens have one solution. */
  readonly token?: OneSolutionToken;
}

/** Lines 3, 89, 7, 25, 1, 2, 4, 5, 6 and 8 of random-minimal-2000 (published set, own construction), one solution each. */
const puzzles = [
  '2...9...6691......3..7......2............5.811..2.8.3.....7...9.......65..5.83...',
  '6....1..9.3...8..51..5...38...9.32.........5.7.8...4....4....7..9..4......72.9...',
  '..6...4.3..1.3......4..75..2.7....91.5...92..3...1...4....6......59.8....8.7...4.',
  '.6...5...9..13..4...4.2......93.1..63.7....92..........4......9....8.37..2.61..5.',
  '..59.....41...8.3..76...1.........622.....7...9.4...8.1..7...2......63.....8124..',
  '.5643.......7.2...7....9..42.....7.68...7.21..6...5....3....6.7....519.........4.',
  '........87.........1...823.5.6..2..7...5..42....9.7..6.8.156......8.....29.3..8..',
  '3.94.......25...64..7.1.3...859.......6....49.4......5......8..6...2...7.2.3.1...',
  '...6.5.4.98.....3..5..7.9....6......29..8.4......1....47...85..8....27.....9....3',
  '.7.9.83......34...8....74...4528..3..21......7..3....1.8.....15..915..........96.',
];

/** Puzzles as they come, and after so many rounds of what the first patterns of the catalogue find. */
function puzzleScenes(): Scene[] {
  return puzzles.flatMap((line) => {
    const board = boardOf(line);
    const token = mintToken(plain, board.givens);
    const [solution] = satSolutions(board.toPosition(), 2);
    if (!token) throw new Error(`not one solution: ${line}`);
    return [singlesAndLocked, subsetsAndLocked].map((techniques) => ({
      position: close(board, techniques).toPosition(),
      solution,
      token,
    }));
  });
}

/** Random positions as they come, and the same after some techniques have had their say. */
function randomScenes(count: number): Scene[] {
  const random = new Random(seed);
  return Array.from({ length: count }, () => {
    const { position, solution } = randomPosition(random);
    const board = Board.from(position);
    for (let rounds = random.below(4); rounds > 0; rounds -= 1) {
      for (const { find } of patterns.slice(0, 1 + random.below(patterns.length))) {
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

const ofTable = table.map((row) => ({ row, scene: { position: scene(row.scene), solution: null } }));
const random = randomScenes(90);
const ofPuzzles = puzzleScenes();

/**
 * Where a technique is tried: everywhere; one that follows candidates to their ends in its own rows of the
 * table and in some of the others.
 */
const scenesFor = ({ id, supposes }: Technique): readonly Scene[] => [
  ...ofTable.filter(({ row }) => !supposes || row.technique === id).map((each) => each.scene),
  ...random.filter((_, i) => !supposes || i % 6 === 0),
  ...ofPuzzles.filter((_, i) => !supposes || i % 6 === 0),
];

/** Vouches for anything: what follows from a deadly pattern is tested with it, not whether there is one. */
const blind = { vouchesFor: () => true } as unknown as OneSolutionToken;

const argumentOf = ({ technique, facts, conclusions, pattern }: Finding): Argument => ({
  technique,
  facts,
  conclusions,
  assumes: pattern ? 'one-solution' : 'nothing',
  ...(pattern && { pattern }),
});

const keyOf = ({ facts, conclusions, pattern = [] }: Finding): string =>
  [
    [...facts].sort((a, b) => a - b),
    conclusions.kind,
    conclusions.candidates,
    [...pattern].sort((a, b) => a - b),
  ].join(' ');

/** What some findings conclude in all. */
const concluded = (findings: readonly Finding[]): number[] =>
  [...new Set(findings.flatMap(({ conclusions }) => conclusions.candidates))].sort((a, b) => a - b);

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
      const scenes = scenesFor(technique);
      const all = scenes.flatMap((where) =>
        technique.find(Board.from(where.position)).map((finding) => ({ scene: where, finding })),
      );
      /** Findings whose assumption holds, so that their conclusions must be true. */
      const vouched = all.filter(({ scene: { token } }) => technique.assumes === 'nothing' || token);

      it('is found often enough to say so, and has no more facts than its weight', () => {
        expect(all.length).toBeGreaterThan(0);
        for (const { finding } of all) {
          expect(finding.technique).toBe(technique.id);
          expect(finding.facts.length).toBeLessThanOrEqual(technique.weight);
          expect(new Set(finding.facts).size).toBe(finding.facts.length);
        }
      });

      it('has facts about what it says that they are about', () => {
        for (const { scene: where, finding } of technique.about ? all : []) {
          const parts = finding.facts.map((fact) => factParts(where.position.layout, fact));
          const digits = new Set(parts.map((part) => (part.kind === 'house' ? part.digit : 0)));
          const ofCells = digits.has(0) ? (digits.size === 1 ? 'cells' : 'cells-and-houses') : null;
          expect(ofCells ?? (digits.size === 1 ? 'one-digit' : 'digits')).toBe(technique.about);
        }
      });

      it('has facts with no more places than it says, and patterns of three and four facts none with one', () => {
        const { mostPlaces = Number.POSITIVE_INFINITY, weight } = technique;
        for (const { scene: where, finding } of all) {
          for (const fact of finding.facts) {
            const { length } = placesOf(where.position, fact);
            expect(length).toBeLessThanOrEqual(mostPlaces);
            if (weight === 3 || weight === 4) expect(length).toBeGreaterThan(1);
          }
        }
      });

      it('finds the same of so many facts where no others are wanted', () => {
        for (const { position } of scenes.slice(0, 60)) {
          const board = Board.from(position);
          const whole = technique.find(board);
          for (const most of [2, 3, 5]) {
            const few = (findings: readonly Finding[]) =>
              findings.filter(({ facts }) => facts.length <= most).map(keyOf);
            expect(few(technique.find(board, most))).toEqual(few(whole));
          }
        }
      });

      it('the kernel accepts every finding', () => {
        for (const { scene: where, finding } of all) {
          const verdict = check(where.position, argumentOf(finding), where.token ?? blind);
          expect(verdict).toMatchObject({ verdict: 'holds' });
        }
      });

      it('each conclusion holds in every completion', () => {
        if (technique.id !== 'bug-plus-one') expect(vouched.length).toBeGreaterThan(0);
        for (const { scene: where, finding } of vouched) {
          const { solution } = where;
          const placed = finding.conclusions.kind === 'placements';
          for (const x of finding.conclusions.candidates) {
            if (solution) expect(solution[Math.floor(x / 9)] === (x % 9) + 1).toBe(placed);
          }
        }
        // A SAT solver (logic-solver) looks for a completion against the conclusion.
        for (const { scene: where, finding } of vouched.filter(
          (_, i) => i % Math.ceil(vouched.length / 3) === 0,
        )) {
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
            .map(({ facts, pattern = [] }) =>
              [[...facts].sort((a, b) => a - b), [...pattern].sort((a, b) => a - b)].join(' | '),
            );
          expect(new Set(facts).size).toBe(facts.length);
        }
      });

      it('commutes with the symmetries of the grid, as a set', () => {
        const random = new Random(seed);
        for (const { position } of scenes) {
          const symmetry = randomSymmetry(random);
          const moved = technique.find(Board.from(position)).map((one) => moveFinding(symmetry, one));
          const other = technique.find(Board.from(movePosition(symmetry, position)));
          if (technique.supposes) expect(concluded(other)).toEqual(concluded(moved));
          else expect(other.map(keyOf).sort()).toEqual(moved.map(keyOf).sort());
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
          const verdict = check(where.position, changed, where.token);
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
        expect(check(broken, argumentOf(finding), blind).verdict).toBe('holds');
      }
    }
  });
});
