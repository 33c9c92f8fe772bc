import { describe, expect, test } from 'vitest';
import { failure } from '../../source/text/result.ts';
import { grid1333, openBench, sheetOf } from './bench.ts';

const line = 'r5c1<>3 by 3@r1 3@c8';
/** The sheet of the screen study: the same digits in ink. */
const ink = 'r1c5=2 r5c4=2 r8c7=2 r9c2=2 r9c6=6 r1c1:389';

function argued(text: string, columns = 80, rows = 24) {
  const bench = openBench(sheetOf(grid1333), columns, rows);
  bench.type(ink);
  bench.press('escape');
  bench.type(text);
  return bench;
}

describe('a typed argument', () => {
  test("that does not hold: the screen study's words, in the panel", () => {
    const panel = argued(line)
      .rows()
      .map((row) => row.slice(58).trimEnd());
    expect(panel.slice(0, 18)).toEqual([
      'Argument does not hold',
      '',
      '',
      ' A   3 of row 1: c1 or',
      '     c7.',
      '',
      ' B   3 of column 8:',
      '     r3, r4 or r5.',
      '',
      ' *   Overlooked: r4c8.',
      '',
      ' =   With 3 in r1c7',
      '     and r4c8, both',
      '     facts hold and',
      '     r5c1 can be 3.',
      '',
      ':     edit the line',
      'esc   leave',
    ]);
  });

  test('the arrangement is drawn: chosen, not chosen, overlooked, and the candidate that stays', () => {
    const bench = argued(line);
    bench.type('r4c8:368 r3c8:3478 r5c8:367');
    bench.type(line);
    const text = bench
      .rows()
      .map((row) => row.slice(0, 57))
      .join('\n');
    expect(text).toContain('3a');
    expect(text).toContain('3*');
  });

  test('that says nothing new is not said to fail', () => {
    const panel = argued('r4c8<>1 by 1@r4')
      .rows()
      .map((row) => row.slice(58).trimEnd());
    expect(panel[0]).toBe('Argument');
    expect(panel.slice(3, 10).join(' ').replaceAll(/ +/g, ' ')).toBe(
      'Nothing new. A 1 of row 4: only c6. / r4c8 had lost its 1 already.',
    );
  });

  test('that holds says so, and the strikes are drawn', () => {
    const bench = argued('r2c3<>1 r2c7<>1 by 1@c1 1@c9');
    expect(bench.rows()[0].slice(58).trimEnd()).toBe('Argument holds');
    expect(bench.rows()[3].slice(58).trimEnd()).toBe('Holds. X-wing, 2');
    const roles = bench.app().argued?.answer.drawing.candidates.map(({ role }) => role);
    expect(roles).toEqual(['fact', 'fact', 'fact', 'fact', 'strike', 'strike']);
  });

  test('changes nothing on the sheet, and leaves with Escape', () => {
    const bench = argued(line);
    const { state } = bench.app().sheet;
    bench.press('escape');
    expect(bench.app().argued).toBeNull();
    expect(bench.app().sheet.state).toBe(state);
    expect(bench.rows()[0]).not.toContain('Argument');
  });

  test('goes when the sheet changes, and gives way to a hint', () => {
    const bench = argued(line);
    bench.press('w');
    expect(bench.rows()[0]).toContain('Hint');
    bench.press('escape');
    expect(bench.rows()[0]).toContain('Argument');
    bench.type('r1c1:38');
    expect(bench.rows()[0]).not.toContain('Argument');
  });

  test('is edited where it was typed', () => {
    const bench = argued(line);
    bench.press(':');
    expect(bench.app().mode).toMatchObject({ kind: 'typed', text: line });
  });

  test('that cannot be read stays in the line, with what could stand there', () => {
    const bench = argued('r5c1<>3 by 3@r1 3@q8');
    expect(bench.app().mode).toMatchObject({ kind: 'typed', text: 'r5c1<>3 by 3@r1 3@q8' });
    expect(bench.app().message).toEqual(['Column 19: found "q8"; expected a house such as r4, c2 or b5.']);
    const other = openBench(sheetOf(grid1333), 80, 24, {
      argue: () => failure({ code: 'odd', line: 1, column: 1, found: '', expected: '', message: 'Odd.' }),
    });
    other.type('x by y');
    expect(other.app().message).toEqual(['Odd.']);
  });

  test('without a panel it is told in the message line', () => {
    expect(argued(line, 57, 24).rows().join('\n')).toContain('Does not hold.');
  });

  test('cites what the marks claim', () => {
    const bench = openBench(sheetOf(grid1333), 80, 24);
    bench.type('3@r3:c2,c3');
    bench.press('escape');
    bench.type('r3c8<>3 r3c5<>4 by 3@r3');
    expect(bench.app().argued?.answer.headline).toBeDefined();
    bench.type('r2c2<>3 by 3@r3');
    const { answer } = bench.app().argued ?? {};
    expect([answer?.holds, answer?.lines[0].text]).toEqual([
      true,
      expect.stringMatching(/^Weak spot: 3 of row 3\. The marks say c2 or c3, and nothing rules out c/),
    ]);
  });
});
