import { describe, expect, test } from 'vitest';
import { weightOf } from '../../source/argument/fact.ts';
import { mintToken } from '../../source/exact/token.ts';
import { plain } from '../../source/grid/layout.ts';
import type { Position } from '../../source/grid/position.ts';
import { instancesOf } from '../../source/path/find.ts';
import { Board } from '../../source/techniques/board.ts';
import { catalogue } from '../../source/techniques/catalogue.ts';
import { closeUnder } from '../../source/techniques/fact-search.ts';
import type { Finding } from '../../source/techniques/technique.ts';
import { fiveSolutions } from '../commands/grids.ts';
import { expectHolds, expectRefused } from './argue-notation.ts';
import { positionOf } from './grids.ts';

const oneSolution = catalogue.filter(({ assumes }) => assumes === 'one-solution');

/** Where arguments of one and two facts end. */
function closed(line: string): Position {
  const board = Board.from(positionOf(line));
  closeUnder(board, 2);
  return board.toPosition();
}

const findingsIn = (position: Position): Finding[] =>
  oneSolution.flatMap((technique) => [...technique.find(Board.from(position))]);
const statementOf = ({ facts, conclusions }: Finding) => ({ facts, conclusions });

/**
 * SageMath reference doctests, src/sage/games/sudoku.py: `len(list(h.dlx()))` gives 5 for this grid. Nothing
 * may be built on its having one solution.
 */
describe('on a published grid with five solutions', () => {
  const position = closed(fiveSolutions);
  const token = mintToken(plain, position.givens);
  const findings = findingsIn(position);

  test('no token is minted, and there are patterns that would need one', () => {
    expect(token).toBeNull();
    expect(findings.length).toBeGreaterThan(0);
  });

  test('their arguments are refused, whether or not one solution is assumed', () => {
    for (const finding of findings) {
      expect(expectRefused(position, statementOf(finding)).reason).toBe('open');
      const assumed = expectRefused(position, statementOf(finding), { oneSolution: { token } });
      expect(assumed.reason).toBe('not-one-solution');
    }
  });

  test('a token of another grid does not help', () => {
    const other = mintToken(
      plain,
      positionOf('..............3.85..1.2.......5.7.....4...1...9.......5......73..2.1........4...9').givens,
    );
    expect(other).not.toBeNull();
    for (const finding of findings) {
      const assumed = expectRefused(position, statementOf(finding), { oneSolution: { token: other } });
      expect(assumed.reason).toBe('not-one-solution');
    }
    for (const technique of oneSolution) {
      expect(instancesOf(position, technique)).toEqual([]);
      expect(instancesOf(position, technique, other ?? undefined)).toEqual([]);
    }
  });
});

/** P. Norvig, Solving Every Sudoku Puzzle (2006), a grid of the set top95: one solution. */
describe('on a grid with one solution', () => {
  const unique = closed('48.3............71.2.......7.5....6....2..8.............1.76...3.....4......5....');
  const token = mintToken(plain, unique.givens);

  test('the arguments hold with the token, by name, and are refused without', () => {
    const findings = findingsIn(unique);
    expect(findings.length).toBeGreaterThan(0);
    for (const finding of findings) {
      expect(expectRefused(unique, statementOf(finding)).reason).toBe('open');
      const { checked, needed, notNeeded } = expectHolds(unique, statementOf(finding), {
        oneSolution: { token },
      });
      expect(checked.argument.assumes).toBe('one-solution');
      expect(checked.argument.technique).toBe(finding.technique);
      expect([...needed, ...notNeeded].sort()).toEqual([...finding.facts].sort());
      expect(weightOf(plain, checked.argument)).toBeGreaterThan(needed.length);
    }
  });
});
