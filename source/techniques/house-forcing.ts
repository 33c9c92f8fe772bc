import { forcing } from './forcing.ts';

/** See forcing: wherever in a house a digit is. */
export const houseForcing = forcing(
  'house-forcing',
  'House forcing',
  (board, fact) => fact >= board.layout.cellCount,
);
