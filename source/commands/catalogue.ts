import { rungs } from '../hint/rung.ts';
import { colourFlags, themeNames } from '../platform/capabilities.ts';
import type { Command } from './command.ts';
import {
  aboutGrids,
  aboutLayouts,
  aboutSeconds,
  assume,
  config,
  json,
  jsonl,
  layout,
  questionSeconds,
  seconds,
} from './common-flags.ts';
import { check, convert, make } from './grid-catalogue.ts';
import { pathForms } from './path-forms.ts';
import { completion, keys, man } from './program-catalogue.ts';
import { sheets } from './sheets-catalogue.ts';

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
    {
      kind: 'choice',
      name: 'theme',
      value: 'THEME',
      summary: 'the colours',
      choices: ['as-set', ...themeNames],
      fallback: 'as-set',
    },
    { kind: 'switch', name: 'new', summary: 'begins a new sheet, also where the grid has one' },
    { kind: 'switch', name: 'ascii', summary: 'draws with ASCII characters alone' },
    { kind: 'switch', name: 'plain', summary: 'no screen: takes lines, answers in sentences' },
    assume,
    questionSeconds,
    config,
    layout,
  ],
  examples: [
    { line: 'inkling', does: 'goes on with the last sheet, or opens a puzzle; ? shows the keys' },
    { line: 'inkling puzzle.txt', does: 'opens the grid in a file, or goes on with its sheet' },
    { line: 'inkling --plain puzzle.txt', does: 'the same without a screen, to be read aloud' },
  ],
  negative: null,
  notes: [
    'A question to the workbench takes 20 seconds at most where neither --seconds nor the setting seconds says otherwise.',
    aboutGrids,
    aboutLayouts,
  ],
  load: () => import('./open.ts'),
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
    layout,
    seconds,
    json,
    jsonl,
  ],
  examples: [
    { line: 'inkling hint puzzle.txt', does: 'names the house to look at, and nothing else' },
    { line: 'inkling hint --rung why puzzle.txt', does: 'gives the whole argument' },
  ],
  negative: 'there is no step, something in the grid cannot be right, time ran out, or some lines are bad',
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
    aboutSeconds,
    aboutGrids,
    aboutLayouts,
  ],
  load: () => import('./hint.ts'),
};

const argue: Command = {
  name: 'argue',
  summary: 'says whether an argument holds, or what it overlooks',
  operands: 'FILE|-|GRID STATEMENT',
  mostOperands: Number.POSITIVE_INFINITY,
  flags: [layout, assume, seconds, json, jsonl],
  examples: [
    {
      line: "inkling argue puzzle.txt 'r3c5<>7 by 7@c2 7@c8'",
      does: 'whether the 7s of columns 2 and 8 rule out 7 in r3c5',
    },
  ],
  negative: 'the argument does not hold, says nothing new, time ran out, or some lines are bad',
  notes: [
    'A statement says what follows, then by, then the facts that it follows from.',
    {
      title: 'Statements',
      rows: [
        ['r3c5<>7 r3c6<>7 by ...', 'what is ruled out; != and ≠ are read too'],
        ['r4c7=3 by ...', 'what is placed'],
        ['breaks by ...', 'that the facts cannot all be met'],
        ['... by 7@c2 r4c8', 'facts: the 7 of column 2 has a place, r4c8 has a digit; 7c2 is read too'],
      ],
    },
    'needed is the smallest part of the facts that is enough. An argument that does not hold comes with an ' +
      'arrangement: a place for each fact, in their order, that leaves the conclusion open.',
    'A table of candidates is taken as it stands: what it leaves out counts as ruled out.',
    'Prints {schema, holds, verdict: holds|breaks|open|already-struck|no-fact-holds-it|not-one-solution, ' +
      'technique?, weight?, needed?, arrangement?}.',
    aboutSeconds,
    aboutGrids,
    aboutLayouts,
  ],
  load: () => import('./argue.ts'),
};

const find: Command = {
  name: 'find',
  summary: 'shows every instance of a technique, and what is new in it',
  operands: '[TECHNIQUE [FILE|-|GRID]]',
  mostOperands: 2,
  flags: [layout, assume, seconds, json, jsonl],
  examples: [
    { line: 'inkling find x-wing puzzle.txt', does: 'every X-wing, with what it rules out' },
    { line: 'inkling find', does: 'lists the names of the techniques' },
  ],
  negative: 'there is no instance, time ran out, or some lines are bad',
  notes: [
    'It looks at the grid as it stands, before any step. What is new is what no lighter argument shows there.',
    'A table of candidates is taken as it stands: what it leaves out counts as ruled out.',
    'Prints {schema, instances: [{technique, facts, strikes, new}]}; placements too where it places.',
    aboutSeconds,
    aboutGrids,
    aboutLayouts,
  ],
  load: () => import('./find.ts'),
};

const path: Command = {
  name: 'path',
  summary: 'leads a grid to its solution, step by step',
  operands: '[FILE|-|GRID]',
  mostOperands: 1,
  flags: [
    {
      kind: 'switch',
      name: 'proved',
      summary: 'searches three and four facts exactly at each step too; takes longer',
    },
    {
      kind: 'choice',
      name: 'format',
      value: 'FORM',
      summary: 'the form in which it is told',
      choices: pathForms,
      fallback: pathForms[0],
    },
    layout,
    assume,
    seconds,
    json,
    jsonl,
  ],
  examples: [
    { line: 'inkling path puzzle.txt', does: 'every step with its facts and its reason' },
    { line: 'inkling path --json puzzle.txt', does: 'the same for scripts, to be verified' },
  ],
  negative: 'the steps do not end in a solution, time ran out, or some lines are bad',
  notes: [
    'Each step is the lightest that the techniques and the search of one and two facts have: how many facts ' +
      'must be held in mind at once. The contour shows these numbers, one sign a step.',
    'available: the candidates that arguments of at most this weight strike there; with availableAtLeast ' +
      'there may be more. releases: how many of these arguments free a placement at once. essential: whether ' +
      'the rest fails without the step. A bottleneck is a striking step with at most two available; a meeting ' +
      'is a cell in which two findings meet that one later step needs. Steps are counted from 1.',
    'A table of candidates is taken as it stands; verify starts from the givens alone.',
    'Prints {schema, puzzle, solved, heaviest, steps: [{technique, facts, placements, strikes, assumes, ' +
      'weight, available, releases, essential}], contour, bottlenecks, meetings}.',
    aboutSeconds,
    aboutGrids,
    aboutLayouts,
  ],
  load: () => import('./path.ts'),
};

const weigh: Command = {
  name: 'weigh',
  summary: 'says how many facts a grid asks one to hold in mind at once',
  operands: '[FILE|-|GRID]',
  mostOperands: 1,
  flags: [
    {
      kind: 'choice',
      name: 'up-to',
      value: 'FACTS',
      summary: 'how many facts are searched',
      choices: ['1', '2', '3', '4', '5'],
      fallback: '4',
    },
    layout,
    seconds,
    json,
    jsonl,
  ],
  examples: [
    { line: 'inkling weigh puzzle.txt', does: 'the least number of facts with which arguments solve it' },
    { line: 'inkling weigh --up-to 3 --jsonl grids.txt', does: 'one JSON object for each grid of a file' },
  ],
  negative: 'so many facts do not solve it, it has no solution, time ran out, or some lines are bad',
  notes: [
    'The search is exact: every strike that so many facts support is found, whether it has a name or not. ' +
      'Each further fact takes many times longer.',
    'Prints {schema, puzzle, weight: {atLeast, atMost}}: equal where it is known, atMost null beyond what was ' +
      'searched; weight is null where there is no solution.',
    'A table of candidates is taken as it stands: what it leaves out counts as ruled out.',
    aboutSeconds,
    aboutGrids,
    aboutLayouts,
  ],
  load: () => import('./weigh.ts'),
};

const trace: Command = {
  name: 'trace',
  summary: 'shows how one gets to a digit, or to a digit being out',
  operands: '[FILE|-|GRID] CELL|CANDIDATE',
  mostOperands: 2,
  flags: [layout, seconds, json, jsonl],
  examples: [
    { line: 'inkling trace puzzle.txt r7c3', does: 'the steps that lead to the digit of r7c3, and no other' },
    { line: "inkling trace puzzle.txt 'r7c3<>5'", does: 'the steps that rule out 5 in r7c3' },
  ],
  negative: 'it is not so, it cannot be shown, time ran out, or some lines are bad',
  notes: [
    'None of the steps can be left out. No steps: it is so in the grid as it stands.',
    'A table of candidates is taken as it stands: what it leaves out counts as ruled out.',
    'Prints {schema, target, steps}, steps as in path; steps null with a reason: not-so|broken|not-found.',
    aboutSeconds,
    aboutGrids,
    aboutLayouts,
  ],
  load: () => import('./trace.ts'),
};

const verify: Command = {
  name: 'verify',
  summary: 'checks every step of a path anew',
  operands: '[FILE|-]',
  mostOperands: 1,
  flags: [layout, seconds, json, jsonl],
  examples: [
    { line: 'inkling verify path.json', does: 'whether each step follows from its facts where it stands' },
    { line: 'inkling path --jsonl grids.txt | inkling verify --jsonl', does: 'the same for many paths' },
  ],
  negative:
    'a step is refused, the steps do not end where the path says, time ran out, or some lines are bad',
  notes: [
    'A path is what inkling path --json prints. Each step is judged in the position of the givens after the ' +
      'accepted steps before it, by its facts alone.',
    'Prints {schema, steps, accepted, refused: [{step, reason, candidate, fact, arrangement}]}; steps are ' +
      'counted from 1, and 0 is the path as a whole.',
    'A path says which layout it is on; --layout says it over the path.',
    aboutLayouts,
  ],
  load: () => import('./verify.ts'),
};

/** Every command, in the order in which the help lists them. */
export const commands: readonly Command[] = [
  openCommand,
  check,
  hint,
  find,
  argue,
  path,
  trace,
  weigh,
  verify,
  convert,
  make,
  sheets,
  keys,
  completion,
  man,
];

/** The command of a name as it is typed; null if there is none. What runs without a name has none. */
export const commandNamed = (name: string): Command | null =>
  commands.find((command) => command.name === name && command !== openCommand) ?? null;
