import { houseFact } from '../argument/fact.ts';
import { type Argument, type Fact, placesOf } from '../argument/kernel.ts';
import { list, sayCell } from '../argument/words.ts';
import { type Candidate, conflicts, type Digit, type House, type Layout } from '../grid/layout.ts';
import { digitName } from '../grid/names.ts';
import type { Position } from '../grid/position.ts';
import type { Board } from './board.ts';
import { addStrikes, excludedByEach } from './finding.ts';
import type { Finding } from './technique.ts';

/** A fact with two places: if it is not the one, it is the other. */
export interface Link {
  readonly fact: Fact;
  readonly ends: readonly [Candidate, Candidate];
}

/** The facts given that have exactly two places, each pair of places once: the first fact that has it. */
export function linksOf(board: Board, facts: Iterable<Fact>): Link[] {
  const seen = new Set<string>();
  const links: Link[] = [];
  for (const fact of facts) {
    const mask = board.masks[fact];
    const rest = mask & (mask - 1);
    if (rest === 0 || (rest & (rest - 1)) !== 0) continue;
    const [a, b] = board.placesOf(fact);
    if (seen.has(`${a} ${b}`)) continue;
    seen.add(`${a} ${b}`);
    links.push({ fact, ends: [a, b] });
  }
  return links;
}

const ordered = new WeakMap<Layout, readonly House[]>();

/** The facts of a digit in the houses of a layout, boxes before lines: a box is easier to see. */
export function houseFactsOf(layout: Layout, digit: Digit): Fact[] {
  const boxes = (house: House) => house.kind === 'box';
  const houses = ordered.get(layout) ?? [
    ...layout.houses.filter(boxes),
    ...layout.houses.filter((house) => !boxes(house)),
  ];
  ordered.set(layout, houses);
  return houses.map((house) => houseFact(layout, house, digit));
}

export interface ChainRule {
  readonly technique: string;
  /** How many links a chain has, at least and at most. */
  readonly fewest: number;
  readonly most: number;
}

/**
 * Chains of links in which the far end of each excludes the near end of the next: one of the two outer ends is
 * true, so what both exclude goes. Between two outer ends that have the same digit all the shortest chains are
 * found, so that what is found does not depend on any order. Facts: the links along the chain. Chains on the
 * same facts make one instance.
 */
export function findChains(
  board: Board,
  links: readonly Link[],
  { technique, fewest, most }: ChainRule,
): Finding[] {
  const { layout } = board;
  if (links.length < fewest) return [];
  /** A link walked in one direction: number `2 * link + direction`. */
  const entry = links.flatMap(({ ends }) => [ends[0], ends[1]]);
  const exit = links.flatMap(({ ends }) => [ends[1], ends[0]]);
  const before: number[][] = entry.map(() => []);
  const after: number[][] = entry.map(() => []);
  for (let from = 0; from < exit.length; from += 1) {
    for (let to = 0; to < entry.length; to += 1) {
      if (from >> 1 === to >> 1 || !conflicts(layout, exit[from], entry[to])) continue;
      before[to].push(from);
      after[from].push(to);
    }
  }
  const chains = new Map<string, { facts: Fact[]; struck: Candidate[] }>();
  for (const start of new Set(entry)) {
    const depth = depthsFrom(
      entry.flatMap((near, at) => (near === start ? [at] : [])),
      after,
      most,
    );
    for (const end of new Set(exit)) {
      if (end <= start || end % layout.size !== start % layout.size) continue;
      const arrivals = exit.flatMap((far, at) => (far === end && depth[at] > 0 ? [at] : []));
      const length = Math.min(...arrivals.map((at) => depth[at]));
      if (arrivals.length === 0 || length < fewest) continue;
      const struck = excludedByEach(board, [start, end]);
      if (struck.length === 0) continue;
      const walk = (at: number, behind: readonly number[]): void => {
        const path = [at, ...behind];
        if (depth[at] > 1) {
          for (const from of before[at]) if (depth[from] === depth[at] - 1) walk(from, path);
          return;
        }
        const facts = path.map((step) => links[step >> 1].fact);
        const key = [...facts].sort((a, b) => a - b).join(' ');
        const known = chains.get(key) ?? { facts, struck: [] };
        known.struck.push(...struck);
        chains.set(key, known);
      };
      for (const at of arrivals) if (depth[at] === length) walk(at, []);
    }
  }
  const findings: Finding[] = [];
  for (const { facts, struck } of chains.values()) {
    if (new Set(facts).size === facts.length) addStrikes(findings, board, technique, facts, struck);
  }
  return findings;
}

/** For each state how many links the shortest way to it has, from 1; 0 where there is none so short. */
function depthsFrom(
  starts: readonly number[],
  after: readonly (readonly number[])[],
  most: number,
): number[] {
  const depth: number[] = new Array(after.length).fill(0);
  for (const at of starts) depth[at] = 1;
  let front = [...starts];
  for (let length = 2; length <= most && front.length > 0; length += 1) {
    const next: number[] = [];
    for (const from of front) {
      for (const to of after[from]) {
        if (depth[to] !== 0) continue;
        depth[to] = length;
        next.push(to);
      }
    }
    front = next;
  }
  return depth;
}

/** Why a chain strikes: told from one outer end to the other, whatever the order of the facts. */
export function phraseOfChain(position: Position, { facts, conclusions }: Argument): string | null {
  const { layout } = position;
  if (conclusions.kind !== 'strikes') return null;
  const struck = conclusions.candidates;
  const places = facts.map((fact) => placesOf(position, fact));
  if (places.some((ends) => ends.length !== 2)) return null;
  const isOuter = (end: Candidate) => struck.every((x) => conflicts(layout, x, end));
  /** The rest of the way from a far end, through every list once, to an outer end. */
  const walk = (far: Candidate, left: readonly (readonly Candidate[])[]): Candidate[] | null => {
    if (left.length === 0) return isOuter(far) ? [far] : null;
    for (const ends of left) {
      for (const near of ends) {
        if (!conflicts(layout, far, near)) continue;
        const rest = walk(otherOf(ends, near), without(left, ends));
        if (rest) return [far, ...rest];
      }
    }
    return null;
  };
  for (const ends of places) {
    for (const start of ends.filter(isOuter)) {
      const steps = walk(otherOf(ends, start), without(places, ends));
      if (steps) return sayChain(layout, start, steps, struck);
    }
  }
  return null;
}

const otherOf = (ends: readonly Candidate[], end: Candidate): Candidate =>
  ends[0] === end ? ends[1] : ends[0];
const without = <T>(items: readonly T[], item: T): T[] => items.filter((other) => other !== item);

function sayChain(
  layout: Layout,
  start: Candidate,
  steps: readonly Candidate[],
  struck: readonly Candidate[],
): string {
  const sign = (x: Candidate) => digitName((x % layout.size) + 1);
  const then = steps.map((x) => `${sayCell(layout, x)} is ${sign(x)}`).join(', so ');
  const outer = list([start, steps[steps.length - 1]].map((x) => sayCell(layout, x)));
  const cells = list(struck.map((x) => sayCell(layout, x)));
  const see = struck.length === 1 ? 'sees' : 'see';
  return `If ${sayCell(layout, start)} is not ${sign(start)}, then ${then}. One of ${outer} is ${sign(start)}, and ${cells} ${see} both.`;
}
