import { parseFact } from '../../source/argument/fact.ts';
import { type Argument, check, placesOf } from '../../source/argument/kernel.ts';
import type { Candidate } from '../../source/grid/layout.ts';
import { parseConclusion } from '../../source/grid/names.ts';
import type { Position } from '../../source/grid/position.ts';
import { arrangementExists } from '../judges/sat.ts';

/** An argument as commands print it. */
export interface PrintedArgument {
  readonly technique: string;
  readonly facts: readonly string[];
  readonly placements: readonly string[];
  readonly strikes: readonly string[];
  readonly breaks?: boolean;
  readonly assumes: 'nothing' | 'one-solution';
  readonly weight: number;
}

export interface PrintedHint {
  readonly house: string;
  readonly argument: PrintedArgument;
}

/** Reads an argument back from what is printed. Throws where a name can't be read. */
export function readArgument({ layout }: Position, printed: PrintedArgument): Argument {
  const { technique, assumes } = printed;
  const facts = printed.facts.map((name) => {
    const fact = parseFact(layout, name);
    if (fact === null) throw new Error(`no fact: ${name}`);
    return fact;
  });
  const candidates = (names: readonly string[], kind: 'placement' | 'strike'): Candidate[] =>
    names.map((name) => {
      const conclusion = parseConclusion(layout, name);
      if (conclusion?.kind !== kind) throw new Error(`no ${kind}: ${name}`);
      return conclusion.candidate;
    });
  if (printed.breaks) return { technique, facts, conclusions: { kind: 'breaks' }, assumes };
  const placements = candidates(printed.placements, 'placement');
  const strikes = candidates(printed.strikes, 'strike');
  if (placements.length > 0 && strikes.length > 0) throw new Error('placements and strikes in one argument');
  const conclusions =
    placements.length > 0
      ? ({ kind: 'placements', candidates: placements } as const)
      : ({ kind: 'strikes', candidates: strikes } as const);
  return { technique, facts, conclusions, assumes };
}

/** What is wrong with a printed argument in a position: the kernel is asked, then a SAT solver. Null: nothing. */
export function faultOf(position: Position, printed: PrintedArgument): string | null {
  const { layout } = position;
  const argument = readArgument(position, printed);
  const { conclusions, facts } = argument;
  const { verdict } = check(position, argument);
  if (verdict !== (conclusions.kind === 'breaks' ? 'breaks' : 'holds')) return `kernel: ${verdict}`;
  if (printed.weight !== facts.length) return `weight ${printed.weight} of ${facts.length} facts`;
  const lists = facts.map((fact) => placesOf(position, fact));
  if (conclusions.kind === 'breaks') {
    return arrangementExists(layout, lists) ? 'SAT: the facts can all hold' : null;
  }
  if (!arrangementExists(layout, lists)) return 'SAT: the facts can not all hold';
  if (conclusions.candidates.length === 0) return 'no conclusion';
  for (const candidate of conclusions.candidates) {
    if (!position.candidates.has(candidate)) return 'a conclusion about a candidate that is gone';
    const rivals =
      conclusions.kind === 'strikes'
        ? [[candidate]]
        : lists
            .filter((places) => places.includes(candidate))
            .map((places) => places.filter((c) => c !== candidate));
    const shut = rivals.some((list) => list.every((rival) => !arrangementExists(layout, lists, [rival])));
    if (!shut) return `SAT: candidate ${candidate} stays open`;
  }
  return null;
}
