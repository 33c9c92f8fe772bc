import { expect, test } from 'vitest';
import { plain } from '../../source/grid/layout.ts';
import { Position } from '../../source/grid/position.ts';
import { followHints } from '../commands/follow-hints.ts';
import { faultOf, type PrintedHint } from '../commands/judge-hint.ts';
import { inkling, jsonLines } from '../commands/run-inkling.ts';
import { hasPublished, publishedNote, readPublishedSet } from '../published.ts';

const scale = Number(process.env.INKLING_DEEP ?? 1);

/** So many lines of a set, spread evenly over it. */
function spread(name: string, count: number): string[] {
  const lines = readPublishedSet(name);
  const taken = Math.min(count, lines.length);
  return Array.from({ length: taken }, (_, index) => lines[Math.floor((index * lines.length) / taken)]);
}

// 1,000 grids at size 1: all of top-95, the rest from the other two sets; spread evenly, so there is no seed.
test.skipIf(!hasPublished)(
  `hint on 1,000 published grids: where gives one house away, why is sound${publishedNote}`,
  async () => {
    const top = spread('top-95.txt', 95);
    const rest = Math.round(1000 * scale) - top.length;
    const grids = [
      ...top,
      ...spread('random-minimal-2000.txt', Math.floor(rest / 2)),
      ...spread('seventeen-clue-49151.txt', Math.ceil(rest / 2)),
    ];
    const input = grids.join('\n');

    const where = await inkling(['hint', '--rung', 'where', '--jsonl', '-'], { input });
    expect(where.code).toBe(0);
    const houses = jsonLines<Record<string, unknown>>(where.stdout);
    expect(houses.length).toBe(grids.length);
    for (const json of houses) {
      const { house, ...others } = json;
      expect(house).toMatch(/^[rcb][1-9]$/);
      expect(others).toEqual({ schema: 1, rung: 'where' });
    }

    const why = await inkling(['hint', '--rung', 'why', '--jsonl', '-'], { input });
    expect(why.code).toBe(0);
    const hints = jsonLines<PrintedHint>(why.stdout);
    expect(hints.map(({ house }) => house)).toEqual(houses.map(({ house }) => house));
    const faults = hints.flatMap(({ argument }, index) => {
      const givens = Array.from(grids[index], (sign) => (sign === '.' ? 0 : Number(sign)));
      const fault = faultOf(Position.from(plain, givens), argument);
      return fault === null ? [] : [`${grids[index]}: ${fault}`];
    });
    expect(faults).toEqual([]);
  },
);

test.skipIf(!hasPublished)(
  `hint step after step: each sound, none strikes what is true, on hard grids too${publishedNote}`,
  () => {
    const sets = [
      ['top-95.txt', 8],
      ['random-minimal-2000.txt', 8],
      ['seventeen-clue-49151.txt', 8],
      ['hard-187.txt', 2],
    ] as const;
    const grids = sets.flatMap(([name, count]) => spread(name, Math.max(1, Math.round(count * scale))));
    const steps = new Map<number, number>();
    let ended = 0;
    for (const grid of grids) {
      const outcome = followHints(grid);
      expect(outcome.fault, grid).toBeNull();
      if (outcome.solved) ended += 1;
      for (const weight of outcome.weights) steps.set(weight, (steps.get(weight) ?? 0) + 1);
    }
    const counts = [...steps]
      .sort(([a], [b]) => a - b)
      .map(([weight, number]) => `weight ${weight}: ${number}`);
    console.log(`${ended} of ${grids.length} solved; steps of ${counts.join(', ')}`);
    expect(ended).toBe(grids.length);
  },
);
