import type { OneSolutionToken } from '../argument/kernel.ts';
import { mintToken } from '../exact/token.ts';
import type { Grid } from '../grid/position.ts';
import type { Invocation } from './command.ts';

/** Whether `--assume` allows for one-solution arguments. */
export const assumesOneSolution = ({ flags }: Invocation): boolean => flags.get('assume') === 'one-solution';

/** The token for the givens of a grid; null where they do not have exactly one solution. */
export const tokenFor = ({ layout, givens }: Grid): OneSolutionToken | null => mintToken(layout, givens);
