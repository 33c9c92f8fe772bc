import { factName, weightOf } from '../argument/fact.ts';
import type { Layout } from '../grid/layout.ts';
import { placementName } from '../grid/names.ts';
import type { NamedGrid } from '../grid/read.ts';
import { sayArgued } from '../hint/argue-words.ts';
import { parseStatement, type Statement } from '../hint/statement.ts';
import { type ArguedSoFar, argue, type Holds, type Refused } from '../path/argue.ts';
import { assumesOneSolution, tokenFor } from './assume.ts';
import type { Run } from './command.ts';
import { complain } from './complain.ts';
import { type Answer, eachGridOn } from './each-grid.ts';
import { positionOf } from './grid-text.ts';
import { printsUnicode, signedText } from './signed-lines.ts';
import { sayArguedSoFar } from './so-far.ts';
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

interface ArgueCommandOptions {
  readonly oneSolution?: boolean;
  readonly unicode?: boolean;
  /** Is told whether it holds as soon as that is known. */
  readonly watch?: (known: ArguedSoFar) => void;
}

/** What `argue` says of a statement about a grid. */
export function argueGrid(
  { grid }: NamedGrid,
  statement: Statement,
  { oneSolution = false, unicode = true, watch }: ArgueCommandOptions = {},
): Answer {
  const argued = argue(positionOf(grid), statement, {
    ...(oneSolution && { oneSolution: { token: tokenFor(grid) } }),
    ...(watch && { watch }),
  });
  const { holds, headline, lines } = sayArgued(statement, argued);
  return {
    json: argueJson(grid.layout, argued),
    lines: [headline, ...signedText(lines, unicode)],
    negative: !holds,
  };
}

/** What `argue` says where time ran out: whether it holds, where that is known. */
export function argueUnfinished(
  { grid }: NamedGrid,
  statement: Statement,
  known: ArguedSoFar | null,
  seconds: number,
  unicode = true,
): Answer {
  const said = sayArguedSoFar(known, seconds);
  if (known === null) {
    return { json: { schema, holds: false, verdict: 'undecided' }, lines: [said], negative: true };
  }
  if (known.kind === 'holds') {
    const verdict = statement.conclusions.kind === 'breaks' ? 'breaks' : 'holds';
    return { json: { schema, holds: true, verdict }, lines: [said], negative: true };
  }
  const { headline, lines } = sayArgued(statement, known);
  return {
    json: argueJson(grid.layout, known),
    lines: [headline, ...signedText(lines, unicode), said],
    negative: true,
  };
}

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
  const unicode = printsUnicode(surroundings);
  let known: ArguedSoFar | null = null;
  const watch = (soFar: ArguedSoFar) => {
    known = soFar;
  };
  const options = { oneSolution: assumesOneSolution(invocation), unicode, watch };
  let statement: Statement | null = null;
  const answerOn = (layout: Layout) => {
    const read = parseStatement(text, layout);
    if (read.ok) {
      statement = read.value;
      return (named: NamedGrid) => {
        known = null;
        return argueGrid(named, read.value, options);
      };
    }
    const { line, column, found, expected } = read.error;
    const message = `found ${found}; expected ${expected}`;
    const place = `STATEMENT:${line}:${column}`;
    const excerpt = { text: text.split('\n')[line - 1], column };
    return { place, message, excerpt, next: helpFor(command) };
  };
  return eachGridOn({ ...invocation, operands: [grid] }, surroundings, answerOn, {
    unfinished: (named, seconds) =>
      argueUnfinished(
        named,
        statement ?? { facts: [], conclusions: { kind: 'breaks' } },
        known,
        seconds,
        unicode,
      ),
  });
};
