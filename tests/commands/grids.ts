/** Single grids with their source, as they stand in the published checks. */

/** One solution. P. Norvig, Solving Every Sudoku Puzzle (2006), the essay's first grid. */
export const essayGrid = '53..7....6..195....98....6.8...6...34..8.3..17...2...6.6....28....419..5....8..79';
export const essaySolution =
  '534678912672195348198342567859761423426853791713924856961537284287419635345286179';

/** No solution. P. Norvig, Solving Every Sudoku Puzzle (2006), the contradictory puzzle (from memory). */
export const noSolution = '.....5.8....6.1.43..........1.5........1.6...3.......553.....61........4.........';

/**
 * Two solutions: 77 givens do not force one. Constructed from the solution of the essay's grid: the four
 * open cells r1c4, r1c5, r4c4, r4c5 can hold 6 and 7 either way.
 */
export const twoSolutions =
  '534..8912672195348198342567859..1423426853791713924856961537284287419635345286179';

/** Five solutions. SageMath reference doctests, src/sage/games/sudoku.py: `len(list(h.dlx()))` gives 5. */
export const fiveSolutions =
  '8..6..9.5.............2.31...7318.6.24.....73...........279.1..5...8..36..3......';

/** Thirty solutions. J. F. Crook, Notices of the AMS 56(4), 2009, footnote 2, the grid as printed. */
export const thirtySolutions =
  '.5..2..3.2....17.84.76..........5...52.....47...7..........35.43.65....1.9..7..6.';

/** 148,357,268 solutions. norvig/pytudes, py/sudoku.py, variable `hard1`. */
export const manySolutions =
  '.....6....59.....82....8....45........3........6..3.54...325..6..................';

/** Two 1s in box 5. COMP9021 Principles of Programming, 2017, assignment 2 (UNSW): "There is clearly no solution." */
export const clashing = '..19....86...85.3...7.6.1...34.9.......5.1.......1.42...5.7.9...1.84...77....92..';

/** Whether `solution` is a filled grid without a clash that keeps every given of `grid`. Shares nothing with the program. */
export function completes(grid: string, solution: string): boolean {
  if (!/^[1-9]{81}$/.test(solution)) return false;
  if ([...grid].some((sign, cell) => /[1-9]/.test(sign) && solution[cell] !== sign)) return false;
  const seen = new Set<string>();
  for (let row = 0; row < 9; row += 1) {
    for (let column = 0; column < 9; column += 1) {
      const digit = solution[row * 9 + column];
      seen.add(`row ${row} ${digit}`);
      seen.add(`column ${column} ${digit}`);
      seen.add(`box ${Math.floor(row / 3)} ${Math.floor(column / 3)} ${digit}`);
    }
  }
  return seen.size === 243;
}
