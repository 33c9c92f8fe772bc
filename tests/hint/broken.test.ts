import { describe, expect, it } from 'vitest';
import { candidateOf, plain } from '../../source/grid/layout.ts';
import { hintFor } from '../../source/hint/ladder.ts';
import { positionOf } from '../path/grids.ts';

describe('the ladder of a sheet that cannot be right', () => {
  const said = (line: string, struck: readonly number[] = []): string[] => {
    const ladder = hintFor({ position: positionOf(line).strike(struck), claims: [], kind: 'sparse' });
    expect(ladder?.kind).toBe('broken');
    return ladder?.rungs.map(({ lines }) => lines.map(({ text }) => text).join(' ')) ?? [];
  };

  it('is told of one cell with nothing left without a digit to name', () => {
    // Row 1 has 1 to 8 in its other cells, and 9 stands in the column of its last one.
    const line = `12345678.${'.'.repeat(63)}........9`;
    const [where, digits, pattern, cells, why] = said(line);
    expect(where).toMatch(/^Look at (box|row|column) \d: something there cannot be right\.$/);
    expect(digits).toMatch(/ One fact\.$/);
    expect(pattern).toMatch(/This fact cannot hold\.$/);
    expect(cells).not.toContain('Digits .');
    expect(why).toContain('cannot be met.');
    expect([digits, pattern, cells, why].join(' ')).not.toContain('Digits .');
  });

  it('tells of a digit that stands twice by both cells, not as a cell with nothing left', () => {
    const [where, digits, pattern, cells, why] = said(`2..2${'.'.repeat(77)}`);
    expect(where).toMatch(/^Look at (box|row|column) \d: something there cannot be right\.$/);
    expect([where, digits, pattern].join(' ')).not.toMatch(/r\dc\d/);
    expect(cells).toBe('r1c1 and r1c4 are both 2.');
    expect(why).toBe('r1c1 and r1c4 are both 2. Row 1 can have only one 2.');
  });

  it('is told of several facts that have no arrangement together', () => {
    // r1c1 and r1c2 keep 1 and 2 alone, and r1c3 keeps 1 and 2 as well: three cells for two digits.
    const struck = [0, 1, 2].flatMap((cell) => [3, 4, 5, 6, 7, 8, 9].map((d) => candidateOf(plain, cell, d)));
    const rungs = said('.'.repeat(81), struck);
    expect(rungs[1]).toMatch(/Digits 1 and 2\. Three facts\.$/);
    expect(rungs[2]).toMatch(/These facts cannot all hold\.$/);
    expect(rungs[4]).toContain('r1c1, r1c2 and r1c3 cannot all be met.');
  });
});
