import { describe, expect, it } from 'vitest';
import { check } from '../../source/argument/kernel.ts';
import { candidateOf, cellOf, digitOf, plain } from '../../source/grid/layout.ts';
import type { Position } from '../../source/grid/position.ts';
import { take } from '../../source/path/next.ts';
import { type Target, trace } from '../../source/path/trace.ts';
import { coverSolutions } from '../judges/exact-cover.ts';
import { positionOf, seededRandom, sourcedGrids } from './grids.ts';

const isReached = (position: Position, { kind, candidate }: Target): boolean =>
  kind === 'placement'
    ? position.placed[cellOf(plain, candidate)] === digitOf(plain, candidate)
    : !position.candidates.has(candidate);

describe('a trace', () => {
  it('leads to any true placement and any false candidate, and none of its steps can be left out', () => {
    const random = seededRandom(17);
    const met = { placement: 0, strike: 0 };
    for (const line of sourcedGrids.slice(0, 3)) {
      const start = positionOf(line);
      const [solution] = coverSolutions(start, 1);
      const open = [...start.candidates].filter((c) => start.placed[cellOf(plain, c)] === 0);
      for (let round = 0; round < 8; round += 1) {
        const candidate = open[Math.floor(random() * open.length)];
        const isTrue = solution[cellOf(plain, candidate)] === digitOf(plain, candidate);
        const target: Target = { kind: isTrue ? 'placement' : 'strike', candidate };
        const traced = trace(start, target);
        if (traced.kind !== 'chain') throw new Error(`${traced.kind} for ${candidate} of ${line}`);
        met[target.kind] += 1;
        let here = start;
        for (const { argument } of traced.steps) {
          const verdict = check(here, argument);
          if (verdict.verdict !== 'holds') throw new Error(verdict.verdict);
          here = take(here, verdict.checked);
        }
        expect(isReached(here, target)).toBe(true);
        for (const left of traced.steps) {
          let without: Position | null = start;
          for (const { argument } of traced.steps) {
            if (argument === left.argument || without === null) continue;
            const verdict = check(without, argument);
            without = verdict.verdict === 'holds' ? take(without, verdict.checked) : null;
          }
          expect(without !== null && isReached(without, target)).toBe(false);
        }
      }
    }
    expect(met.placement).toBeGreaterThan(1);
    expect(met.strike).toBeGreaterThan(8);
  }, 60_000);

  it('starts from the sheet: what is struck or placed there need not be shown again', () => {
    const start = positionOf(sourcedGrids[0]);
    const [solution] = coverSolutions(start, 1);
    const cell = start.placed.indexOf(0);
    const candidate = candidateOf(plain, cell, solution[cell]);
    const rivals = [...start.candidates].filter((c) => cellOf(plain, c) === cell && c !== candidate);
    const traced = trace(start.strike(rivals), { kind: 'placement', candidate });
    expect(traced.kind === 'chain' && traced.steps.map(({ argument }) => argument.facts.length)).toEqual([1]);
  });

  it('says what is so already, what is not so, and what cannot be told', () => {
    const start = positionOf(sourcedGrids[1]);
    const [solution] = coverSolutions(start, 1);
    const given = start.placed.findIndex((digit) => digit !== 0);
    const truth = (cell: number) => candidateOf(plain, cell, solution[cell]);
    expect(trace(start, { kind: 'placement', candidate: truth(given) })).toEqual({ kind: 'already' });
    const dead = candidateOf(plain, given, (start.placed[given] % 9) + 1);
    expect(trace(start, { kind: 'strike', candidate: dead })).toEqual({ kind: 'already' });
    const open = start.placed.indexOf(0);
    expect(trace(start, { kind: 'strike', candidate: truth(open) })).toEqual({ kind: 'not-so' });
    const rival = [...start.candidates].find((c) => cellOf(plain, c) === open && c !== truth(open)) ?? -1;
    expect(trace(start, { kind: 'placement', candidate: rival })).toEqual({ kind: 'not-so' });
    const empty = positionOf('.'.repeat(81));
    expect(trace(empty, { kind: 'strike', candidate: 0 })).toEqual({ kind: 'not-so' });
    expect(trace(start.strike([truth(open)]), { kind: 'strike', candidate: rival })).toEqual({
      kind: 'broken',
    });
  });
});
