import { factName, weightOf } from '../argument/fact.ts';
import type { Layout } from '../grid/layout.ts';
import { placementName } from '../grid/names.ts';
import type { NamedGrid } from '../grid/read.ts';
import { sayArgued } from '../hint/argue-words.ts';
import { parseStatement, type Statement } from '../hint/statement.ts';
import { argue, type Holds, type Refused } from '../path/argue.ts';
import { assumesOneSolution, tokenFor } from './assume.ts';
import type { Run } from './command.ts';
import { complain } from './complain.ts';
import { type Answer, eachGridOn } from './each-grid.ts';
import { positionOf } from './grid-text.ts';
import { sayWithin } from './in-time.ts';
import { printsUnicode, signedText } from './signed-lines.ts';
import { helpFor } from './usage.ts';

const schema = 1;

function argueJson(layout: Layout, argued: Holds | Refused): Readonly<Record<string, unknown>> {
  if (argued.kind === 'holds') {
    const { argument } = argued.checked;
    return {
      schema,
      holds: true,
      verdict: argument.conclusions.kind === 'breaks' ? 'breaks' : 'holds',
      technique: argument.technique,
      weight: weightOf(layout, argument),
      needed: argued.needed.map((fact) => factName(layout, fact)),
    };
  }
  const { reason, arrangement } = argued;
  return {
    schema,
    holds: false,
    verdict: reason,
    ...(arrangement && { arrangement: arrangement.map((place) => placementName(layout, place)) }),
  };
}

/** What `argue` says of a statement about a grid. */
export function argueGrid(
  { grid }: NamedGrid,
  statement: Statement,
  { oneSolution = false, unicode = true } = {},
): Answer {
  const argued = argue(
    positionOf(grid),
    statement,
    oneSolution ? { oneSolution: { token: tokenFor(grid) } } : {},
  );
  const { holds, headline, lines } = sayArgued(statement, argued);
  return {
    json: argueJson(grid.layout, argued),
    lines: [headline, ...signedText(lines, unicode)],
    negative: !holds,
  };
}

/** What `argue` says where time ran out. */
export const argueUnfinished = (_: NamedGrid, seconds: number): Answer => ({
  json: { schema, holds: false, verdict: 'undecided' },
  lines: [`Whether it holds was not decided ${sayWithin(seconds)}.`],
  negative: true,
});

/** The grid comes first, then the statement, in one operand or word by word. */
export const run: Run = (invocation, surroundings) => {
  const { command, operands } = invocation;
  const [grid, ...words] = operands;
  const text = words.join(' ');
  if (grid === undefined || words.length === 0) {
    const message = `'inkling argue' needs a grid and a statement`;
    const next = `for instance: ${command.examples[0].line}\n${helpFor(command)}`;
    return complain({ message, next }, surroundings);
  }
  const options = { oneSolution: assumesOneSolution(invocation), unicode: printsUnicode(surroundings) };
  const answerOn = (layout: Layout) => {
    const read = parseStatement(text, layout);
    if (read.ok) return (named: NamedGrid) => argueGrid(named, read.value, options);
    const { line, column, found, expected } = read.error;
    const message = `found ${found}; expected ${expected}`;
    const place = `STATEMENT:${line}:${column}`;
    const excerpt = { text: text.split('\n')[line - 1], column };
    return { place, message, excerpt, next: helpFor(command) };
  };
  return eachGridOn({ ...invocation, operands: [grid] }, surroundings, answerOn, {
    unfinished: argueUnfinished,
  });
};
