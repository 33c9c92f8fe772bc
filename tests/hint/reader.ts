import { excludeEachOther } from '../judges/arguments.ts';
import { readSuppositions, readWays } from './reader-cases.ts';
import { factsAreWhatIsNeeded, phraseHolds, type Scene } from './reader-phrases.ts';
import {
  allOf,
  type Candidate,
  candidateAt,
  cellAt,
  cellOf,
  cellPattern,
  cellsIn,
  cellsOfHouse,
  cellsPattern,
  digitOf,
  type Fact,
  factIn,
  housePattern,
  strikesIn,
} from './reader-words.ts';

/** What a reader could not redo: the step, its text, and why. */
export interface Trouble {
  readonly step: number;
  readonly why: string;
  readonly text: readonly string[];
}

export interface Reading {
  readonly steps: number;
  readonly placements: number;
  readonly troubles: readonly Trouble[];
  /** Steps of which not every strike is told to its end: long cases, or too many of them. */
  readonly untold: number;
  /** Whether the reader's grid is filled at the end. */
  readonly solved: boolean;
}

/** Most facts with which the judge is asked. */
const mostFacts = 14;

/**
 * Somebody who has the givens of a grid and the told steps of its path, and nothing else: keeps marks of their own
 * from what they read, and redoes each step from its sentences.
 */
export class Reader {
  readonly #placed: number[] = new Array(81).fill(0);
  readonly #struck = new Set<Candidate>();
  readonly #struckIn = new Map<Candidate, number>();
  readonly #troubles: Trouble[] = [];
  #steps = 0;
  #placements = 0;
  #untold = 0;

  constructor(givens: string) {
    Array.from(givens).forEach((sign, cell) => {
      if (/[1-9]/.test(sign)) this.#placed[cell] = Number(sign);
    });
  }

  /** A reader who has read the same so far. */
  copy(): Reader {
    const copy = new Reader(this.#placed.join(''));
    for (const x of this.#struck) copy.#struck.add(x);
    for (const [x, step] of this.#struckIn) copy.#struckIn.set(x, step);
    copy.#steps = this.#steps;
    return copy;
  }

  /** Reads some steps, in the text form of a path: its lines from a numbered one on. */
  read(lines: readonly string[]): Reading {
    let step: string[] = [];
    for (const line of [...lines.filter((each) => each !== ''), '0']) {
      if (/^\d/.test(line)) {
        if (/^\d/.test(step[0] ?? '')) this.#step(step);
        step = [];
      }
      step.push(line);
    }
    return {
      steps: this.#steps,
      placements: this.#placements,
      troubles: this.#troubles,
      untold: this.#untold,
      solved: this.#placed.every((digit) => digit !== 0),
    };
  }

  #isRuledOut = (x: Candidate): boolean =>
    this.#placed[cellAt(x)] !== 0
      ? this.#placed[cellAt(x)] !== digitOf(x)
      : this.#placed.some((digit, cell) => digit !== 0 && excludeEachOther(candidateAt(cell, digit), x));

  #isLive = (x: Candidate): boolean => !this.#isRuledOut(x) && !this.#struck.has(x);

  #step(text: readonly string[]): void {
    this.#steps += 1;
    const trouble = (why: string) => this.#troubles.push({ step: this.#steps, why, text });
    try {
      const [, number, head] = /^(\d+) +(.*)$/.exec(text[0]) ?? [];
      if (Number(number) !== this.#steps) trouble('the number is not the next one');
      const [, said, rests] =
        /^(.*?)(?: Rests on (steps? .*|\d+ earlier steps, last on .*)\.)?$/.exec(head) ?? [];
      const placement = new RegExp(`^(${cellPattern}) is (\\d)\\. (.*)$`).exec(said);
      if (placement) this.#place(placement[1], Number(placement[2]), placement[3], rests, trouble);
      else
        this.#strike(
          text.slice(1).map((line) => line.trimStart()),
          rests,
          trouble,
        );
    } catch (error) {
      trouble(error instanceof Error ? error.message : String(error));
    }
  }

  /** That the fact has the places told from the digits on the grid and the strikes of the steps named alone. */
  #restsOn(fact: Fact, rests: string | undefined, trouble: (why: string) => void): void {
    if (rests?.includes('earlier')) return;
    const named = new Set((rests?.match(/\d+/g) ?? []).map(Number));
    const known = fact.all.filter((x) => !this.#isRuledOut(x) && !named.has(this.#struckIn.get(x) ?? 0));
    if (known.join() !== fact.places.join()) trouble(`${fact.name} rests on more than what is named`);
  }

  #place(
    name: string,
    digit: number,
    why: string,
    rests: string | undefined,
    trouble: (why: string) => void,
  ): void {
    const cell = cellOf(name);
    const x = candidateAt(cell, digit);
    const houseSays = new RegExp(
      `^(${housePattern}) has no other place for (\\d)(?:: the \\d(?:s in|) ?(?:in )?(${cellsPattern}) rules? out its other open cells)?\\.$`,
      'i',
    ).exec(why);
    const last = new RegExp(
      `^${name} is the last open cell of (${housePattern}), and ${digit} is the digit it lacks\\.$`,
    ).exec(why);
    const house = houseSays?.[1] ?? last?.[1];
    const fact = house ? `${digit} of ${house.toLowerCase()}` : name;
    const places = allOf(fact).filter(this.#isLive);
    if (places.join() !== String(x)) trouble(`${fact} has other places`);
    this.#restsOn({ name: fact, all: allOf(fact), places }, rests, trouble);
    if (houseSays?.[3]) {
      const shutting = cellsIn(houseSays[3]);
      if (shutting.some((other) => this.#placed[other] !== digit))
        trouble('a cell named does not hold the digit');
      const open = cellsOfHouse(houseSays[1]).filter((other) => this.#placed[other] === 0 && other !== cell);
      const isShut = (other: number) =>
        shutting.some((by) => excludeEachOther(candidateAt(by, digit), candidateAt(other, digit)));
      if (!open.every(isShut)) trouble('some open cell is not ruled out by what is named');
    } else if (last) {
      if (
        cellsOfHouse(last[1])
          .filter((other) => this.#placed[other] === 0)
          .join() !== String(cell)
      )
        trouble('it is not the last');
    } else if (why === `${name} sees every digit but ${digit}.`) {
      const others = allOf(name).filter((other) => other !== x);
      if (!others.every(this.#isRuledOut)) trouble('it does not see them all');
    } else if (!houseSays && why !== `Nothing but ${digit} is left for ${name}.`)
      trouble(`what is that: ${why}`);
    this.#placed[cell] = digit;
    this.#placements += 1;
  }

  #strike(lines: readonly string[], rests: string | undefined, trouble: (why: string) => void): void {
    const facts: Fact[] = [];
    const strikes: Candidate[] = [];
    const prose: string[] = [];
    for (const line of lines) {
      const signed = /^([A-Z]+|×|\/) +(.*)$/.exec(line);
      const fact = signed && /[A-Z]/.test(signed[1]) ? factIn(signed[2]) : null;
      if (fact) {
        facts.push(fact);
        if (fact.all.filter(this.#isLive).join() !== fact.places.join())
          trouble(`${fact.name} has other places`);
        this.#restsOn(fact, rests, trouble);
      } else if (signed?.[1] === '×') strikes.push(...strikesIn(signed[2]));
      else if (signed?.[1] === '/') {
        const before = strikesIn(signed[2]);
        if (before.some((x) => this.#isLive(x) || this.#isRuledOut(x))) trouble(`not so: ${line}`);
      } else prose.push(line);
    }
    if (strikes.length === 0 || strikes.some((x) => !this.#isLive(x)))
      trouble('it strikes nothing, or what is gone');
    const scene: Scene = { facts, strikes, isLive: this.#isLive, placed: this.#placed };
    if (facts.length <= mostFacts && !factsAreWhatIsNeeded(scene))
      trouble('the facts are not what is needed');
    try {
      this.#why(scene, prose, trouble);
    } finally {
      for (const x of strikes) {
        this.#struck.add(x);
        this.#struckIn.set(x, this.#steps);
      }
    }
  }

  #why(scene: Scene, prose: readonly string[], trouble: (why: string) => void): void {
    if (prose[0]?.startsWith('Suppose ')) {
      const { shown, untold } = readSuppositions(scene.facts, scene.strikes, prose);
      if (untold > 0) this.#untold += 1;
      else if (!scene.strikes.every((x) => shown.has(x))) trouble('some strike is not told');
    } else if (prose[0]?.startsWith('The facts come out in ')) readWays(scene.facts, scene.strikes, prose);
    else {
      const holds = phraseHolds(scene, prose.join(' '));
      if (holds === null) trouble(`what is that: ${prose.join(' ')}`);
      else if (!holds) trouble('the phrase does not show it');
    }
  }
}
