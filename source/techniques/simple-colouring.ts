import type { Fact } from '../argument/kernel.ts';
import { startSentence } from '../argument/words.ts';
import { type Candidate, conflicts } from '../grid/layout.ts';
import type { Board } from './board.ts';
import { houseFactsOf, type Link, linksOf } from './chains.ts';
import { addStrikes } from './finding.ts';
import { singleDigit } from './single-digit.ts';
import { sayStruckSee } from './struck-words.ts';
import type { Finding, Technique } from './technique.ts';

/** Cells tied together by links of one digit, in two colours: all of one colour are true, or all of the other. */
interface Coloured {
  readonly facts: readonly Fact[];
  readonly colours: readonly [readonly Candidate[], readonly Candidate[]];
}

/**
 * The places of a digit that houses with two of them tie together, coloured in turn: one colour is true. What
 * sees both colours goes; a colour of which two see each other goes altogether. Facts: all the ties, each next
 * to an earlier one; more than most strikes need.
 */
export const simpleColouring: Technique = {
  id: 'simple-colouring',
  name: 'Simple colouring',
  weight: 27,
  assumes: 'nothing',
  find: (board) => {
    const { layout } = board;
    const findings: Finding[] = [];
    for (let digit = 1; digit <= layout.size; digit += 1) {
      for (const { facts, colours } of coloured(linksOf(board, houseFactsOf(layout, digit)))) {
        const sees = (x: Candidate, colour: readonly Candidate[]) =>
          colour.some((place) => conflicts(layout, x, place));
        const wrong = colours.filter((colour) => colour.some((place) => sees(place, colour)));
        const trapped = othersOf(board, digit, colours.flat()).filter((x) =>
          colours.every((colour) => sees(x, colour)),
        );
        addStrikes(findings, board, 'simple-colouring', facts, [...wrong.flat(), ...trapped]);
      }
    }
    return findings;
  },
  phrase: (position, argument) => {
    const shape = singleDigit(position, argument);
    if (!shape || shape.places.some((places) => places.length !== 2)) return null;
    const links = argument.facts.map(
      (fact, i): Link => ({ fact, ends: [[shape.places[i][0]], [shape.places[i][1]]] }),
    );
    const [found, ...more] = coloured(links);
    if (!found || more.length > 0) return null;
    const sees = (a: Candidate, b: Candidate) => conflicts(position.layout, a, b);
    const [one, other] = found.colours.map((colour) => [...colour].sort((a, b) => a - b));
    const either = `Either ${shape.say(one)} are all ${shape.sign}, or ${shape.say(other)} are.`;
    const wrong = found.colours.find((colour) => shape.struck.every((x) => colour.includes(x)));
    const clash = wrong?.filter((place) => wrong.some((twin) => sees(place, twin))).sort((a, b) => a - b);
    if (clash && clash.length > 0) return `${either} ${shape.say(clash)} see each other, so it is not they.`;
    return `${either} ${startSentence(sayStruckSee(position.layout, shape.struck))} some of both.`;
  },
};

const othersOf = (board: Board, digit: number, known: readonly Candidate[]): Candidate[] =>
  Array.from({ length: board.layout.cellCount }, (_, cell) => cell * board.layout.size + digit - 1).filter(
    (x) => board.live[x] === 1 && !known.includes(x),
  );

/** The parts that hang together, of two links or more. A part that cannot be coloured in two is left out. */
function coloured(links: readonly Link[]): Coloured[] {
  const parts: Coloured[] = [];
  const left = new Set(links);
  for (const first of links) {
    if (!left.has(first)) continue;
    const colourOf = new Map<Candidate, 0 | 1>([[first.ends[0][0], 0]]);
    const facts: Fact[] = [];
    let clash = false;
    for (let grown = true; grown; ) {
      grown = false;
      for (const link of left) {
        const [[a], [b]] = link.ends;
        const colour = colourOf.get(a) ?? flip(colourOf.get(b));
        if (colour === undefined) continue;
        left.delete(link);
        facts.push(link.fact);
        clash ||= colourOf.get(b) === colour;
        colourOf.set(a, colour);
        colourOf.set(b, colour === 0 ? 1 : 0);
        grown = true;
      }
    }
    const of = (wanted: 0 | 1) =>
      [...colourOf].flatMap(([place, colour]) => (colour === wanted ? [place] : []));
    if (!clash && facts.length > 1) parts.push({ facts, colours: [of(0), of(1)] });
  }
  return parts;
}

const flip = (colour: 0 | 1 | undefined): 0 | 1 | undefined =>
  colour === undefined ? undefined : colour === 0 ? 1 : 0;
