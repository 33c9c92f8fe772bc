import { describe, expect, it } from 'vitest';
import { factCandidates, factName } from '../../source/argument/fact.ts';
import type { OneSolutionToken } from '../../source/argument/kernel.ts';
import { decide } from '../../source/exact/solve.ts';
import { cellOf, digitOf, plain } from '../../source/grid/layout.ts';
import { cellName, digitName } from '../../source/grid/names.ts';
import type { Position } from '../../source/grid/position.ts';
import { hintFor, ladderFor } from '../../source/hint/ladder.ts';
import { type HintRung, type Ladder, rungs } from '../../source/hint/rung.ts';
import { argumentsBy, weightOfChecked } from '../../source/path/lightest.ts';
import { argumentsIn } from '../../source/path/minimal.ts';
import { nextStep, take } from '../../source/path/next.ts';
import type { Step, View } from '../../source/path/step.ts';
import { Board } from '../../source/techniques/board.ts';
import { catalogue } from '../../source/techniques/catalogue.ts';
import { positionOf, sourcedGrids } from '../path/grids.ts';
import { scene } from '../techniques/notation.ts';
import { table } from '../techniques/table.ts';

/** The positions on the way from a grid to its solution, one after each step. */
function positionsOnTheWay(line: string): Position[] {
  const seen: Position[] = [];
  let position = positionOf(line);
  for (;;) {
    seen.push(position);
    const step = nextStep({ position, claims: [], kind: 'full' });
    if (step?.kind !== 'step') return seen;
    position = step.parts.reduce(take, position);
  }
}

const names = catalogue.map(({ name }) => name.toLowerCase());
const words = (rung: HintRung): string => rung.lines.map(({ sign, text }) => `${sign} ${text}`).join(' ');
const cellWords = (text: string): string[] => [...text.matchAll(/r\d+c\d+/g)].map(([cell]) => cell);
const keys = (rung: HintRung): string[] => Object.keys(rung.json).sort();

/** Everything that each rung may hold, held against what it does hold. */
function expectNoGiveAways(ladder: Ladder, start: Position): void {
  const { layout } = start;
  const [where, digits, pattern, cells, why] = ladder.rungs;
  expect(ladder.rungs.map(({ rung }) => rung)).toEqual([...rungs]);
  const parts = ladder.step.kind === 'step' ? ladder.step.parts : [ladder.step.part];
  const facts = parts.flatMap(({ argument }) => argument.facts);
  const house = layout.houses.find(({ name }) => name === where.json.house);
  expect(house).toBeDefined();
  if (!house) return;

  const run = parts.length > 1 ? ['weights'] : [];
  expect(keys(where)).toEqual(['house', 'rung', 'schema']);
  expect(keys(digits)).toEqual(['digits', 'house', 'rung', 'schema', 'weight', ...run].sort());
  expect(keys(pattern)).toEqual([...keys(digits), 'technique'].sort());
  expect(keys(cells)).toEqual([...keys(pattern), 'facts', 'cells'].sort());
  expect(keys(why)).toEqual(
    [...keys(cells), 'argument', 'prose', ...(parts.length > 1 ? ['parts'] : [])].sort(),
  );

  // where: one house and its number, nothing else.
  for (const rung of [where, digits, pattern]) {
    expect(rung.drawing).toEqual({ house: house.index, houses: [], cells: [], candidates: [] });
    expect(cellWords(words(rung))).toEqual([]);
    for (const fact of facts) expect(words(rung)).not.toContain(factName(layout, fact));
  }
  expect(words(where).match(/\d+/g)).toEqual([String(house.number)]);
  for (const rung of [where, digits]) {
    for (const name of names) expect(words(rung).toLowerCase()).not.toContain(name);
  }
  // digits: the house's number and the digits allowed, as words and in the drawing nothing.
  const allowed = facts.flatMap((fact) =>
    fact < layout.cellCount
      ? factCandidates(layout, fact)
          .filter((candidate) => start.candidates.has(candidate))
          .map((candidate) => digitOf(layout, candidate))
      : [digitOf(layout, factCandidates(layout, fact)[0])],
  );
  expect(new Set(digits.json.digits as number[])).toEqual(new Set(allowed));
  const said = new Set([...allowed.map(digitName), String(house.number)]);
  const more = words(digits).replace(/\d+ (facts|parts)/g, '');
  for (const number of more.match(/\d+/g) ?? []) expect(said).toContain(number);
  // cells: only places of the facts, as they stand before the step, and no conclusion's sign.
  const places = new Set(
    facts.flatMap((fact) => factCandidates(layout, fact).filter((c) => start.candidates.has(c))),
  );
  const placeCells = new Set([...places].map((candidate) => cellName(layout, cellOf(layout, candidate))));
  const cellFacts = new Set(
    facts.flatMap((fact) => (fact < layout.cellCount ? [cellName(layout, fact)] : [])),
  );
  for (const { candidate, role } of cells.drawing.candidates) {
    expect(role).toBe('fact');
    expect(places).toContain(candidate);
  }
  expect(new Set(cells.json.cells as string[])).toEqual(placeCells);
  for (const cell of cellWords(words(cells))) {
    expect(placeCells.has(cell) || cellFacts.has(cell)).toBe(true);
  }
  for (const { sign } of cells.lines) expect(sign).toMatch(/^[A-Z]+$/);
  // why: the whole argument.
  expect(why.json.prose).not.toBe('');
  const roles = new Set(why.drawing.candidates.map(({ role }) => role));
  if (ladder.kind === 'step') expect(roles.has('strike') || roles.has('placement')).toBe(true);
}

describe('no rung says more than it may', () => {
  const positions = sourcedGrids.slice(0, 3).flatMap(positionsOnTheWay);

  it('on a full sheet, for every technique of the catalogue that turns up', () => {
    const met = new Set<string>();
    // Every fourth position: the techniques come up again and again.
    for (const position of positions.filter((_, i) => i % 4 === 0)) {
      const board = Board.from(position);
      for (const technique of catalogue) {
        for (const finding of technique.find(board).slice(0, 1)) {
          for (const checked of argumentsIn(position, finding).slice(0, 2)) {
            const { conclusions, facts } = checked.argument;
            if (conclusions.kind === 'breaks') continue;
            met.add(checked.argument.technique);
            const step: Step = {
              kind: 'step',
              parts: [checked],
              weights: [facts.length],
              weight: facts.length,
              written: conclusions,
            };
            expectNoGiveAways(ladderFor(step, position), position);
          }
        }
      }
    }
    // The grids bring enough of them for this to mean something.
    expect(met.size).toBeGreaterThan(10);
  }, 120_000);

  it.each(catalogue.map((technique) => [technique.id, technique] as const))(
    'for %s in a scene of its own, alone and as a part of a run',
    (id, technique) => {
      const trust = { vouchesFor: () => true } as unknown as OneSolutionToken;
      const hits = table.filter((row) => row.technique === id && row.finds.length > 0);
      expect(hits.length).toBeGreaterThan(0);
      let told = 0;
      for (const { scene: text } of hits) {
        const position = scene(text);
        for (const finding of technique.find(Board.from(position)).slice(0, 2)) {
          const token = technique.assumes === 'one-solution' ? trust : undefined;
          for (const checked of argumentsIn(position, finding, token).slice(0, 2)) {
            const { conclusions } = checked.argument;
            if (conclusions.kind === 'breaks') continue;
            told += 1;
            const weight = weightOfChecked(checked);
            const alone = { kind: 'step', parts: [checked], weights: [weight], weight } as const;
            expectNoGiveAways(ladderFor({ ...alone, written: conclusions }, position), position);
            // What a sparse sheet's run would go on with, where something follows by one fact.
            const [next] = argumentsBy(take(position, checked), catalogue.slice(0, 5));
            if (!next || next.argument.conclusions.kind === 'breaks') continue;
            const weights = [weight, weightOfChecked(next)];
            const parts = [checked, next];
            const run = { kind: 'step', parts, weights, weight, written: next.argument.conclusions } as const;
            expectNoGiveAways(ladderFor(run, position), position);
          }
        }
      }
      expect(told).toBeGreaterThan(0);
    },
    60_000,
  );

  it('on a sparse sheet, from the givens on', () => {
    let runs = 0;
    for (const line of sourcedGrids.slice(0, 3)) {
      let position = positionOf(line);
      for (let i = 0; i < 12; i += 1) {
        const view: View = { position, claims: [], kind: 'sparse' };
        const ladder = hintFor(view);
        if (ladder?.step.kind !== 'step') break;
        if (ladder.step.parts.length > 1) runs += 1;
        expectNoGiveAways(ladder, position);
        position = ladder.step.parts.reduce(take, position);
      }
    }
    expect(runs).toBeGreaterThan(3);
  }, 120_000);

  it('where the sheet cannot be right', () => {
    let broken = 0;
    for (const position of positions) {
      const decision = decide(position);
      if (decision.verdict !== 'one') continue;
      const wrong = [...position.candidates].find(
        (candidate) =>
          position.placed[cellOf(plain, candidate)] === 0 &&
          decision.solution[cellOf(plain, candidate)] !== digitOf(plain, candidate),
      );
      if (wrong === undefined) continue;
      const after = position.place(cellOf(plain, wrong), digitOf(plain, wrong));
      for (const kind of ['full', 'sparse'] as const) {
        const ladder = hintFor({ position: after, claims: [], kind });
        expect(ladder?.kind).toBe('broken');
        if (ladder) expectNoGiveAways(ladder, after);
        broken += 1;
      }
    }
    expect(broken).toBeGreaterThan(50);
  }, 120_000);
});
