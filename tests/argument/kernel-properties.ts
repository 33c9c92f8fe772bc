import { type Argument, type check, isChecked } from '../../source/argument/kernel.ts';
import type { Position } from '../../source/grid/position.ts';
import { excludeEachOther, judge, livePlaces } from '../judges/arguments.ts';
import { Random } from '../random.ts';
import { minimalArguments, type Origin, oneFactLess } from './minimal-arguments.ts';
import {
  brokenArgument,
  mutate,
  type RandomPosition,
  randomArgument,
  randomPosition,
} from './random-arguments.ts';

/** What can be wrong with a kernel. */
export type Fault =
  | 'accepts what does not follow'
  | 'refuses what follows'
  | 'gives another reason'
  | 'names an arrangement that is none'
  | 'seals something else'
  | 'strikes what a solution needs';

export interface Complaint {
  readonly fault: Fault;
  /** Enough to see it again. */
  readonly about: string;
}

/** An argument to be judged, in a position, with a grid that completes it where there is one known. */
interface Case extends RandomPosition {
  readonly argument: Argument;
  /** What is known of it before anybody has judged it. */
  readonly kind: 'random' | 'made to break' | 'minimal' | 'one fact less';
  readonly origin?: Origin;
}

/** Arguments without end: random and mutated ones, and true minimal ones, each followed by all that lack a fact. */
function* cases(random: Random): Generator<Case> {
  for (;;) {
    const scene = randomPosition(random);
    for (let i = 0; i < 9; i += 1) {
      yield { ...scene, argument: randomArgument(random, scene.position), kind: 'random' };
    }
    for (let i = 0; i < 2; i += 1) {
      const broken = brokenArgument(random, scene.position);
      if (broken) yield { ...broken, solution: null, kind: 'made to break' };
    }
    for (const minimal of minimalArguments(random, scene)) {
      yield { ...minimal, kind: 'minimal' };
      for (const argument of oneFactLess(minimal.argument)) {
        yield { ...minimal, argument, kind: 'one fact less' };
      }
      yield {
        ...minimal,
        argument: mutate(random, minimal.position, minimal.argument),
        kind: 'random',
      };
    }
  }
}

/** What a run saw: the complaints, and how often what was the case. */
export interface KernelRun {
  readonly complaints: readonly Complaint[];
  /** How often each answer was the right one. */
  readonly answers: Readonly<Record<string, number>>;
  /** How many arguments of each kind were judged. */
  readonly kinds: Readonly<Record<string, number>>;
  /** How many of the minimal ones came from where, and how many had so many facts. */
  readonly origins: Readonly<Record<string, number>>;
  readonly minimalOf: readonly number[];
}

/**
 * Argues at random in random positions with a kernel, and compares each answer with the exact judge's. A true
 * minimal argument must be accepted, and refused with any one of its facts left out.
 */
export function fuzzKernel(kernel: typeof check, seed: number, rounds: number): KernelRun {
  const complaints: Complaint[] = [];
  const [answers, kinds, origins]: Record<string, number>[] = [{}, {}, {}];
  const minimalOf: number[] = [];
  const count = (tally: Record<string, number>, what: string) => {
    tally[what] = (tally[what] ?? 0) + 1;
  };
  let round = 0;
  for (const { kind, origin, position, solution, argument } of cases(new Random(seed))) {
    if (round === rounds) break;
    const due = judge(position, argument);
    const isTrue = due === 'holds' || due === 'breaks';
    count(answers, due);
    count(kinds, kind);
    if (kind === 'minimal') {
      if (origin) count(origins, origin);
      minimalOf[argument.facts.length] = (minimalOf[argument.facts.length] ?? 0) + 1;
    }
    if ((kind === 'minimal' && !isTrue) || (kind === 'one fact less' && isTrue)) {
      throw new Error(`not minimal: seed ${seed}, round ${round}: ${JSON.stringify(argument)}`);
    }
    const fault = faultOf(kernel, position, solution, argument, due);
    if (fault) complaints.push({ fault, about: `seed ${seed}, round ${round}: ${JSON.stringify(argument)}` });
    round += 1;
  }
  return { complaints, answers, kinds, origins, minimalOf };
}

function faultOf(
  kernel: typeof check,
  position: Position,
  solution: readonly number[] | null,
  argument: Argument,
  due: string,
): Fault | null {
  const answer = kernel(position, argument);
  if (answer.verdict !== 'refused') {
    if (answer.verdict !== due) return 'accepts what does not follow';
    const { checked } = answer;
    const same =
      checked.position === position && JSON.stringify(checked.argument) === JSON.stringify(argument);
    if (!isChecked(checked) || !same) return 'seals something else';
    return solution && contradicts(argument, solution) ? 'strikes what a solution needs' : null;
  }
  if (due === 'holds' || due === 'breaks') return 'refuses what follows';
  if (due !== `refused: ${answer.reason}`) return 'gives another reason';
  const isShown = answer.reason === 'open';
  if (isShown !== (answer.arrangement !== undefined)) return 'names an arrangement that is none';
  return isShown && !keepsOpen(position, argument, answer.candidate, answer.arrangement ?? [])
    ? 'names an arrangement that is none'
    : null;
}

/** Whether a full grid that completes the position speaks against what was concluded. */
function contradicts({ conclusions }: Argument, solution: readonly number[]): boolean {
  if (conclusions.kind === 'breaks') return true;
  const isTrue = (x: number) => solution[Math.floor(x / 9)] === (x % 9) + 1;
  return conclusions.candidates.some((x) => isTrue(x) !== (conclusions.kind === 'placements'));
}

/** Whether an arrangement is one: a live place a fact, none excluding another, and the conclusion not needed. */
function keepsOpen(
  position: Position,
  { facts, conclusions }: Argument,
  x: number | undefined,
  arrangement: readonly number[],
): boolean {
  const fits =
    arrangement.length === facts.length &&
    arrangement.every((place, i) => livePlaces(position, facts[i]).includes(place)) &&
    arrangement.every((a) => arrangement.every((b) => !excludeEachOther(a, b)));
  if (!fits || conclusions.kind === 'breaks') return fits && x === undefined;
  if (x === undefined || !conclusions.candidates.includes(x)) return false;
  return conclusions.kind === 'strikes'
    ? arrangement.every((place) => !excludeEachOther(place, x))
    : !arrangement.includes(x);
}
