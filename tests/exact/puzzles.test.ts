import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { Position } from '../../source/grid/position.ts';
import { readGrid } from '../../source/grid/read.ts';
import { puzzleWeight } from '../../source/path/weight.ts';
import { coverSolutions } from '../judges/exact-cover.ts';
import { solvedBy } from './few-facts.ts';
import { layoutOf, shipped, shippedText } from './shipped.ts';

const folder = fileURLToPath(new URL('../../puzzles/', import.meta.url));

// After a change to the list in shipped.ts: INKLING_PUZZLES=write npx vitest run --config tests/vitest.config.ts tests/exact/puzzles.test.ts
if (process.env.INKLING_PUZZLES === 'write') {
  for (const entry of shipped) writeFileSync(`${folder}${entry.file}.txt`, shippedText(entry));
}

test('the folder holds the listed grids and no others, each of another name', () => {
  const texts = readdirSync(folder).filter((name) => name.endsWith('.txt'));
  expect(texts.toSorted()).toEqual(shipped.map(({ file }) => `${file}.txt`));
  expect(new Set(shipped.map(({ name }) => name)).size).toBe(shipped.length);
});

describe.each(shipped)('$name', (entry) => {
  const text = readFileSync(`${folder}${entry.file}.txt`, 'utf8');
  const layout = layoutOf(entry);
  const read = readGrid(text, { layout });
  if (!read.ok) throw new Error(read.error.message);
  const position = Position.from(layout, read.value.grid.givens);

  test('is what its seed makes', () => {
    expect(text).toBe(shippedText(entry));
  });

  test('is read with its name, and has one solution', () => {
    expect(read.value.name).toBe(entry.name);
    expect(coverSolutions(position, 2)).toHaveLength(1);
  });

  test('weighs what it says', () => {
    expect(puzzleWeight(position, 4)).toEqual({ atLeast: entry.weight, atMost: entry.weight });
    // Up to two facts, checked from the definition alone; of sixteen digits that would take too long.
    if (layout.size > 9) return;
    expect(solvedBy(position, 1)).toBe(entry.weight === 1);
    if (entry.weight > 1) expect(solvedBy(position, 2)).toBe(entry.weight === 2);
  });
});
