import { factParts } from '../argument/fact.ts';
import { type Argument, type Fact, placesOf } from '../argument/kernel.ts';
import { list, sayCell, sayPlace, sayWhichFact, startSentence } from '../argument/words.ts';
import { type Candidate, conflicts, type Layout } from '../grid/layout.ts';
import { digitName } from '../grid/names.ts';
import type { Position } from '../grid/position.ts';
import { sayAll, sayNoneOf } from './struck-words.ts';

interface Open {
  readonly fact: Fact;
  readonly places: readonly Candidate[];
}

/** A fact that has come down to one place, and the facts whose places took the others. */
interface Forced {
  readonly fact: Fact;
  readonly place: Candidate;
  readonly round: number;
  readonly because: readonly Fact[];
}

/** How some facts come out one after the other once a candidate is true. */
interface Run {
  readonly forced: readonly Forced[];
  /** The fact that is left without a place, and the facts whose places took them; null: none is. */
  readonly end: { readonly fact: Fact; readonly because: readonly Fact[] } | null;
  /** Facts with places left, these alone. */
  readonly open: readonly Open[];
}

/** Follows what is true, in rounds: all facts that one round leaves a single place come out in the next. */
function run(layout: Layout, facts: readonly Open[], assumed: Candidate): Run {
  const forced: Forced[] = [];
  const killer = new Map<Candidate, Fact | null>();
  let open = facts;
  let news: { fact: Fact | null; place: Candidate }[] = [{ fact: null, place: assumed }];
  for (let round = 1; news.length > 0; round += 1) {
    for (const { fact: by, place: chosen } of news) {
      for (const { places } of facts) {
        for (const place of places) {
          if (conflicts(layout, place, chosen) && !killer.has(place)) killer.set(place, by);
        }
      }
    }
    const reasons = (fact: Fact): Fact[] => {
      const all = facts.find((one) => one.fact === fact)?.places ?? [];
      return [...new Set(all.flatMap((place) => killer.get(place) ?? []))];
    };
    const left = open.map(({ fact, places }) => ({ fact, places: places.filter((x) => !killer.has(x)) }));
    const empty =
      left.find(({ places }) => places.length === 0) ?? forced.find(({ place }) => killer.has(place));
    if (empty) return { forced, end: { fact: empty.fact, because: reasons(empty.fact) }, open: left };
    const settled = left.flatMap(({ fact, places }) =>
      places.length === 1 ? [{ fact, place: places[0] }] : [],
    );
    for (const { fact, place } of settled) forced.push({ fact, place, round, because: reasons(fact) });
    news = settled;
    open = left.filter(({ places }) => places.length > 1);
  }
  return { forced, end: null, open };
}

/** Of what was forced, what led to some facts' coming out, in order. */
function leadingTo(forced: readonly Forced[], facts: readonly Fact[]): Forced[] {
  const wanted = new Set(facts);
  const kept: Forced[] = [];
  for (const one of [...forced].reverse()) {
    if (!wanted.has(one.fact)) continue;
    kept.unshift(one);
    for (const fact of one.because) wanted.add(fact);
  }
  return kept;
}

const isIt = (layout: Layout, x: Candidate): string =>
  `${sayCell(layout, x)} is ${digitName((x % layout.size) + 1)}`;

/** What was forced, told in rounds: `then r1c1 is 3 and r2c2 is 4; then ...`. Each placement once,
 * the one assumed not at all. */
function sayForced(layout: Layout, assumed: Candidate, forced: readonly Forced[]): string {
  const told = new Set([assumed]);
  const rounds = new Map<number, string[]>();
  for (const { place, round } of forced) {
    if (told.has(place)) continue;
    told.add(place);
    rounds.set(round, [...(rounds.get(round) ?? []), isIt(layout, place)]);
  }
  return [...rounds.values()].map((said) => `then ${list(said)}`).join('; ');
}

const sayEmpty = (layout: Layout, fact: Fact): string => {
  const parts = factParts(layout, fact);
  return parts.kind === 'cell'
    ? `nothing is left for ${sayWhichFact(layout, fact)}`
    : `${sayWhichFact(layout, fact)} has no place`;
};

const openFacts = (position: Position, facts: readonly Fact[]): Open[] =>
  facts.map((fact) => ({ fact, places: placesOf(position, fact) }));

/** How deep suppositions are told; below, that they fail is said and no more. */
const toldDepth = 2;

/** That a candidate fails, told from what it forces, and by cases where that comes to no end; null: it does not. */
function tellFailing(layout: Layout, facts: readonly Open[], x: Candidate, depth: number): string[] | null {
  const { forced, end, open } = run(layout, facts, x);
  if (end) {
    const led = sayForced(layout, x, leadingTo(forced, end.because));
    return [`${led === '' ? '' : `${led}; and `}${sayEmpty(layout, end.fact)}.`];
  }
  const split = open.reduce<Open | null>(
    (best, one) => (best === null || one.places.length < best.places.length ? one : best),
    null,
  );
  if (!split) return null;
  const said: string[] = [];
  const led = sayForced(layout, x, forced);
  const cases = list(
    split.places.map((place) => sayPlace(layout, split.fact, place)),
    'or',
  );
  const parts = factParts(layout, split.fact);
  const either =
    parts.kind === 'cell'
      ? `${sayWhichFact(layout, split.fact)} is ${cases}`
      : `${sayWhichFact(layout, split.fact)} is in ${cases}`;
  said.push(`${led === '' ? '' : `${led}; and `}${either}.`);
  for (const place of split.places) {
    const told = tellFailing(layout, open, place, depth + 1);
    if (!told) return null;
    const [first, ...rest] = told;
    if (depth >= toldDepth) continue;
    said.push(`If ${isIt(layout, place)}, ${first}`, ...rest);
  }
  if (depth >= toldDepth) said.push('Each of these fails in turn.');
  return said;
}

/** So many suppositions are told in full; the others are told to end likewise. */
const mostTold = 3;

/**
 * Why a supposition fails: what it forces, round after round, and by cases where need be. Those that fail by the
 * same words are told once.
 */
export function phraseOfSupposition(position: Position, { facts, conclusions }: Argument): string | null {
  if (conclusions.kind !== 'strikes') return null;
  const { layout } = position;
  const open = openFacts(position, facts);
  const groups = new Map<string, Candidate[]>();
  for (const x of conclusions.candidates) {
    const told = tellFailing(layout, open, x, 0);
    if (!told) return null;
    const key = told.map(startSentence).join(' ');
    groups.set(key, [...(groups.get(key) ?? []), x]);
  }
  const said: string[] = [];
  const left: Candidate[] = [];
  for (const [i, [told, struck]] of [...groups].entries()) {
    const [first, ...others] = struck;
    if (i >= mostTold) left.push(...struck);
    else {
      said.push(`Suppose ${i === 0 ? '' : 'instead '}${isIt(layout, first)}. ${told}`);
      if (others.length > 0) said.push(`The same goes for ${sayAll(layout, others)}.`);
    }
  }
  if (left.length > 0) said.push(`It ends likewise for ${sayAll(layout, left)}.`);
  return said.join(' ');
}

/**
 * Why whatever a fact comes to strikes: each of its places is followed in turn. It is the first of the facts
 * that is enough for all that is struck.
 */
export function phraseOfForcing(position: Position, { facts, conclusions }: Argument): string | null {
  if (conclusions.kind !== 'strikes') return null;
  for (const start of facts) {
    const others = facts.filter((fact) => fact !== start);
    const told = tellBranches(position, start, others, conclusions.candidates);
    if (told) return told;
  }
  return null;
}

function tellBranches(
  position: Position,
  start: Fact,
  others: readonly Fact[],
  struck: readonly Candidate[],
): string | null {
  const { layout } = position;
  const open = openFacts(position, others);
  const said: string[] = [];
  for (const place of placesOf(position, start)) {
    const { forced, end } = run(layout, open, place);
    const left = struck.filter((x) => !conflicts(layout, x, place));
    const by = left.map((x) => forced.find((one) => conflicts(layout, one.place, x))?.fact);
    const known = by.filter((fact) => fact !== undefined);
    const fails = known.length < by.length;
    if (fails && !end) return null;
    const led = sayForced(layout, place, leadingTo(forced, fails && end ? end.because : known));
    const failing = fails && end ? sayEmpty(layout, end.fact) : '';
    const then = [led, failing].filter((words) => words !== '').join('; and ');
    if (then !== '') said.push(`If ${isIt(layout, place)}, ${then}.`);
  }
  return [...said.map(startSentence), `In every case there is ${sayNoneOf(layout, struck)}.`].join(' ');
}
