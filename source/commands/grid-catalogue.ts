import type { Symmetry } from '../exact/generate.ts';
import { gridForms } from '../grid/write.ts';
import type { Command } from './command.ts';
import { aboutGrids, aboutLayouts, json, jsonl, layout, seconds } from './common-flags.ts';

/** See check.ts. */
export const check: Command = {
  name: 'check',
  summary: 'says whether a grid has no solution, one, or several',
  operands: '[FILE|-|GRID]',
  mostOperands: 1,
  flags: [
    layout,
    seconds,
    json,
    jsonl,
    {
      kind: 'switch',
      name: 'redundant',
      summary: 'lists the givens that could be left out, each by itself',
    },
    { kind: 'switch', name: 'minimal', summary: 'says whether every given is needed' },
    { kind: 'switch', name: 'symmetries', summary: 'says how the cells of the givens mirror each other' },
    {
      kind: 'switch',
      name: 'settle',
      summary: 'of several solutions, where they differ and which one or two givens would leave one',
    },
    {
      kind: 'number',
      name: 'solutions',
      value: 'N',
      summary: 'counts the solutions, up to so many',
      least: 1,
      most: 1_000_000_000,
    },
    {
      kind: 'number',
      name: 'jobs',
      value: 'N',
      summary: 'with --jsonl, how many threads check long input; as many as there are cores where not given',
      least: 1,
      most: 64,
    },
  ],
  examples: [
    { line: 'inkling check puzzle.txt', does: 'says in words what is the matter with the grid, if anything' },
    { line: 'inkling check --jsonl grids.txt', does: 'one JSON object for each grid of a file' },
  ],
  negative: 'no solution, several solutions, givens that clash, time that ran out, or some lines bad',
  notes: [
    'Where a table of candidates is given, a cell can hold only what its list says.',
    'Prints {schema, puzzle, givens, verdict: one|none|several|clash|undecided, solution?, witnesses?, clashes?}; ' +
      'where --seconds were not enough, stopped: N, and of an undecided grid found: a solution, if there was one by ' +
      'then; redundant, minimal, symmetries, differ, settle, count and more (than that) where they are asked for.',
    aboutGrids,
    aboutLayouts,
  ],
  load: () => import('./check.ts'),
};

/** See convert.ts. */
export const convert: Command = {
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
    layout,
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
    aboutLayouts,
  ],
  load: () => import('./convert.ts'),
};

const makeSymmetries: readonly Symmetry[] = [
  'none',
  'half-turn',
  'quarter-turn',
  'left-right',
  'top-bottom',
  'diagonal',
];

/** See make.ts. */
export const make: Command = {
  name: 'make',
  summary: 'makes new puzzles with one solution from chance',
  operands: '',
  mostOperands: 0,
  flags: [
    {
      kind: 'number',
      name: 'count',
      value: 'N',
      summary: 'how many puzzles',
      least: 1,
      most: 1_000_000_000,
      fallback: '1',
    },
    {
      kind: 'number',
      name: 'seed',
      value: 'SEED',
      summary: 'where chance starts; the same seed makes the same puzzles',
      least: 0,
      most: 2 ** 32 - 1,
    },
    {
      kind: 'choice',
      name: 'symmetry',
      value: 'KIND',
      summary: 'how the givens mirror each other',
      choices: makeSymmetries,
      fallback: 'none',
    },
    {
      kind: 'choice',
      name: 'form',
      value: 'FORM',
      summary: 'the form in which a puzzle is written',
      choices: gridForms.map((form) => form.name),
      fallback: 'line',
    },
    layout,
    seconds,
    json,
    jsonl,
  ],
  examples: [
    { line: 'inkling make', does: 'one puzzle of which no given can be left out' },
    { line: 'inkling make --count 100 --seed 7', does: 'the same hundred puzzles each time' },
    {
      line: 'inkling make --symmetry half-turn --form boxes',
      does: 'a puzzle that looks the same upside down',
    },
  ],
  negative: 'a puzzle was not made in the time that there is',
  notes: [
    'A puzzle starts as a full grid from chance and loses givens in random order for as long as it has one ' +
      'solution. Without a symmetry every given is then needed; with one, no set of givens that mirror each ' +
      'other can go. Not all puzzles are equally likely: those with few givens come up too seldom.',
    'Where no seed is given one is drawn, and told on stderr.',
    'Prints {schema, puzzle, givens, solution, symmetry, seed, number}: the numberth puzzle of the seed.',
    aboutLayouts,
  ],
  load: () => import('./make.ts'),
};
