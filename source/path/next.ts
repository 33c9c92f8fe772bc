import { type Claim, withClaims } from '../argument/claim.ts';
import { houseFact } from '../argument/fact.ts';
import {
  type CheckedArgument,
  check,
  type Fact,
  type OneSolutionToken,
  placesOf,
} from '../argument/kernel.ts';
import { decide } from '../exact/solve.ts';
import type { Candidate } from '../grid/layout.ts';
import type { Position } from '../grid/position.ts';
import { Board } from '../techniques/board.ts';
import { catalogue } from '../techniques/catalogue.ts';
import { compareInTurn, easeOf } from './ease.ts';
import { argumentsBy, lightestArguments, weightOfChecked } from './lightest.ts';
import { breakBy } from './minimal.ts';
import { factsThatRefute, fewestOf, refutationNodes } from './refute.ts';
import type { Broken, Step, View, Written } from './step.ts';

/** Singles and locked candidates: all that one fact can do by name. */
const oneFact = catalogue.filter(({ weight }) => weight === 1);

/** What a checked argument does to a position. */
export function take(position: Position, checked: CheckedArgument): Position {
  const { conclusions } = checked.argument;
  if (conclusions.kind === 'breaks') return position;
  if (conclusions.kind === 'strikes') return position.strike(conclusions.candidates);
  const { size } = position.layout;
  return conclusions.candidates.reduce(
    (after, candidate) => after.place(Math.floor(candidate / size), (candidate % size) + 1),
    position,
  );
}

/**
 * The next step from what a person has before them, or what on their sheet cannot be right, which comes
 * first. Null: nothing is left to show, or nothing can be shown.
 */
export function nextStep(view: View, token?: OneSolutionToken): Step | Broken | null {
  const position = withClaims(view.position, view.claims);
  if (decide(position).verdict === 'none') return findBroken(position);
  if (position.isSolved) return null;
  return view.kind === 'full'
    ? nextArgument(position, view.claims, token)
    : nextRun(position, view.claims, token);
}

/**
 * The easiest lightest set of facts that cannot all hold in a position that has no completion. Null only
 * where none is found within the search's bound.
 */
export function findBroken(position: Position): Broken | null {
  const board = Board.from(position);
  const nodes = refutationNodes(position.layout);
  const facts = factsThatRefute(board, null, nodes);
  const part = facts && breakBy(position, fewestOf(board, null, nodes, facts));
  return part ? { kind: 'broken', part, weight: weightOfChecked(part) } : null;
}

function rankByEase(found: readonly CheckedArgument[], claims: readonly Claim[]) {
  const ranked = found.map((checked) => ({ checked, ease: easeOf(checked, claims) }));
  return ranked.sort((a, b) => compareInTurn(a.ease, b.ease));
}

const easiest = (found: readonly CheckedArgument[], claims: readonly Claim[]): CheckedArgument | null =>
  rankByEase(found, claims)[0]?.checked ?? null;

function stepOf(parts: readonly CheckedArgument[], written: Written): Step {
  const weights = parts.map(weightOfChecked);
  return { kind: 'step', parts, weights, weight: Math.max(...weights), written };
}

function nextArgument(position: Position, claims: readonly Claim[], token?: OneSolutionToken): Step | null {
  const best = easiest(lightestArguments(position, token), claims);
  if (!best || best.argument.conclusions.kind === 'breaks') return null;
  return stepOf([best], best.argument.conclusions);
}

/** A digit that has come down to two places in a box and is not marked there yet. */
interface Pair {
  readonly fact: Fact;
  readonly places: readonly Candidate[];
}

function pairsIn(position: Position, start: Position, claims: readonly Claim[]): Pair[] {
  const { layout } = position;
  const claimed = new Set(claims.map(({ fact }) => fact));
  return layout.houses
    .filter(({ kind }) => kind === 'box')
    .flatMap((house) => Array.from({ length: layout.size }, (_, i) => houseFact(layout, house, i + 1)))
    .filter((fact) => !claimed.has(fact) && placesOf(start, fact).length > 2)
    .map((fact) => ({ fact, places: placesOf(position, fact) }))
    .filter(({ places }) => places.length === 2);
}

/**
 * A run ends with the strikes of an argument, to be written with the strike pen, where so many of more than one
 * fact have led to nothing else, or where one is too heavy to be the mere beginning of something.
 */
const mostHeavy = 6;
const tooHeavyToRunOn = 6;

/**
 * On a sparse sheet: what follows by one fact counts as known, so a step runs on to something that can be
 * written, a placement or a digit with two places left in a box, and keeps only the parts that it needs. Where
 * the way there is long or heavy, it ends with strikes.
 */
function nextRun(start: Position, claims: readonly Claim[], token?: OneSolutionToken): Step | null {
  let position = start;
  let heavies = 0;
  const strikes: CheckedArgument[] = [];
  for (;;) {
    const light = argumentsBy(position, oneFact);
    const placing = light.filter(({ argument }) => argument.conclusions.kind === 'placements');
    const runs = placing.map((last) => ({ parts: [...needed(start, strikes, last), last], last }));
    const ranked = runs.map((run) => ({
      run,
      ease: [
        Math.max(...run.parts.map(weightOfChecked)),
        run.parts.reduce((sum, part) => sum + weightOfChecked(part), 0),
        ...easeOf(run.last, claims),
      ],
    }));
    ranked.sort((a, b) => compareInTurn(a.ease, b.ease));
    const best = ranked[0]?.run;
    if (best && best.last.argument.conclusions.kind === 'placements') {
      return stepOf(best.parts, best.last.argument.conclusions);
    }
    const striking = light.filter(({ argument }) => argument.conclusions.kind === 'strikes');
    if (striking.length > 0) {
      for (const { checked } of rankByEase(striking, claims)) {
        const again = replay(position, [checked]);
        if (!again) continue;
        strikes.push(...again.parts);
        position = again.end;
      }
      continue;
    }
    const marked = pairsIn(position, start, claims).map((pair) => ({
      pair,
      parts: neededForPair(start, strikes, pair),
    }));
    marked.sort((a, b) => compareInTurn(sizeOf(a.parts, a.pair), sizeOf(b.parts, b.pair)));
    if (marked[0]) return stepOf(marked[0].parts, { kind: 'spot', ...marked[0].pair });
    const heavy = easiest(lightestArguments(position, token), claims);
    if (!heavy) return null;
    const { conclusions } = heavy.argument;
    if (conclusions.kind === 'breaks') return null;
    heavies += 1;
    const ends = heavies >= mostHeavy || weightOfChecked(heavy) > tooHeavyToRunOn;
    if (ends || conclusions.kind === 'placements') {
      return stepOf([...needed(start, strikes, heavy), heavy], conclusions);
    }
    strikes.push(heavy);
    position = take(position, heavy);
  }
}

const sizeOf = (parts: readonly CheckedArgument[], pair: Pair): number[] => [
  Math.max(...parts.map(weightOfChecked)),
  parts.reduce((sum, part) => sum + weightOfChecked(part), 0),
  pair.fact,
];

/** Replays some arguments from a position, each checked again there; null as soon as one is refused. */
function replay(
  start: Position,
  parts: readonly CheckedArgument[],
): { end: Position; parts: CheckedArgument[] } | null {
  let end = start;
  const again: CheckedArgument[] = [];
  for (const { argument } of parts) {
    const live =
      argument.conclusions.kind === 'strikes'
        ? argument.conclusions.candidates.filter((candidate) => end.candidates.has(candidate))
        : [];
    const conclusions =
      argument.conclusions.kind === 'strikes'
        ? { kind: 'strikes' as const, candidates: live }
        : argument.conclusions;
    const verdict = check(end, { ...argument, conclusions });
    if (verdict.verdict !== 'holds') return null;
    again.push(verdict.checked);
    end = take(end, verdict.checked);
  }
  return { end, parts: again };
}

/** Leaves out, last first, every part without which the rest still replays and still does what is wanted. */
function thin(
  start: Position,
  parts: readonly CheckedArgument[],
  wanted: (end: Position) => boolean,
): CheckedArgument[] {
  let kept = [...parts];
  for (let i = parts.length - 1; i >= 0; i -= 1) {
    const fewer = kept.filter((part) => part.argument !== parts[i].argument);
    const outcome = replay(start, fewer);
    if (outcome && wanted(outcome.end)) kept = fewer;
  }
  return replay(start, kept)?.parts ?? kept;
}

/** The earlier strikes that an argument needs, and those that these need, in order. */
function needed(
  start: Position,
  earlier: readonly CheckedArgument[],
  last: CheckedArgument,
): CheckedArgument[] {
  if (check(start, last.argument).verdict === 'holds') return [];
  return thin(start, earlier, (end) => check(end, last.argument).verdict === 'holds');
}

function neededForPair(start: Position, earlier: readonly CheckedArgument[], pair: Pair): CheckedArgument[] {
  return thin(start, earlier, (end) => placesOf(end, pair.fact).length === 2);
}
