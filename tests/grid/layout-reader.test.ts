import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { check } from '../../source/argument/kernel.ts';
import { generate } from '../../source/exact/generate.ts';
import { seededRandom } from '../../source/exact/random.ts';
import { countSolutions } from '../../source/exact/solve.ts';
import { mintToken } from '../../source/exact/token.ts';
import { type Layout, plain } from '../../source/grid/layout.ts';
import { readLayout } from '../../source/grid/layout-reader.ts';
import { makeLayoutText } from '../../source/grid/layout-text.ts';
import { Position } from '../../source/grid/position.ts';
import { Board } from '../../source/techniques/board.ts';
import { catalogue } from '../../source/techniques/catalogue.ts';
import { coverSolutions } from '../judges/exact-cover.ts';

const folder = fileURLToPath(new URL('../../puzzles/layouts/', import.meta.url));
const shipped = readdirSync(folder).map((file) => file.replace(/\.txt$/, ''));

function read(text: string, name = 'a layout'): Layout {
  const layout = readLayout(text, name);
  if (!layout.ok) throw new Error(layout.error.message);
  return layout.value;
}
const ship = (name: string): Layout => read(readFileSync(`${folder}${name}.txt`, 'utf8'), name);

describe('layouts from text', () => {
  test('the plain one', () => {
    const layout = read('size 9\nboxes 3x3\n');
    expect(layout.houses).toEqual(plain.houses);
    expect(layout.boxOf).toEqual(plain.boxOf);
  });

  test('remarks, blank lines, case, CRLF and a byte order mark make no difference', () => {
    const bare = read('size 6\nboxes 2x3\ndiagonals\nextra r1c1 r2c2 r3c3 r4c4 r5c5 r6c1\n');
    const dressed = read(
      '\ufeff# six\r\n\r\n  SIZE 6 # rows\r\nBoxes 2X3\r\n\r\nDiagonals\r\nextra R1c1 r2c2 r3c3  r4c4 r5c5 r6c1',
    );
    expect(dressed).toEqual(bare);
    expect(bare.houses.map(({ name }) => name).slice(-3)).toEqual(['d1', 'd2', 'x1']);
  });

  test('regions drawn as rectangles are boxes', () => {
    expect(read('size 4\nregions\nx x y y\nxxyy\n##\nzzww\nzzww')).toEqual(read('size 4\nboxes 2x2'));
  });

  test('a rectangle of cells is the same as its cells', () => {
    const [a, b] = ['r2c2-r3c3', 'r2c2 r2c3 r3c2 r3c3'].map((cells) =>
      read(`size 4\nboxes 2x2\nextra ${cells}`),
    );
    expect(a).toEqual(b);
  });

  test.each([
    ['', 'missing', 1, 'no size'],
    ['size 4', 'missing', 1, 'neither boxes nor regions'],
    ['boxes 2x2\nsize 4', 'missing', 1, "'size N' above it"],
    ['size 26\nboxes 2x13', 'bad-size', 1, 'from 2 to 25'],
    ['size four', 'bad-size', 1, '"four"'],
    ['size 4\nsize 4', 'twice', 2, 'a second size'],
    ['size 4\nboxes 2x3', 'bad-boxes', 2, '"2x3"'],
    ['size 4\nboxes 2', 'bad-boxes', 2, '"2"'],
    ['size 4\nboxes 2x2\nboxes 2x2', 'twice', 3, ''],
    ['size 4\nregions\nAABB\nAABB\nCCDD', 'bad-regions', 2, '3 rows'],
    ['size 4\nregions\nAABB\nAABB\nCCD\nCCDD', 'bad-regions', 5, '3 signs'],
    ['size 4\nregions\nAABB\nAABB\nCCDD\nCCCD', 'bad-regions', 2, 'region "C"'],
    ['size 4\nboxes 2x2\nextra r1c1 r2c2 r3c3', 'bad-extra', 3, '3 cells'],
    ['size 4\nboxes 2x2\nextra r1c1 r1c1 r3c3 r4c4', 'bad-extra', 3, 'a cell twice'],
    ['size 4\nboxes 2x2\nextra r1c1 r5c1 r3c3 r4c4', 'bad-extra', 3, '"r5c1"'],
    ['size 4\nboxes 2x2\nextra r2c2-r1c1', 'bad-extra', 3, '"r2c2-r1c1"'],
    ['size 4\nboxes 2x2\n  \u001b[2Jdiagonal', 'unknown-word', 3, '\\x1b[2Jdiagonal'],
    ['size 4\nboxes 2x2\ndiagonals\ndiagonals', 'twice', 4, ''],
    [`size 4\n${'#'.repeat(20_000)}`, 'too-long', 1, ''],
  ])('%j is refused as %s', (text, code, line, said) => {
    const layout = readLayout(text, 'x');
    if (layout.ok) throw new Error('read');
    expect([layout.error.code, layout.error.line]).toEqual([code, line]);
    expect(layout.error.message).toContain(said);
    expect(layout.error.message).not.toContain('\u001b');
  });
});

describe('a layout as text', () => {
  const own = [
    'size 6\nboxes 3x2\ndiagonals\nextra r1c1 r2c2 r3c3 r4c4 r5c5 r6c1\nextra r1c2 r1c4 r3c1 r5c5 r6c6 r6c1\n',
    'size 25\nboxes 5x5\n',
    'size 5\nregions\nAAABB\nAABBB\nCCCCC\nDDEEE\nDDDEE\n',
  ];
  test.each(own)('reads back as it was: %j', (text) => expect(makeLayoutText(read(text))).toBe(text));

  test.each(shipped)('%s reads back as the same layout', (name) => {
    expect(read(makeLayoutText(ship(name)), name)).toEqual(ship(name));
  });

  test('so does the plain one', () => {
    expect(makeLayoutText(plain)).toBe('size 9\nboxes 3x3\n');
    expect(read(makeLayoutText(plain), plain.name)).toEqual(plain);
  });
});

describe('the layouts that come with the program', () => {
  test('are these', () => {
    expect(shipped.sort()).toEqual(['16x16', '4x4', '6x6', 'diagonals', 'extra-boxes', 'regions']);
  });

  test('4x4 has 288 grids (OEIS A107739), 6x6 39,168 with a first row (28,200,960 by 6!)', () => {
    expect(countSolutions(Position.from(ship('4x4'), new Uint8Array(16)))).toBe(288);
    const firstRow = Array.from({ length: 36 }, (_, cell) => (cell < 6 ? cell + 1 : 0));
    expect(countSolutions(Position.from(ship('6x6'), firstRow))).toBe(39_168);
  });

  test('4x4 with its diagonals has 48 grids (own computation: exact cover counts the same)', () => {
    const position = Position.from(read('size 4\nboxes 2x2\ndiagonals'), new Uint8Array(16));
    expect(countSolutions(position)).toBe(48);
    expect(coverSolutions(position, 1000)).toHaveLength(48);
  });

  test.each(['4x4', '6x6', 'diagonals', 'extra-boxes', 'regions'])(
    '%s: techniques find what the kernel accepts and exact cover confirms',
    (name) => {
      const layout = ship(name);
      const seed = 606;
      const random = seededRandom(seed);
      let found = 0;
      for (let round = 0; round < 6; round += 1) {
        const { givens } = generate(layout, random);
        let position = Position.from(layout, givens);
        const solutions = coverSolutions(position, 2);
        expect(solutions).toHaveLength(1);
        const isTrue = (x: number) => solutions[0][Math.floor(x / layout.size)] === (x % layout.size) + 1;
        const token = mintToken(layout, givens) ?? undefined;
        for (const { id, find, assumes, supposes } of catalogue) {
          // What follows candidates to their ends takes too long here.
          if (supposes) continue;
          const struck: number[] = [];
          for (const { facts, conclusions, pattern } of find(Board.from(position))) {
            const argument = { technique: id, facts, conclusions, assumes, ...(pattern && { pattern }) };
            const { verdict } = check(position, argument, token);
            expect([name, id, verdict], `seed ${seed}, round ${round}`).toEqual([name, id, 'holds']);
            for (const x of conclusions.candidates) expect(isTrue(x)).toBe(conclusions.kind === 'placements');
            if (conclusions.kind === 'strikes') struck.push(...conclusions.candidates);
            found += 1;
          }
          position = position.strike(struck);
        }
      }
      expect(found).toBeGreaterThan(20);
    },
  );
});
