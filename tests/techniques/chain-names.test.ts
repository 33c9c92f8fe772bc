import { describe, expect, it } from 'vitest';
import { parseFact } from '../../source/argument/fact.ts';
import { plain } from '../../source/grid/layout.ts';
import { parseConclusion } from '../../source/grid/names.ts';
import { Board } from '../../source/techniques/board.ts';
import { techniqueById } from '../../source/techniques/catalogue.ts';
import { chainNameOf } from '../../source/techniques/chain-names.ts';
import { Random } from '../random.ts';
import { boardOf, close, subsetsAndLocked } from './closure.ts';
import { scene } from './notation.ts';

/** Lines 3, 89, 7 and 25 of random-minimal-2000 (published set, own construction). */
const puzzles = [
  '2...9...6691......3..7......2............5.811..2.8.3.....7...9.......65..5.83...',
  '6....1..9.3...8..51..5...38...9.32.........5.7.8...4....4....7..9..4......72.9...',
  '..6...4.3..1.3......4..75..2.7....91.5...92..3...1...4....6......59.8....8.7...4.',
  '.6...5...9..13..4...4.2......93.1..63.7....92..........4......9....8.37..2.61..5.',
];

const fact = (name: string): number => parseFact(plain, name) ?? -1;
const strike = (name: string): number => parseConclusion(plain, name)?.candidate ?? -1;

describe('the name of a chain, from its facts alone', () => {
  const seed = Number(process.env.INKLING_SEED ?? 12);
  const others: Readonly<Record<string, readonly string[]>> = {
    'x-chain': ['x-chain'],
    'xy-chain': ['xy-chain', 'remote-pairs'],
    'alternating-inference-chain': ['alternating-inference-chain'],
  };

  for (const [id, names] of Object.entries(others)) {
    it(`each strike of each ${id} has its name, in whatever order its facts are; seed ${seed}`, () => {
      const random = new Random(seed);
      let told = 0;
      const scenes = [
        Board.from(scene('1@r1:r1c1,r1c4 1@c5:r2c5,r8c5 1@c6:r4c6,r9c6')),
        Board.from(scene('r1c1:12 r1c5:23 r6c5:34 r6c9:14')),
        ...puzzles.map((line) => close(boardOf(line), subsetsAndLocked)),
      ];
      for (const board of scenes) {
        for (const { facts, conclusions } of techniqueById(id)?.find(board) ?? []) {
          for (const x of conclusions.candidates) {
            expect(names).toContain(chainNameOf(board, random.shuffle(facts), [x]));
            told += 1;
          }
        }
      }
      expect(told).toBeGreaterThan(0);
    });
  }

  it('remote pairs are told from other XY-chains', () => {
    const board = Board.from(scene('r1c1:12 r1c5:12 r6c5:12 r6c9:12'));
    const facts = ['r1c1', 'r1c5', 'r6c5', 'r6c9'].map(fact);
    expect(chainNameOf(board, facts, [strike('r1c9<>1')])).toBe('remote-pairs');
  });

  it('facts that are no chain, or do not all lie on the way to the strike, have none', () => {
    const board = Board.from(scene('r1c1:12 r1c5:23 r6c5:34 r6c9:14 r9c9:567'));
    const facts = ['r1c1', 'r1c5', 'r6c5', 'r6c9'].map(fact);
    expect(chainNameOf(board, facts, [strike('r1c9<>1')])).toBe('xy-chain');
    expect(chainNameOf(board, facts, [strike('r1c9<>2')])).toBeNull();
    expect(chainNameOf(board, facts.slice(1), [strike('r1c9<>1')])).toBeNull();
    expect(chainNameOf(board, [...facts, fact('r9c9')], [strike('r1c9<>1')])).toBeNull();
    expect(chainNameOf(board, facts.slice(0, 1), [strike('r1c9<>1')])).toBeNull();
  });
});
