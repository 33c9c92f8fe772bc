import { withClaims } from '../argument/claim.ts';
import { factName, factParts, weightOf } from '../argument/fact.ts';
import type { Argument, CheckedArgument, Fact, OneSolutionToken } from '../argument/kernel.ts';
import { list, sayFactIn, sayTopic } from '../argument/words.ts';
import { type Candidate, cellOf, type Digit, digitOf } from '../grid/layout.ts';
import { cellName, digitName, placementName, sayHouse, strikeName } from '../grid/names.ts';
import type { Position } from '../grid/position.ts';
import { nextStep } from '../path/next.ts';
import type { Broken, Step, View, Written } from '../path/step.ts';
import { techniqueById } from '../techniques/catalogue.ts';
import { alreadyOut } from './already-out.ts';
import { sayCases } from './cases.ts';
import { drawFacts, drawHouse, type Lettered, lettered } from './draw.ts';
import type { DrawnCandidate, HintLine, HintRung, Ladder } from './rung.ts';
import { houseToLookAt } from './where.ts';
import { byDigit, cellsInARow, sayFacts, sayNumber, sentence } from './words.ts';

const schema = 1;

/** The ladder for what a person has before them; null where there is no step to show. */
export function hintFor(view: View, token?: OneSolutionToken): Ladder | null {
  const step = nextStep(view, token);
  return step && ladderFor(step, withClaims(view.position, view.claims));
}

/** Builds the five rungs of a step, as seen from the position `start` in which the person stands. */
export function ladderFor(step: Step | Broken, start: Position): Ladder {
  const { layout } = start;
  const parts = step.kind === 'step' ? step.parts : [step.part];
  const written = step.kind === 'step' ? step.written : null;
  const facts = lettered(
    start,
    parts.flatMap(({ argument }) => argument.facts),
  );
  const concluded = parts.flatMap(({ argument }) => candidatesOf(argument));
  const house = houseToLookAt(
    layout,
    facts.map(({ fact }) => fact),
    concluded,
  );
  const digits = digitsOf(start, facts);
  const techniques = parts.map(({ argument }) => nameOf(argument));
  const broken = step.kind === 'broken';

  const whereJson = { schema, rung: 'where', house: house.name };
  const run = step.kind === 'step' && step.parts.length > 1 ? { weights: step.weights } : {};
  const digitsJson = { ...whereJson, rung: 'digits', digits, weight: step.weight, ...run };
  const technique = parts.map(({ argument }) => argument.technique).join(' + ');
  const patternJson = { ...digitsJson, rung: 'pattern', technique: broken ? 'breaks' : technique };
  const cellNames = drawFacts(start, facts).cells.map((cell) => cellName(layout, cell));
  const factNames = facts.map(({ fact }) => factName(layout, fact));
  const cellsJson = { ...patternJson, rung: 'cells', facts: factNames, cells: cellNames };
  const prose = parts.flatMap((part) => proseOf(part));
  const stated = [...factLines(start, facts), ...conclusionLines(parts, written)];
  const last = argumentJson(parts[parts.length - 1]);
  const whyJson = {
    ...cellsJson,
    rung: 'why',
    argument: last,
    ...(parts.length > 1 && { parts: parts.map(argumentJson) }),
    prose: (prose.length > 0 ? prose : stated.map(({ text }) => text)).join(' '),
  };

  const say = (text: string, sign = ''): HintLine => ({ sign, text: sentence(text) });
  const look = broken
    ? say(`look at ${sayHouse(house)}: something there cannot be right`, '!')
    : say(`look at ${sayHouse(house)}`);
  const digitWords = digits.map((digit) => digitName(digit));
  const weights = step.kind === 'step' ? step.weights : [step.weight];
  const facing = sayWeights(weights);
  const about = digits.length === 1 ? 'digit' : 'digits';
  const digitLine = say(digits.length === 0 ? facing : `${about} ${list(digitWords)}. ${sentence(facing)}`);
  const patternLine = broken
    ? say(facts.length === 1 ? 'this fact cannot hold' : 'these facts cannot all hold', '!')
    : say(sayTechniques(techniques));
  const rung = (rest: Omit<HintRung, 'json'>, json: HintRung['json']): HintRung => ({ ...rest, json });
  return {
    kind: step.kind,
    written,
    step,
    rungs: [
      rung({ rung: 'where', lines: [look], drawing: drawHouse(house) }, whereJson),
      rung({ rung: 'digits', lines: [look, digitLine], drawing: drawHouse(house) }, digitsJson),
      rung(
        { rung: 'pattern', lines: [look, digitLine, patternLine], drawing: drawHouse(house) },
        patternJson,
      ),
      rung({ rung: 'cells', lines: factLines(start, facts), drawing: drawFacts(start, facts) }, cellsJson),
      rung(
        {
          rung: 'why',
          lines: [...stated, ...prose.map((text) => ({ sign: '', text }))],
          drawing: drawFacts(start, facts, drawnConclusions(parts)),
        },
        whyJson,
      ),
    ],
  };
}

/** `Two facts`; for a run of several parts `Three parts, one fact each` or `Two parts: one fact, then two facts`. */
function sayWeights(weights: readonly number[]): string {
  const words = weights.map(sayFacts);
  if (words.length === 1) return words[0];
  const parts = `${sayNumber(words.length)} parts`;
  return new Set(words).size === 1 ? `${parts}, ${words[0]} each` : `${parts}: ${words.join(', then ')}`;
}

/** `X-wing`; for a run `Pointing twice, then hidden single`. */
function sayTechniques(names: readonly string[]): string {
  const runs: { name: string; times: number }[] = [];
  for (const name of names) {
    const last = runs[runs.length - 1];
    if (last?.name === name) last.times += 1;
    else runs.push({ name, times: 1 });
  }
  const often = (times: number) => (times === 1 ? '' : times === 2 ? ' twice' : ` ${sayNumber(times)} times`);
  return runs.map(({ name, times }, i) => (i === 0 ? name : lowerFirst(name)) + often(times)).join(', then ');
}

const lowerFirst = (name: string): string =>
  /^[A-Z][a-z]/.test(name) ? name.charAt(0).toLowerCase() + name.slice(1) : name;

const candidatesOf = (argument: Argument): readonly Candidate[] =>
  argument.conclusions.kind === 'breaks' ? [] : argument.conclusions.candidates;

/** The technique's name, or how many facts there are and that they have none. */
function nameOf(argument: Argument): string {
  const name = techniqueById(argument.technique)?.name;
  return name ?? `${sayFacts(argument.facts.length)}, no name`;
}

/** The digits of house facts and the live candidates of cell facts, ascending. */
function digitsOf(position: Position, facts: readonly Lettered[]): Digit[] {
  const { layout } = position;
  const digits = facts.flatMap(({ fact, places }) => {
    const parts = factParts(layout, fact);
    return parts.kind === 'house' ? [parts.digit] : places.map((candidate) => digitOf(layout, candidate));
  });
  return [...new Set(digits)].sort((a, b) => a - b);
}

const factLines = (position: Position, facts: readonly Lettered[]): HintLine[] =>
  facts.map(({ fact, letter, places }) => ({
    sign: letter,
    text: sentence(twiceIn(position, fact)?.cells ?? sayFactIn(position.layout, fact, places)),
  }));

/** For the fact of a cell whose digit stands in a house of it once more: which cells, and which house; else null. */
function twiceIn({ layout, placed }: Position, fact: Fact): { cells: string; house: string } | null {
  const parts = factParts(layout, fact);
  if (parts.kind !== 'cell' || placed[parts.cell] === 0) return null;
  const { cell } = parts;
  const digit = placed[cell];
  const isTwin = (other: number): boolean => other !== cell && placed[other] === digit;
  const house = layout.housesOf[cell]
    .map((index) => layout.houses[index])
    .find(({ cells }) => cells.some(isTwin));
  const twin = house?.cells.find(isTwin);
  if (!house || twin === undefined) return null;
  return {
    cells: `${cellName(layout, cell)} and ${cellName(layout, twin)} are both ${digitName(digit)}`,
    house: `${sayHouse(house)} can have only one ${digitName(digit)}`,
  };
}

/** The phrase of the technique, or prose from the order in which the cases close; none for a digit seen twice. */
function proseOf({ position, argument }: CheckedArgument): string[] {
  if (argument.facts.length === 1 && twiceIn(position, argument.facts[0])) return [];
  const phrase = techniqueById(argument.technique)?.phrase?.(position, argument);
  return phrase ? [sentence(phrase)] : sayCases(position, argument);
}

function conclusionLines(parts: readonly CheckedArgument[], written: Written | null): HintLine[] {
  const lines = parts.flatMap(({ position, argument }): HintLine[] => {
    const { layout } = position;
    const { conclusions } = argument;
    if (conclusions.kind === 'breaks') {
      const twice = argument.facts.length === 1 ? twiceIn(position, argument.facts[0]) : null;
      if (twice) return [{ sign: '!', text: sentence(twice.house) }];
      const topics = argument.facts.map((fact) => sayTopic(layout, fact));
      const fails = topics.length === 1 ? 'cannot be met' : 'cannot all be met';
      return [{ sign: '!', text: sentence(`${list(topics)} ${fails}`) }];
    }
    if (conclusions.kind === 'placements') {
      return conclusions.candidates.map((c) => ({
        sign: '=',
        text: sentence(`${cellName(layout, cellOf(layout, c))} is ${digitName(digitOf(layout, c))}`),
      }));
    }
    const goes = (candidates: readonly Candidate[], sign: string, verb: string): HintLine[] =>
      byDigit(layout, candidates).map(([digit, group]) => ({
        sign,
        text: sentence(`${digitName(digit)} ${verb} ${cellsInARow(layout, group)}`),
      }));
    const before = alreadyOut(position, argument);
    return [...goes(conclusions.candidates, '×', 'goes from'), ...goes(before, '/', 'had gone before from')];
  });
  if (written?.kind !== 'spot') return lines;
  const { layout } = parts[0].position;
  return [
    ...lines,
    { sign: '=', text: sentence(`left: ${sayFactIn(layout, written.fact, written.places)}`) },
  ];
}

function drawnConclusions(parts: readonly CheckedArgument[]): DrawnCandidate[] {
  return parts.flatMap(({ position, argument }): DrawnCandidate[] => {
    const { conclusions } = argument;
    if (conclusions.kind === 'breaks') return [];
    const role = conclusions.kind === 'strikes' ? 'strike' : 'placement';
    const own = conclusions.candidates.map((candidate): DrawnCandidate => ({ candidate, role }));
    const before = alreadyOut(position, argument);
    return [...own, ...before.map((candidate): DrawnCandidate => ({ candidate, role: 'out-already' }))];
  });
}

function argumentJson({ position, argument }: CheckedArgument): Record<string, unknown> {
  const { layout } = position;
  const { conclusions } = argument;
  const candidates = candidatesOf(argument);
  return {
    technique: argument.technique,
    facts: argument.facts.map((fact: Fact) => factName(layout, fact)),
    placements: conclusions.kind === 'placements' ? candidates.map((c) => placementName(layout, c)) : [],
    strikes: conclusions.kind === 'strikes' ? candidates.map((c) => strikeName(layout, c)) : [],
    ...(conclusions.kind === 'breaks' && { breaks: true }),
    assumes: argument.assumes,
    weight: weightOf(layout, argument),
  };
}
