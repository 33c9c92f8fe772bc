import { describe, expect, it } from 'vitest';
import { check } from '../../source/argument/kernel.ts';
import { decide } from '../../source/exact/solve.ts';
import { mintToken } from '../../source/exact/token.ts';
import { plain } from '../../source/grid/layout.ts';
import { catalogue } from '../../source/techniques/catalogue.ts';
import { closeUnder } from '../../source/techniques/fact-search.ts';
import { hasPublished, publishedNote, readPublishedSet } from '../published.ts';
import { boardOf } from '../techniques/closure.ts';

const size = Number(process.env.INKLING_DEEP ?? 1);

/**
 * Every technique on grids of the open sets, as they come and closed under one, two and three facts: the
 * kernel accepts all that is found, none of it contradicts the solution, and each conclusion can be told.
 */
describe.skipIf(!hasPublished)(`techniques on published grids${publishedNote}`, () => {
  for (const set of ['top-95.txt', 'random-minimal-2000.txt', 'hard-187.txt']) {
    it(set, () => {
      const lines = readPublishedSet(set).slice(0, Math.ceil(15 * size));
      let found = 0;
      for (const line of lines) {
        const start = boardOf(line);
        const decision = decide(start.toPosition());
        const token = mintToken(plain, start.givens) ?? undefined;
        if (decision.verdict !== 'one') throw new Error(`not one solution: ${line}`);
        for (const k of [0, 1, 2, 3]) {
          const board = start.copy();
          if (k > 0) closeUnder(board, k);
          const position = board.toPosition();
          for (const { id, find, assumes, phrase } of catalogue) {
            for (const { facts, conclusions, pattern } of find(board)) {
              found += 1;
              const argument = { technique: id, facts, conclusions, assumes, ...(pattern && { pattern }) };
              expect([line, id, check(position, argument, token).verdict]).toEqual([line, id, 'holds']);
              for (const x of conclusions.candidates) {
                const isTrue = decision.solution[Math.floor(x / 9)] === (x % 9) + 1;
                expect([line, id, isTrue]).toEqual([line, id, conclusions.kind === 'placements']);
                const one = { ...argument, conclusions: { kind: conclusions.kind, candidates: [x] } };
                expect([line, id, typeof phrase?.(position, one)]).toEqual([line, id, 'string']);
              }
            }
          }
        }
      }
      expect(found).toBeGreaterThan(0);
    });
  }
});
