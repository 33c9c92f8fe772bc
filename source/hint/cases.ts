import { type Argument, type Fact, placesOf } from '../argument/kernel.ts';
import { list, sayPlace, sayTopic, sayWhichFact } from '../argument/words.ts';
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

/** More sentences than this are a wall: nobody follows them. */
const mostSentences = 24;
/** So many forced places go into one sentence. */
const inOneSentence = 3;

/**
 * Tells how the cases of some facts close, in the order in which they do: forced places first, a few in a
 * sentence, then the fact with the fewest left, case by case. Every sentence names facts and where they must
 * come out. False where there are too many to tell; what has been said by then is of no use.
 */
function closing(layout: Layout, open: readonly Open[], path: string, said: string[]): boolean {
  let rest = open;
  let forced: string[] = [];
  const tell = () => {
    if (forced.length > 0) said.push(`${path}${list(forced)}.`);
    forced = [];
  };
  while (said.length <= mostSentences) {
    const next = rest.reduce<Open | null>(
      (best, one) => (best === null || one.places.length < best.places.length ? one : best),
      null,
    );
    if (next?.places.length !== 1) tell();
    if (!next) return true;
    if (next.places.length === 0) {
      said.push(`${path}nothing is left for ${sayWhichFact(layout, next.fact)}.`);
      return true;
    }
    const others = rest.filter((one) => one !== next);
    if (next.places.length > 1) {
      return next.places.every((place) => {
        const where = sayChoice(layout, next.fact, place);
        return closing(layout, narrow(layout, others, place), `${path}if ${where}, `, said);
      });
    }
    const [place] = next.places;
    forced.push(sayChoice(layout, next.fact, place));
    if (forced.length === inOneSentence) tell();
    rest = narrow(layout, others, place);
  }
  return false;
}

/** The sentences of `closing`, or one that says that they are too many. */
function sayClosing(layout: Layout, open: readonly Open[]): string[] {
  const said: string[] = [];
  if (closing(layout, open, '', said) && said.length <= mostSentences) return said;
  return ['the cases are too many to be told one by one: each of them leaves a fact with nothing'];
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
  if (conclusions.kind === 'breaks') return sayClosing(layout, open).map(sentence);
  if (conclusions.kind === 'placements') {
    return conclusions.candidates.map((candidate) =>
      sentence(
        `that leaves ${digitName(digitOf(layout, candidate))} for ${cellName(layout, cellOf(layout, candidate))}`,
      ),
    );
  }
  const [first, ...others] = conclusions.candidates;
  const start = `suppose ${cellName(layout, cellOf(layout, first))} were ${digitName(digitOf(layout, first))}`;
  const told = sayClosing(layout, narrow(layout, open, first));
  const rest = byDigit(layout, others).map(
    ([digit, candidates]) => `${digitName(digit)} in ${cellsInARow(layout, candidates)}`,
  );
  return [start, ...told, ...(rest.length > 0 ? [`the same goes for ${rest.join(', and for ')}`] : [])].map(
    sentence,
  );
}
