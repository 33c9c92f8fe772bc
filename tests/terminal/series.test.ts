import { describe, expect, test } from 'vitest';
import { decide } from '../../source/exact/solve.ts';
import { plain } from '../../source/grid/layout.ts';
import { placedAt, positionOf } from '../../source/sheet/marks.ts';
import { newSheet } from '../../source/sheet/sheet.ts';
import { catalogue } from '../../source/techniques/catalogue.ts';
import { shownOf, stateShown } from '../../source/terminal/app-state.ts';
import { draw } from '../../source/terminal/draw.ts';
import { type Bench, digitsOf, grid1333, openBench, sheetOf } from './bench.ts';

const panelOf = (bench: Bench): string[] => bench.rows().map((row) => row.slice(58).trimEnd());

/** The one solution, by exhaustive search: no argument has a part in it. */
const solution = (() => {
  const decision = decide(positionOf(sheetOf(grid1333).state));
  if (decision.verdict !== 'one') throw new Error('the grid has one solution');
  return decision.solution;
})();
const r7c3 = 6 * 9 + 2;

function asked(line: string, columns = 80, rows = 24): Bench {
  const bench = openBench(sheetOf(grid1333), columns, rows);
  bench.type(line);
  return bench;
}

describe('find', () => {
  test('draws and tells an instance, and leaves the sheet alone', () => {
    const bench = asked('find X-wing');
    const panel = panelOf(bench);
    expect(panel[0]).toBe('X-wing          1 of 1');
    expect(panel[3]).toBe('1@c1 1@c9, 2 facts.');
    expect(panel.join('\n')).toContain('1 of column 9: r2');
    expect(bench.rows()[3]).toMatch(/^r2 1A .* 1× .*1×.*1B/);
    expect(bench.app().sheet.state).toEqual(sheetOf(grid1333).state);
  });

  test('goes through several and round again, and escape leaves', () => {
    const bench = asked('find hidden-single');
    const count = bench.app().series?.shown.length ?? 0;
    expect(count).toBeGreaterThan(2);
    const seen = [panelOf(bench)];
    for (let i = 1; i < count; i += 1) {
      bench.press(i % 2 === 0 ? '.' : 'return');
      seen.push(panelOf(bench));
      expect(seen[i][0]).toBe(`Hidden single${`${i + 1} of ${count}`.padStart(9)}`);
    }
    expect(new Set(seen.map((panel) => panel.join('\n'))).size).toBe(count);
    bench.press('.');
    expect(panelOf(bench)).toEqual(seen[0]);
    bench.press('backspace');
    expect(panelOf(bench)).toEqual(seen[count - 1]);
    bench.press('escape');
    expect(bench.app().series).toBeNull();
    expect(panelOf(bench)[0]).toBe('a grid');
  });

  test('says plainly where there is none, or nothing may be built on it', () => {
    expect(asked('find full-house').app().message).toEqual(['Full house: none on the sheet.']);
    for (const { id, name } of catalogue.filter(({ assumes }) => assumes === 'one-solution')) {
      expect(asked(`find ${id}`).app().message[0]).toContain(`${name} builds on there being one solution`);
    }
  });

  test('a name that is nearly right stays in the line, any other gets the names there are', () => {
    const near = asked('find xwing');
    expect(near.app().mode).toMatchObject({ kind: 'typed', text: 'find xwing' });
    expect(near.app().message).toEqual(['No technique is called "xwing". Did you mean x-wing?']);
    const far = asked('find umbrella').app().message;
    expect(far[0]).toBe('No technique is called "umbrella".');
    for (const { id } of catalogue) expect(far[1]).toContain(id);
  });

  test('of a digit still shows its places', () => {
    expect(asked('find 3').app()).toMatchObject({ found: 3, series: null });
  });

  test('counts what the marks leave out as struck', () => {
    // Without 1 in r2c1 by a note, column 1 has its 1 in r5 alone, so nothing is left of the X-wing.
    const bench = openBench(sheetOf(grid1333), 80, 24);
    bench.type('r2c1:3589');
    bench.type('find x-wing');
    const headlines = bench.app().series?.shown.map(({ headline }) => headline) ?? [];
    expect(headlines.filter((headline) => headline.startsWith('1@c1'))).toEqual([]);
  });
});

describe('trace', () => {
  test('shows the weights of its steps as a line, with the one that stands there in bold', () => {
    const bench = asked('trace r7c3');
    const { series } = bench.app();
    const weights = [...(series?.contour ?? '')];
    expect(weights).toHaveLength(series?.shown.length ?? 0);
    for (let at = 0; at < weights.length; at += 1) {
      const line = draw(bench.app(), { ascii: false, tints: true, digits: 'large' }).rows[1].slice(58);
      const bold = line.filter(({ role, char }) => role === 'strong' && char !== ' ');
      expect(bold.map(({ char }) => char)).toEqual([weights[at]]);
      // One block is one fact; the words of the step say how many it takes.
      const facts = { '▁': 'one fact', '▂': 'two facts' }[weights[at]];
      const headline = bench.app().series?.shown[at].headline ?? '';
      if (facts && /facts?\./.test(headline)) expect(headline).toContain(facts);
      bench.press('.');
    }
    expect(asked('find hidden-single').app().series?.contour).toBe('');
  });

  test('one key on the selected cell, then step by step, each on what those before it leave', () => {
    const bench = openBench(sheetOf(grid1333), 80, 24);
    bench.press('g 7 3 .');
    const { series } = bench.app();
    const count = series?.shown.length ?? 0;
    expect(panelOf(bench)[0]).toBe(`r7c3 is ${solution[r7c3]}${`1 of ${count}`.padStart(13)}`);
    for (let i = 0; i < count; i += 1) {
      expect(bench.app().series?.at).toBe(i);
      const state = stateShown(bench.app());
      // Every digit on the way is the solution's, and every strike spares it.
      for (let cell = 0; cell < 81; cell += 1) {
        const digit = placedAt(state, cell);
        expect([0, solution[cell]]).toContain(digit);
        expect(positionOf(state).candidates.has(cell * 9 + solution[cell] - 1)).toBe(true);
      }
      // What a step strikes or places was open until then.
      for (const { candidate, role } of shownOf(bench.app())?.drawing.candidates ?? []) {
        if (role === 'placement' || role === 'strike')
          expect(positionOf(state).candidates.has(candidate)).toBe(true);
      }
      if (i < count - 1) bench.press('.');
    }
    const last = shownOf(bench.app())?.drawing.candidates.filter(({ role }) => role === 'placement');
    expect(last?.map(({ candidate }) => candidate)).toEqual([r7c3 * 9 + solution[r7c3] - 1]);
    expect(bench.app().sheet.state).toEqual(sheetOf(grid1333).state);
  });

  test('typed, for a cell and for a candidate', () => {
    const cell = asked('trace r7c3').app().series;
    const bench = openBench(sheetOf(grid1333), 80, 24);
    bench.press('g 7 3');
    bench.type('trace');
    expect(bench.app().series).toEqual(cell);
    const strike = asked('trace r2c3<>1').app();
    expect(strike.series?.title).toBe('r2c3 is not 1');
    const last = strike.series?.shown.at(-1)?.drawing.candidates.filter(({ role }) => role === 'strike');
    expect(last?.map(({ candidate }) => candidate)).toEqual([(9 + 2) * 9]);
  });

  test('where nothing leads there it says why', () => {
    const said = (line: string, before = '') => {
      const bench = openBench(sheetOf(grid1333), 80, 24);
      if (before !== '') bench.type(before);
      bench.type(line);
      expect(bench.app().series).toBeNull();
      return bench.app().message.join(' ');
    };
    expect(said('trace r1c2')).toBe('r1c2 holds 4.');
    expect(said('trace r7c3<>1')).toBe('1 is out of r7c3 already.');
    expect(said(`trace r7c3<>${solution[r7c3]}`)).toMatch(/^It cannot be shown that r7c3 is not \d: /);
    const wrong = [3, 5, 8, 9].find((digit) => digit !== solution[0]);
    expect(said('trace r7c3', `r1c1=${wrong}`)).toMatch(/^The sheet cannot be completed as it stands/);
    const open = openBench(newSheet(plain, digitsOf('1'.padEnd(81, '.')), 'open'), 80, 24);
    open.press('g 5 5 .');
    expect(open.app().message[0]).toMatch(/^r5c5 has different digits in different solutions/);
  });

  test('a step of very many facts is shown with them, without thousands of cases', () => {
    // The second grid of the published set hard-187.
    const hard = '........7..4.2.6..8.....31......29...4..9..3...95.6....1......8..6.5.2..7......6.';
    const bench = openBench(sheetOf(hard), 80, 24);
    bench.press('g 1 1 .');
    const shown = bench.app().series?.shown ?? [];
    const long = shown.filter(({ lines }) =>
      lines.some(({ text }) => text.startsWith('The cases are too many')),
    );
    expect(long.length).toBeGreaterThan(0);
    for (const { lines, drawing } of long) {
      expect(lines.filter(({ sign }) => /^[A-Z]+$/.test(sign)).length).toBeGreaterThan(12);
      expect(drawing.candidates.filter(({ role }) => role === 'strike')).not.toEqual([]);
    }
    for (const { lines } of shown) expect(lines.length).toBeLessThan(100);
    expect(panelOf(bench).join('\n')).toMatch(/space page 1 of \d/);
  });

  test('what cannot be read stays in the line', () => {
    const bench = asked('trace r7q3');
    expect(bench.app().mode).toMatchObject({ kind: 'typed', text: 'trace r7q3' });
    expect(bench.app().message[0]).toContain('expected a cell r7c3');
  });
});

test('nothing of it shows unasked: it goes with the sheet, a hint, a tag, and does not come back', () => {
  const bench = openBench(sheetOf(grid1333), 80, 24);
  bench.press('g 5 4 w escape a y');
  expect(bench.app().series).toBeNull();
  for (const keys of ['g 5 4 2 u', 'w escape', 't escape', 'u r', 'escape']) {
    bench.type('trace r7c3');
    expect(bench.app().series).not.toBeNull();
    bench.press(keys);
    expect(bench.app().series, keys).toBeNull();
    expect(stateShown(bench.app())).toBe(bench.app().sheet.state);
  }
});

test('one answer takes the place of the other, and `:` edits the line', () => {
  const bench = asked('find x-wing');
  bench.type('r5c1<>3 by 3@r1 3@c8');
  expect(bench.app()).toMatchObject({ series: null, argued: { text: 'r5c1<>3 by 3@r1 3@c8' } });
  bench.type('trace r7c3');
  expect(bench.app().argued).toBeNull();
  bench.press(':');
  expect(bench.app().mode).toMatchObject({ kind: 'typed', text: 'trace r7c3' });
});

test.each([
  [57, 24],
  [40, 15],
])('without room for a panel it is told in the message line (%i x %i)', (columns, rows) => {
  const text = asked('find x-wing', columns, rows).rows().join('\n');
  expect(text).toContain('X-wing, 1 of 1: 1@c1 1@c9');
  expect(text).toContain('esc leave');
});
