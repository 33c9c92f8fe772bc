import type { Flag } from './command.ts';

/** One object instead of text. */
export const json: Flag = { kind: 'switch', name: 'json', summary: 'prints one JSON object' };
/** Any number of grids, an object a line for each. */
export const jsonl: Flag = {
  kind: 'switch',
  name: 'jsonl',
  summary: 'prints one JSON object a line for each of many grids, in their order',
};

const duration = {
  kind: 'number',
  name: 'seconds',
  value: 'N',
  summary: 'how long one answer may take; then what is known by that time is all that is said',
  least: 1,
  most: 1_000_000,
} as const;

/** How long the answer for one grid may take. */
export const seconds: Flag = { ...duration, fallback: '60' };
/** How long a question in the workbench may take: as the settings say where it is not given. */
export const questionSeconds: Flag = duration;

/** What becomes of an answer that takes longer, for the help. */
export const aboutSeconds =
  'Where --seconds N are not enough, what is known by then is said, stderr tells so, JSON has stopped: N, and the ' +
  'exit code is 1. The clock decides nothing else: what is answered is the same on every machine.';

/** Whether one-solution arguments are allowed. */
export const assume: Flag = {
  kind: 'choice',
  name: 'assume',
  value: 'WHAT',
  summary: 'what arguments may take for granted',
  choices: ['nothing', 'one-solution'],
  fallback: 'nothing',
};

/** Which settings hold. */
export const config: Flag = {
  kind: 'text',
  name: 'config',
  value: 'FILE',
  summary: 'the settings',
  values: "a file; own for inkling/config.toml in one's own config folder; none",
};

/** How a grid is given, for the help. */
export const aboutGrids =
  'A grid is a file, - for stdin, or an argument of 81 signs with . 0 * _ or - for blanks. A file may hold ' +
  'the 81 signs, nine lines, boxes drawn around the cells, a table of candidates, CSV or TSV, with remarks ' +
  "after #; many grids stand one a line. A file whose name starts with a hyphen goes behind '--'.";

/** Which layout the grids are on. */
export const layout: Flag = {
  kind: 'text',
  name: 'layout',
  value: 'NAME|FILE',
  summary: 'the layout of the grids',
  values: 'plain, one that comes with the program, or a file; where not given, what the text itself says',
};

/** How a layout is given, for the help. */
export const aboutLayouts =
  'Layouts that come with the program: 4x4, 6x6, 16x16, diagonals, extra-boxes, regions. A file has a line ' +
  'size N, then boxes RxC (rows and columns of a box) or regions with N lines of N signs below it, and if ' +
  'wanted diagonals, and for each further house extra with its N cells: r2c2 r2c3 or r2c2-r4c4. Digits beyond ' +
  '9 are A, B and so on. A remark # layout: NAME above the first grid says the layout too, if it comes with ' +
  'the program; without either, grids are plain.';
