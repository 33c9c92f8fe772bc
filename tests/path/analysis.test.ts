import { describe, expect, it } from 'vitest';
import { type CheckedArgument, check } from '../../source/argument/kernel.ts';
import { CandidateSet } from '../../source/grid/candidates.ts';
import { cellOf } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';
import { analyse, essentialSteps } from '../../source/path/analysis.ts';
import { drawContour } from '../../source/path/contour.ts';
import { take } from '../../source/path/next.ts';
import { pathOf } from '../../source/path/whole.ts';
import { positionOf } from './grids.ts';

/** Single lines of the published random-minimal-2000 set, 1333, 257 and 89, and P. Norvig's essay, grid 2. */
const lines = [
  '.461...5......4.2.2....5..67.2..1....8.......4......92.1...2..3..7..3..5...8..9.7',
  '...7.5......2.......3..8.4........7.56....9.3..7..32...45...1..82..9...59...1..82',
  '6....1..9.3...8..51..5...38...9.32.........5.7.8...4....4....7..9..4......72.9...',
  '.395........8...7.....1.9.41..4....3...........7...86...67.82...1..9...5.....1..8',
];
const paths = lines.map((line) => pathOf(positionOf(line)));
const analyses = paths.map((path) => analyse(path));

/** Makes steps again from a start, one by one, with the plainest means. Null where one is refused. */
function redo(start: Position, steps: readonly CheckedArgument[]): Position | null {
  let here = start;
  for (const { argument } of steps) {
    const verdict = check(here, argument);
    if (verdict.verdict !== 'holds') return null;
    here = take(here, verdict.checked);
  }
  return here;
}

/** The position with a dead candidate put back. */
const revived = ({ layout, givens, placed, candidates }: Position, dead: number): Position =>
  Position.from(
    layout,
    givens,
    placed,
    CandidateSet.full(layout)
      .without(candidates)
      .without(CandidateSet.of(layout, [dead])),
  );

/** Strikes that single facts support, by asking the kernel about every fact and every candidate. */
function strikesByHand(position: Position): Set<number> {
  const { layout, candidates, placed } = position;
  const facts = Array.from({ length: layout.cellCount * 4 }, (_, fact) => fact);
  const struck = new Set<number>();
  for (const candidate of candidates) {
    if (placed[cellOf(layout, candidate)] !== 0) continue;
    const conclusions = { kind: 'strikes' as const, candidates: [candidate] };
    const holds = (some: number[]) =>
      check(position, { technique: 'test', facts: some, conclusions, assumes: 'nothing' }).verdict ===
      'holds';
    const found = facts.some((fact) => holds([fact]));
    if (found) struck.add(candidate);
  }
  return struck;
}

describe('essential steps', () => {
  it('are those left when, walking backwards, each is dropped that the rest can do without', () => {
    for (const [i, { start, steps }] of paths.entries()) {
      let kept = [...steps];
      for (const step of [...steps].reverse()) {
        const rest = kept.filter((other) => other !== step);
        if (redo(start, rest)?.isSolved) kept = rest;
      }
      expect(analyses[i].essential).toEqual(steps.map((step) => kept.includes(step)));
    }
  });

  it('replay, solve, and none of them can be dropped', () => {
    let spare = 0;
    for (const [i, path] of paths.entries()) {
      const steps = essentialSteps(path, analyses[i].essential);
      spare += path.steps.length - steps.length;
      expect(redo(path.start, steps)?.isSolved).toBe(true);
      for (const step of steps) {
        const rest = steps.filter((other) => other !== step);
        expect(redo(path.start, rest)?.isSolved ?? false).toBe(false);
      }
    }
    expect(spare).toBeGreaterThan(3);
  });
});

describe('what is available', () => {
  it('are the candidates that so many facts strike by themselves, counted by hand for one fact', () => {
    const [{ steps }] = paths;
    let counted = 0;
    steps.forEach(({ position }, index) => {
      if (analyses[0].weights[index] !== 1 || index % 6 !== 0) return;
      counted += 1;
      expect(analyses[0].available[index].candidates).toBe(strikesByHand(position).size);
      expect(analyses[0].available[index].exact).toBe(true);
    });
    expect(counted).toBeGreaterThan(5);
  });

  it('holds at least the strikes of the step itself, and more where more facts are allowed', () => {
    for (const [i, { steps }] of paths.entries()) {
      steps.forEach(({ argument }, index) => {
        if (argument.conclusions.kind !== 'strikes') return;
        const { candidates, releases } = analyses[i].available[index];
        expect(candidates).toBeGreaterThanOrEqual(argument.conclusions.candidates.length);
        expect(releases).toBeLessThanOrEqual(candidates);
      });
    }
  });

  it('makes a bottleneck where at most two are left to a striking step', () => {
    for (const [i, { steps }] of paths.entries()) {
      const { available, bottlenecks } = analyses[i];
      const expected = steps.flatMap(({ argument }, index) =>
        argument.conclusions.kind === 'strikes' && available[index].exact && available[index].candidates <= 2
          ? [index]
          : [],
      );
      expect(bottlenecks).toEqual(expected);
    }
    expect(analyses.flatMap(({ bottlenecks }) => bottlenecks).length).toBeGreaterThan(0);
  });
});

describe('meetings', () => {
  it('are two strikes in a cell from different heavier steps that one later step needs, each of them', () => {
    expect(analyses.flatMap(({ meetings }) => meetings).length).toBeGreaterThan(0);
    for (const [i, path] of paths.entries()) {
      const { essential, weights, meetings } = analyses[i];
      const steps = essentialSteps(path, essential);
      const indices = essential.flatMap((is, index) => (is ? [index] : []));
      for (const { cell, strikes, from, neededBy } of meetings) {
        expect(from[0]).not.toBe(from[1]);
        const later = steps[indices.indexOf(neededBy)];
        for (const [which, candidate] of strikes.entries()) {
          const step = path.steps[from[which]];
          expect(cellOf(path.start.layout, candidate)).toBe(cell);
          expect(weights[from[which]]).toBeGreaterThan(1);
          expect(essential[from[which]] && from[which] < neededBy).toBe(true);
          expect(step.argument.conclusions).toMatchObject({ kind: 'strikes' });
          expect(check(revived(later.position, candidate), later.argument).verdict).toBe('refused');
        }
      }
    }
  });
});

describe('the contour', () => {
  it('has one sign a step, higher for more facts', () => {
    expect(drawContour([1, 2, 3, 8, 12], true)).toBe('▁▂▃██');
    expect(drawContour([1, 2, 3, 9, 12], false)).toBe('1239+');
    for (const { weights, heaviest } of analyses) {
      expect([...drawContour(weights, true)]).toHaveLength(weights.length);
      expect(heaviest).toBe(Math.max(...weights));
    }
  });
});
