import { describe, expect, it } from 'vitest';
import { stepsMarkdown, stepsText } from '../../source/commands/told-steps.ts';
import { plain } from '../../source/grid/layout.ts';
import { sayAnalysis } from '../../source/hint/path-words.ts';
import { analyse } from '../../source/path/analysis.ts';
import { strikesBehind } from '../../source/path/behind.ts';
import { makePathJson } from '../../source/path/path-json.ts';
import { verifyPath } from '../../source/path/verify.ts';
import { pathOf } from '../../source/path/whole.ts';
import { positionOf, sourcedGrids } from '../path/grids.ts';

/** Lines 5 and 60 of top-95 (P. Norvig, Solving Every Sudoku Puzzle, 2006), and the sourced grids. */
const lines = [
  '....14....3....2...7..........9...3.6.1.............8.2.....1.4....5.6.....7.8...',
  '......94.....9...53....5.7..8.4..1..463...........7.8.8..7.....7......28.5.26....',
  ...sourcedGrids.slice(0, 3),
];

describe('what is said of a path', () => {
  it('tells each meeting: the cell, both strikes with their steps, and the step that needs both', () => {
    let meetings = 0;
    for (const line of lines) {
      const path = pathOf(positionOf(line), { allNames: true });
      const said = sayAnalysis(path, analyse(path)).filter((sentence) =>
        sentence.startsWith('Two findings meet'),
      );
      const told = stepsText(path.steps, true);
      const step = (number: string) => {
        const start = told.findIndex((text) => text.startsWith(`${number} `));
        const length = told.slice(start + 1).findIndex((text) => /^\d/.test(text));
        return told.slice(start, length < 0 ? undefined : start + 1 + length);
      };
      for (const sentence of said) {
        const match =
          /^Two findings meet in (r\dc\d): its (\d) went in step (\d+) and its (\d) went in step (\d+); step (\d+) needs both\.$/.exec(
            sentence,
          );
        expect(match, sentence).not.toBeNull();
        const [, cell, first, one, second, other, last] = match ?? [];
        for (const [digit, number] of [
          [first, one],
          [second, other],
        ]) {
          const strikes = step(number).filter((text) => text.includes(`× ${' '}${digit} goes from`));
          expect(strikes.join(), `step ${number}`).toContain(cell);
        }
        // The step that needs them says so itself.
        const rests = step(last)[0].match(/Rests on .*/)?.[0] ?? '';
        for (const number of [one, other]) {
          if (!rests.includes('earlier')) expect(rests.match(/\d+/g) ?? []).toContain(number);
        }
        meetings += 1;
      }
    }
    expect(meetings).toBeGreaterThan(1);
  });

  it('names the steps without which the others still solve it, the narrow ones and those that free one placement', () => {
    const numbersIn = (said: readonly string[], pattern: RegExp): number[] =>
      said.flatMap((sentence) => pattern.exec(sentence)?.[1].match(/\d+/g) ?? []).map(Number);
    const seen = [0, 0, 0];
    for (const line of lines) {
      const path = pathOf(positionOf(line), { allNames: true });
      const analysis = analyse(path);
      const said = sayAnalysis(path, analysis);
      const spare = numbersIn(said, /^Without steps? (.*) the others still solve it\.$/);
      const printed = JSON.parse(JSON.stringify(makePathJson(path, analysis)));
      const steps = printed.steps.filter((_: unknown, index: number) => !spare.includes(index + 1));
      expect(verifyPath(plain, { ...printed, steps })).toMatchObject({ accepted: steps.length, refused: [] });
      const narrow = numbersIn(
        said,
        /^Narrow at steps? (.*): there arguments no heavier than the step rule out at most two candidates\.$/,
      );
      expect(narrow).toEqual(printed.bottlenecks);
      for (const number of narrow) expect(printed.steps[number - 1].available).toBeLessThanOrEqual(2);
      const freeing = numbersIn(
        said,
        /^At steps? (.*) only one argument no heavier than the step frees a placement at once\.$/,
      );
      for (const number of freeing) expect(printed.steps[number - 1].releases).toBe(1);
      [spare, narrow, freeing].forEach((some, which) => {
        seen[which] += some.length;
      });
    }
    expect(Math.min(...seen)).toBeGreaterThan(0);
  });

  it('names the steps that each rests on: without their strikes it does not hold, or is no single', () => {
    const { steps } = pathOf(positionOf(lines[0]), { allNames: true });
    const behind = strikesBehind(steps);
    expect(behind.some((some) => some.length > 0)).toBe(true);
    behind.forEach((some, index) => {
      for (const earlier of some) {
        expect(earlier).toBeLessThan(index);
        expect(steps[earlier].argument.conclusions.kind).toBe('strikes');
      }
    });
  });

  it('is the same in Markdown, step by step', () => {
    const { steps } = pathOf(positionOf(lines[0]), { allNames: true });
    const markdown = stepsMarkdown(steps).join('\n');
    for (const text of stepsText(steps, true)) {
      const rests = text.match(/Rests on [^.]*\./)?.[0];
      if (rests) expect(markdown).toContain(rests);
      const fact = /^ +([A-Z]) +(\d of .*|r\dc\d is .*)$/.exec(text);
      if (fact) expect(markdown).toContain(`- ${fact[1]}: ${fact[2]}`);
    }
  });
});
