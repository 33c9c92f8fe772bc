import { type Argument, type check, isChecked } from '../../source/argument/kernel.ts';
import type { Position } from '../../source/grid/position.ts';
import { excludeEachOther, judge, livePlaces } from '../judges/arguments.ts';
import { Random } from '../random.ts';
import { brokenArgument, randomArgument, randomPosition } from './random-arguments.ts';

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

/** What a run saw: the complaints, and how often each answer was the right one. */
export interface KernelRun {
  readonly complaints: readonly Complaint[];
  readonly answers: Readonly<Record<string, number>>;
}

/** Argues at random in random positions with a kernel, and compares each answer with the exact judge's. */
export function fuzzKernel(kernel: typeof check, seed: number, rounds: number): KernelRun {
  const random = new Random(seed);
  const complaints: Complaint[] = [];
  const answers: Record<string, number> = {};
  let scene = randomPosition(random);
  for (let round = 0; round < rounds; round += 1) {
    if (round % 10 === 0) scene = randomPosition(random);
    const broken = round % 10 === 9 ? brokenArgument(random, scene.position) : undefined;
    const position = broken?.position ?? scene.position;
    const argument = broken?.argument ?? randomArgument(random, position);
    const due = judge(position, argument);
    answers[due] = (answers[due] ?? 0) + 1;
    const fault = faultOf(kernel, position, broken ? null : scene.solution, argument, due);
    if (fault) complaints.push({ fault, about: `seed ${seed}, round ${round}: ${JSON.stringify(argument)}` });
  }
  return { complaints, answers };
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
