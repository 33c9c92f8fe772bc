import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { maskOf } from '../../source/grid/candidates.ts';
import { candidateOf, plain } from '../../source/grid/layout.ts';
import { parseCell } from '../../source/grid/names.ts';
import { Position } from '../../source/grid/position.ts';
import { Board } from '../../source/techniques/board.ts';
import { techniqueById } from '../../source/techniques/catalogue.ts';
import { hasPublished, publishedFolder, publishedNote } from '../published.ts';

/** Names of technique-fixtures.json (published checks, own construction), and ours. */
const ourName: Readonly<Record<string, string>> = {
  'naked single': 'naked-single',
  'hidden single (row)': 'hidden-single',
  'hidden single (column)': 'hidden-single',
  'hidden single (box)': 'hidden-single',
  'pointing (box to line)': 'pointing',
  'claiming (line to box)': 'claiming',
  'naked pair': 'naked-pair',
  'naked triple': 'naked-triple',
  'naked quad': 'naked-quad',
  'hidden pair': 'hidden-pair',
  'hidden triple': 'hidden-triple',
  'hidden quad': 'hidden-quad',
  'X-wing': 'x-wing',
  swordfish: 'swordfish',
  jellyfish: 'jellyfish',
  'finned X-wing': 'finned-x-wing',
  'finned swordfish': 'finned-swordfish',
  skyscraper: 'skyscraper',
  'two-string kite': 'two-string-kite',
  'empty rectangle': 'empty-rectangle',
  'XY-wing': 'xy-wing',
  'XYZ-wing': 'xyz-wing',
  'W-wing': 'w-wing',
  'X-chain': 'x-chain',
  'XY-chain': 'xy-chain',
  'simple colouring (colour trap)': 'simple-colouring',
  'simple colouring (colour wrap)': 'simple-colouring',
  'alternating inference chain': 'alternating-inference-chain',
  'ALS-XZ': 'als-xz',
  'failed literal (singles)': 'net',
  'unique rectangle type 1': 'unique-rectangle',
  'unique rectangle type 2': 'unique-rectangle',
  'unique rectangle type 4': 'unique-rectangle',
  'BUG+1': 'bug-plus-one',
};

interface Fixture {
  readonly id: string;
  readonly technique: string;
  readonly puzzle: string;
  readonly placed: string;
  /** One string of digits a cell, empty where a digit is placed. */
  readonly candidates: readonly string[];
  /** As `r7c3#9`. */
  readonly eliminations: readonly string[];
  readonly placements: readonly string[];
}

const digits = (line: string): number[] => Array.from(line, (sign) => Number(sign) || 0);
const candidate = (name: string): number =>
  candidateOf(plain, parseCell(plain, name.slice(0, 4)) ?? -1, Number(name.slice(5)));

function positionOf({ puzzle, placed, candidates }: Fixture): Position {
  const position = Position.from(plain, digits(puzzle), digits(placed));
  return position.strike(
    [...position.candidates].filter((x) => {
      const cell = Math.floor(x / 9);
      const kept = Array.from(candidates[cell], Number).reduce((mask, digit) => mask | maskOf(digit), 0);
      return placed[cell] === '.' && (kept & maskOf((x % 9) + 1)) === 0;
    }),
  );
}

describe.skipIf(!hasPublished)(`published instances of each technique${publishedNote}`, () => {
  const fixtures: Fixture[] = hasPublished
    ? JSON.parse(readFileSync(`${publishedFolder}/technique-fixtures.json`, 'utf8'))
    : [];

  it('there are 132, under 34 names, and each name is one of ours', () => {
    expect(fixtures).toHaveLength(132);
    expect(new Set(fixtures.map(({ technique }) => technique))).toEqual(new Set(Object.keys(ourName)));
    for (const id of Object.values(ourName)) expect(techniqueById(id)?.id).toBe(id);
  });

  for (const fixture of fixtures) {
    it(fixture.id, () => {
      const position = positionOf(fixture);
      const findings = techniqueById(ourName[fixture.technique])?.find(Board.from(position)) ?? [];
      const [kind, wanted] =
        fixture.placements.length > 0
          ? ['placements', fixture.placements]
          : ['strikes', fixture.eliminations];
      const matching = findings.filter(
        ({ conclusions }) =>
          conclusions.kind === kind &&
          wanted.every((name) => conclusions.candidates.includes(candidate(name))),
      );
      expect(matching.length).toBeGreaterThan(0);
    });
  }
});
