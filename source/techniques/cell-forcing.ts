import { forcing } from './forcing.ts';

/** See forcing: whichever digit a cell has. */
export const cellForcing = forcing(
  'cell-forcing',
  'Cell forcing',
  (board, fact) => fact < board.layout.cellCount,
);
