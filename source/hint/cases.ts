import { type Argument, type Fact, placesOf } from '../argument/kernel.ts';
import { list, sayPlace, sayTopic, sayWhichFact } from '../argument/words.ts';
import { type Candidate, cellOf, conflicts, digitOf, type Layout } from '../grid/layout.ts';
import { cellName, digitName } from '../grid/names.ts';
import type { Position } from '../grid/position.ts';
import { sayNoneOf } from '../techniques/struck-words.ts';
import { type Open, tightGroups } from './tight.ts';
import { byDigit, cellsInARow, sentence } from './words.ts';

const narrow = (layout: Layout, open: readonly Open[], chosen: Candidate): Open[] =>
  open.map(({ fact, places }) => ({
    fact,
    places: places.filter((place) => !conflicts(layout, place, chosen)),
  }));

/** Whether some facts can come out beside a candidate, one place each, no two in conflict. */
const canComeOut = (layout: Layout, open: readonly Open[]): boolean => {
  if (open.length === 0) return true;
  const [first, ...others] = [...open].sort((a, b) => a.places.length - b.places.length);
  return first.places.some((place) => canComeOut(layout, narrow(layout, others, place)));
};

/** More sentences than this are a wall: nobody follows them. */
const mostSentences = 24;
/** So many forced places go into one sentence. */
const inOneSentence = 3;

const fewest = (open: readonly Open[]): Open | null =>
  open.reduce<Open | null>(
    (best, one) => (best === null || one.places.length < best.places.length ? one : best),
    null,
  );

/** `the 7 of column 2 is in r3`, `r4c8 is 6`. */
function sayChoice(layout: Layout, fact: Fact, place: Candidate): string {
  if (fact < layout.cellCount) return `${sayTopic(layout, fact)} is ${sayPlace(layout, fact, place)}`;
  return `${sayWhichFact(layout, fact)} is in ${sayPlace(layout, fact, place)}`;
}

/** `r4c8 is 1 or 6`, `the 7 of column 2 is in r3 or r8`. */
function sayChoices(layout: Layout, { fact, places }: Open): string {
  const said = list(
    places.map((place) => sayPlace(layout, fact, place)),
    'or',
  );
  return `${sayWhichFact(layout, fact)} is ${fact < layout.cellCount ? '' : 'in '}${said}`;
}

/**
 * How the cases of some facts close, told in the order in which they do: forced places first, a few in a
 * sentence; then facts that share their places out among themselves; then the fact with the fewest places, case
 * by case. Every sentence follows from the facts and what was told before it in its case. Null where some case
 * does not close. `start` opens the first sentence. More sentences than `room` are not told to their end.
 */
function closing(layout: Layout, open: readonly Open[], start: string, room: number): string[] | null {
  const said: string[] = [];
  let opening = start;
  const tell = (words: string) => {
    said.push(`${opening}${words}.`);
    opening = 'then ';
  };
  let rest = open;
  let forced: string[] = [];
  const end = (words: string): string[] => {
    tell(forced.length === 0 ? words : `${forced.join(', ')}, and ${words}`);
    return said;
  };
  for (;;) {
    const next = fewest(rest);
    if (!next) return null;
    if (next.places.length === 0) return end(`nothing is left for ${sayWhichFact(layout, next.fact)}`);
    if (next.places.length > 1) break;
    const [place] = next.places;
    forced.push(sayChoice(layout, next.fact, place));
    rest = narrow(
      layout,
      rest.filter((one) => one !== next),
      place,
    );
    if (forced.length < inOneSentence || rest.some(({ places }) => places.length === 0)) continue;
    tell(list(forced));
    forced = [];
  }
  for (const { group, isShort, words } of tightGroups(layout, rest)) {
    if (isShort) return end(words);
    const others = rest
      .filter((one) => !group.includes(one))
      .map(({ fact, places }) => ({
        fact,
        places: places.filter((place) => canComeOut(layout, narrow(layout, group, place))),
      }));
    const least = fewest(others);
    if (!least || least.places.length > 1) continue;
    if (least.places.length === 0) {
      tell(
        [...forced, words].join(', ').concat(`, and nothing is left for ${sayWhichFact(layout, least.fact)}`),
      );
      return said;
    }
    const more = closing(layout, others, 'then ', room - said.length - 1);
    if (!more) continue;
    end(words);
    return [...said, ...more];
  }
  const split = fewest(rest);
  if (!split) return null;
  end(sayChoices(layout, split));
  const others = rest.filter((one) => one !== split);
  for (const place of split.places) {
    const started = `if ${sayChoice(layout, split.fact, place)}, then `;
    if (said.length > room) return said;
    const told = closing(layout, narrow(layout, others, place), started, room - said.length);
    if (!told) return null;
    said.push(...told);
  }
  return said;
}

const tooMany = 'the cases are too many to be told one by one: each of them leaves a fact with nothing';

/** The sentences of `closing`, or one that says that they are too many. */
function sayClosing(layout: Layout, open: readonly Open[], start: string): string[] {
  const said = closing(layout, open, start, mostSentences);
  return said && said.length <= mostSentences ? said : [tooMany];
}

const sayCandidate = (layout: Layout, x: Candidate, verb: string): string =>
  `${cellName(layout, cellOf(layout, x))} ${verb} ${digitName(digitOf(layout, x))}`;

/** So many candidates are named one by one; more stand in the lines above the prose. */
const mostNamed = 6;

/** `2 in r1c7 r3c7, and for 5 in r1c7`; of many `all the others`. */
const sayGoes = (layout: Layout, candidates: readonly Candidate[], isRest: boolean): string =>
  isRest && candidates.length > mostNamed
    ? 'all the others'
    : byDigit(layout, candidates)
        .map(([digit, some]) => `${digitName(digit)} in ${cellsInARow(layout, some)}`)
        .join(', and for ');

/** All ways in which some facts come out, as sentences say them, as long as they are few; null: they are not. */
function waysOf(layout: Layout, open: readonly Open[], most: number): Candidate[][] | null {
  const next = fewest(open);
  if (!next) return [[]];
  const ways: Candidate[][] = [];
  for (const place of next.places) {
    const rest = narrow(
      layout,
      open.filter((one) => one !== next),
      place,
    );
    if (rest.some(({ places }) => places.length === 0)) continue;
    const more = waysOf(layout, rest, most);
    if (!more || ways.length + more.length > most) return null;
    ways.push(...more.map((way) => [place, ...way]));
  }
  return ways;
}

/** Facts of so few ways are told way by way where strikes fail for different reasons. */
const fewWays = 3;
const mostInAWay = 6;
const counts = ['no', 'one way', 'two ways', 'three ways'];

/** The ways of the facts, and that each of them takes what is struck; null where the ways are many. */
function sayWays(layout: Layout, open: readonly Open[], struck: readonly Candidate[]): string[] | null {
  const ways = open.length > mostInAWay ? null : waysOf(layout, open, fewWays);
  if (!ways || ways.length < 2) return null;
  const told = ways.map((way) =>
    list([...new Set(way)].sort((a, b) => a - b).map((x) => sayCandidate(layout, x, 'is'))),
  );
  return [
    `the facts come out in ${counts[ways.length]} only`,
    ...told.map((way, i) => `${i === 0 ? 'either' : 'or'} ${way}`),
    `${ways.length === 2 ? 'either way' : 'whichever it is'}, there is ${sayNoneOf(layout, struck)}`,
  ].map(sentence);
}

/** So many suppositions are told in full; what is like none of them is named at the end. */
const mostSuppositions = 4;

/**
 * Prose for an argument without a phrase of its own. A strike is tried out and fails; strikes that fail by the
 * very same words are told once. Where several fail for different reasons, and the facts come out in a few ways
 * only, these are told instead.
 */
export function sayCases(position: Position, argument: Argument): string[] {
  const { layout } = position;
  const open = argument.facts.map((fact) => ({ fact, places: placesOf(position, fact) }));
  const { conclusions } = argument;
  if (conclusions.kind === 'breaks') return sayClosing(layout, open, '').map(sentence);
  if (conclusions.kind === 'placements') {
    return conclusions.candidates.map((candidate) =>
      sentence(
        `that leaves ${digitName(digitOf(layout, candidate))} for ${cellName(layout, cellOf(layout, candidate))}`,
      ),
    );
  }
  const groups = new Map<string, { readonly told: readonly string[]; readonly struck: Candidate[] }>();
  for (const x of conclusions.candidates) {
    const told = sayClosing(layout, narrow(layout, open, x), 'then ');
    const key = told.join(' ');
    const group = groups.get(key) ?? { told, struck: [] };
    group.struck.push(x);
    groups.set(key, group);
  }
  if (groups.size > 1) {
    const ways = sayWays(layout, open, conclusions.candidates);
    if (ways) return ways;
  }
  const said: string[] = [];
  const left: Candidate[] = [];
  for (const [i, { told, struck }] of [...groups.values()].entries()) {
    if (i >= mostSuppositions || (i > 0 && said.length + told.length > mostSentences)) {
      left.push(...struck);
      continue;
    }
    const [first, ...others] = struck;
    said.push(`suppose ${i === 0 ? '' : 'instead '}${sayCandidate(layout, first, 'were')}`, ...told);
    if (others.length > 0) said.push(`the same goes for ${sayGoes(layout, others, groups.size === 1)}`);
  }
  if (left.length > 0) said.push(`it ends likewise for ${sayGoes(layout, left, true)}`);
  return said.map(sentence);
}
