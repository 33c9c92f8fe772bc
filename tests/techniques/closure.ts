import { plain } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';
import { Board } from '../../source/techniques/board.ts';
import { catalogue } from '../../source/techniques/catalogue.ts';
import { claiming } from '../../source/techniques/claiming.ts';
import { fullHouse } from '../../source/techniques/full-house.ts';
import { hiddenSingle } from '../../source/techniques/hidden-single.ts';
import { nakedSingle } from '../../source/techniques/naked-single.ts';
import { net } from '../../source/techniques/net.ts';
import { pointing } from '../../source/techniques/pointing.ts';
import type { Technique } from '../../source/techniques/technique.ts';

/** Sets of techniques whose closures are published. */
export const nakedSingles: readonly Technique[] = [nakedSingle];
export const singles: readonly Technique[] = [fullHouse, hiddenSingle, nakedSingle];
export const singlesAndLocked: readonly Technique[] = [...singles, pointing, claiming];

const sets = catalogue.filter(({ id }) => /^(naked|hidden)-(pair|triple|quad)$/.test(id));
export const subsets: readonly Technique[] = [...singles, ...sets];
export const subsetsAndLocked: readonly Technique[] = [...singlesAndLocked, ...sets];
/** A candidate from which singles lead to a contradiction goes: our nets. */
export const failedLiterals: readonly Technique[] = [...singles, net];

/** The board of a plain grid in 81 characters, any sign but 1 to 9 for a blank. */
export const boardOf = (line: string): Board =>
  Board.from(
    Position.from(
      plain,
      Array.from(line, (sign) => Number(sign) || 0),
    ),
  );

/** Applies all that the techniques find, first technique first, until none finds anything more. */
export function close(board: Board, techniques: readonly Technique[]): Board {
  for (let i = 0; i < techniques.length; i += 1) {
    const findings = techniques[i].find(board);
    for (const { conclusions } of findings) {
      for (const candidate of conclusions.candidates) {
        if (conclusions.kind === 'strikes') board.strike(candidate);
        else if (board.live[candidate] === 1) board.place(candidate);
      }
    }
    if (findings.length > 0) i = -1;
  }
  return board;
}

/** Whether every cell of the board has its digit. */
export const isSolved = (board: Board): boolean => board.placed.every((digit) => digit !== 0);
