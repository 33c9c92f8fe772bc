import type { Standing } from '../sheet/look-over.ts';

/** How many solutions the grid in the preview has, in words; null while that is not known. */
export function saySolutions(solutions: Standing | null): string | null {
  switch (solutions) {
    case 'right':
      return 'one solution';
    case 'can-be-completed':
      return 'several solutions';
    case 'no-solution':
    case 'wrong':
      return 'no solution';
    case 'undecided':
    case null:
      return null;
  }
}
