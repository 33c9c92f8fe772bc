import type { Argument, Fact } from '../argument/kernel.ts';
import { list, sayCell, startSentence } from '../argument/words.ts';
import { type Candidate, conflicts, type Layout } from '../grid/layout.ts';
import { digitName } from '../grid/names.ts';
import type { Position } from '../grid/position.ts';
import { Board } from './board.ts';
import type { Node } from './chains.ts';
import { groupedLinksOf } from './grouped-links.ts';
import { sayNoneOf, sayStruckSee } from './struck-words.ts';

/** So many steps of a chain are said in one breath. */
const breath = 3;

/** A chain as it is walked: where it starts, and what each link makes true, up to the other outer end. */
export interface WalkedChain {
  readonly start: Node;
  readonly steps: readonly Node[];
}

/**
 * A way through all of some facts, each a link, from one outer end to the other; null where they make no chain
 * that strikes what is struck.
 */
export function walkChain(
  board: Board,
  facts: readonly Fact[],
  struck: readonly Candidate[],
): WalkedChain | null {
  const { layout } = board;
  const links = facts.map((fact) => {
    const places = board.placesOf(fact);
    const [a, b] = places;
    if (places.length === 2) return [[[a], [b]] as const];
    return groupedLinksOf(board, fact).map(({ ends }) => ends);
  });
  if (links.some((splits) => splits.length === 0)) return null;
  const excludes = (a: Node, b: Node) => a.every((one) => b.every((other) => conflicts(layout, one, other)));
  const isOuter = (node: Node) => excludes(struck, node);
  const walk = (far: Node, left: typeof links): Node[] | null => {
    if (left.length === 0) return isOuter(far) ? [far] : null;
    for (const splits of left) {
      for (const ends of splits) {
        for (const turn of [0, 1] as const) {
          if (!excludes(far, ends[turn])) continue;
          const rest = walk(
            ends[1 - turn],
            left.filter((other) => other !== splits),
          );
          if (rest) return [far, ...rest];
        }
      }
    }
    return null;
  };
  for (const splits of links) {
    for (const ends of splits) {
      for (const turn of [0, 1] as const) {
        const start = ends[turn];
        const steps = isOuter(start)
          ? walk(
              ends[1 - turn],
              links.filter((other) => other !== splits),
            )
          : null;
        if (steps) return { start, steps };
      }
    }
  }
  return null;
}

/** Why a chain strikes: told from one outer end to the other, whatever the order of the facts. */
export function phraseOfChain(position: Position, argument: Argument): string | null {
  const { facts, conclusions } = argument;
  if (conclusions.kind !== 'strikes') return null;
  const chain = walkChain(Board.from(position), facts, conclusions.candidates);
  return chain && sayChain(position.layout, chain, conclusions.candidates);
}

function sayChain(layout: Layout, { start, steps }: WalkedChain, struck: readonly Candidate[]): string {
  const sign = ([candidate]: Node) => digitName((candidate % layout.size) + 1);
  const cells = (node: Node, last: 'and' | 'or') =>
    list(
      node.map((candidate) => sayCell(layout, candidate)),
      last,
    );
  const holds = (node: Node) =>
    node.length === 1 ? `${cells(node, 'and')} is ${sign(node)}` : `${sign(node)} is in ${cells(node, 'or')}`;
  const fails = (node: Node) =>
    node.length === 1
      ? `${cells(node, 'and')} is not ${sign(node)}`
      : `${sign(node)} is not in ${cells(node, 'or')}`;
  const said: string[] = [];
  for (let at = 0; at < steps.length; at += breath) {
    const some = steps
      .slice(at, at + breath)
      .map(holds)
      .join(', so ');
    said.push(at === 0 ? `If ${fails(start)}, then ${some}.` : `With that, ${some}.`);
  }
  const end = steps[steps.length - 1];
  if (start.join() === end.join()) said.push(`So ${holds(start)} in any case.`);
  else if (sign(start) === sign(end) && struck.every((x) => sign([x]) === sign(start))) {
    const outer = [...new Set([...start, ...end])];
    said.push(
      `One of ${cells(outer, 'and')} is ${sign(start)}, and ${sayStruckSee(layout, struck)} ${outer.length === 2 ? 'both' : 'all'}.`,
    );
  } else {
    said.push(
      `${startSentence(holds(start))}, or ${holds(end)}: either way there is ${sayNoneOf(layout, struck)}.`,
    );
  }
  return said.join(' ');
}
