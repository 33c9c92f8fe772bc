import { factName } from '../argument/fact.ts';
import type { Fact } from '../argument/kernel.ts';
import { list, sayFactIn } from '../argument/words.ts';
import { type Candidate, cellOf, digitOf, type Layout } from '../grid/layout.ts';
import { cellName, digitName } from '../grid/names.ts';
import type { Position } from '../grid/position.ts';
import type { Instance } from '../path/find.ts';
import { lighterSide } from '../techniques/other-side.ts';
import { drawFacts, lettered } from './draw.ts';
import type { Drawing, DrawnCandidate, HintLine } from './rung.ts';
import { byDigit, cellsInARow, sayFacts, sentence } from './words.ts';

/** What is said and drawn of one instance of a pattern. */
export interface ShownInstance {
  /** `1@c1 1@c9, 2 facts`. */
  readonly headline: string;
  /** What it does that lighter arguments do not do anyway, then what they do as well. */
  readonly does: readonly HintLine[];
  /** The facts, each with its places. */
  readonly facts: readonly HintLine[];
  readonly drawing: Drawing;
}

const line = (sign: string, words: string): HintLine => ({ sign, text: sentence(words) });

const goes = (layout: Layout, candidates: readonly Candidate[], sign: string, more: string): HintLine[] =>
  byDigit(layout, candidates).map(([digit, group]) =>
    line(sign, `${digitName(digit)} goes from ${cellsInARow(layout, group)}${more}`),
  );

/** That a set is the other side of a set of fewer facts in the same house: one finding, told from there. */
export function sayLighterSide(position: Position, facts: readonly Fact[]): HintLine[] {
  const lighter = lighterSide(position, facts);
  if (!lighter) return [];
  const names = list(lighter.map((fact) => factName(position.layout, fact)));
  return [line('', `the same finding from its easier side: ${names}, ${sayFacts(lighter.length)}`)];
}

/** Says and draws an instance: what is new in it told apart from what lighter arguments make anyway. */
export function showInstance(position: Position, { finding, weight, fresh }: Instance): ShownInstance {
  const { layout } = position;
  const { conclusions, pattern } = finding;
  const facts = lettered(position, finding.facts);
  const names = finding.facts.map((fact) => factName(layout, fact));
  const corners = [...new Set(pattern?.map((x) => cellName(layout, cellOf(layout, x))))];
  const told = [...names, ...corners.filter((cell) => !names.includes(cell))].join(' ');
  const others = conclusions.candidates.filter((x) => !fresh.includes(x));
  const drawn = conclusions.candidates.map((candidate): DrawnCandidate => {
    if (conclusions.kind === 'placements') return { candidate, role: 'placement' };
    return { candidate, role: fresh.includes(candidate) ? 'strike' : 'out-already' };
  });
  return {
    headline: `${told}, ${weight} ${weight === 1 ? 'fact' : 'facts'}`,
    does:
      conclusions.kind === 'placements'
        ? conclusions.candidates.map((x) =>
            line('=', `${cellName(layout, cellOf(layout, x))} is ${digitName(digitOf(layout, x))}`),
          )
        : [
            ...goes(layout, fresh, '×', ''),
            ...goes(layout, others, '/', ', as a lighter argument shows anyway'),
            ...sayLighterSide(position, finding.facts),
          ],
    facts: facts.map(({ fact, letter, places }) => line(letter, sayFactIn(layout, fact, places))),
    drawing: drawFacts(position, facts, drawn),
  };
}
