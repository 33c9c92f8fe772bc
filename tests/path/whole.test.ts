import { describe, expect, it } from 'vitest';
import { check } from '../../source/argument/kernel.ts';
import { makeLayout, rectangularBoxes } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';
import { pathOf } from '../../source/path/whole.ts';
import { Board } from '../../source/techniques/board.ts';
import { techniqueById } from '../../source/techniques/catalogue.ts';
import { lightestStrikes } from '../../source/techniques/fact-search.ts';
import { hasPublished, publishedNote, readPublishedSet } from '../published.ts';
import { Random } from '../random.ts';
import { positionOf, sourcedGrids } from './grids.ts';
import { faultOfPath, satFault } from './judge-path.ts';

const spread = (name: string, count: number): string[] => {
  const lines = readPublishedSet(name);
  return Array.from({ length: count }, (_, i) => lines[Math.floor((i * lines.length) / count)]);
};

/** Made once: the tests only look at them. */
const paths = sourcedGrids.map((line) => pathOf(positionOf(line)));

describe('a whole path', () => {
  it('ends in the solution, each step accepted by the kernel, none against the solution', () => {
    for (const [i, path] of paths.entries()) expect(faultOfPath(path), sourcedGrids[i]).toBeNull();
  });

  // Sources of the sets: published/README.md. All of them: tests/deep/paths.test.ts.
  it.skipIf(!hasPublished)(
    `on samples of the published sets${publishedNote}`,
    () => {
      const seed = 3;
      const random = new Random(seed);
      let judged = 0;
      for (const line of [
        ...spread('seventeen-clue-49151.txt', 60),
        ...spread('random-minimal-2000.txt', 40),
        ...spread('top-95.txt', 8),
        ...spread('hard-187.txt', 1),
      ]) {
        const path = pathOf(positionOf(line));
        expect(faultOfPath(path), line).toBeNull();
        for (const step of path.steps) {
          if (step.argument.facts.length === 1 && random.below(40) > 0) continue;
          if (random.below(4) > 0) continue;
          judged += 1;
          expect(satFault(step.position, step), `${line}, seed ${seed}`).toBeNull();
        }
      }
      expect(judged).toBeGreaterThan(60);
    },
    60_000,
  );

  it('has every conclusion on facts none of which can be left out', () => {
    for (const { steps } of paths) {
      for (const { position, argument } of steps) {
        if (argument.conclusions.kind === 'breaks') throw new Error('a path breaks nothing');
        const { kind, candidates } = argument.conclusions;
        for (const candidate of candidates) {
          for (const left of argument.facts) {
            const facts = argument.facts.filter((fact) => fact !== left);
            const one = { ...argument, facts, conclusions: { kind, candidates: [candidate] } };
            expect(check(position, one).verdict).toBe('refused');
          }
        }
      }
    }
  });

  it('takes placements before strikes, and nothing heavier than one or two facts would do', () => {
    for (const { steps } of paths) {
      for (const { position, argument } of steps) {
        if (argument.conclusions.kind === 'placements') continue;
        const board = Board.from(position);
        const singles = ['full-house', 'hidden-single', 'naked-single'];
        for (const id of singles) expect(techniqueById(id)?.find(board)).toEqual([]);
        if (argument.facts.length === 1) continue;
        const lightest = lightestStrikes(board, 2);
        if (lightest.kind === 'broken') throw new Error('broken');
        const [first] = lightest.strikes;
        if (first) expect(argument.facts.length).toBe(first.facts.length);
        else expect(argument.facts.length).toBeGreaterThan(2);
      }
    }
  });

  it('bears names that the whole catalogue bears out', () => {
    let named = 0;
    for (const [i, { steps }] of paths.entries()) {
      for (const { position, argument } of steps) {
        const technique = techniqueById(argument.technique);
        if (!technique || argument.conclusions.kind === 'breaks') continue;
        const { candidates, kind } = argument.conclusions;
        const found = technique
          .find(Board.from(position))
          .some(
            ({ facts, conclusions }) =>
              conclusions.kind === kind &&
              `${[...facts].sort()}` === `${[...argument.facts].sort()}` &&
              candidates.every((candidate) => conclusions.candidates.includes(candidate)),
          );
        expect(found, `${sourcedGrids[i]} ${argument.technique}`).toBe(true);
        named += 1;
      }
    }
    expect(named).toBeGreaterThan(100);
  });

  it('is proved: no three or four facts do what a heavier step does', () => {
    let heavy = 0;
    // P. Norvig's top-95, line 5, and the published random-minimal-2000 set, line 257.
    for (const line of [
      '....14....3....2...7..........9...3.6.1.............8.2.....1.4....5.6.....7.8...',
      '...7.5......2.......3..8.4........7.56....9.3..7..32...45...1..82..9...59...1..82',
    ]) {
      const path = pathOf(positionOf(line), { proved: true });
      expect(faultOfPath(path), line).toBeNull();
      for (const { position, argument } of path.steps) {
        const { length } = argument.facts;
        if (length < 3) continue;
        heavy += 1;
        const lightest = lightestStrikes(Board.from(position), Math.min(4, length));
        if (lightest.kind === 'broken') throw new Error('broken');
        if (length <= 4) expect(lightest.strikes[0].facts.length).toBe(length);
        else expect(lightest.strikes).toEqual([]);
      }
    }
    expect(heavy).toBeGreaterThan(3);
  }, 60_000);

  it('is the same each time', () => {
    const { steps } = pathOf(positionOf(sourcedGrids[3]));
    expect(steps.map(({ argument }) => argument)).toEqual(paths[3].steps.map(({ argument }) => argument));
  });

  it('goes as far as it can where there are several solutions, and nowhere where there is none', () => {
    expect(pathOf(positionOf('.'.repeat(81)))).toMatchObject({ steps: [], solved: false });
    const none = pathOf(positionOf(`55${'.'.repeat(79)}`));
    expect(none).toMatchObject({ steps: [], solved: false });
    // 77 givens; r1c4, r1c5, r4c4 and r4c5 can hold 6 and 7 either way, so nothing can be shown of them.
    const two = positionOf(
      '534..8912672195348198342567859..1423426853791713924856961537284287419635345286179',
    );
    expect(pathOf(two)).toMatchObject({ steps: [], solved: false });
    const open = two.givens.slice();
    open[80] = 0;
    const one = pathOf(Position.from(two.layout, open));
    expect(one.solved).toBe(false);
    expect(one.steps.map(({ argument }) => argument.conclusions)).toEqual([
      { kind: 'placements', candidates: [80 * 9 + 8] },
    ]);
  });

  it('leads through other layouts', () => {
    const four = makeLayout({ name: 'four', size: 4, boxOf: rectangularBoxes(2, 2) });
    // Of our own making: 4 givens, one solution.
    const givens = Array.from('1......2.3....4.', (sign) => (sign === '.' ? 0 : Number(sign)));
    const path = pathOf(Position.from(four, givens));
    expect(faultOfPath(path) === null || !path.solved).toBe(true);
    const diagonal = makeLayout({
      name: 'diagonal',
      size: 6,
      boxOf: rectangularBoxes(2, 3),
      extras: [
        { kind: 'diagonal', cells: [0, 7, 14, 21, 28, 35] },
        { kind: 'diagonal', cells: [5, 10, 15, 20, 25, 30] },
      ],
    });
    const six = pathOf(
      Position.from(
        diagonal,
        Array.from({ length: 36 }, (_, i) => (i < 5 ? i + 1 : 0)),
      ),
    );
    for (const step of six.steps) expect(satFault(step.position, step)).toBeNull();
    expect(six.steps.length).toBeGreaterThan(0);
  });
});
