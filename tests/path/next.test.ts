import { describe, expect, it } from 'vitest';
import type { Claim } from '../../source/argument/claim.ts';
import { parseFact } from '../../source/argument/fact.ts';
import { check, isChecked, placesOf } from '../../source/argument/kernel.ts';
import { decide } from '../../source/exact/solve.ts';
import { candidateOf, cellOf, digitOf, plain } from '../../source/grid/layout.ts';
import { cellName } from '../../source/grid/names.ts';
import type { Position } from '../../source/grid/position.ts';
import { weightOfChecked } from '../../source/path/lightest.ts';
import { nextStep, take } from '../../source/path/next.ts';
import type { Step, View } from '../../source/path/step.ts';
import { Board } from '../../source/techniques/board.ts';
import { catalogue } from '../../source/techniques/catalogue.ts';
import { positionOf, seededRandom, sourcedGrids } from './grids.ts';

const solutionOf = (position: Position): Uint8Array => {
  const decision = decide(position);
  if (decision.verdict !== 'one') throw new Error('not one solution');
  return decision.solution;
};

/** Follows next steps to the end, handing each to the visitor with the position before it. */
function follow(line: string, kind: View['kind'], visit: (step: Step, before: Position) => void): Position {
  let position = positionOf(line);
  for (;;) {
    const step = nextStep({ position, claims: [], kind });
    if (step?.kind !== 'step') return position;
    visit(step, position);
    position = step.parts.reduce(take, position);
  }
}

describe('the next step', () => {
  it('leads grids to their solution, on a full and on a sparse sheet, by checked arguments', () => {
    for (const line of sourcedGrids.slice(0, 3)) {
      const solution = solutionOf(positionOf(line));
      for (const kind of ['full', 'sparse'] as const) {
        const end = follow(line, kind, (step, before) => {
          let here = before;
          for (const part of step.parts) {
            expect(isChecked(part)).toBe(true);
            expect(check(here, part.argument).verdict).toBe('holds');
            if (part.argument.conclusions.kind === 'breaks') throw new Error('a step breaks nothing');
            for (const candidate of part.argument.conclusions.candidates) {
              const isTrue = solution[cellOf(plain, candidate)] === digitOf(plain, candidate);
              expect(isTrue).toBe(part.argument.conclusions.kind === 'placements');
            }
            here = take(here, part);
          }
          expect(step.weights).toEqual(step.parts.map(weightOfChecked));
          expect(step.weight).toBe(Math.max(...step.weights));
        });
        expect(end.isSolved).toBe(true);
      }
    }
  }, 120_000);

  it('on a full sheet is one argument, and no technique of lighter weight has anything', () => {
    follow(sourcedGrids[1], 'full', (step, before) => {
      expect(step.parts).toHaveLength(1);
      const board = Board.from(before);
      for (const technique of catalogue) {
        if (technique.weight < step.weight) expect(technique.find(board)).toEqual([]);
      }
    });
  });

  it('on a sparse sheet runs on to something that can be written, and keeps only the parts that it needs', () => {
    let runs = 0;
    for (const line of sourcedGrids.slice(0, 3)) {
      let steps = 0;
      follow(line, 'sparse', (step, before) => {
        steps += 1;
        if (steps > 25) return;
        const after = step.parts.reduce(take, before);
        const last = step.parts[step.parts.length - 1].argument.conclusions;
        if (step.written.kind === 'spot') {
          expect(placesOf(after, step.written.fact)).toEqual(step.written.places);
          expect(step.written.places).toHaveLength(2);
          expect(placesOf(before, step.written.fact).length).toBeGreaterThan(2);
        } else {
          expect(step.written).toEqual(last);
          // Strikes end a run only where the way to something else is long or heavy.
          if (step.written.kind === 'strikes') expect(step.weight).toBeGreaterThan(1);
        }
        if (step.parts.length < 2 || step.written.kind === 'spot') return;
        runs += 1;
        for (const left of step.parts.slice(0, -1)) {
          let here = before;
          const rest = step.parts.filter((part) => part !== left);
          const holds = rest.every((part) => {
            const { conclusions } = part.argument;
            if (conclusions.kind === 'breaks') return false;
            const live = conclusions.candidates.filter((candidate) => here.candidates.has(candidate));
            const again = check(here, {
              ...part.argument,
              conclusions: { ...conclusions, candidates: live },
            });
            if (again.verdict !== 'holds') return false;
            here = take(here, again.checked);
            return true;
          });
          expect(holds).toBe(false);
        }
      });
    }
    expect(runs).toBeGreaterThan(3);
  }, 120_000);

  it('prefers a box to a line, a line to a cell that is not marked, and a cell that is marked to both', () => {
    // Row 1 lacks only 9 in r1c9, which is also the last cell of its box and column: a choice of facts.
    const line = '12345678.'.padEnd(81, '.');
    const position = positionOf(line);
    const first = nextStep({ position, claims: [], kind: 'full' });
    expect(first?.kind === 'step' && first.parts[0].argument.conclusions).toEqual({
      kind: 'placements',
      candidates: [candidateOf(plain, 8, 9)],
    });
    const claims: Claim[] = [{ fact: 8, places: [candidateOf(plain, 8, 9)] }];
    const marked = nextStep({ position, claims, kind: 'full' });
    expect(marked?.kind === 'step' && marked.parts[0].argument.facts).toEqual([8]);
  });

  it('counts what is claimed as known: a claim that leaves one place makes it a placement', () => {
    const position = positionOf('.'.repeat(81));
    const fact = parseFact(plain, '7@c2') ?? -1;
    const places = [candidateOf(plain, 2 * 9 + 1, 7)];
    const step = nextStep({ position, claims: [{ fact, places }], kind: 'sparse' });
    expect(step?.kind === 'step' && step.written).toEqual({ kind: 'placements', candidates: places });
  });

  it('is null on a solved grid and on one where nothing can be shown', () => {
    const solved = solutionOf(positionOf(sourcedGrids[0]));
    expect(nextStep({ position: positionOf(solved.join('')), claims: [], kind: 'full' })).toBeNull();
    expect(nextStep({ position: positionOf('.'.repeat(81)), claims: [], kind: 'full' })).toBeNull();
  });
});

describe('what cannot be right', () => {
  it('is said of a sheet exactly when it has no completion', () => {
    const random = seededRandom(23);
    const met = { none: 0, some: 0 };
    for (const line of sourcedGrids) {
      const start = positionOf(line);
      for (let round = 0; round < 20; round += 1) {
        const open = [...start.candidates].filter((c) => start.placed[cellOf(plain, c)] === 0);
        const pick = open[Math.floor(random() * open.length)];
        const position =
          round % 2 === 0 ? start.strike([pick]) : start.place(cellOf(plain, pick), digitOf(plain, pick));
        const none = decide(position).verdict === 'none';
        const step = nextStep({ position, claims: [], kind: 'sparse' });
        expect(step?.kind === 'broken', `${line} ${cellName(plain, cellOf(plain, pick))}`).toBe(none);
        if (step?.kind === 'broken') expect(step.part.argument.conclusions.kind).toBe('breaks');
        met[none ? 'none' : 'some'] += 1;
      }
    }
    expect(met.none).toBeGreaterThan(10);
    expect(met.some).toBeGreaterThan(10);
  }, 60_000);

  it('may be a claim: one that leaves out the only true place', () => {
    const position = positionOf(sourcedGrids[1]);
    const solution = solutionOf(position);
    const cell = position.placed.indexOf(0);
    const truth = candidateOf(plain, cell, solution[cell]);
    const places = placesOf(position, cell).filter((candidate) => candidate !== truth);
    const step = nextStep({ position, claims: [{ fact: cell, places }], kind: 'sparse' });
    expect(step?.kind).toBe('broken');
    const right = nextStep({ position, claims: [{ fact: cell, places: [truth] }], kind: 'sparse' });
    expect(right?.kind).toBe('step');
  });
});
