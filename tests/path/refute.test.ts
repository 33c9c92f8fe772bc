import { describe, expect, it } from 'vitest';
import { type CheckedArgument, check } from '../../source/argument/kernel.ts';
import { decide } from '../../source/exact/solve.ts';
import { cellOf, digitOf } from '../../source/grid/layout.ts';
import type { Position } from '../../source/grid/position.ts';
import { breakBy, strikeBy } from '../../source/path/minimal.ts';
import { factsThatRefute, fewestOf, refutationNodes } from '../../source/path/refute.ts';
import { Board } from '../../source/techniques/board.ts';
import { positionOf, seededRandom, sourcedGrids } from './grids.ts';

function solutionOf(position: Position): Uint8Array {
  const decision = decide(position);
  if (decision.verdict !== 'one') throw new Error('the grid does not have one solution');
  return decision.solution;
}

/** Whether the kernel refuses the argument as soon as any one of its facts is left out. */
function expectMinimal({ position, argument }: CheckedArgument): void {
  for (const fact of argument.facts) {
    const facts = argument.facts.filter((other) => other !== fact);
    expect(check(position, { ...argument, facts }).verdict).toBe('refused');
  }
}

describe('refuting an assumption', () => {
  it('succeeds for the false candidates of a grid with one solution, and for no true one', () => {
    for (const line of sourcedGrids) {
      const position = positionOf(line);
      const board = Board.from(position);
      const solution = solutionOf(position);
      const nodes = refutationNodes(position.layout);
      for (const candidate of position.candidates) {
        const cell = cellOf(position.layout, candidate);
        const isTrue = solution[cell] === digitOf(position.layout, candidate);
        const facts = factsThatRefute(board, candidate, nodes);
        expect(facts === null).toBe(isTrue);
      }
    }
  });

  it('rests on facts that the kernel accepts and none of which can be left out', () => {
    const position = positionOf(sourcedGrids[1]);
    const board = Board.from(position);
    const solution = solutionOf(position);
    const nodes = refutationNodes(position.layout);
    const random = seededRandom(7);
    let tried = 0;
    for (const candidate of position.candidates) {
      if (solution[cellOf(position.layout, candidate)] === digitOf(position.layout, candidate)) continue;
      const facts = factsThatRefute(board, candidate, nodes);
      // Short ones all, long ones now and then: the kernel takes its time over forty facts.
      if (!facts || (facts.length > 12 && random() > 0.04)) continue;
      const checked = strikeBy(position, [candidate], fewestOf(board, candidate, nodes, facts));
      expect(checked).not.toBeNull();
      if (checked) expectMinimal(checked);
      tried += 1;
    }
    expect(tried).toBeGreaterThan(20);
  });

  it('leaves the board as it was', () => {
    const position = positionOf(sourcedGrids[0]);
    const board = Board.from(position);
    factsThatRefute(board, [...position.candidates].at(-1) ?? 0, 1000);
    expect(board.toPosition().candidates.equals(position.candidates)).toBe(true);
  });

  it('finds facts that cannot all hold exactly where a position has no completion', () => {
    const random = seededRandom(11);
    let broken = 0;
    for (const line of sourcedGrids) {
      const start = positionOf(line);
      for (let round = 0; round < 30; round += 1) {
        const open = [...start.candidates].filter((c) => start.placed[cellOf(start.layout, c)] === 0);
        const struck = Array.from(
          { length: 1 + Math.floor(random() * 3) },
          () => open[Math.floor(random() * open.length)],
        );
        const position = start.strike(struck);
        const board = Board.from(position);
        const nodes = refutationNodes(position.layout);
        const facts = factsThatRefute(board, null, nodes);
        expect(facts !== null).toBe(decide(position).verdict === 'none');
        if (!facts) continue;
        broken += 1;
        if (broken % 5 !== 0) continue;
        const checked = breakBy(position, fewestOf(board, null, nodes, facts));
        expect(checked).not.toBeNull();
        if (checked) expectMinimal(checked);
      }
    }
    expect(broken).toBeGreaterThan(10);
  });
});
