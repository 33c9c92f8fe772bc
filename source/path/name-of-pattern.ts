import type { Conclusions, Fact } from '../argument/kernel.ts';
import type { Candidate } from '../grid/layout.ts';
import type { Position } from '../grid/position.ts';
import { Board } from '../techniques/board.ts';
import { patterns } from '../techniques/catalogue.ts';
import type { Finding, Technique } from '../techniques/technique.ts';
import { unnamed } from './minimal.ts';

/** Whether an instance makes all of these conclusions. */
export const concludes = ({ conclusions }: Finding, wanted: Conclusions): boolean =>
  wanted.kind === conclusions.kind && wanted.candidates.every((c) => conclusions.candidates.includes(c));

/** A board that shows the places of some facts and some candidates, and nothing else. */
function boardOf({ layout }: Position, shown: Iterable<Candidate>): Board {
  const board = Board.bare(layout);
  for (const candidate of shown) board.revive(candidate);
  return board;
}

const found = new WeakMap<Position, Map<Technique, readonly Finding[]>>();

/** All instances of a technique in a position, looked for once. */
function findingsIn(position: Position, technique: Technique): readonly Finding[] {
  const known = found.get(position) ?? new Map<Technique, readonly Finding[]>();
  found.set(position, known);
  let findings = known.get(technique);
  if (!findings) {
    findings = technique.find(Board.from(position));
    known.set(technique, findings);
  }
  return findings;
}

/** Up to so many facts a pattern's instances are found at once; chains look around for longer. */
const quickWeight = 4;
const singles = patterns.filter(({ weight }) => weight === 1);
const chains = patterns.filter(({ weight }) => weight > quickWeight);

/**
 * The pattern of the catalogue of which the facts and conclusions are an instance; `facts` where there is
 * none. Facts with the same places say the same: a digit that a row has in one box alone, and that box has in
 * this row alone. So among techniques of a weight one with these very facts comes first, then one with facts
 * that say the same. A chain may be lost among others from the same place: it is looked for where nothing but
 * its facts and conclusions is shown first, then in the whole position.
 */
export function nameOfPattern(
  position: Position,
  { facts, conclusions }: { readonly facts: readonly Fact[]; readonly conclusions: Conclusions },
): string {
  const whole = Board.from(position);
  const placesIn = (fact: Fact) => whole.placesOf(fact).join(' ');
  const stated = new Set(facts.map(placesIn));
  const saysTheSame = (finding: Finding) =>
    finding.facts.length === facts.length &&
    concludes(finding, conclusions) &&
    finding.facts.every((fact) => stated.has(placesIn(fact))) &&
    new Set(finding.facts.map(placesIn)).size === stated.size;
  const first = (techniques: readonly Technique[], find: (technique: Technique) => readonly Finding[]) => {
    let same: Technique | null = null;
    for (const technique of techniques) {
      if (technique.assumes !== 'nothing' || technique.weight < facts.length) continue;
      if (same && technique.weight > same.weight) break;
      const instances = find(technique).filter(saysTheSame);
      if (instances.some((finding) => finding.facts.every((fact) => facts.includes(fact)))) return technique;
      if (instances.length > 0) same ??= technique;
    }
    return same;
  };
  const inWhole = (technique: Technique) => findingsIn(position, technique);
  switch (conclusions.kind) {
    case 'breaks':
      return unnamed;
    case 'placements':
      return first(singles, inWhole)?.id ?? unnamed;
    case 'strikes': {
      const bare = boardOf(position, [
        ...facts.flatMap((fact) => whole.placesOf(fact)),
        ...conclusions.candidates,
      ]);
      const technique = first(patterns, (each) => each.find(bare)) ?? first(chains, inWhole);
      return technique?.id ?? unnamed;
    }
  }
}
