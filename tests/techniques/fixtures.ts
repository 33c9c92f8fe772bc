import { readFileSync } from 'node:fs';
import { maskOf } from '../../source/grid/candidates.ts';
import { type Candidate, candidateOf, plain } from '../../source/grid/layout.ts';
import { parseCell } from '../../source/grid/names.ts';
import { Position } from '../../source/grid/position.ts';
import { hasPublished, publishedFolder } from '../published.ts';

/** One instance of technique-fixtures.json (published checks, own construction). */
export interface Fixture {
  readonly id: string;
  readonly technique: string;
  readonly puzzle: string;
  readonly placed: string;
  /** One string of digits a cell, empty where a digit is placed. */
  readonly candidates: readonly string[];
  /** As `r7c3#9`. */
  readonly eliminations: readonly string[];
  readonly placements: readonly string[];
  /** Each the live places of a fact. */
  readonly premises?: readonly (readonly string[])[];
}

/** All of them; none where the folder is missing. */
export const readFixtures = (): Fixture[] =>
  hasPublished ? JSON.parse(readFileSync(`${publishedFolder}/technique-fixtures.json`, 'utf8')) : [];

const digits = (line: string): number[] => Array.from(line, (sign) => Number(sign) || 0);

/** The candidate that a fixture names `r7c3#9`. */
export const fixtureCandidate = (name: string): Candidate =>
  candidateOf(plain, parseCell(plain, name.slice(0, 4)) ?? -1, Number(name.slice(5)));

/** Where a fixture's instance stands. */
export function fixturePosition({ puzzle, placed, candidates }: Fixture): Position {
  const position = Position.from(plain, digits(puzzle), digits(placed));
  return position.strike(
    [...position.candidates].filter((x) => {
      const cell = Math.floor(x / 9);
      const kept = Array.from(candidates[cell], Number).reduce((mask, digit) => mask | maskOf(digit), 0);
      return placed[cell] === '.' && (kept & maskOf((x % 9) + 1)) === 0;
    }),
  );
}
