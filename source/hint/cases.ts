import { type Argument, type Fact, placesOf } from '../argument/kernel.ts';
import { sayPlace, sayTopic, sayWhichFact } from '../argument/words.ts';
import { type Candidate, cellOf, conflicts, digitOf, type Layout } from '../grid/layout.ts';
import { cellName, digitName } from '../grid/names.ts';
import type { Position } from '../grid/position.ts';
import { byDigit, cellsInARow, sentence } from './words.ts';

interface Open {
  readonly fact: Fact;
  readonly places: readonly Candidate[];
}

const narrow = (layout: Layout, open: readonly Open[], chosen: Candidate): Open[] =>
  open.map(({ fact, places }) => ({
    fact,
    places: places.filter((place) => !conflicts(layout, place, chosen)),
  }));

/**
 * Tells how the cases of some facts close, in the order in which they do: forced places first, then the fact
 * with the fewest left, case by case. Every sentence names a fact and where it must come out.
 */
function closing(layout: Layout, open: readonly Open[], path: string): string[] {
  const said: string[] = [];
  let rest = open;
  for (;;) {
    const empty = rest.find(({ places }) => places.length === 0);
    if (empty) {
      said.push(`${path}nothing is left for ${sayWhichFact(layout, empty.fact)}.`);
      return said;
    }
    const next = rest.reduce<Open | null>(
      (best, one) => (best === null || one.places.length < best.places.length ? one : best),
      null,
    );
    if (!next) return said;
    const others = rest.filter((one) => one !== next);
    if (next.places.length > 1) {
      for (const place of next.places) {
        const where = sayChoice(layout, next.fact, place);
        said.push(...closing(layout, narrow(layout, others, place), `${path}if ${where}, `));
      }
      return said;
    }
    const [place] = next.places;
    said.push(`${path}${sayChoice(layout, next.fact, place)}.`);
    rest = narrow(layout, others, place);
  }
}

/** `the 7 of column 2 is in r3`, `r4c8 is 6`. */
function sayChoice(layout: Layout, fact: Fact, place: Candidate): string {
  if (fact < layout.cellCount) return `${sayTopic(layout, fact)} is ${sayPlace(layout, fact, place)}`;
  return `${sayWhichFact(layout, fact)} is in ${sayPlace(layout, fact, place)}`;
}

/**
 * Prose for an argument without a phrase of its own. A strike is tried out and fails; several strikes on the
 * same facts are told on the first of them.
 */
export function sayCases(position: Position, argument: Argument): string[] {
  const { layout } = position;
  const open = argument.facts.map((fact) => ({ fact, places: placesOf(position, fact) }));
  const { conclusions } = argument;
  if (conclusions.kind === 'breaks') return closing(layout, open, '').map(sentence);
  if (conclusions.kind === 'placements') {
    return conclusions.candidates.map((candidate) =>
      sentence(
        `that leaves ${digitName(digitOf(layout, candidate))} for ${cellName(layout, cellOf(layout, candidate))}`,
      ),
    );
  }
  const [first, ...others] = conclusions.candidates;
  const start = `suppose ${cellName(layout, cellOf(layout, first))} were ${digitName(digitOf(layout, first))}`;
  const told = closing(layout, narrow(layout, open, first), '');
  const rest = byDigit(layout, others).map(
    ([digit, candidates]) => `${digitName(digit)} in ${cellsInARow(layout, candidates)}`,
  );
  return [start, ...told, ...(rest.length > 0 ? [`the same goes for ${rest.join(', and for ')}`] : [])].map(
    sentence,
  );
}
