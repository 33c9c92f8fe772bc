import { describe, expect, it } from 'vitest';
import { stepsText } from '../../source/commands/told-steps.ts';
import { pathOf } from '../../source/path/whole.ts';
import { positionOf, sourcedGrids } from '../path/grids.ts';
import { Reader } from './reader.ts';

const known = new Map<string, string[]>();

/** The steps of a grid's path as text, found once. */
function toldPath(line: string): string[] {
  const told = known.get(line) ?? stepsText(pathOf(positionOf(line), { allNames: true }).steps, true);
  known.set(line, told);
  return told;
}

/** Three paths: pairs and locked candidates; wings and chains; fish, chains and nets of up to ten facts. */
const paths: readonly (readonly [what: string, line: string])[] = [
  ["Crook's first example", sourcedGrids[1]],
  // Line 256 of the random minimal grids (own construction).
  [
    'a grid with a skyscraper, an XYZ-wing and chains',
    '5..8.......2...63...6.....5..418.....1...4..928.79....1...48.5......57.2...9...4.',
  ],
  // Line 60 of top-95 (P. Norvig, Solving Every Sudoku Puzzle, 2006).
  [
    'a grid with a swordfish and nets',
    '......94.....9...53....5.7..8.4..1..463...........7.8.8..7.....7......28.5.26....',
  ],
];

describe('with the givens and the text alone every step of a path can be redone', () => {
  it.each(paths)('%s', (_, line) => {
    const { steps, troubles, untold, solved } = new Reader(line).read(toldPath(line));
    expect(troubles).toEqual([]);
    expect([untold, solved]).toEqual([0, true]);
    expect(steps).toBeGreaterThan(50);
  });
});

/** The steps of a told path, each its lines. */
function stepsOf(told: readonly string[]): string[][] {
  const starts = told.flatMap((text, i) => (/^\d/.test(text) ? [i] : []));
  return starts.map((start, number) => told.slice(start, starts[number + 1]));
}

/** Changes one step of a text; null where there is nothing of the kind in it. */
type Change = (step: readonly string[]) => string[] | null;

const without = (step: readonly string[], is: (line: string) => boolean, last = false): string[] | null => {
  const at = last ? step.findLastIndex(is) : step.findIndex(is);
  return at < 0 ? null : step.filter((_, i) => i !== at);
};
const replaced = (step: readonly string[], pattern: RegExp, by: string): string[] | null => {
  const at = step.findIndex((line) => pattern.test(line));
  return at < 0 ? null : step.map((line, i) => (i === at ? line.replace(pattern, by) : line));
};

describe('the reader sees what is missing or wrong', () => {
  const changes: readonly (readonly [what: string, change: Change])[] = [
    ['a fact is not told', (step) => without(step, (line) => /^ +[A-Z]+ +(\d of|r\dc\d is)/.test(line))],
    ['a place of a fact is not told', (step) => replaced(step, /: (?:c\d|r\d|r\dc\d),? (?:or )?/, ': ')],
    [
      'a fact of a cell has a digit less',
      (step) => replaced(step, /^( +[A-Z]+ +r\dc\d is )\d,? (?:or )?/, '$1'),
    ],
    ['what it rests on is not told', (step) => replaced(step, / Rests on steps? .*\.$/, '')],
    [
      'the reason is not told',
      (step) =>
        /^\d+ +r\dc\d/.test(step[0])
          ? null
          : without(step, (line) => /^ {5,}(?:r\d|[A-Z\d]\w)/.test(line), true),
    ],
    [
      'a supposition ends early',
      (step) =>
        step.some((line) => /^ +Then /.test(line))
          ? without(step, (line) => /^ +Then /.test(line), true)
          : null,
    ],
    ['a placement has another digit', (step) => replaced(step, /^(\d+ +r\dc\d is )([1-8])\./, '$19.')],
    [
      'nothing is left for another fact',
      (step) => replaced(step, /nothing is left for (?:the \d of|r\dc\d)/, 'nothing is left for the 1 of'),
    ],
  ];

  it.each(changes)('%s', (_, change) => {
    let seen = 0;
    let missed = 0;
    for (const [, line] of paths) {
      const reader = new Reader(line);
      for (const step of stepsOf(toldPath(line))) {
        const changed = change(step);
        if (changed && changed.join() !== step.join()) {
          if (reader.copy().read(changed).troubles.length > 0) seen += 1;
          else missed += 1;
        }
        reader.read(step);
      }
    }
    expect(missed).toBe(0);
    expect(seen).toBeGreaterThan(5);
  });
});
