import { describe, expect, it } from 'vitest';
import { mintToken } from '../../source/exact/token.ts';
import { plain } from '../../source/grid/layout.ts';
import { instancesOf } from '../../source/path/find.ts';
import { techniqueById } from '../../source/techniques/catalogue.ts';
import { hasPublished, publishedNote } from '../published.ts';
import { fixtureCandidate, fixturePosition, readFixtures } from './fixtures.ts';

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

describe.skipIf(!hasPublished)(`published instances of each technique${publishedNote}`, () => {
  const fixtures = readFixtures();

  it('there are 132, under 34 names, and each name is one of ours', () => {
    expect(fixtures).toHaveLength(132);
    expect(new Set(fixtures.map(({ technique }) => technique))).toEqual(new Set(Object.keys(ourName)));
    for (const id of Object.values(ourName)) expect(techniqueById(id)?.id).toBe(id);
  });

  for (const fixture of fixtures) {
    it(fixture.id, () => {
      const position = fixturePosition(fixture);
      const technique = techniqueById(ourName[fixture.technique]);
      if (!technique) throw new Error(`no technique ${fixture.technique}`);
      // As `find` shows them: accepted by the kernel, a token at hand where one solution is assumed.
      const token = technique.assumes === 'nothing' ? null : mintToken(plain, position.givens);
      const findings = instancesOf(position, technique, token ?? undefined).map(({ finding }) => finding);
      const [kind, wanted] =
        fixture.placements.length > 0
          ? ['placements', fixture.placements]
          : ['strikes', fixture.eliminations];
      const matching = findings.filter(
        ({ conclusions }) =>
          conclusions.kind === kind &&
          wanted.every((name) => conclusions.candidates.includes(fixtureCandidate(name))),
      );
      expect(matching.length).toBeGreaterThan(0);
    });
  }
});
