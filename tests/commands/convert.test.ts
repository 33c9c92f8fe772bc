import { describe, expect, test } from 'vitest';
import { gridForms } from '../../source/grid/write.ts';
import { essayGrid, noSolution } from './grids.ts';
import { inkling, jsonLines, linesOf } from './run-inkling.ts';

describe('convert', () => {
  test.each(gridForms.map(({ name }) => [name]))('%s reads back to the same grid', async (form) => {
    const written = await inkling(['convert', '--to', form, essayGrid]);
    expect([written.code, written.stderr]).toEqual([0, '']);
    const back = await inkling(['convert', '--to', 'line', '-'], { input: written.stdout });
    expect(back.code).toBe(0);
    expect(back.stdout).toBe(`${essayGrid}\n`);
  });

  test('rows, as anyone would write them', async () => {
    const { stdout } = await inkling(['convert', '--to', 'rows', essayGrid]);
    expect(stdout).toBe(essayGrid.replace(/.{9}/g, '$&\n'));
  });

  test('to candidates, every candidate that the givens allow is listed', async () => {
    const { stdout } = await inkling(['convert', '--to', 'candidates', essayGrid]);
    // r1: 5 and 3 are given; r1c3 can be 1, 2, 4, counted by hand from its row, column and box.
    expect(linesOf(stdout)[1]).toMatch(/^\| 5 +3 +124 /);
  });

  test('candidates that the form can not hold are named as left out, on stderr', async () => {
    const table = await inkling(['convert', '--to', 'candidates', essayGrid]);
    const { code, stdout, stderr } = await inkling(['convert', '--to', 'line', '-'], { input: table.stdout });
    expect([code, stdout]).toEqual([0, `${essayGrid}\n`]);
    expect(stderr).toBe("inkling: the form 'line' leaves out the candidates\n");
  });

  test('many grids come one after the other, remarks kept', async () => {
    const input = `${essayGrid} # easy\n${noSolution}\n`;
    const line = await inkling(['convert', '--to', 'line', '-'], { input });
    expect(line.stdout).toBe(input);
    const rows = await inkling(['convert', '--to', 'rows', '-'], { input });
    const back = await inkling(['convert', '--to', 'line', '-'], { input: rows.stdout });
    expect([back.stdout, back.code]).toEqual([input, 0]);
  });

  test('JSON, one object a grid', async () => {
    const { code, stdout } = await inkling(['convert', '--to', 'line', '--jsonl', '-'], {
      input: `${essayGrid}\n${noSolution}\n`,
    });
    expect(code).toBe(0);
    expect(jsonLines(stdout)).toEqual([
      { schema: 1, form: 'line', text: `${essayGrid}\n` },
      { schema: 1, form: 'line', text: `${noSolution}\n` },
    ]);
  });
});
