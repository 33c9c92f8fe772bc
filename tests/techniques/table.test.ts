import { describe, expect, it } from 'vitest';
import { plain } from '../../source/grid/layout.ts';
import { Board } from '../../source/techniques/board.ts';
import { catalogue, techniqueById } from '../../source/techniques/catalogue.ts';
import { expandFinding, scene, showFinding } from './notation.ts';
import { table } from './table.ts';

describe('each technique finds all of its instances in small scenes, and nothing in near misses', () => {
  for (const { technique, why, scene: text, finds } of table) {
    it(`${technique}: ${why}`, () => {
      const found = techniqueById(technique)?.find(Board.from(scene(text)));
      const shown = found?.map((finding) => showFinding(plain, finding)).sort();
      expect(shown).toEqual(finds.map((line) => expandFinding(plain, line)).sort());
    });
  }
});

describe('the catalogue', () => {
  it('has a hit and a near miss for each technique', () => {
    for (const { id } of catalogue) {
      const rows = table.filter((row) => row.technique === id);
      expect([id, rows.some((row) => row.finds.length > 0)]).toEqual([id, true]);
      expect([id, rows.some((row) => row.finds.length === 0)]).toEqual([id, true]);
    }
    for (const { technique } of table) expect(techniqueById(technique)?.id).toBe(technique);
  });

  it('names each technique once, in words that commands can take', () => {
    expect(new Set(catalogue.map(({ id }) => id)).size).toBe(catalogue.length);
    expect(new Set(catalogue.map(({ name }) => name.toLowerCase())).size).toBe(catalogue.length);
    for (const { id, name } of catalogue) {
      expect(id).toMatch(/^[a-z]+(-[a-z]+)*$/);
      expect(name).toMatch(/^[A-Z]/);
      expect(techniqueById(id)?.id).toBe(id);
    }
    expect(techniqueById('no-such-pattern')).toBeUndefined();
  });

  it('goes from light to heavy', () => {
    const weights = catalogue.map(({ weight }) => weight);
    expect(weights).toEqual([...weights].sort((a, b) => a - b));
  });
});
