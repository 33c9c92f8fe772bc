import { expect, test } from 'vitest';
import { pathOf } from '../../source/path/whole.ts';
import { positionOf } from '../path/grids.ts';
import { faultOfPath, satFault } from '../path/judge-path.ts';
import { hasPublished, publishedNote, readPublishedSet } from '../published.ts';
import { Random } from '../random.ts';

const scale = Number(process.env.INKLING_DEEP ?? 1);
const seed = Number(process.env.INKLING_SEED ?? 20261125);

/** All sets are whole at size 1; below it a part of each, spread evenly. Sources: published/README.md. */
const sets = [
  { name: 'seventeen-clue-49151.txt', count: 49_151 },
  { name: 'random-minimal-2000.txt', count: 2000 },
  { name: 'top-95.txt', count: 95 },
  { name: 'hard-187.txt', count: 187 },
] as const;

/** Steps that a SAT solver looks at, at least; some grids have too few heavy ones for their share. */
const sampled = 20_000;
const asked = sampled * 1.4;

test.skipIf(!hasPublished)(
  `every grid is solved, every step accepted by the kernel, no true candidate struck${publishedNote}`,
  () => {
    const random = new Random(seed);
    console.log(`seed ${seed}, size ${scale}`);
    let judged = 0;
    for (const { name, count } of sets) {
      const lines = readPublishedSet(name);
      expect(lines).toHaveLength(count);
      const taken = Math.min(count, Math.ceil(count * scale));
      const share = asked / 4 / taken;
      const weights = new Map<number, number>();
      let ofSet = 0;
      for (let i = 0; i < taken; i += 1) {
        const line = lines[Math.floor((i * count) / taken)];
        const path = pathOf(positionOf(line));
        expect(faultOfPath(path), line).toBeNull();
        // Heavier steps are rarer and say more: half of the sample is taken from them.
        const heavy = path.steps.filter(({ argument }) => argument.facts.length > 1);
        const light = path.steps.filter(({ argument }) => argument.facts.length === 1);
        for (const { argument } of path.steps) {
          weights.set(argument.facts.length, (weights.get(argument.facts.length) ?? 0) + 1);
        }
        for (const pool of [heavy, light]) {
          const wanted = Math.floor(share / 2 + random.unit());
          for (let j = 0; j < wanted && pool.length > 0; j += 1) {
            const step = random.pick(pool);
            expect(satFault(step.position, step), `${line}, seed ${seed}`).toBeNull();
            judged += 1;
            ofSet += 1;
          }
        }
      }
      const told = [...weights].sort(([a], [b]) => a - b).map(([weight, n]) => `${weight}: ${n}`);
      console.log(
        `${name}: ${taken} of ${count} solved, ${ofSet} steps judged; steps by facts ${told.join(', ')}`,
      );
    }
    console.log(`${judged} steps judged by a SAT solver`);
    expect(judged).toBeGreaterThan(sampled);
  },
);
