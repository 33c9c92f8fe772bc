import { gridForms } from '../grid/write.ts';
import { rungs } from '../hint/rung.ts';
import { colourFlags } from '../platform/capabilities.ts';
import type { Command, Flag } from './command.ts';

const json: Flag = { kind: 'switch', name: 'json', summary: 'prints one JSON object' };
const jsonl: Flag = {
  kind: 'switch',
  name: 'jsonl',
  summary: 'takes many grids, prints one JSON object a line for each, in input order',
};

const assume: Flag = {
  kind: 'choice',
  name: 'assume',
  value: 'WHAT',
  summary: 'what arguments may take for granted',
  choices: ['nothing', 'one-solution'],
  fallback: 'nothing',
};

const aboutGrids =
  'A grid is a file, - for stdin, or an argument of 81 signs with . 0 * _ or - for blanks. A file may hold ' +
  'the 81 signs, nine lines, boxes drawn around the cells, a table of candidates, CSV or TSV, with remarks ' +
  "after #; many grids stand one a line. A file whose name starts with a hyphen goes behind '--'.";

/** What runs where no command is named. */
export const openCommand: Command = {
  name: 'open',
  summary: 'opens a grid in the workbench',
  operands: '[FILE|-|GRID]',
  mostOperands: 1,
  flags: [
    {
      kind: 'choice',
      name: 'color',
      value: 'WHEN',
      summary: 'colours, before NO_COLOR and the like are asked',
      choices: colourFlags,
      fallback: 'auto',
    },
    { kind: 'switch', name: 'ascii', summary: 'draws with ASCII characters alone' },
  ],
  examples: [
    { line: 'inkling', does: 'opens a puzzle that comes with the program; ? shows the keys' },
    { line: 'inkling puzzle.txt', does: 'opens the grid in a file' },
  ],
  negative: null,
  notes: [aboutGrids],
  load: () => import('./open.ts'),
};

const check: Command = {
  name: 'check',
  summary: 'says whether a grid has no solution, one, or several',
  operands: '[FILE|-|GRID]',
  mostOperands: 1,
  flags: [
    json,
    jsonl,
    {
      kind: 'switch',
      name: 'redundant',
      summary: 'lists the givens that could be left out, each by itself',
    },
  ],
  examples: [
    { line: 'inkling check puzzle.txt', does: 'says in words what is the matter with the grid, if anything' },
    { line: 'inkling check --jsonl grids.txt', does: 'one JSON object for each grid of a file' },
  ],
  negative: 'no solution, several solutions, givens that clash, or some lines bad',
  notes: [
    'Where a table of candidates is given, a cell can hold only what its list says.',
    'Prints {schema, puzzle, givens, verdict: one|none|several|clash, solution?, witnesses?, clashes?}.',
    aboutGrids,
  ],
  load: () => import('./check.ts'),
};

const hint: Command = {
  name: 'hint',
  summary: 'says where to look, and more if asked',
  operands: '[FILE|-|GRID]',
  mostOperands: 1,
  flags: [
    {
      kind: 'choice',
      name: 'rung',
      value: 'RUNG',
      summary: 'how much to say',
      choices: rungs,
      fallback: rungs[0],
    },
    json,
    jsonl,
  ],
  examples: [
    { line: 'inkling hint puzzle.txt', does: 'names the house to look at, and nothing else' },
    { line: 'inkling hint --rung why puzzle.txt', does: 'gives the whole argument' },
  ],
  negative: 'there is no step, something in the grid can not be right, or some lines are bad',
  notes: [
    {
      title: 'Rungs',
      rows: [
        ['where', 'names one house'],
        ['digits', 'adds the digits, and how many facts it takes'],
        ['pattern', 'adds the name of the pattern'],
        ['cells', 'adds the facts and their cells'],
        ['why', 'says all of it'],
      ],
    },
    'A table of candidates is taken as it stands: what it leaves out counts as ruled out.',
    aboutGrids,
  ],
  load: () => import('./hint.ts'),
};

const convert: Command = {
  name: 'convert',
  summary: 'writes grids in another form',
  operands: '[FILE|-|GRID]',
  mostOperands: 1,
  flags: [
    {
      kind: 'choice',
      name: 'to',
      value: 'FORM',
      summary: 'the form to write',
      choices: gridForms.map((form) => form.name),
    },
    json,
    jsonl,
  ],
  examples: [
    { line: 'inkling convert --to line puzzle.txt', does: 'the grid as 81 signs' },
    { line: 'inkling convert --to candidates puzzle.txt', does: 'a table of all candidates' },
  ],
  negative: 'some lines are bad',
  notes: [
    { title: 'Forms', rows: gridForms.map((form) => [form.name, form.description]) },
    'To candidates, a grid that lists none is written with every candidate that its givens allow. Many grids ' +
      'are written one after the other, forms of several lines with an empty line between them.',
    aboutGrids,
  ],
  load: () => import('./convert.ts'),
};

const argue: Command = {
  name: 'argue',
  summary: 'says whether an argument holds, or what it overlooks',
  operands: 'FILE|-|GRID STATEMENT',
  mostOperands: Number.POSITIVE_INFINITY,
  flags: [assume, json, jsonl],
  examples: [
    {
      line: "inkling argue puzzle.txt 'r3c5<>7 by 7@c2 7@c8'",
      does: 'whether the 7s of columns 2 and 8 rule out 7 in r3c5',
    },
  ],
  negative: 'the argument does not hold, says nothing new, or some lines are bad',
  notes: [
    'A statement says what follows, then by, then the facts that it follows from.',
    {
      title: 'Statements',
      rows: [
        ['r3c5<>7 r3c6<>7 by ...', 'what is ruled out; != and ≠ are read too'],
        ['r4c7=3 by ...', 'what is placed'],
        ['breaks by ...', 'that the facts can not all be met'],
        ['... by 7@c2 r4c8', 'facts: the 7 of column 2 has a place, r4c8 has a digit'],
      ],
    },
    'needed is the smallest part of the facts that is enough. An argument that does not hold comes with an ' +
      'arrangement: a place for each fact, in their order, that leaves the conclusion open.',
    'A table of candidates is taken as it stands: what it leaves out counts as ruled out.',
    'Prints {schema, holds, verdict: holds|breaks|open|already-struck|no-fact-holds-it|not-one-solution, ' +
      'technique?, weight?, needed?, arrangement?}.',
    aboutGrids,
  ],
  load: () => import('./argue.ts'),
};

const find: Command = {
  name: 'find',
  summary: 'shows every instance of a technique, and what is new in it',
  operands: '[TECHNIQUE [FILE|-|GRID]]',
  mostOperands: 2,
  flags: [assume, json, jsonl],
  examples: [
    { line: 'inkling find x-wing puzzle.txt', does: 'every X-wing, with what it rules out' },
    { line: 'inkling find', does: 'lists the names of the techniques' },
  ],
  negative: 'there is no instance, or some lines are bad',
  notes: [
    'It looks at the grid as it stands, before any step. What is new is what no lighter argument shows there.',
    'A table of candidates is taken as it stands: what it leaves out counts as ruled out.',
    'Prints {schema, instances: [{technique, facts, strikes, new}]}; placements too where it places.',
    aboutGrids,
  ],
  load: () => import('./find.ts'),
};

/** Every command, in the order in which the help lists them. */
export const commands: readonly Command[] = [openCommand, check, hint, find, argue, convert];

/** The command of a name as it is typed; null if there is none. What runs without a name has none. */
export const commandNamed = (name: string): Command | null =>
  commands.find((command) => command.name === name && command !== openCommand) ?? null;
