import { houseFact } from '../argument/fact.ts';
import type { Fact } from '../argument/kernel.ts';
import type { Candidate, Digit, House, Layout } from '../grid/layout.ts';
import type { Board } from './board.ts';
import { addStrikes, excludedByEach } from './finding.ts';
import type { Finding } from './technique.ts';

/** One candidate, or several of one digit that stand together: it is true if one of them is. */
export type Node = readonly Candidate[];

/** A fact that has no place but those of two nodes: if it is not the one, it is the other. */
export interface Link {
  readonly fact: Fact;
  readonly ends: readonly [Node, Node];
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
    links.push({ fact, ends: [[a], [b]] });
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
  /** Whether the outer ends may be of two digits, or the same candidate. */
  readonly anyEnds?: boolean;
  /** Whether a chain is left out if shorter ones strike all that it strikes, or it without an outer link. */
  readonly shortestOnly?: boolean;
  /** Whether a chain of these links goes by this name; all do where nothing is said. */
  readonly accepts?: (links: readonly Link[]) => boolean;
}

/** The nodes at which links end, and what they exclude. */
class NodeTable {
  /** A link walked in one direction, number `2 * link + direction`: the nodes at which it starts and ends. */
  readonly entry: number[];
  readonly exit: number[];
  /** For each node the live candidates that conflict with each of its own, ascending. */
  readonly excluded: readonly (readonly Candidate[])[];
  /** For each node the nodes that it excludes, and the walks that start there. */
  readonly rivals: readonly (readonly number[])[];
  readonly entering: readonly number[][];
  /** For each node its digit, from 0. */
  readonly digits: readonly number[];

  constructor(board: Board, links: readonly Link[]) {
    const numbers = new Map<string, number>();
    const nodes: Node[] = [];
    const numberOf = (node: Node): number => {
      const key = node.join(' ');
      const known = numbers.get(key);
      if (known !== undefined) return known;
      numbers.set(key, nodes.length);
      nodes.push(node);
      return nodes.length - 1;
    };
    this.entry = links.flatMap(({ ends }) => [numberOf(ends[0]), numberOf(ends[1])]);
    this.exit = links.flatMap(({ ends }) => [numberOf(ends[1]), numberOf(ends[0])]);
    this.digits = nodes.map(([candidate]) => candidate % board.layout.size);
    this.excluded = nodes.map((node) => excludedByEach(board, node));
    const nodesWith = new Map<Candidate, number[]>();
    nodes.forEach((node, number) => {
      for (const candidate of node) nodesWith.set(candidate, [...(nodesWith.get(candidate) ?? []), number]);
    });
    this.rivals = this.excluded.map((candidates) => {
      const met = new Map<number, number>();
      for (const candidate of candidates) {
        for (const number of nodesWith.get(candidate) ?? []) met.set(number, (met.get(number) ?? 0) + 1);
      }
      return [...met].flatMap(([number, count]) => (count === nodes[number].length ? [number] : []));
    });
    this.entering = nodes.map(() => []);
    this.entry.forEach((node, walk) => {
      this.entering[node].push(walk);
    });
  }

  /** The live candidates that two nodes both exclude, ascending. */
  excludedByBoth(a: number, b: number): Candidate[] {
    const [one, other] = [this.excluded[a], this.excluded[b]];
    const both: Candidate[] = [];
    for (let i = 0, j = 0; i < one.length && j < other.length; ) {
      if (one[i] === other[j]) both.push(one[i]);
      if (one[i] <= other[j]) i += 1;
      else j += 1;
    }
    return both;
  }
}

/** Two outer ends between which there are chains, the walks that arrive, and how far each walk is. */
interface OuterPair {
  readonly arrivals: readonly number[];
  readonly depth: readonly number[];
  readonly length: number;
  readonly struck: readonly Candidate[];
}

/**
 * Chains of links in which the far end of each excludes the near end of the next: one of the two outer ends is
 * true, so what both exclude goes. Between two outer ends all the shortest chains are found, so that what is
 * found does not depend on any order. Facts: the links along the chain. Chains on the same facts make one
 * instance, so a chain that closes has the strikes of all its turns.
 */
export function findChains(
  board: Board,
  links: readonly Link[],
  { technique, fewest, most, anyEnds = false, shortestOnly = false, accepts }: ChainRule,
): Finding[] {
  if (Math.min(links.length, most) < fewest) return [];
  const table = new NodeTable(board, links);
  const { entry, exit, rivals, entering, digits } = table;
  const after = exit.map((node, from) =>
    rivals[node].flatMap((next) => entering[next].filter((to) => to >> 1 !== from >> 1)),
  );
  const before: number[][] = entry.map(() => []);
  after.forEach((next, from) => {
    for (const to of next) before[to].push(from);
  });
  const arriving: number[][] = rivals.map(() => []);
  exit.forEach((node, walk) => {
    arriving[node].push(walk);
  });
  const pairs: OuterPair[] = [];
  const shortest = new Map<Candidate, number>();
  for (let start = 0; start < rivals.length; start += 1) {
    if (entering[start].length === 0) continue;
    const depth = depthsFrom(entering[start], after, most);
    for (let end = anyEnds ? start : start + 1; end < rivals.length; end += 1) {
      if (!anyEnds && digits[end] !== digits[start]) continue;
      const arrivals = arriving[end].filter((walk) => depth[walk] > 0);
      const length = Math.min(...arrivals.map((walk) => depth[walk]));
      if (arrivals.length === 0 || length < fewest) continue;
      const struck = table.excludedByBoth(start, end);
      for (const x of struck) shortest.set(x, Math.min(length, shortest.get(x) ?? length));
      if (struck.length > 0) pairs.push({ arrivals, depth, length, struck });
    }
  }
  const chains = new Map<string, { links: Link[]; struck: Candidate[] }>();
  for (const { arrivals, depth, length, struck } of pairs) {
    if (shortestOnly && struck.every((x) => shortest.get(x) !== length)) continue;
    const follow = (at: number, behind: readonly number[]): void => {
      const path = [at, ...behind];
      if (depth[at] > 1) {
        for (const from of before[at]) if (depth[from] === depth[at] - 1) follow(from, path);
        return;
      }
      const inner = [exit[path[path.length - 2]], entry[path[1]]];
      const isPadded = (x: Candidate) => inner.some((node) => table.excluded[node].includes(x));
      const needing = shortestOnly ? struck.filter((x) => !isPadded(x)) : struck;
      if (needing.length === 0) return;
      const own = path.map((walk) => links[walk >> 1]);
      const key = own
        .map(({ fact }) => fact)
        .sort((a, b) => a - b)
        .join(' ');
      const known = chains.get(key) ?? { links: own, struck: [] };
      known.struck.push(...needing);
      chains.set(key, known);
    };
    for (const walk of arrivals) if (depth[walk] === length) follow(walk, []);
  }
  const findings: Finding[] = [];
  for (const { links: own, struck } of chains.values()) {
    const facts = own.map(({ fact }) => fact);
    if (new Set(facts).size !== facts.length || (accepts && !accepts(own))) continue;
    addStrikes(findings, board, technique, facts, struck);
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
