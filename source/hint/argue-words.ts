import { factName, weightOf } from '../argument/fact.ts';
import { type CheckedArgument, type Fact, placesOf } from '../argument/kernel.ts';
import { list, sayFactIn, sayPlace, sayTopic } from '../argument/words.ts';
import { type Candidate, cellOf, conflicts, digitOf, type Layout } from '../grid/layout.ts';
import { cellName, digitName, placementName, strikeName } from '../grid/names.ts';
import type { Position } from '../grid/position.ts';
import type { Holds, Refused, Stated, WeakSpot } from '../path/argue.ts';
import { techniqueById } from '../techniques/catalogue.ts';
import { drawFacts, type Lettered, lettered } from './draw.ts';
import { sayLighterSide } from './find-words.ts';
import type { Drawing, DrawnCandidate, HintLine } from './rung.ts';
import { byDigit, cellsInARow, sayFacts, sayNumber, sentence } from './words.ts';

/** What is said and drawn of an argument that somebody states. */
export interface ArgueAnswer {
  readonly holds: boolean;
  /** The answer in a sentence or two: `Holds. X-wing, 2 facts.`, `Does not hold.` */
  readonly headline: string;
  /** What stands below it: the facts, what follows or was overlooked, what was not needed. */
  readonly lines: readonly HintLine[];
  readonly drawing: Drawing;
}

const line = (sign: string, words: string): HintLine => ({ sign, text: sentence(words) });

/** Says and draws what the judgement of a statement comes to. */
export const sayArgued = (stated: Stated, argued: Holds | Refused): ArgueAnswer =>
  argued.kind === 'holds' ? sayHolds(argued) : sayRefused(stated, argued);

const factLines = ({ layout }: Position, facts: readonly Lettered[]): HintLine[] =>
  facts.map(({ fact, letter, places }) => line(letter, sayFactIn(layout, fact, places)));

const inFigures = (facts: number): string => `${facts} ${facts === 1 ? 'fact' : 'facts'}`;

/** `X-wing, 2 facts`, or `3 facts, no name`. */
function sayPattern({ position, argument }: CheckedArgument): string {
  const weight = inFigures(weightOf(position.layout, argument));
  const name = techniqueById(argument.technique)?.name;
  return name ? `${name}, ${weight}` : `${weight}, no name`;
}

/** `r5c8 had lost its 1 already`, `r5c9 is 4`: strikes that there was nothing left of to strike. */
function alreadyLines(
  { layout, placed }: Position,
  { alreadyStruck: candidates, leftOut }: Holds | Refused,
): HintLine[] {
  const isPlaced = (x: Candidate) => placed[cellOf(layout, x)] !== 0;
  const cells = new Set(candidates.filter(isPlaced).map((x) => cellOf(layout, x)));
  const open = byDigit(
    layout,
    candidates.filter((x) => !isPlaced(x)),
  );
  return [
    ...open.map(([digit, group]) => {
      const names = list(group.map((x) => cellName(layout, cellOf(layout, x))));
      return line(
        '/',
        `${names} had lost ${group.length === 1 ? 'its' : 'their'} ${digitName(digit)} already`,
      );
    }),
    ...[...cells].map((cell) => line('/', `${cellName(layout, cell)} is ${digitName(placed[cell])}`)),
    ...byDigit(layout, leftOut).map(([digit, group]) => {
      const names = list(group.map((x) => cellName(layout, cellOf(layout, x))));
      return line(
        '!',
        `${digitName(digit)} in ${names} is left out by the marks, and nothing else rules it out`,
      );
    }),
  ];
}

const drawnAlready = (position: Position, candidates: readonly Candidate[]): DrawnCandidate[] =>
  candidates
    .filter((x) => position.placed[cellOf(position.layout, x)] === 0)
    .map((candidate) => ({ candidate, role: 'out-already' }));

function sayHolds(argued: Holds): ArgueAnswer {
  const { checked, needed, notNeeded, parts, alreadyStruck, weakSpots } = argued;
  const { position, argument } = checked;
  const { layout } = position;
  const { conclusions } = argument;
  const names = (facts: readonly Fact[]) => facts.map((fact) => factName(layout, fact));
  const facts = lettered(position, needed);
  const enough =
    notNeeded.length === 0
      ? 'Holds.'
      : needed.length === 1
        ? `Holds, and ${names(needed)[0]} alone is enough.`
        : `Holds, and ${list(names(needed))} are enough.`;
  const what =
    conclusions.kind === 'breaks'
      ? needed.length === 1
        ? 'this fact cannot be met'
        : `these ${sayFacts(needed.length)} cannot all be met`
      : sayPattern(checked);
  const follows: HintLine[] =
    conclusions.kind === 'breaks'
      ? []
      : conclusions.kind === 'placements'
        ? conclusions.candidates.map((x) =>
            line('=', `${cellName(layout, cellOf(layout, x))} is ${digitName(digitOf(layout, x))}`),
          )
        : byDigit(layout, conclusions.candidates).map(([digit, group]) =>
            line('×', `${digitName(digit)} goes from ${cellsInARow(layout, group)}`),
          );
  const drawn: DrawnCandidate[] =
    conclusions.kind === 'breaks'
      ? []
      : conclusions.candidates.map((candidate) => ({
          candidate,
          role: conclusions.kind === 'strikes' ? 'strike' : 'placement',
        }));
  return {
    holds: true,
    headline: `${enough} ${sentence(what)}`,
    lines: [
      ...weakSpots.map((spot) => line('!', sayWeakSpot(layout, spot))),
      ...factLines(position, facts),
      ...follows,
      ...alreadyLines(position, argued),
      ...(parts.length > 1 ? parts.map((part) => line('', sayPart(part))) : []),
      ...(conclusions.kind === 'strikes' ? sayLighterSide(position, needed) : []),
      ...(notNeeded.length > 0 ? [line('', `not needed: ${names(notNeeded).join(' ')}`)] : []),
    ],
    drawing: drawFacts(position, facts, [...drawn, ...drawnAlready(position, alreadyStruck)]),
  };
}

/** `r2c3<>1 r2c7<>1 by 1@c1 1@c9: X-wing, 2 facts`: one of several arguments that were stated as one. */
function sayPart(part: CheckedArgument): string {
  const { layout } = part.position;
  const { conclusions, facts } = part.argument;
  const name = conclusions.kind === 'placements' ? placementName : strikeName;
  const concluded = conclusions.kind === 'breaks' ? [] : conclusions.candidates.map((x) => name(layout, x));
  return `${concluded.join(' ')} by ${facts.map((fact) => factName(layout, fact)).join(' ')}: ${sayPattern(part)}`;
}

/** `weak spot: 7 of column 2. The marks say r3 or r8, and nothing rules out r5`. */
function sayWeakSpot(layout: Layout, { fact, marked, leftOut }: WeakSpot): string {
  const places = (some: readonly Candidate[]) =>
    list(
      some.map((x) => sayPlace(layout, fact, x)),
      'or',
    );
  const marks = marked.length === 0 ? 'have no place left' : `say ${places(marked)}`;
  return `weak spot: ${sayTopic(layout, fact)}. The marks ${marks}, and nothing rules out ${places(leftOut)}`;
}

/** Why an argument was refused, in a headline and lines. */
function sayRefused(stated: Stated, refused: Refused): ArgueAnswer {
  const { position, reason, candidate, alreadyStruck, supported, isRepairable } = refused;
  const { layout } = position;
  const facts = lettered(position, stated.facts);
  const lines = [...factLines(position, facts)];
  const bare = { holds: false, headline: 'Does not hold.', drawing: drawFacts(position, facts) };
  const says = (sign: string, words: string): ArgueAnswer => ({
    ...bare,
    lines: [...lines, line(sign, words)],
  });
  switch (reason) {
    case 'breaks':
      return says(
        '!',
        'the facts cannot all be met, so nothing can be shown by them but that something is wrong',
      );
    case 'not-one-solution':
      return says('!', 'it takes for granted that the puzzle has one solution, and that is not known');
    case 'already-struck':
      return {
        ...bare,
        headline: 'Nothing new.',
        lines: [...lines, ...alreadyLines(position, refused)],
        drawing: drawFacts(position, facts, drawnAlready(position, alreadyStruck)),
      };
    case 'no-fact-holds-it':
    case 'open': {
      const more: HintLine[] = [
        ...sayFollowing(layout, stated, supported),
        ...alreadyLines(position, refused),
        ...(isRepairable ? [line('', 'one more fact of the grid would make it hold')] : []),
      ];
      if (reason === 'no-fact-holds-it' && candidate !== undefined) {
        const cell = cellName(layout, cellOf(layout, candidate));
        const words = `none of the facts has ${digitName(digitOf(layout, candidate))} in ${cell} among its places`;
        return { ...bare, lines: [...lines, line('!', words), ...more] };
      }
      const open = sayOpen(stated, refused);
      return {
        ...bare,
        lines: [...lines, ...open.lines, ...more],
        drawing: drawOpen(stated, refused, facts, open.overlooked),
      };
    }
  }
}

/** What of a statement does follow, where some of it does not. */
function sayFollowing(layout: Layout, { conclusions }: Stated, supported: readonly Candidate[]): HintLine[] {
  if (supported.length === 0) return [];
  const name = conclusions.kind === 'placements' ? placementName : strikeName;
  const names = supported.map((x) => name(layout, x));
  return [line('', `${list(names)} ${names.length === 1 ? 'does' : 'do'} follow`)];
}

/**
 * The places of an arrangement in the order in which the facts close once the conclusion is denied: each time
 * the fact that has fewest places left, of several the one written first.
 */
function inClosingOrder(stated: Stated, { position, candidate, arrangement = [] }: Refused): Candidate[] {
  const { layout } = position;
  const denied = stated.conclusions.kind === 'strikes' && candidate !== undefined ? [candidate] : [];
  let rest = stated.facts.map((fact, i) => ({ place: arrangement[i], left: placesOf(position, fact) }));
  const chosen: Candidate[] = [...denied];
  while (rest.length > 0) {
    for (const one of rest) {
      one.left = one.left.filter((place) => chosen.every((other) => !conflicts(layout, place, other)));
    }
    const next = rest.reduce((a, b) => (b.left.length < a.left.length ? b : a));
    if (!chosen.includes(next.place)) chosen.push(next.place);
    rest = rest.filter((one) => one !== next);
  }
  return chosen.slice(denied.length);
}

/** `3 in r1c7 and r4c8, 5 in r2c2`: places by digit, in their order. */
function sayPlaces(layout: Layout, places: readonly Candidate[]): string {
  const groups = new Map<number, string[]>();
  for (const place of places) {
    const digit = digitOf(layout, place);
    groups.set(digit, [...(groups.get(digit) ?? []), cellName(layout, cellOf(layout, place))]);
  }
  const said = [...groups].map(([digit, cells]) => `${digitName(digit)} in ${list(cells)}`);
  return said.length < 2 ? said.join('') : `${said.slice(0, -1).join(', ')} and ${said[said.length - 1]}`;
}

const allHold = (facts: number): string =>
  facts === 1 ? 'the fact holds' : facts === 2 ? 'both facts hold' : `all ${sayNumber(facts)} facts hold`;

/** Says the arrangement that keeps the candidate, and which place of it was overlooked. */
function sayOpen(
  stated: Stated,
  refused: Refused,
): { readonly lines: HintLine[]; readonly overlooked: Candidate | null } {
  const { position, candidate } = refused;
  const { layout } = position;
  const { conclusions, facts } = stated;
  const places = inClosingOrder(stated, refused);
  const holding = allHold(facts.length);
  if (conclusions.kind === 'breaks' || candidate === undefined) {
    return { lines: [line('=', `with ${sayPlaces(layout, places)}, ${holding}`)], overlooked: null };
  }
  const cell = cellName(layout, cellOf(layout, candidate));
  const digit = digitName(digitOf(layout, candidate));
  if (places.length === 0) {
    const those = facts.filter((fact) => placesOf(position, fact).includes(candidate));
    const names = list(those.map((fact) => factName(layout, fact)));
    return {
      lines: [line('=', `${digit} in ${cell} is itself a place of ${names}`)],
      overlooked: null,
    };
  }
  const isPlaced = conclusions.kind === 'placements';
  const overlooked =
    (isPlaced ? places.find((place) => conflicts(layout, place, candidate)) : undefined) ??
    places[places.length - 1];
  const oneDigit = [...places, candidate].every(
    (place) => digitOf(layout, place) === digitOf(layout, candidate),
  );
  const where = cellName(layout, cellOf(layout, overlooked));
  const what = oneDigit ? where : `${digitName(digitOf(layout, overlooked))} in ${where}`;
  const end = isPlaced ? `${cell} is not ${digit}` : `${cell} can be ${digit}`;
  return {
    lines: [
      line('*', `overlooked: ${what}`),
      line('=', `with ${sayPlaces(layout, places)}, ${holding} and ${end}`),
    ],
    overlooked,
  };
}

/** Draws the arrangement: what each fact has chosen, what was overlooked, and the candidate that stays. */
function drawOpen(
  { conclusions }: Stated,
  refused: Refused,
  facts: readonly Lettered[],
  overlooked: Candidate | null,
): Drawing {
  const { position, candidate, arrangement = [], alreadyStruck, supported } = refused;
  const chosenBy = new Map(facts.map(({ letter }, i) => [letter, arrangement[i]]));
  const more: DrawnCandidate[] = [...drawnAlready(position, alreadyStruck)];
  if (overlooked !== null) {
    const { letter } = facts[arrangement.indexOf(overlooked)];
    more.push({ candidate: overlooked, role: 'overlooked', letter });
  }
  const role = conclusions.kind === 'strikes' ? 'strike' : 'placement';
  more.push(...supported.map((each): DrawnCandidate => ({ candidate: each, role })));
  if (candidate !== undefined && conclusions.kind === 'strikes') {
    more.push({ candidate, role: 'placement' });
  }
  const drawing = drawFacts(position, facts, more);
  return {
    ...drawing,
    candidates: drawing.candidates.map((drawn) =>
      drawn.role === 'fact' && chosenBy.get(drawn.letter ?? '') !== drawn.candidate
        ? { ...drawn, role: 'fact-not-chosen' }
        : drawn,
    ),
  };
}
