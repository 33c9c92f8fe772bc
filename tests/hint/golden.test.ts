import { expect, it } from 'vitest';
import { catalogue } from '../../source/techniques/catalogue.ts';
import { table } from '../techniques/table.ts';
import { argumentOfRow, toldLines } from './told.ts';

/** How many scenes of a technique are told. */
const scenes = 3;

it('each technique as it is told, in scenes of the table', async () => {
  const told = catalogue.flatMap((technique) => {
    const rows = table.filter(({ technique: id, finds }) => id === technique.id && finds.length > 0);
    expect(rows.length, technique.id).toBeGreaterThan(0);
    return rows.slice(0, scenes).map((row) => {
      const lines = toldLines(argumentOfRow(technique, row));
      return [`# ${technique.id}: ${row.why}`, `# ${row.scene.trim()}`, ...lines].join('\n');
    });
  });
  await expect(`${told.join('\n\n')}\n`).toMatchFileSnapshot('told-techniques.txt');
});
