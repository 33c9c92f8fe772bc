import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Layout, makeLayout, plain, rectangularBoxes } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';
import { readGrid, readGrids } from '../../source/grid/read.ts';
import { findGridForm, gridForms, gridOf, writeGrid } from '../../source/grid/write.ts';
import { anyGrid, mustRead, rowsOf, sample, seed, shown } from './fixtures.ts';

console.log(`round-trip.test.ts: seed ${seed}`);

const layouts: readonly Layout[] = [
  makeLayout({ name: '4x4', size: 4, boxOf: rectangularBoxes(2, 2) }),
  makeLayout({ name: '6x6', size: 6, boxOf: rectangularBoxes(2, 3) }),
  plain,
  makeLayout({ name: '16x16', size: 16, boxOf: rectangularBoxes(4, 4) }),
  // Regions of no rectangle: each band of three rows is dealt out in steps.
  makeLayout({
    name: 'irregular 4x4',
    size: 4,
    boxOf: [0, 0, 0, 1, 0, 2, 1, 1, 2, 2, 1, 3, 2, 3, 3, 3],
  }),
];

/** Ways in which a text is changed by carrying it about, none of which changes the grid. */
const carried: Readonly<Record<string, (text: string) => string>> = {
  'as it is': (text) => text,
  'with CRLF': (text) => text.replaceAll('\n', '\r\n'),
  'with lone CR': (text) => text.replaceAll('\n', '\r'),
  'without the last newline': (text) => text.slice(0, -1),
  'with a byte order mark': (text) => `\ufeff${text}`,
  quoted: (text) => text.replaceAll(/^/gm, '> ').replace(/> $/, ''),
  'quoted twice': (text) => text.replaceAll(/^/gm, '>> ').replace(/>> $/, ''),
  'in a code fence': (text) => `\`\`\`text\n${text}\`\`\`\n`,
  'below a remark': (text) => `# of my own making\n\n${text}`,
  'with blank lines around': (text) => `\n\n${text}\n\n`,
};

describe('every written form reads back to the same grid', () => {
  for (const layout of layouts) {
    for (const form of gridForms) {
      it(`${form.name} on ${layout.name}`, () => {
        const runs = layout.size > 9 ? 15 : 60;
        fc.assert(
          fc.property(anyGrid(layout, form.carriesMarks), (grid) => {
            const text = form.make(grid);
            for (const [how, carry] of Object.entries(carried)) {
              const result = readGrid(carry(text), { layout });
              expect(result.ok ? shown(result.value.grid) : result.error.message, how).toBe(shown(grid));
            }
          }),
          { numRuns: runs, seed },
        );
      });
    }
  }

  it('with marks left out where the form carries none', () => {
    fc.assert(
      fc.property(anyGrid(plain, true), (grid) => {
        const bare = shown({ layout: plain, givens: grid.givens });
        for (const form of gridForms.filter((each) => !each.carriesMarks)) {
          expect(mustRead(form.make(grid)), form.name).toBe(bare);
        }
      }),
      { numRuns: 40, seed },
    );
  });

  it('many grids, one a line, and many in blocks', () => {
    fc.assert(
      fc.property(fc.array(anyGrid(plain, false), { minLength: 2, maxLength: 6 }), (grids) => {
        for (const form of gridForms.filter((each) => !each.carriesMarks)) {
          const between = form.name === 'line' ? '' : '\n';
          const results = readGrids(grids.map((grid) => form.make(grid)).join(between));
          const read = results.map((result) => (result.ok ? shown(result.value.grid) : result.error.message));
          expect(read, form.name).toEqual(grids.map(shown));
        }
      }),
      { numRuns: 30, seed },
    );
  });

  it('with its remarks', () => {
    const remark = fc
      .stringMatching(/^[a-zA-Z0-9 #,.éß日]{1,30}$/)
      .map((text) => text.trim().replace(/^#+/, ''));
    fc.assert(
      fc.property(anyGrid(plain, true), fc.array(remark, { maxLength: 3 }), (grid, remarks) => {
        const kept = remarks.map((each) => each.trim()).filter((each) => each !== '');
        for (const form of gridForms) {
          const result = readGrid(writeGrid(form, grid, kept));
          if (!result.ok) throw new Error(result.error.message);
          expect(result.value.remarks).toEqual(kept);
          expect(result.value.name).toBe(kept[0]);
        }
      }),
      { numRuns: 40, seed },
    );
  });
});

describe('what is easily taken for something else', () => {
  it('a position without a digit', () => {
    for (const layout of layouts) {
      const grid = gridOf(Position.from(layout, new Array(layout.cellCount).fill(0)));
      for (const form of gridForms.filter((each) => each.carriesMarks)) {
        expect(mustRead(form.make(grid), layout), form.name).toBe(shown(grid));
      }
    }
  });
  it('rows of fields with as many digits as there are cells', () => {
    const small = layouts[0];
    const two = (a: number, b: number) => (1 << (a - 1)) | (1 << (b - 1));
    const rowsOfMarks = [
      [0, two(1, 2), 0, two(3, 4)],
      [two(1, 2), two(3, 4), 0, 0],
      [0, two(1, 2), two(3, 4), 0],
      [0, 0, two(1, 3), two(2, 4)],
    ];
    for (const row of rowsOfMarks) {
      const marks = [row, row, row, row].flat();
      const grid = { layout: small, givens: new Array(16).fill(0), marks };
      for (const form of gridForms.filter((each) => each.carriesMarks)) {
        expect(mustRead(form.make(grid), small), form.name).toBe(shown(grid));
      }
    }
  });
});

describe('the look of the written forms', () => {
  const read = readGrid(sample);
  if (!read.ok) throw new Error(read.error.message);
  const { grid } = read.value;

  it('no name twice, every one findable, every description one short line', () => {
    expect(new Set(gridForms.map((form) => form.name)).size).toBe(gridForms.length);
    for (const form of gridForms) {
      expect(findGridForm(form.name)).toBe(form);
      expect(form.description).toMatch(/^[^\n]{10,90}$/);
    }
    expect(findGridForm('no such form')).toBeNull();
  });

  it('line is the trade’s 81 signs (common practice, no source)', () => {
    expect(findGridForm('line')?.make(grid)).toBe(`${sample}\n`);
  });

  it('boxes have all their sides equally long', () => {
    for (const name of ['boxes', 'boxes-ascii', 'candidates']) {
      const position = Position.from(plain, grid.givens);
      const text = findGridForm(name)!.make(name === 'candidates' ? gridOf(position) : grid);
      const lines = text.trimEnd().split('\n');
      expect(lines).toHaveLength(13);
      expect(new Set(lines.map((line) => line.length)).size, text).toBe(1);
    }
  });

  it('csv has nine fields a row', () => {
    for (const [row, line] of findGridForm('csv')!.make(grid).trimEnd().split('\n').entries()) {
      expect(
        line
          .split(',')
          .map((field) => field || '.')
          .join(''),
      ).toBe(rowsOf(sample)[row]);
    }
  });
});

describe('a position written out', () => {
  it('keeps placed digits and the candidates of open cells, a single one included', () => {
    const read = readGrid(sample);
    if (!read.ok) throw new Error(read.error.message);
    const position = Position.from(plain, read.value.grid.givens);
    for (const form of gridForms.filter((each) => each.carriesMarks)) {
      const back = readGrid(form.make(gridOf(position)));
      if (!back.ok) throw new Error(back.error.message);
      expect(back.value.grid.givens).toEqual(Array.from(position.placed));
      back.value.grid.givens.forEach((given, cell) => {
        const marks = back.value.grid.marks?.[cell] ?? 0;
        if (given === 0) expect(marks).toBe(position.candidates.digitsAt(cell));
      });
    }
  });
});
