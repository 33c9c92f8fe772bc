import { excludeEachOther, hasArrangement } from '../judges/arguments.ts';
import {
  type Candidate,
  candidateAt,
  cellOf,
  cellPattern,
  cellsIn,
  cellsPattern,
  digitOf,
  digitsIn,
  digitsPattern,
  type Fact,
  factPattern,
  housePattern,
  housesIn,
  housesPattern,
  placePattern,
  placesOf,
} from './reader-words.ts';

/** What is known in a case: what is true there, and facts that share their places out among themselves. */
interface Case {
  readonly isTrue: readonly Candidate[];
  readonly groups: readonly (readonly Fact[])[];
}

class Unread extends Error {}

const choices = (places: string) => `(${places})`;
const atoms: readonly { readonly kind: string; readonly pattern: string }[] = [
  { kind: 'nothing', pattern: `nothing is left for (${factPattern})` },
  { kind: 'take', pattern: `(${cellsPattern}) take (${digitsPattern}) between them` },
  { kind: 'short', pattern: `(${cellsPattern}) have only (?:${digitsPattern}) left between them` },
  { kind: 'fill', pattern: `(${digitsPattern}) of (${housePattern}) fill (${cellsPattern}) between them` },
  {
    kind: 'short-in',
    pattern: `(${digitsPattern}) of (${housePattern}) have only (?:${cellsPattern}) left between them`,
  },
  { kind: 'put', pattern: `(${housesPattern}) put their (\\d)s into (${housesPattern}), one in each` },
  { kind: 'short-of', pattern: `(${housesPattern}) have only (?:${housesPattern}) left for their (\\d)s` },
  { kind: 'cell', pattern: `(${cellPattern}) is ${choices('\\d(?:(?:, \\d)* or \\d)?')}` },
  {
    kind: 'house',
    pattern: `the (\\d of ${housePattern}) is in ${choices(`${placePattern}(?:(?:, ${placePattern})* or ${placePattern})?`)}`,
  },
];

/** Redoes the cases of a refutation from the facts told and the sentences, and from nothing else. */
export class CaseReader {
  readonly #facts: readonly Fact[];
  readonly #sentences: readonly string[];
  #at = 0;

  constructor(facts: readonly Fact[], sentences: readonly string[]) {
    this.#facts = facts;
    this.#sentences = sentences;
  }

  /** Whether the sentences show that the candidate fails; an error says where they do not. */
  refutes(x: Candidate): void {
    this.#at = 0;
    this.#close({ isTrue: [x], groups: [] }, /^Then (.*)\.$/);
    if (this.#at < this.#sentences.length) throw new Unread(`left over: ${this.#sentences[this.#at]}`);
  }

  #fact(name: string): Fact {
    const fact = this.#facts.find((each) => each.name === name.replace(/^the /, ''));
    if (!fact) throw new Unread(`no such fact was told: ${name}`);
    return fact;
  }

  #left({ name, places }: Fact, { isTrue, groups }: Case): Candidate[] {
    return places.filter(
      (place) =>
        isTrue.every((x) => !excludeEachOther(x, place)) &&
        groups.every(
          (group) =>
            group.some((fact) => fact.name === name) ||
            hasArrangement(
              group.map((fact) => fact.places.filter((p) => isTrue.every((x) => !excludeEachOther(x, p)))),
              place,
            ),
        ),
    );
  }

  /** Reads on until the case is closed. The first sentence is to match `start`, what follows begins with `Then`. */
  #close(from: Case, start: RegExp): void {
    let known = from;
    for (let pattern = start; ; pattern = /^Then (.*)\.$/) {
      const sentence = this.#sentences[this.#at];
      const body = sentence === undefined ? null : pattern.exec(sentence);
      if (!body) throw new Unread(`the case is open, and what comes is: ${sentence}`);
      this.#at += 1;
      let split: { readonly said: string; readonly places: readonly Candidate[] } | null = null;
      for (const { kind, parts, text } of wordsOf(body[1])) {
        if (split) throw new Unread(`something follows where it is open: ${text}`);
        switch (kind) {
          case 'nothing':
            if (this.#left(this.#fact(parts[0]), known).length > 0) throw new Unread(`not so: ${text}`);
            return;
          case 'short':
          case 'short-in':
          case 'short-of':
            if (hasArrangement(this.#groupOf(kind, parts).map((fact) => this.#left(fact, known)))) {
              throw new Unread(`not so: ${text}`);
            }
            return;
          case 'take':
          case 'fill':
          case 'put': {
            const group = this.#groupOf(kind, parts);
            if (group.length < 2) throw new Unread(`no group: ${text}`);
            const narrowed = group.map((fact) => ({ ...fact, places: this.#left(fact, known) }));
            known = { ...known, groups: [...known.groups, narrowed] };
            break;
          }
          default: {
            const fact = this.#fact(parts[0]);
            const said = placesOf(fact.name, parts[1]);
            if (!this.#left(fact, known).every((place) => said.includes(place)))
              throw new Unread(`not so: ${text}`);
            if (said.length > 1) split = { said: text, places: said };
            else known = { ...known, isTrue: [...known.isTrue, ...said] };
          }
        }
      }
      if (!split) continue;
      for (const place of split.places) {
        this.#close({ ...known, isTrue: [...known.isTrue, place] }, this.#opening(split.said, place));
      }
      return;
    }
  }

  /** How the sentence begins that takes one of several places. */
  #opening(said: string, place: Candidate): RegExp {
    const name =
      (/^(?:the (\d of .*?) is in|(r\dc\d) is) /.exec(said) ?? []).slice(1).find((part) => part) ?? '';
    const where = (said.split(/ is in | is /)[1].match(new RegExp(placePattern, 'g')) ?? []).find(
      (word) => placesOf(name, word).join() === String(place),
    );
    const verb = said.startsWith('the ') ? `the ${name} is in` : `${name} is`;
    return new RegExp(`^(?:If|if) ${verb} ${where}, then (.*)\\.$`);
  }

  #groupOf(kind: string, parts: readonly string[]): Fact[] {
    if (kind === 'take' || kind === 'short') {
      return (parts[0].match(/r\dc\d/g) ?? []).map((name) => this.#fact(name));
    }
    if (kind === 'fill' || kind === 'short-in') {
      return digitsIn(parts[0]).map((digit) => this.#fact(`${digit} of ${parts[1]}`));
    }
    return housesIn(parts[0]).map((house) => this.#fact(`${parts[1]} of ${house}`));
  }
}

/** Takes a sentence's body apart: `r1c1 is 2, the 7 of row 1 is in c5, and nothing is left for r4c4`. */
function wordsOf(body: string): { readonly kind: string; readonly parts: string[]; readonly text: string }[] {
  const words: { kind: string; parts: string[]; text: string }[] = [];
  let rest = body;
  while (rest !== '') {
    let found: { kind: string; parts: string[]; text: string } | null = null;
    for (const { kind, pattern } of atoms) {
      const match = new RegExp(`^${pattern}(?=, |, and | and |$)`, 'i').exec(rest);
      if (match) {
        found = { kind, parts: match.slice(1), text: match[0] };
        break;
      }
    }
    if (!found) throw new Unread(`what is that: ${rest}`);
    words.push(found);
    rest = rest.slice(found.text.length).replace(/^(?:, and |, | and )/, '');
  }
  return words;
}

/** All that is supposed and follows, and which strikes it is said to go for. */
export function readSuppositions(
  facts: readonly Fact[],
  strikes: readonly Candidate[],
  prose: readonly string[],
): { readonly shown: Set<Candidate>; readonly untold: number } {
  const shown = new Set<Candidate>();
  let untold = 0;
  let block: string[] = [];
  const candidatesIn = (text: string): Candidate[] =>
    [...text.matchAll(/(\d) in ((?:r\dc\d ?)+)/g)].flatMap(([, digit, cells]) =>
      cellsIn(cells).map((cell) => candidateAt(cell, Number(digit))),
    );
  for (let i = 0; i < prose.length; ) {
    const supposed = /^Suppose (?:instead )?(r\dc\d) (?:were|is) (\d)\.$/.exec(prose[i]);
    const same = /^The same goes for (.*)\.$/.exec(prose[i]);
    if (supposed) {
      const end = prose.findIndex((text, at) => at > i && /^(Suppose|The same goes|It ends)/.test(text));
      block = prose.slice(i + 1, end < 0 ? undefined : end);
      const x = candidateAt(cellOf(supposed[1]), Number(supposed[2]));
      i += 1 + block.length;
      if (block.some((text) => /too many to be told/.test(text))) untold += 1;
      else {
        new CaseReader(facts, block).refutes(x);
        shown.add(x);
      }
    } else if (same) {
      const others =
        same[1] === 'all the others' ? strikes.filter((x) => !shown.has(x)) : candidatesIn(same[1]);
      i += 1;
      if (block.some((text) => /too many to be told/.test(text))) untold += others.length;
      else
        for (const x of others) {
          new CaseReader(facts, block).refutes(x);
          shown.add(x);
        }
    } else if (/^It ends likewise for /.test(prose[i])) {
      untold += 1;
      i += 1;
    } else throw new Unread(`what is that: ${prose[i]}`);
  }
  return { shown, untold };
}

/** The ways in which the facts come out: all of them, and each takes every strike. */
export function readWays(
  facts: readonly Fact[],
  strikes: readonly Candidate[],
  prose: readonly string[],
): void {
  const ways = prose
    .filter((text) => /^(Either|Or) /.test(text) && !text.startsWith('Either way'))
    .map((text) =>
      [...text.matchAll(/(r\dc\d) is (\d)/g)].map(([, cell, digit]) =>
        candidateAt(cellOf(cell), Number(digit)),
      ),
    );
  const arrangements = (at: number, chosen: readonly Candidate[]): Candidate[][] =>
    at === facts.length
      ? [[...chosen]]
      : facts[at].places
          .filter((place) => chosen.every((other) => !excludeEachOther(other, place)))
          .flatMap((place) => arrangements(at + 1, [...chosen, place]));
  const key = (way: readonly Candidate[]) => [...new Set(way)].sort((a, b) => a - b).join();
  const all = new Set(arrangements(0, []).map(key));
  if ([...all].sort().join(' ') !== ways.map(key).sort().join(' ')) throw new Unread('not all ways are told');
  for (const x of strikes) {
    if (!ways.every((way) => way.some((place) => excludeEachOther(place, x)))) {
      throw new Unread(`some way leaves ${digitOf(x)}`);
    }
  }
}
