import type { Flag } from './command.ts';

/** One object instead of text. */
export const json: Flag = { kind: 'switch', name: 'json', summary: 'prints one JSON object' };
/** Any number of grids, an object a line for each. */
export const jsonl: Flag = {
  kind: 'switch',
  name: 'jsonl',
  summary: 'takes many grids, prints one JSON object a line for each, in input order',
};

/** Whether one-solution arguments are allowed. */
export const assume: Flag = {
  kind: 'choice',
  name: 'assume',
  value: 'WHAT',
  summary: 'what arguments may take for granted',
  choices: ['nothing', 'one-solution'],
  fallback: 'nothing',
};

/** How a grid is given, for the help. */
export const aboutGrids =
  'A grid is a file, - for stdin, or an argument of 81 signs with . 0 * _ or - for blanks. A file may hold ' +
  'the 81 signs, nine lines, boxes drawn around the cells, a table of candidates, CSV or TSV, with remarks ' +
  "after #; many grids stand one a line. A file whose name starts with a hyphen goes behind '--'.";
