import { factName, parseFact } from '../../source/argument/fact.ts';
import { placesOf } from '../../source/argument/kernel.ts';
import { type Candidate, candidateOf, type Layout, plain } from '../../source/grid/layout.ts';
import {
  parseCell,
  parseConclusion,
  parseDigit,
  placementName,
  strikeName,
} from '../../source/grid/names.ts';
import { Position } from '../../source/grid/position.ts';
import type { Finding } from '../../source/techniques/technique.ts';

/**
 * Positions and findings as short lines of text. A scene is an empty grid less what its words say:
 * `r4c7=3` a given, `r4c8:16` a cell with these candidates, `5@b2:r1c4,r2c4` a digit with these places in a
 * house, `r4c7<>3` a strike. Each word only takes away.
 */
export function scene(text: string, layout: Layout = plain): Position {
  const words = text.split(/\s+/).filter((word) => word !== '');
  const givens: number[] = new Array(layout.cellCount).fill(0);
  const struck: Candidate[] = [];
  const blank = Position.from(layout, givens);
  for (const word of words) {
    const [name, places] = word.split(':');
    const said = parseConclusion(layout, word);
    const fact = parseFact(layout, name);
    if (said?.kind === 'placement') {
      givens[Math.floor(said.candidate / layout.size)] = (said.candidate % layout.size) + 1;
    } else if (said) struck.push(said.candidate);
    else if (fact !== null && places !== undefined) {
      const kept = word.includes('@')
        ? places.split(',').map((cell) => candidate(layout, cell, name[0]))
        : Array.from(places, (sign) => candidate(layout, name, sign));
      struck.push(...placesOf(blank, fact).filter((place) => !kept.includes(place)));
    } else throw new Error(`no word of a scene: ${word}`);
  }
  return Position.from(layout, givens).strike(struck);
}

function candidate(layout: Layout, cellName: string, sign: string): Candidate {
  const cell = parseCell(layout, cellName);
  const digit = parseDigit(layout, sign);
  if (cell === null || digit === null) throw new Error(`no candidate: ${cellName} ${sign}`);
  return candidateOf(layout, cell, digit);
}

/** `1@c1 1@c9: r2c2<>1 r2c3<>1`: facts ascending, then conclusions ascending. */
export function showFinding(layout: Layout, { facts, conclusions }: Finding): string {
  const show = conclusions.kind === 'strikes' ? strikeName : placementName;
  const names = [...facts].sort((a, b) => a - b).map((fact) => factName(layout, fact));
  return `${names.join(' ')}: ${conclusions.candidates.map((c) => show(layout, c)).join(' ')}`;
}

/**
 * The same from a shorter form, in which a word may stand for several: `r2c3-5<>1` three cells of a row,
 * `r2-4c7<>1` three of a column, `r1-3c4-6<>1` a block, `r2c3<>14` two digits; the facts and words in any order.
 */
export function expandFinding(layout: Layout, text: string): string {
  const [facts, conclusions] = text.split(': ');
  const words = conclusions.split(' ').flatMap(expand);
  const candidates = words
    .map((word) => parseConclusion(layout, word)?.candidate ?? -1)
    .sort((a, b) => a - b);
  return showFinding(layout, {
    technique: '',
    facts: facts.split(' ').map((name) => parseFact(layout, name) ?? -1),
    conclusions: { kind: conclusions.includes('=') ? 'placements' : 'strikes', candidates },
  });
}

function expand(word: string): string[] {
  const match = /^r([\d-]+)c([\d-]+)(=|<>)(\w+)$/.exec(word);
  if (!match) throw new Error(`no conclusion: ${word}`);
  const [, rows, columns, sign, digits] = match;
  return span(rows).flatMap((row) =>
    span(columns).flatMap((column) => Array.from(digits, (digit) => `r${row}c${column}${sign}${digit}`)),
  );
}

function span(text: string): number[] {
  const [from, to = from] = text.split('-').map(Number);
  return Array.from({ length: to - from + 1 }, (_, i) => from + i);
}
