import { describe, expect, it } from 'vitest';
import { check } from '../../source/argument/kernel.ts';
import { decide } from '../../source/exact/solve.ts';
import { mintToken } from '../../source/exact/token.ts';
import { type Layout, makeLayout, plain, rectangularBoxes } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';
import { Board } from '../../source/techniques/board.ts';
import { catalogue } from '../../source/techniques/catalogue.ts';
import { Random } from '../random.ts';

const line = (length: number, cell: (i: number) => number) => Array.from({ length }, (_, i) => cell(i));
const block = (row: number, column: number) =>
  line(9, (i) => (row + Math.floor(i / 3)) * 9 + column + (i % 3));

const layouts: readonly Layout[] = [
  makeLayout({ name: 'four', size: 4, boxOf: rectangularBoxes(2, 2) }),
  makeLayout({ name: 'six', size: 6, boxOf: rectangularBoxes(2, 3) }),
  makeLayout({
    name: 'nine with diagonals',
    size: 9,
    boxOf: plain.boxOf,
    extras: [
      { kind: 'diagonal', cells: line(9, (i) => i * 10) },
      { kind: 'diagonal', cells: line(9, (i) => (i + 1) * 8) },
    ],
  }),
  makeLayout({
    name: 'nine with extra boxes',
    size: 9,
    boxOf: plain.boxOf,
    extras: [block(1, 1), block(1, 5), block(5, 1), block(5, 5)].map((cells) => ({ kind: 'extra', cells })),
  }),
];

/** Some full grid of the layout: the first witness of the empty one. */
function someSolution(layout: Layout): Uint8Array {
  const decision = decide(Position.from(layout, new Array(layout.cellCount).fill(0)));
  if (decision.verdict !== 'several') throw new Error(`${layout.name} has no two grids`);
  return decision.witnesses[0];
}

describe('techniques on other layouts', () => {
  const seed = Number(process.env.INKLING_SEED ?? 66);
  for (const layout of layouts) {
    it(`${layout.name}: the kernel accepts what is found, and it is true; seed ${seed}`, () => {
      const random = new Random(seed);
      const solution = someSolution(layout);
      const isTrue = (x: number) => solution[Math.floor(x / layout.size)] === (x % layout.size) + 1;
      const names = new Set<string>();
      for (let round = 0; round < 60; round += 1) {
        const share = random.unit() * 0.6;
        const struck = random.unit() * 0.7;
        const blank = Position.from(
          layout,
          Array.from(solution, (digit) => (random.unit() < share ? digit : 0)),
        );
        const position = blank.strike(
          [...blank.candidates].filter((x) => !isTrue(x) && random.unit() < struck),
        );
        const token = mintToken(layout, position.givens) ?? undefined;
        for (const { id, find, assumes, supposes } of catalogue) {
          if (supposes && round % 10 !== 0) continue;
          if (assumes === 'one-solution' && !token) continue;
          for (const { facts, conclusions, pattern } of find(Board.from(position))) {
            names.add(id);
            const argument = { technique: id, facts, conclusions, assumes, ...(pattern && { pattern }) };
            const verdict = check(position, argument, token);
            expect([id, verdict.verdict]).toEqual([id, 'holds']);
            for (const x of conclusions.candidates) expect(isTrue(x)).toBe(conclusions.kind === 'placements');
          }
        }
      }
      const small = [
        'hidden-single',
        'naked-single',
        'pointing',
        'claiming',
        'naked-pair',
        'hidden-pair',
        'x-wing',
      ];
      for (const id of small) expect(names).toContain(id);
    });
  }
});
